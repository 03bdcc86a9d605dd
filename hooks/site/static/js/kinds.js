/** What can be drafted, and what is alike in all of it: where it is sent, where it lies once stored, what it is called. */

/**
 * @typedef {"lesson"|"edit"|"job"|"job-edit"|"settings"} Kind   as a hand-over names it; "edit" is one of a lesson
 *
 * @typedef {object} About
 * @property {string} name    of what is written or changed
 * @property {boolean} edits  whether it changes what is there already
 * @property {string} api     where it is sent
 * @property {(id: string) => string} data  what is stored, as {hash, fields}
 * @property {(id: string) => string} page  where it shows
 * @property {"fields"|"job_fields"|"shop_fields"} fields  its declaration in data/declaration.json
 */

const LESSON = sheet("lesson", "fields");
const JOB = sheet("job", "job_fields");

/** @type {Record<Kind, About>} */
export const KINDS = {
  lesson: { ...LESSON, edits: false },
  edit: { ...LESSON, edits: true },
  job: { ...JOB, edits: false },
  "job-edit": { ...JOB, edits: true },
  settings: {
    name: "shop", edits: true, api: "api/shop", fields: "shop_fields",
    data: () => "data/shop.json", page: () => "shop/",
  },
};

/** @param {string} name @param {"fields"|"job_fields"} fields */
function sheet(name, fields) {
  return {
    name, fields, api: `api/${name}s`,
    data: (/** @type {string} */ id) => `data/${name}/${id}.json`,
    page: (/** @type {string} */ id) => `${name}s/${id}/`,
  };
}

/** What the device makes for a new lesson: its id and its local time. Pure. */

const CROCKFORD = "0123456789abcdefghjkmnpqrstvwxyz";

/** @param {number} number */
const two = (number) => String(number).padStart(2, "0");

/**
 * @param {Date} when
 * @param {Uint8Array} random five bytes; five bits of each are used
 * @returns {string} such as "20261125-063051-k7q2d", the second in UTC
 */
export function lessonId(when, random) {
  const [day, second] = when.toISOString().split("T");
  const tail = Array.from(random.slice(0, 5), (byte) => CROCKFORD[byte % 32]).join("");
  return `${day.replaceAll("-", "")}-${second.slice(0, 8).replaceAll(":", "")}-${tail}`;
}

/** @returns {string} an id for a lesson that begins now */
export function newLessonId() {
  return lessonId(new Date(), crypto.getRandomValues(new Uint8Array(5)));
}

/**
 * @param {Date} when
 * @param {number} [behind] minutes UTC is ahead of local time, as getTimezoneOffset gives it
 * @returns {string} local time with its offset, such as "2026-11-25T06:30:51+00:00"
 */
export function localTime(when, behind = when.getTimezoneOffset()) {
  const local = new Date(when.getTime() - behind * 60000).toISOString().slice(0, 19);
  const minutes = Math.abs(behind);
  const sign = behind > 0 ? "-" : "+";
  return `${local}${sign}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

/**
 * The value of a `datetime-local` input, with the offset that this place has at that time.
 * @param {string} typed such as "2026-11-25T06:30"
 * @returns {string} empty where nothing was typed
 */
export function withOffset(typed) {
  return typed ? localTime(new Date(typed)) : "";
}

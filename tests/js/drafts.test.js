import assert from "node:assert/strict";
import test from "node:test";
import { MemoryStorage, setPage } from "./setting.js";
import { allDrafts, dropDraft, keepDraft, newDraft, readDraft, takeOver } from "../../hooks/site/static/js/drafts.js";
import { handOver, handOverFile } from "../../hooks/site/static/js/handover.js";

setPage();

/** @param {string} tab @param {string} said */
function noteOf(tab, said) {
  return { ...newDraft("lesson", tab), fields: { said } };
}

test("a kept draft is read back whole", () => {
  const store = new MemoryStorage();
  const draft = noteOf("tab-1", "grabbed in the corner");
  assert.equal(keepDraft(draft, store), true);
  assert.deepEqual(readDraft(draft.id, store), draft);
});

test("a tab whose draft was taken over goes on under a new name, and neither text is lost", () => {
  const store = new MemoryStorage();
  const first = noteOf("tab-1", "first");
  keepDraft(first, store);
  const second = structuredClone(first);
  takeOver(second, "tab-2", store);
  second.fields.said = "second";
  keepDraft(second, store);
  first.fields.said = "first, and more";
  keepDraft(first, store);
  assert.notEqual(first.id, second.id);
  assert.deepEqual(allDrafts(store).map((draft) => draft.fields.said).sort(), ["first, and more", "second"]);
});

test("drafts of another site on the same host are left alone", () => {
  const store = new MemoryStorage();
  keepDraft(noteOf("tab-1", "here"), store);
  document.documentElement.dataset.base = "../deeper";
  assert.deepEqual(allDrafts(store), []);
  document.documentElement.dataset.base = "..";
  assert.equal(allDrafts(store).length, 1);
});

test("a damaged entry hides no other draft", () => {
  const store = new MemoryStorage();
  const draft = noteOf("tab-1", "whole");
  keepDraft(draft, store);
  store.setItem(store.key(0).replace(draft.id, "torn"), '{"id": "to');
  assert.deepEqual(allDrafts(store).map(({ id }) => id), [draft.id]);
});

test("a full store says so and throws nothing", () => {
  const store = new MemoryStorage();
  store.setItem = () => { throw new Error("full"); };
  assert.equal(keepDraft(noteOf("tab-1", "too much"), store), false);
});

test("a dropped draft is gone and only it", () => {
  const store = new MemoryStorage();
  const [one, other] = [noteOf("tab-1", "one"), noteOf("tab-1", "other")];
  [one, other].forEach((draft) => keepDraft(draft, store));
  dropDraft(one, store);
  assert.deepEqual(allDrafts(store).map(({ id }) => id), [other.id]);
});

test("a hand-over holds what is new, or an edit with what it began from", () => {
  const draft = noteOf("tab-1", "crept in the vice");
  assert.deepEqual(handOver(draft), { twice_shy: 1, kind: "lesson", id: draft.id, fields: draft.fields });
  const job = { ...newDraft("job", "tab-1"), fields: { part: "plate" } };
  assert.deepEqual(handOver(job), { twice_shy: 1, kind: "job", id: job.id, fields: job.fields });
  const of = "20260311-150212-m3xq7";
  for (const kind of /** @type {const} */ (["edit", "job-edit"])) {
    const edit = { ...newDraft(kind, "tab-1"), of, base: "abc", was: { why: ["x"], said: "y" }, fields: { why: null, note: "z" } };
    assert.deepEqual(handOver(edit),
      { twice_shy: 1, kind, id: of, base: "abc", was: { why: ["x"], note: null }, changes: { why: null, note: "z" } });
    assert.equal(handOverFile(edit).name, `${kind}-${edit.id}.json`);
  }
  const settings = { ...newDraft("settings", "tab-1"), of: "shop", base: "abc", was: {}, fields: { about: "us" } };
  assert.deepEqual(handOver(settings), { twice_shy: 1, kind: "settings", base: "abc", was: { about: null }, changes: { about: "us" } });
});

test("a draft of old that names its lesson is read as one of today", () => {
  const store = new MemoryStorage();
  const draft = { ...newDraft("edit", "tab-1"), lesson: "20260311-150212-m3xq7", fields: { why: null } };
  keepDraft(draft, store);
  assert.equal(readDraft(draft.id, store).of, draft.lesson);
});

import assert from "node:assert/strict";
import test from "node:test";
import { answers, keep, open, rank } from "../../hooks/site/static/js/words.js";
import { FEW, MiniSearch, WORDS, searchOver } from "./setting.js";

const GOUGED = { id: "b-gouged", hash: "1", title: "It gouged the corner", said: "finishing pass gouged both ends of the pocket", facts: "end mill, 6.35 mm" };
const HANDLE = { id: "c-handle", hash: "2", title: "Vice handle left on", said: "hit the handle at tool change", now_do: "Handle off before the spindle turns" };
const SWARF = { id: "d-swarf", hash: "3", said: "a chip under the part lifted it by 0,1 mm", why: "parallels were not wiped", facts: '3/8 in end mill, M6x1' };
const ALL = [GOUGED, HANDLE, SWARF];
const ids = (hits) => hits.map(({ id }) => id);
const ask = (question, how = {}) => rank(searchOver(ALL), question, how);

test("other words for the same thing find it, both ways, and say so", () => {
  assert.deepEqual(ids(ask("dug in")), ["b-gouged"]);
  assert.deepEqual(ask("dug in")[0].why, ["matched “dug in” as “gouged” in the title"]);
  const dug = { id: "e", hash: "5", said: "it dug in" };
  assert.deepEqual(rank(searchOver([dug]), "gouge")[0].why, ["matched “gouge” as “dug in” in what happened"]);
});

test("both spellings and forms of a word find it", () => {
  for (const question of ["vise", "vises", "vice"]) assert.deepEqual(ids(ask(question)), ["c-handle"], question);
});

test("typing errors find it, bounded by length, and only where the word as typed is unknown", () => {
  assert.deepEqual(ids(ask("handel")), ["c-handle"]);
  assert.deepEqual(ids(ask("gogued")), ["b-gouged"]);
  assert.deepEqual(ids(ask("swraf", { typing: false })), ["d-swarf"]);
  assert.deepEqual(ids(ask("pard", { typing: false })), ["d-swarf"]);
  assert.deepEqual(ask("xqzwv"), []);
});

test("a typing error in an irregular form or in the other spelling finds it too", () => {
  const search = searchOver([{ id: "e", hash: "5", said: "the tap breaks at the centre" }], WORDS);
  for (const question of ["brokne", "ceneter"]) assert.deepEqual(ids(rank(search, question)), ["e"], question);
});

test("a phrase is seen though one of its words is mistyped, whether or not the lesson has that word", () => {
  const words = { ...FEW, same: [["tool length", "h offset"], ["kick finder", "wiggler"]] };
  const search = searchOver([{ id: "e", hash: "5", said: "the h offset was old" }, { id: "f", hash: "6", said: "wiggler bent" }], words);
  for (const question of ["tool lenght", "tooll length", "wrong tool lengt"]) assert.deepEqual(ids(rank(search, question)), ["e"], question);
  assert.deepEqual(rank(search, "kick fnider")[0].why, ["matched “kick fnider” as “wiggler” in what happened"]);
  assert.deepEqual(ids(rank(search, "cool strength")), []);
});

test("what is like a word of two meanings counts no more than the word itself", () => {
  const words = { ...FEW, same: [["lift", "hoist"], ["lift", "walk"]] };
  const other = { id: "z", hash: "1", title: "hoist", said: "hoist", why: "hoist", facts: "hoist" };
  const wanted = { id: "a", hash: "2", said: "it lifted at one end" };
  const rest = ["k", "l", "m"].map((id) => ({ id, hash: id, said: "belt slipped, part walked" }));
  assert.equal(rank(searchOver([other, wanted, ...rest], words), "lifted")[0].id, "a");
});

test("the last word may be unfinished while typing, and no other", () => {
  assert.deepEqual(ids(ask("paral")), ["d-swarf"]);
  assert.deepEqual(ids(ask("paral", { typing: false })), []);
});

test("a length finds its equal in any unit, and its neighbour within a hundredth", () => {
  for (const question of ['1/4"', "1/4 in", ".25in", "6.35 mm", "6,35", "6.35", "quarter inch"]) assert.deepEqual(ids(ask(question)), ["b-gouged"], question);
  assert.deepEqual(ids(ask("9.5 mm")), ["d-swarf"]);
  assert.match(ask("9.5 mm")[0].why[0], /as about “3\/8 in”/);
  assert.deepEqual(ids(ask("10 mm")), []);
});

test("a thread is found by its name with and without pitch", () => {
  assert.deepEqual(ids(ask("M6")), ["d-swarf"]);
  assert.deepEqual(ids(ask("m6 x 1")), ["d-swarf"]);
});

test("words written together or apart find one another", () => {
  const apart = { id: "e", hash: "5", said: "the tool holder was dirty" };
  const together = { id: "f", hash: "6", said: "clean the toolholder" };
  assert.deepEqual(ids(rank(searchOver([apart]), "toolholder")), ["e"]);
  assert.deepEqual(ids(rank(searchOver([together]), "tool holder")), ["f"]);
});

test("a lesson with every word comes before one with one of them", () => {
  const both = { id: "x1", hash: "1", said: "the handle lay in the pocket" };
  assert.equal(rank(searchOver([...ALL, both]), "pocket handle")[0].id, "x1");
});

test("of equals the newest comes first", () => {
  const twins = ["1", "3", "2"].map((id) => ({ id, hash: id, said: "belt slipped" }));
  assert.deepEqual(ids(rank(searchOver(twins), "belt")), ["3", "2", "1"]);
});

test("an index with changes laid over it answers as one made anew", () => {
  const changed = { ...HANDLE, hash: "9", title: "Wrench left on the drawbar" };
  const added = { id: "z", hash: "8", said: "wrench flew off" };
  const over = open(MiniSearch, FEW, keep(MiniSearch, FEW, ALL), { documents: [changed, added], gone: ["b-gouged"] });
  const anew = searchOver([changed, SWARF, added]);
  for (const question of ["wrench", "gouged", "handle", "chip"]) {
    assert.deepEqual(ids(rank(over, question)), ids(rank(anew, question)), question);
  }
});

test("without a prebuilt index everything is recent, and found alike", () => {
  const bare = open(MiniSearch, FEW, null, { documents: ALL, gone: [] });
  assert.deepEqual(rank(bare, "dug in at 1/4 in").map(({ id, score }) => [id, score]), ask("dug in at 1/4 in").map(({ id, score }) => [id, score]));
});

test("what is chance beside the best is no answer", () => {
  const search = searchOver([{ id: "e", hash: "5", title: "belt belt", said: "belt pulley guard slipped" }, { id: "f", hash: "6", facts: "guard" }]);
  const question = "belt pulley slipped guard";
  assert.deepEqual(ids(rank(search, question)), ["e", "f"]);
  assert.deepEqual(ids(answers(search, question)), ["e"]);
});

test("a question without a word to look for is told apart from one without an answer", () => {
  const search = searchOver(ALL);
  for (const question of ["the", "in the", "", "?"]) assert.equal(answers(search, question), null, question);
  assert.deepEqual(answers(search, "xqzwv"), []);
});

test("no question breaks it", () => {
  const search = searchOver(ALL, WORDS);
  for (const question of ["", " ", "\"", "###", "#0", "((", "in the of", "1/0", "1/0 in", "0 mm", "💥 vice", "__proto__ constructor", "a".repeat(5000), "1,2,3/4/5\"", "ſ ß İ"]) {
    assert.ok(Array.isArray(rank(search, question)), question);
  }
});

test("every reason can be put into words", () => {
  const search = searchOver(ALL, WORDS);
  for (const hit of rank(search, "vise handel dug in corner swarf 1/4 parallel jaws m6")) {
    for (const line of hit.why) assert.match(line, /^matched “[^”]+” (as (about )?“[^”]+” )?in /);
  }
});

test("every line of the tool's own words finds each of its words from each other", () => {
  for (let from = 0; from < WORDS.same.length; from += 30) {
    const groups = WORDS.same.slice(from, from + 30);
    const search = searchOver(groups.flatMap((group, at) => group.map((phrase, by) => ({ id: `${at}.${by}`, hash: "h", said: phrase }))), WORDS);
    groups.forEach((group, at) => group.forEach((phrase) => {
      const found = rank(search, phrase, { typing: false }).filter(({ id }) => id.startsWith(`${at}.`));
      assert.equal(found.length, group.length, `${phrase} of ${group.join(", ")}`);
    }));
  }
});

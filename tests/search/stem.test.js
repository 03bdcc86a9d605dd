import assert from "node:assert/strict";
import test from "node:test";
import { stem } from "../../hooks/site/static/js/stem.js";
import { WORDS } from "./setting.js";

const of = (word) => stem(word, WORDS);

// Which words of the trade are forms of one another: English, no source.
const ONE = [
  ["gouge", "gouges", "gouged", "gouging"], ["tap", "taps", "tapped", "tapping"], ["tape", "tapes", "taped", "taping"],
  ["plane", "planed", "planing"], ["plan", "planned", "planning", "plans"], ["mill", "mills", "milled", "milling"],
  ["slip", "slips", "slipped", "slipping"], ["move", "moved", "moving", "moves"], ["scrape", "scraped", "scraping"],
  ["scrap", "scrapped", "scrapping"], ["dig", "dug", "digging", "digs"], ["break", "broke", "broken", "breaking"],
  ["bush", "bushes"], ["box", "boxes"], ["body", "bodies"], ["vice", "vise", "vices", "vises"], ["centre", "center", "centres", "centered", "centring"],
  ["aluminium", "aluminum"], ["measure", "measured", "measuring"], ["chatter", "chattered", "chattering"], ["burr", "burrs", "burred"],
  ["seize", "seized", "seizing"], ["glass", "glasses"], ["clamp", "clamps", "clamped", "clamping"], ["size", "sizes", "sized"], ["bore", "bored", "boring"],
  ["tooth", "teeth"], ["gauge", "gage", "gauges", "gaging"], ["organise", "organize", "organized"], ["tighten", "tightened"], ["slowly", "slow"],
  ["feed", "feeds", "feeding"], ["use", "used", "uses", "using"], ["die", "dies"], ["age", "aged", "aging"], ["vibrate", "vibrates", "vibration"],
  ["compensate", "compensated", "compensation"], ["deflect", "deflected", "deflection"], ["align", "aligned", "alignment"],
];
const APART = [["tap", "tape"], ["plan", "plane"], ["scrap", "scrape"], ["bore", "bar"], ["cut", "cutter"], ["bur", "bore"], ["rip", "ripe"], ["pin", "pine"], ["feed", "f"], ["speed", "sp"], ["only", "one"]];

test("forms of one word share a stem", () => {
  for (const forms of ONE) assert.deepEqual([...new Set(forms.map(of))].length, 1, forms.map((word) => `${word}: ${of(word)}`).join(", "));
});

test("words that differ in this trade keep apart", () => {
  for (const [one, other] of APART) assert.notEqual(of(one), of(other), `${one} and ${other}`);
});

test("a word named like a part of every object is a word", () => {
  for (const word of ["constructor", "toString", "hasownproperty"]) assert.equal(typeof of(word), "string");
});

"""One number, one function: the sums in the browser's Python and in this one say the same."""

import hashlib
import json
import math
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from playwright.sync_api import Page

from calc.catalogue import CALCULATORS
from calc.page import respond
from tests.calc.random_inputs import random_inputs
from tests.published.rows import ROWS
from tests.watched_page import Browsing

RANDOM_INPUTS = 1000
RELATIVE = 1e-12
SEED = 20261125
WORKERS = 2  # a Python a core of a small machine

# Starts the site's own worker, as often as told; a start is what takes longest of all this.
START = """([address, count]) => {
  window.workers = Array.from({ length: count }, () => new Worker(address, { type: "module" }));
}"""

# Puts all questions to the workers, each given a next one as soon as it answers. The replies stay in the page; what
# goes out are their SHA-256, so that megabytes that are letter for letter the same need not.
ASK = """async (questions) => {
  const replies = Array(questions.length);
  let next = 0, missing = questions.length;
  await new Promise((resolve, reject) => {
    const give = (worker) => {
      if (next === questions.length) return;
      const [name, typed, system] = questions[next];
      worker.postMessage({ id: ++next, name, typed, system });
    };
    for (const worker of window.workers) {
      worker.onerror = (event) => reject(new Error(event.message));
      worker.onmessage = ({ data }) => {
        if (data.failed) return reject(new Error(data.why));
        if (!data.id) return;
        replies[data.id - 1] = data.reply;
        missing -= 1;
        missing ? give(worker) : resolve();
      };
      for (let ahead = 0; ahead < 4; ahead += 1) give(worker);
    }
  });
  window.replies = replies;
  const hex = (bytes) => Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, "0")).join("");
  const hash = async (text) => hex(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text)));
  return Promise.all(replies.map(hash));
}"""
REPLIES = "(places) => places.map((at) => window.replies[at])"

# HTML as this browser writes it back, so that it can be compared with what stands in a page.
AS_PARSED = """(html) => {
  const box = document.createElement("div");
  box.innerHTML = html;
  return box.innerHTML.trim();
}"""

Question = tuple[str, str, str]


@pytest.fixture(scope="module")
def sums(site: Any, browser: Any) -> Iterator[Page]:
    """A watched page of the site with its workers started, once for all tests here."""
    watched = Browsing(browser)
    page = watched.open()
    page.goto(site.url + "calculators/")
    page.evaluate(START, [site.url + "assets/js/worker.js", WORKERS])
    yield page
    watched.close()
    assert not watched.faults, "\n".join(watched.faults)


def differences(here: Any, there: Any, place: str = "") -> Iterator[str]:
    """Where two answers differ: numbers beyond the relative bound, anything else at all."""
    if isinstance(here, float) and isinstance(there, (int, float)) and not isinstance(there, bool):
        if not math.isclose(here, there, rel_tol=RELATIVE, abs_tol=0.0):
            yield f"{place}: {here!r} here, {there!r} there"
    elif isinstance(here, dict) and isinstance(there, dict) and here.keys() == there.keys():
        for key in here:
            yield from differences(here[key], there[key], f"{place}.{key}")
    elif isinstance(here, list) and isinstance(there, list) and len(here) == len(there):
        for at, (one, other) in enumerate(zip(here, there, strict=True)):
            yield from differences(one, other, f"{place}[{at}]")
    elif here != there or isinstance(here, bool) != isinstance(there, bool):
        yield f"{place}: {here!r} here, {there!r} there"


def unequal(page: Page, questions: list[Question], here: Callable[..., str] = respond) -> list[str]:
    """Where the two Pythons answer unlike, numbers or text. Both work at the same time."""
    with ThreadPoolExecutor(1) as beside:
        answering = beside.submit(lambda: [here(*question) for question in questions])
        hashes = page.evaluate(ASK, questions)
        answers = answering.result()
    assert len(answers) == len(hashes) == len(questions) > 0
    unlike = [at for at, one in enumerate(answers) if hashlib.sha256(one.encode()).hexdigest() != hashes[at]]
    return [
        f"{questions[at]}: {difference}"
        for at, reply in zip(unlike, page.evaluate(REPLIES, unlike), strict=True)
        for difference in differences(json.loads(answers[at]), json.loads(reply))
    ]


def assert_equal(page: Page, questions: list[Question]) -> None:
    """Both Pythons answer all questions alike."""
    found = unequal(page, questions)
    assert not found, f"{len(found)} differences, the first: {found[0]}"


@pytest.mark.parametrize("name", [calculator.name for calculator in CALCULATORS])
def test_random_inputs_give_the_same_in_both(sums: Page, name: str) -> None:
    """1,000 random inputs, edges included: numbers to a relative 1e-12, the HTML letter for letter."""
    systems = ("metric", "inch")
    typed = random_inputs(name, SEED, RANDOM_INPUTS)
    questions = [(name, json.dumps(one), systems[at % 2]) for at, one in enumerate(typed)]
    assert len(questions) == RANDOM_INPUTS
    assert_equal(sums, questions)


def test_published_rows_give_the_same_in_both(sums: Page) -> None:
    """Every published row's sum is the same in the browser, so that it holds there as it holds here."""
    assert_equal(sums, [(row.calculator, json.dumps(dict(row.inputs)), "metric") for row in ROWS])


@pytest.mark.parametrize(
    ("part", "other", "seen"),
    [
        ("two rules", "two Rules", True),
        ("0.03937007874015748", "0.0393700787403", True),
        ("0.03937007874015748", "0.03937007874015749", False),
        ('"ok": true', '"ok": 1.0', True),
    ],
)
def test_what_differs_is_seen(sums: Page, part: str, other: str, seen: bool) -> None:
    """A letter, a kind of value, a number's twelfth digit; its last digit may differ."""

    def altered(*question: str) -> str:
        answer = respond(*question)
        assert part in answer
        return answer.replace(part, other)

    asked = [("convert", json.dumps({"value": "6.5 mm", "target": "in"}), "metric")]
    assert bool(unequal(sums, asked, altered)) == seen


@pytest.mark.parametrize("calculator", CALCULATORS, ids=lambda calculator: calculator.name)
def test_the_baked_example_is_the_live_answer(site: Any, sums: Page, page: Page, calculator: Any) -> None:
    """The worked example in the page's HTML, and the answer of the browser's Python, are one text."""
    page.goto(f"{site.url}calculators/{calculator.name}/")
    baked = page.locator("#answer").inner_html().strip()
    sums.evaluate(ASK, [(calculator.name, json.dumps(dict(calculator.example)), "metric")])
    [reply] = sums.evaluate(REPLIES, [0])
    assert page.evaluate(AS_PARSED, json.loads(reply)["html"]) == baked

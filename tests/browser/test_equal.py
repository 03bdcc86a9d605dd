"""One number, one function: the sums in the browser's Python and in this one say the same."""

import json
import math
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page

from calc.catalogue import CALCULATORS
from calc.page import respond
from tests.calc.random_inputs import random_inputs
from tests.published.rows import ROWS

RANDOM_INPUTS = 1000
RELATIVE = 1e-12
SEED = 20261125
SLOWEST_MS = 240_000

# Puts all questions to the site's own worker and gathers its answers in their order.
ASK = """async ([questions, address]) => {
  const worker = new Worker(address, { type: "module" });
  const replies = new Map();
  await new Promise((resolve, reject) => {
    worker.onerror = (event) => reject(new Error(event.message));
    worker.onmessage = ({ data }) => {
      if (data.failed) reject(new Error(data.why));
      if (data.id) replies.set(data.id, data.reply);
      if (replies.size === questions.length) resolve();
    };
    questions.forEach(([name, typed, system], at) => worker.postMessage({ id: at + 1, name, typed, system }));
  });
  worker.terminate();
  return questions.map((_, at) => replies.get(at + 1));
}"""

# HTML as this browser writes it back, so that it can be compared with what stands in a page.
AS_PARSED = """(html) => {
  const box = document.createElement("div");
  box.innerHTML = html;
  return box.innerHTML.trim();
}"""

Question = tuple[str, str, str]


@pytest.fixture
def sums(site: Any, browsing: Any) -> Page:
    """A page of the site whose worker can be asked."""
    page = browsing.open()
    page.set_default_timeout(SLOWEST_MS)
    page.goto(site.url + "calculators/")
    return page  # type: ignore[no-any-return]


def in_browser(page: Page, site: Any, questions: list[Question]) -> list[str]:
    """What the browser's Python answers, in the order asked."""
    return page.evaluate(ASK, [questions, site.url + "assets/js/worker.js"])  # type: ignore[no-any-return]


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
    elif here != there:
        yield f"{place}: {here!r} here, {there!r} there"


def assert_equal(page: Page, site: Any, questions: list[Question]) -> None:
    """Both Pythons answer all questions alike, numbers and text."""
    there = in_browser(page, site, questions)
    found = [
        f"{question}: {difference}"
        for question, reply in zip(questions, there, strict=True)
        for difference in differences(json.loads(respond(*question)), json.loads(reply))
    ]
    assert not found, f"{len(found)} differences, the first: {found[0]}"


@pytest.mark.parametrize("name", [calculator.name for calculator in CALCULATORS])
def test_random_inputs_give_the_same_in_both(site: Any, sums: Page, name: str) -> None:
    """1,000 random inputs, edges included: numbers to a relative 1e-12, the HTML letter for letter."""
    systems = ("metric", "inch")
    typed = random_inputs(name, SEED, RANDOM_INPUTS)
    questions = [(name, json.dumps(one), systems[at % 2]) for at, one in enumerate(typed)]
    assert len(questions) == RANDOM_INPUTS
    assert_equal(sums, site, questions)


def test_published_rows_give_the_same_in_both(site: Any, sums: Page) -> None:
    """Every published row's sum is the same in the browser, so that it holds there as it holds here."""
    questions = [(row.calculator, json.dumps(dict(row.inputs)), "metric") for row in ROWS]
    assert questions
    assert_equal(sums, site, questions)


@pytest.mark.parametrize("calculator", CALCULATORS, ids=lambda calculator: calculator.name)
def test_the_baked_example_is_the_live_answer(site: Any, sums: Page, calculator: Any) -> None:
    """The worked example in the page's HTML, and the answer of the browser's Python, are one text."""
    sums.goto(f"{site.url}calculators/{calculator.name}/")
    baked = sums.locator("#answer").inner_html().strip()
    [reply] = in_browser(sums, site, [(calculator.name, json.dumps(dict(calculator.example)), "metric")])
    live = sums.evaluate(AS_PARSED, json.loads(reply)["html"])
    assert live == baked

"""What a lesson's page shows."""

import re
from collections.abc import Mapping
from html import unescape
from typing import Any

from markupsafe import Markup

from calc.catalogue import CALCULATORS, named
from calc.declare import Calculator
from calc.links import fragment
from calc.present import answer_html, shown_value
from calc.quantity import Quantity
from hooks.brief.given import fits
from hooks.shop.check import AT_LEAST, AT_MOST, CheckResult
from hooks.shop.lesson import Lesson
from hooks.shop.read import Shop
from hooks.site.shell import BASE
from hooks.site.told import STRIP_GROUPS, Told, fact_rows, words_of

TRY = re.compile(r'<button [^>]*data-try-input="([^"]+)" data-try-value="([^"]+)"[^>]*>(.*?)</button>')
Similar = Mapping[str, list[tuple[str, list[str]]]]


def lesson_context(one: Told, shop: Shop, ones: tuple[Told, ...], similar: Similar) -> dict[str, Any]:
    """The context of templates/lesson.html."""
    check = shop.checks.get(one.id)
    by_id = {other.id: other for other in ones} if similar.get(one.id) else {}
    return {
        "lesson": one.lesson,
        "one": one,
        "demo": shop.demo,
        "contributing": words_of("contributing", one.lesson),
        "facts": fact_rows(one.lesson, shop),
        "check": _check(one.lesson, check) if check else None,
        "sums": [] if check else _sums(one.lesson),
        "similar": [{"one": by_id[id_], "why": why} for id_, why in similar.get(one.id, []) if id_ in by_id],
    }


def _check(lesson: Lesson, check: CheckResult) -> dict[str, Any]:
    calculator, given = named(check.calculator), lesson.get("check")
    output = calculator.output(check.output)
    return {
        "result": check,
        "title": calculator.title,
        "sentence": _sentence(output, check.answer, check, check.broken),
        "mended_sentence": _sentence(output, check.mended, check, not check.holds_mended) if check.mended else "",
        "inputs": fragment(calculator, given["inputs"]),
        "mended_inputs": fragment(calculator, given.get("mended_inputs", {})),
        "answer": Markup(_linked(answer_html(check.answer, "metric"), lesson, calculator, given["inputs"])),
        "mended": _mended(check, lesson, calculator, given),
    }


def _mended(check: CheckResult, lesson: Lesson, calculator: Calculator, given: Mapping[str, Any]) -> str | Markup:
    if check.mended is None:
        return ""
    html = _linked(answer_html(check.mended, "metric"), lesson, calculator, given["mended_inputs"])
    return Markup(_apart(html))


def _linked(answer: str, lesson: Lesson, calculator: Calculator, inputs: Mapping[str, str]) -> str:
    """Nothing can be tried on a lesson's page: each change is a link to the calculator with that number in it."""

    def link(found: re.Match[str]) -> str:
        changed = fragment(calculator, {**inputs, found[1]: unescape(found[2])})
        address = f"{BASE}/calculators/{calculator.name}/#lesson={lesson.id}&amp;{changed.replace('&', '&amp;')}"
        return f'<a class="try" href="{address}">{found[3]}</a>'

    return TRY.sub(link, answer)


def _apart(answer: str) -> str:
    """A second answer on one page: the ids in its drawing are made its own."""
    return answer.replace('id="h', 'id="mended-h').replace("url(#h", "url(#mended-h")


def _sentence(output: Quantity, answer: Mapping[str, Any], check: CheckResult, broken: bool) -> str:
    value = shown_value(answer["values"][output.name], output, "metric")
    sides = {AT_MOST: "at most", AT_LEAST: "at least"}
    limits = " and ".join(
        f"{sides[side]} {shown_value({'value': limit, 'unit': output.unit}, output, 'metric')}"
        for side, limit in check.limits.items()
    )
    label = output.label[0].lower() + output.label[1:]
    return f"{label} {value}; held to {limits}. {'It does not hold.' if broken else 'It holds.'}"


def _sums(lesson: Lesson) -> list[dict[str, str]]:
    """The calculators that this lesson's facts would fill, those with most of them first; of equals the cutter's."""
    facts: dict[str, str] = {}
    for group in STRIP_GROUPS:
        facts |= {key: one for key, one in lesson.typed.get(group, {}).items() if isinstance(one, str)}
    found = [(one, _filled(one, facts)) for one in CALCULATORS]
    found.sort(key=lambda pair: (-len(pair[1]), pair[0].step != "cutter"))
    return [_sum(one, inputs) for one, inputs in found if inputs][:3]


def _filled(calculator: Calculator, facts: Mapping[str, str]) -> dict[str, str]:
    return {q.name: facts[q.name] for q in calculator.inputs if q.name in facts and fits(q, facts[q.name])}


def _sum(one: Calculator, inputs: Mapping[str, str]) -> dict[str, str]:
    return {"name": one.name, "question": one.question, "inputs": f"&{fragment(one, inputs)}"}

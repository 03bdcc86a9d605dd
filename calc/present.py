"""An Answer, as JSON has it, turned into HTML: the same text in the build and in the browser."""

from collections.abc import Iterable, Mapping
from html import escape
from itertools import groupby
from typing import Any

from calc.catalogue import named
from calc.declare import Calculator
from calc.quantity import Quantity
from calc.show import in_system, number, plain, show, with_unit
from calc.units import converted, shown_unit

WORDS = {"ok": "No fault found", "watch": "Watch", "stop": "Stop"}
MARKS = {
    "ok": '<circle cx="12" cy="12" r="9"/>',
    "watch": '<path d="M12 2 23 21H1Z"/>',
    "stop": '<path d="M7 2h10l5 5v10l-5 5H7l-5-5V7Z"/>',
}
TIMES = " ×"
EXACT = 4  # digits that count


def answer_html(answer: Mapping[str, Any], system: str) -> str:
    """`answer` (the JSON of CALCULATORS' Answer) as one section, in "metric" or "inch" units."""
    calculator = named(answer["calculator"])
    verdict = answer["verdict"]
    parts = (
        _band(verdict),
        _big(answer, calculator, system),
        f'<p class="answer__reason">{_text(answer["reason"], system)}</p>',
        _changes(answer, calculator, system),
        _drawing(answer, system),
        _cautions(answer, system),
        _numbers(answer, calculator, system),
        _working(answer),
        _texts("limits", "What this sum does not know", answer["limits"], system),
        _texts("sources", "Sources", answer["sources"], "metric"),
    )
    return f'<section class="answer answer--{verdict}">{"".join(parts)}</section>'


def refusal_html(message: str) -> str:
    """A refusal in the place of an answer."""
    return f'<p class="notice notice--warn">{escape(message)}</p>'


def shown_value(value: Mapping[str, Any], output: Quantity, system: str) -> str:
    """One value of an answer as text: number and unit, text or list; a dash where there is none."""
    found, unit = value["value"], value["unit"]
    if found is None:
        return "–"
    if output.columns:
        lines = [[_head(one, system) for one in output.columns], *(_cells(row, output, system) for row in found)]
        widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
        padded = [[cell.rjust(width) for cell, width in zip(line, widths, strict=True)] for line in lines]
        return "".join("\n    " + "   ".join(line) for line in padded)
    if isinstance(found, (list, tuple)):
        if output.kind == "pieces" and found and not isinstance(found[0], (list, tuple)):
            return ", ".join(f"{len(list(same))} × {show(one, unit, system)}" for one, same in groupby(found))
        between = "; " if found and isinstance(found[0], (list, tuple)) else ", "
        return between.join(shown_value({"value": one, "unit": unit}, output, system) for one in found)
    if isinstance(found, str):
        return in_system(found, system)
    if unit == "1":
        return number(found, "1") + (TIMES if output.name.endswith(("_rise", "_reserve")) else "")
    return show(found, unit, system)


def _band(verdict: str) -> str:
    return (
        f'<p class="answer__band"><svg class="verdict-mark" viewBox="0 0 24 24" aria-hidden="true">'
        f"{MARKS[verdict]}</svg> {WORDS[verdict]}</p>"
    )


def _big(answer: Mapping[str, Any], calculator: Calculator, system: str) -> str:
    output = calculator.output(calculator.headline)
    value = answer["values"][output.name]
    if value["value"] is None:
        return ""
    return (
        f'<p class="answer__big">{_digits(value, output, system)} '
        f'<span class="answer__what">{escape(output.label.lower())}</span></p>'
    )


def _digits(value: Mapping[str, Any], output: Quantity, system: str) -> str:
    """The value with its unit a shade lighter, never parted from its number."""
    found, unit = value["value"], value["unit"]
    if isinstance(found, bool) or not isinstance(found, (int, float)) or unit == "1":
        return escape(shown_value(value, output, system))
    seen = shown_unit(unit, system)
    digits = number(converted(found, unit, seen), seen)
    return f'{digits}<span class="unit">{escape(with_unit("", seen).replace(" ", chr(160)))}</span>'


def _changes(answer: Mapping[str, Any], calculator: Calculator, system: str) -> str:
    lines = "".join(f"<li>{_change(one, answer, calculator, system)}</li>" for one in answer["advice"])
    return f'<ul class="answer__changes">{lines}</ul>' if lines else ""


def _change(advice: Mapping[str, Any], answer: Mapping[str, Any], calculator: Calculator, system: str) -> str:
    text = escape(in_system(advice["text"], system, EXACT, exact=True))  # a number to be typed in
    if advice["input"] is None:
        return text
    value = advice["value"]
    typed = plain(value, advice["unit"]) if isinstance(value, (int, float)) else str(value)
    kept = "&".join(
        f"{one.name}={answer['inputs'][one.name]['typed']}"
        for one in calculator.inputs
        if one.kept and one.name in answer["inputs"] and one.name != advice["input"]
    )
    keep = f' data-try-keep="{escape(kept)}"' if kept else ""
    return (
        f'<button type="button" class="try" data-try-input="{escape(advice["input"])}" '
        f'data-try-value="{escape(typed)}"{keep}>{text}</button>'
    )


def _drawing(answer: Mapping[str, Any], system: str) -> str:
    drawn = in_system(answer["drawing"], system)
    return f'<figure class="drawing">{drawn}</figure>' if drawn else ""


def _cautions(answer: Mapping[str, Any], system: str) -> str:
    lines = "".join(f'<li class="caution">{_text(one, system)}</li>' for one in answer["cautions"])
    return f'<ul class="cautions">{lines}</ul>' if lines else ""


def _numbers(answer: Mapping[str, Any], calculator: Calculator, system: str) -> str:
    shown = [one for one in calculator.outputs if one.name in answer["values"]]
    tables = "".join(_table(one, answer["values"][one.name], system) for one in shown if one.columns)
    rows = "".join(_row(one, answer["values"][one.name], system) for one in shown if not one.columns)
    return f'{tables}<dl class="numbers">{rows}</dl>'


def _table(output: Quantity, value: Mapping[str, Any], system: str) -> str:
    """A value with columns: units in the head, numbers alone below."""
    heads = "".join(f'<th scope="col">{escape(_head(one, system))}</th>' for one in output.columns)
    rows = "".join(
        "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in _cells(row, output, system)) + "</tr>"
        for row in value["value"]
    )
    table = f'<table class="rows"><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>'
    return f'<div class="scrolls">{table}</div>'


def _head(column: Quantity, system: str) -> str:
    seen = shown_unit(column.unit, system)
    return column.label if seen == "1" else f"{column.label},{with_unit('', seen)}"


def _cells(row: Iterable[float], output: Quantity, system: str) -> list[str]:
    return [
        number(converted(cell, one.unit, shown_unit(one.unit, system)), shown_unit(one.unit, system))
        for cell, one in zip(row, output.columns, strict=True)
    ]


def _row(output: Quantity, value: Mapping[str, Any], system: str) -> str:
    held = output.help
    if value["value"] is None:
        held = value["why"]
    elif "low" in value:
        low, high = (show(value[end], value["unit"], system) for end in ("low", "high"))
        held = f"between {low} and {high}" + (f"; {held}" if held else "")
    note = f'<span class="number__held">{_text(held, system)}</span>' if held else ""
    return (
        f'<div class="number"><dt class="number__label">{escape(output.label)}</dt>'
        f'<dd class="number__value">{_digits(value, output, system)}{note}</dd></div>'
    )


def _working(answer: Mapping[str, Any]) -> str:
    steps = "".join(
        f'<li><span class="step__text">{escape(step["text"])}</span>'
        f'<span class="step__formula">{escape(step["formula"])}</span>'
        f'<span class="step__numbers">{escape(step["numbers"])}</span>'
        f'<span class="step__result">= {escape(step["result"])}</span></li>'
        for step in answer["working"]
    )
    return f'<details class="working"><summary>The working</summary><ol>{steps}</ol></details>'


def _texts(name: str, title: str, texts: Iterable[str], system: str) -> str:
    lines = "".join(f"<li>{_text(one, system)}</li>" for one in texts)
    return f'<details class="{name}"><summary>{title}</summary><ul>{lines}</ul></details>' if lines else ""


def _text(text: str, system: str) -> str:
    return escape(in_system(text, system))

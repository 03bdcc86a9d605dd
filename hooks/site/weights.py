"""The tables of the page about matching, from the very tables that match: weights, sorts and dangers."""

from collections.abc import Iterator, Mapping

from jinja2 import Environment

from calc.catalogue import named
from calc.show import show
from hooks.shop.match import table
from hooks.shop.match.dangers import DANGERS, Danger
from hooks.shop.match.table import ROWS
from hooks.site.told import word

HOW = {
    "same": "the same or not",
    "any": "one of several the same",
    "among": "one of several the same; another one contradicts nothing",
    "near": "by ratio",
    "shared": "the part in common",
    "words": "rare words in common, a tie-break: added to the likeness",
}
BY_NAME = {row.name: row for row in ROWS}


def weights(environment: Environment) -> str:
    """The tables as HTML."""
    dangers = [
        {"said": one.said, "told": _told(one), "facts": _facts(one), "brought": _brought(one)} for one in DANGERS
    ]
    return environment.get_template("weights.html").render(rows=ROWS, how=HOW, table=table, dangers=dangers)


def _told(one: Danger) -> Iterator[str]:
    yield from (word("contributing", key) for key in one.causes.split())
    yield from map(_sum, one.sums.split())
    yield from (word("kind", key) for key in one.kinds.split())


def _sum(text: str) -> str:
    calculator, _, value = text.partition(":")
    label = next((f", {output.label.lower()}" for output in named(calculator).outputs if output.name == value), "")
    return f"the sum “{named(calculator).title}”{label}"


def _facts(one: Danger) -> str:
    return ", ".join(BY_NAME[name].said for name in one.facts.split()) or "nothing else"


def _brought(one: Danger) -> Iterator[str]:
    yield from _words(one.brings)
    yield from (f"{BY_NAME[name].said} {_limits(name, low, high)}" for name, low, high in one.limits)
    yield from (f"{text}, where no number says otherwise" for text in _words(one.perhaps))


def _words(brings: Mapping[str, str]) -> Iterator[str]:
    yield from (word(name, key) for name, keys in brings.items() for key in keys.split())


def _limits(name: str, low: float, high: float) -> str:
    unit = BY_NAME[name].unit
    return f"{show(low, unit)} to {show(high, unit)}" if low else f"up to {show(high, unit)}"

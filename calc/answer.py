"""What a calculator answers: the same for the command line, every page and a lesson's check."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any

from calc.quantity import Reading

VERDICTS = ("ok", "watch", "stop")


@dataclass(frozen=True)
class Value:
    """One result in its declared unit; None with `why` where it does not exist.

    `low` and `high` only where the method's own uncertainty is known.
    """

    value: Any
    unit: str = "1"
    low: float | None = None
    high: float | None = None
    why: str | None = None

    def __post_init__(self) -> None:
        for number in (self.value, self.low, self.high):
            if isinstance(number, float) and not math.isfinite(number):
                raise ArithmeticError("a value of an answer is not a finite number")

    def to_dict(self) -> dict[str, Any]:
        """As JSON: low and high only together, why only where there is no value."""
        shown: dict[str, Any] = {"value": self.value, "unit": self.unit}
        if self.low is not None and self.high is not None:
            shown |= {"low": self.low, "high": self.high}
        if self.value is None:
            shown["why"] = self.why or "not given"
        return shown


@dataclass(frozen=True)
class Step:
    """One line of the working: what, the formula, the numbers put in, the result."""

    text: str
    formula: str
    numbers: str
    result: str


@dataclass(frozen=True)
class Advice:
    """One change that would mend it; `input` is None where there is no single number to try."""

    text: str
    input: str | None = None
    value: Any = None
    unit: str = "1"


@dataclass(frozen=True)
class Answer:
    """A calculator's whole answer. `verdict` is ok, watch or stop; texts are plain, in metric units."""

    calculator: str
    inputs: Mapping[str, Reading]
    values: Mapping[str, Value]
    verdict: str
    reason: str
    advice: tuple[Advice, ...] = ()
    cautions: tuple[str, ...] = ()
    limits: tuple[str, ...] = ()
    working: tuple[Step, ...] = ()
    drawing: str = ""
    sources: tuple[str, ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """The Answer as JSON has it: inputs with the defaults used, numbers at full precision."""
        return {
            "calculator": self.calculator,
            "inputs": {name: _input(reading) for name, reading in self.inputs.items()},
            "values": {name: value.to_dict() for name, value in self.values.items()},
            "verdict": self.verdict,
            "reason": self.reason,
            "advice": [asdict(one) for one in self.advice],
            "cautions": list(self.cautions),
            "limits": list(self.limits),
            "working": [asdict(one) for one in self.working],
            "drawing": self.drawing,
            "sources": list(self.sources),
        }


@dataclass(frozen=True)
class Finding:
    """What a calculator finds; its declaration makes an Answer of it.

    `values` by name of output: a number, text or list in the declared unit, or a Value where there is
    none or its bounds are known. `inputs` only where they differ from the readings; `sources` are
    those that hold for these inputs alone.
    """

    values: Mapping[str, Any]
    verdict: str
    reason: str
    working: tuple[Step, ...]
    drawing: str
    advice: tuple[Advice, ...] = ()
    cautions: tuple[str, ...] = ()
    inputs: Mapping[str, Reading] | None = None
    sources: tuple[str, ...] = ()


def judged(found: Iterable[tuple[str, str]], fine: str) -> tuple[str, str]:
    """(verdict, reason): the worst verdict found, its sentences in the order given; `fine` where nothing was found."""
    told = [one for one in found if one[0] != "ok"]
    if not told:
        return "ok", f"{fine} Nothing found by this calculator."
    worst = max((word for word, _ in told), key=VERDICTS.index)
    return worst, " ".join(text for word, text in told if word == worst)


def valued(found: Any, unit: str) -> Value:
    """A Value in its declared unit from what a calculator found."""
    if isinstance(found, Value):
        return replace(found, unit=unit)
    return Value(_listed(found), unit)


def _input(reading: Reading) -> dict[str, Any]:
    return {"value": _listed(reading.value), "unit": reading.unit, "typed": reading.typed}


def _listed(value: Any) -> Any:
    """Tuples as lists, as JSON has them."""
    return [_listed(one) for one in value] if isinstance(value, (tuple, list)) else value

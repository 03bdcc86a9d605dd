"""A lesson's check: the sum that would have caught it, worked out from the lesson's own numbers."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from calc.catalogue import named, work_out
from calc.quantity import Quantity, Refused, at_least, at_most, nearest
from calc.typed import read
from hooks.shop.lesson import Lesson

AT_MOST, AT_LEAST = "at_most", "at_least"


@dataclass(frozen=True)
class CheckResult:
    """What the check says. `answer` and `mended` are Answers as JSON; `value` is None where there is none.

    `broken`: the limit does not hold at the lesson's numbers, so it would have been caught.
    `holds_mended` is None without mended inputs.
    """

    calculator: str
    output: str
    limits: Mapping[str, float]
    value: float | None
    broken: bool
    answer: dict[str, Any]
    mended: dict[str, Any] | None
    mended_value: float | None
    holds_mended: bool | None

    @property
    def would_have_caught(self) -> bool:
        """Broken where it went wrong, and not broken where it was mended."""
        return self.broken and self.holds_mended is not False


class CheckFault(ValueError):
    """Why a check cannot be run: the key in it that is wrong, and what is wrong."""

    def __init__(self, key: str, text: str) -> None:
        super().__init__(text)
        self.key, self.text = key, text


def run_check(lesson: Lesson) -> CheckResult | None:
    """The result of the lesson's check; None where it has none. Raises CheckFault."""
    check = lesson.get("check")
    if not check:
        return None
    output = _output(check)
    limits = _limits(check, output)
    answer = _answer(check, "inputs")
    mended = _answer(check, "mended_inputs") if check.get("mended_inputs") else None
    value = _value(answer, output)
    mended_value = _value(mended, output) if mended else None
    return CheckResult(
        calculator=check["calculator"],
        output=output.name,
        limits=limits,
        value=value,
        broken=not holds(value, limits),
        answer=answer,
        mended=mended,
        mended_value=mended_value,
        holds_mended=holds(mended_value, limits) if mended else None,
    )


def holds(value: float | None, limits: Mapping[str, float]) -> bool:
    """Whether a value keeps its limits; one that does not exist keeps none."""
    if value is None:
        return False
    low, high = limits.get(AT_LEAST), limits.get(AT_MOST)
    return (high is None or at_most(value, high)) and (low is None or at_least(value, low))


def faults(result: CheckResult) -> list[tuple[str, str]]:
    """What makes a check worthless, as (key, text): it catches nothing, or what should mend it does not."""
    found = []
    if not result.broken:
        found.append(("inputs", f"the check catches nothing: {result.output} keeps its limit at these inputs"))
    if result.holds_mended is False:
        found.append(("mended_inputs", f"{result.output} still breaks its limit at mended_inputs"))
    return found


def _output(check: Mapping[str, Any]) -> Quantity:
    for key in ("calculator", "inputs", "value"):
        if key not in check:
            raise CheckFault("", f'"{key}" is missing')
    try:
        outputs = {one.name: one for one in named(check["calculator"]).outputs}
    except Refused as refusal:
        raise CheckFault("calculator", refusal.message) from None
    if check["value"] not in outputs:
        hint = nearest(check["value"], tuple(outputs))
        raise CheckFault("value", f'{check["calculator"]} gives no "{check["value"]}"{hint}')
    return outputs[check["value"]]


def _limits(check: Mapping[str, Any], output: Quantity) -> dict[str, float]:
    found = {}
    for key in (AT_MOST, AT_LEAST):
        if key in check:
            try:
                wanted = Quantity(output.name, output.label, output.unit)
                found[key] = float(read(check[key], wanted).value)
            except Refused as refusal:
                raise CheckFault(key, refusal.message) from None
    if not found:
        raise CheckFault("", 'a limit is missing (expected "at_most" or "at_least")')
    return found


def _answer(check: Mapping[str, Any], key: str) -> dict[str, Any]:
    try:
        return work_out(check["calculator"], check[key]).to_dict()
    except Refused as refusal:
        raise CheckFault(f"{key}.{refusal.field}", refusal.message) from None
    except ArithmeticError:
        raise CheckFault(key, "these numbers are too far apart to be worked out") from None


def _value(answer: Mapping[str, Any], output: Quantity) -> float | None:
    found = answer["values"][output.name]["value"]
    if found is not None and not isinstance(found, (int, float)):
        raise CheckFault("value", f"{output.name} is not a number that a limit can hold")
    return found

"""The sums of a job: each calculator whose questions the sheet answers, worked out; and what one more fact opens."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from calc.catalogue import CALCULATORS, work_out
from calc.catalogue import named as named_calculator
from calc.declare import Calculator
from calc.quantity import Disagree, Impossible, Quantity, Refused, plainly
from calc.show import plain
from hooks.brief.given import GROUPS, UNPUBLISHED, Facts, called, facts_for, inputs_of
from hooks.brief.situations import Fields, Situation, situations
from hooks.shop.match import brought, facts_of_job

VERDICTS = ("stop", "watch", "ok")
ASKED = 3
FEW = 3  # so many operations or missing facts are named, though they be all
CHIP, FORCES = "chip-load", ("peak_force", "wall_force")  # the sum that finds the forces of a cut, and what others want
# What it finds them from beside what it requires: one of each.
EITHER = (
    ("spindle_speed", "cutting_speed"),
    ("feed_per_tooth", "feed_rate", "chip_thickness"),
    ("material", "specific_force_1_1"),
)
INSTEAD = {"clamp_force": "handle_torque"}  # of two that do, the one that a shop without a gauge can tell
SAID = {
    "material": "Material by a name that the sums know, such as 6082, 316L or brass",  # the sheet may have another
    **dict.fromkeys(FORCES, "The force of the cut, which the tables do not have for this material or its hardness"),
}
# A job with this danger asks for all that its sum lacks, not only for one last fact.
ASKS_ALL = {"grip": "clamping", "bending": "stick-out"}
ENTRIES = "ramp_or_helix_entry pocket slot rough_constant_engagement"
SIDEWAYS = "pocket slot rough_constant_engagement profile finish_wall finish_floor finish_3d face"  # by a cutter's side
VICES = "vice_hard_jaws vice_on_parallels vice_soft_jaws"
# What only some operations or ways of holding have to do with; one that is not said may be any.
ONLY_AT = {
    **dict.fromkeys((CHIP, "stick-out", "clamping", "chatter-speed", "corner-clearance"), SIDEWAYS),
    "surface-finish": "finish_wall finish_floor finish_3d face",
    "ramp-entry": ENTRIES, "drill-point": "drill", "tap": "tap", "thread-mill": "thread_mill", "facing": "face",
    "v-cutter": "chamfer engrave countersink spot_drill",
}  # fmt: skip
ONLY_HELD = {"clamping": VICES, "heights": VICES, "soft-jaw": "vice_soft_jaws", "magnet-hold": "magnets"}
STOCK_TEXTS = ("bar_section", "sawn_faces")  # typed freely: what cannot be read there is told, not left out
NOT_ASKED = ("chatter-speed",)  # it wants a note that is heard only once something squeals
# What neither a sheet nor the shop's list has a place for.
NO_PLACE = frozenset(
    "part_length jaw_gap pitch tool_diameter tool_length move turn part_thickness features reading reading_a reading_b "
    "distance face_length face_width length temperature".split()
)


@dataclass(frozen=True)
class Lack:
    """What keeps a sum from being worked out, in words; `fact` is what the sheet or the shop would hold it under."""

    told: str
    fact: str = ""
    stops: bool = False  # what the facts say cannot be


@dataclass(frozen=True)
class Sum:
    """One sum of the job. `answer` is an Answer as JSON; where there is none, `lacks` says why; `at` as a situation."""

    calculator: Calculator
    setup: str
    operation: str
    inputs: Mapping[str, str]
    answer: Mapping[str, Any] | None
    lacks: Lack | None = None
    at: tuple[int, int] = (0, 0)
    places: tuple[tuple[str, str], ...] = ()
    everywhere: bool = False
    setups: int = 0  # of the whole job
    urgent: bool = False  # it asks because of a danger of this job

    @property
    def verdict(self) -> str:
        """The answer's; what cannot be stops, what cannot be read is to be watched; "" where a fact is missing."""
        if self.answer:
            return str(self.answer["verdict"])
        if self.lacks and self.lacks.stops:
            return "stop"
        return "watch" if self.lacks and not self.lacks.fact else ""

    @property
    def reason(self) -> str:
        """Why, in a sentence; what is missing where there is no verdict."""
        if self.answer:
            return str(self.answer["reason"])
        told = self.lacks.told if self.lacks else ""
        return f"Not done: {told}." if self.verdict else told

    @property
    def where(self) -> str:
        """What it is said of: "First side, Left end: profile, finish wall; Second side: slot".

        Many set-ups are only counted, but for what must not be run so.
        """
        if self.everywhere:
            return "every operation"
        setups: dict[str, list[str]] = {}
        for setup, operation in self.places:
            setups.setdefault(setup, []).append(operation.replace("_", " "))
        if len(setups) > FEW and self.verdict != "stop":
            ones = ", ".join(dict.fromkeys(one.replace("_", " ") for _, one in self.places if one))
            return f"{ones} in {len(setups)} set-ups".strip()
        alike: dict[str, list[str]] = {}  # set-ups of which the same operations are named
        for setup, ones in setups.items():
            alike.setdefault(", ".join(filter(None, ones)), []).append(setup)
        alike = {ones: ["every set-up"] if FEW < len(all_) == self.setups else all_ for ones, all_ in alike.items()}
        told = (": ".join(filter(None, (", ".join(filter(None, names)), ones))) for ones, names in alike.items())
        return "; ".join(filter(None, told))


def sums(job: Fields, settings: Fields) -> list[Sum]:
    """The sums of a job (fields as texts): those worked out, the worst verdict first, then what one more fact opens."""
    places = [where for where in situations(job, settings) if not where.stage]
    found = [one for where in places for one in _of(where, job, settings)]
    done = list(_once((one for one in found if one.verdict), places))
    asked = list(_once((one for one in found if not one.verdict and not _among(one, done)), places))
    done.sort(key=lambda one: VERDICTS.index(one.verdict))
    asked.sort(key=lambda one: not one.urgent)
    return [*done, *asked[:ASKED]]


def _once(found: Iterable[Sum], places: Iterable[Situation]) -> Iterator[Sum]:
    """What a sum says once, with every operation that it is said of, of all that there are."""
    there = {(one.setup, one.operation) for one in places}
    setups = len({setup for setup, _ in there})
    same: dict[tuple[str, ...], list[Sum]] = {}
    for one in found:
        same.setdefault((one.calculator.name, one.reason), []).append(one)
    for ones in same.values():
        said = tuple(dict.fromkeys((one.setup, one.operation) for one in ones))
        yield replace(ones[0], places=said, everywhere=FEW < len(said) == len(there), setups=setups)


def _among(one: Sum, done: list[Sum]) -> bool:
    """Whether the sum is done already: at this very operation, if it is a danger there, else anywhere."""
    same = [other for other in done if other.calculator is one.calculator]
    return any((one.setup, one.operation) in other.places for other in same) if one.urgent else bool(same)


def _of(where: Situation, job: Fields, settings: Fields) -> Iterator[Sum]:
    facts = facts_for(where, job, settings)
    forces, finding = _forces(facts)
    facts = forces | facts  # what the chip's sum finds, bending and grip can take
    own = {key for group in GROUPS for key in where.fields.get(group, {})} | set(job.get("stock", {}))
    dangers = {ASKS_ALL.get(danger) for danger in brought(facts_of_job(where.fields))}
    for calculator in CALCULATORS:
        inputs = inputs_of(calculator, facts)
        if not own & inputs.keys() or not _concerns(calculator, where):
            continue
        answer, lacks = _answered(calculator, inputs, facts, finding)
        urgent = calculator.name in dangers
        if isinstance(lacks, list):
            lacks = [one for one in lacks if one.name != "material" or UNPUBLISHED not in facts]
            asks = bool(lacks) and (urgent or (len(lacks) == 1 and _asks(calculator)))
            lacks = _lack(lacks, where.operation) if asks and NO_PLACE.isdisjoint(one.name for one in lacks) else None
        if answer or (lacks and calculator.name not in NOT_ASKED):
            yield Sum(calculator, where.setup, where.operation, inputs, answer, lacks, where.at, urgent=urgent)


def _concerns(calculator: Calculator, where: Situation) -> bool:
    """Whether the operation and the way of holding have to do with a sum."""
    held = where.fields.get("holding", {}).get("holding_kind", "")
    at, by = ONLY_AT.get(calculator.name, ""), ONLY_HELD.get(calculator.name, "")
    return all(not only or not said or said in only.split() for only, said in ((at, where.operation), (by, held)))


def _forces(facts: Facts) -> tuple[dict[str, str], list[Quantity] | None]:
    """The forces of the cut; else what they would be found from, None where the chip's own sum says what is wrong."""
    chip = named_calculator(CHIP)
    inputs = inputs_of(chip, facts)
    either = [names[0] for names in EITHER if inputs.keys().isdisjoint(names)]
    missing = [one for one in chip.inputs if (one.required and one.name not in inputs) or one.name in either]
    if missing or UNPUBLISHED in facts:
        return {}, missing
    answer, _ = _worked(chip, inputs)
    values = answer["values"] if answer else {}
    found = {key: plain(values[key]["value"], "N") for key in FORCES if values.get(key, {}).get("value") is not None}
    return found, None


def _asks(calculator: Calculator) -> bool:
    """Whether its last fact is asked for: one that wants little, and is of many operations, would ask at each."""
    of_one_operation = " " not in ONLY_AT.get(calculator.name, " ")
    return of_one_operation or sum(one.required for one in calculator.inputs) > 2


def _answered(
    calculator: Calculator, inputs: Facts, facts: Facts, finding: list[Quantity] | None
) -> tuple[dict[str, Any] | None, Lack | list[Quantity] | None]:
    """The answer; else what is wrong with the facts, or what is missing; neither where another sum says it."""
    lacking = [one for one in calculator.inputs if one.required and one.name not in inputs]
    unread = next((one for one in calculator.inputs if _unread(one, lacking, inputs, facts)), None)
    if unread:
        return None, _not_taken(unread, facts)
    if not lacking:
        return _worked(calculator, inputs)
    if any(one.name in FORCES for one in lacking) and UNPUBLISHED not in facts:
        if finding is None:
            return None, None
        lacking = [each for one in lacking for each in (finding if one.name in FORCES else [one])]
    return None, list({one.name: one for one in lacking}.values())


def _unread(quantity: Quantity, lacking: list[Quantity], inputs: Facts, facts: Facts) -> bool:
    """Whether a number that is required, or a text of the stock, is given and cannot be taken."""
    number = quantity in lacking and quantity.kind in ("number", "whole")
    return (number or quantity.name in STOCK_TEXTS) and quantity.name in facts and quantity.name not in inputs


def _not_taken(quantity: Quantity, facts: Facts) -> Lack:
    return Lack(f"{quantity.label.lower()} cannot be taken ({facts[quantity.name]})")


def _worked(calculator: Calculator, inputs: Facts) -> tuple[dict[str, Any] | None, Lack | list[Quantity] | None]:
    """The answer; else the one of several that is still missing, or what is wrong with those that are given."""
    try:
        return work_out(calculator.name, inputs).to_dict(), None
    except Disagree as two:
        labels = {one.name: one.label.lower() for one in calculator.inputs}
        return None, Lack(f"two numbers of the sheet do not agree: {labels[two.field]}, {labels[two.other]}")
    except Refused as refused:
        field = INSTEAD.get(refused.field, refused.field)
        missing = [one for one in calculator.inputs if one.name == field and one.name not in inputs]
        if missing:
            return None, missing if _asks(calculator) else None
        if field in STOCK_TEXTS:
            return None, _not_taken(next(one for one in calculator.inputs if one.name == field), inputs)
        text = plainly(refused.message, calculator.inputs)
        return None, Lack(text[:1].lower() + text[1:].rstrip("."), stops=isinstance(refused, Impossible))
    except ArithmeticError:
        return None, None


def _lack(missing: list[Quantity], operation: str) -> Lack:
    """What is missing, and where the first of it is kept."""
    first = missing[0].name
    labels = [SAID.get(one.name, one.label.removeprefix("Or: ")) for one in missing]
    labels[0] = labels[0][:1].upper() + labels[0][1:]
    told = [labels[0], *(one[0].lower() + one[1:] for one in labels[1:])]
    if len(told) > FEW + 1:
        told = [*told[:FEW], f"{len(told) - FEW} more"]
    return Lack("; ".join(told), called(operation).get(first, first))

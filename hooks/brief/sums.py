"""The sums of a job: each calculator whose questions the sheet answers, worked out; and what one more fact opens."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from calc.catalogue import CALCULATORS, work_out
from calc.catalogue import named as named_calculator
from calc.declare import Calculator
from calc.material_names import from_words
from calc.quantity import Disagree, Quantity, Refused
from calc.show import plain
from calc.typed import read
from hooks.brief.situations import Fields, Situation, named, situations
from hooks.shop.match import brought, facts_of_job

GROUPS = ("holding", "cutter", "cutting", "geometry")
OF_THE_SHOP = ("machines", "vices")
# Where a sum calls a fact otherwise, by operation ("" any): {input: fact}.
CALLED: Mapping[str, Mapping[str, str]] = {
    "": {"handle_torque": "torque", "bar_section": "bar"},
    "tap": {"thread_depth": "depth", "drill_diameter": "hole_diameter"},
    "thread_mill": {"thread_depth": "depth"},
    "drill": {"drill_diameter": "cutter_diameter", "full_depth": "depth"},
    "face": {"step_over": "radial_depth"},
    "chamfer": {"included_angle": "point_angle"},
}
SPEED = Quantity("spindle_speed", "Spindle speed", "rpm")
TORQUE, POWER = Quantity("spindle_torque", "Torque", "N*m"), Quantity("spindle_power", "Power", "kW")
VERDICTS = ("stop", "watch", "ok")
ASKED = 3
FEW = 3  # so many operations are named, though they be all
CHIP, FORCES = "chip-load", ("peak_force", "wall_force")  # the sum that finds the forces of a cut, and what others want
# What it finds them from beside what it requires: one of each.
EITHER = (
    ("spindle_speed", "cutting_speed"),
    ("feed_per_tooth", "feed_rate", "chip_thickness"),
    ("material", "specific_force_1_1"),
)
UNPUBLISHED = "A force of the cut that nobody publishes for this material"
SAID = {
    "material": "Material by a name that the sums know, such as 6082, 316L or brass",  # the sheet may have another
    **dict.fromkeys(FORCES, UNPUBLISHED),
}
INSTEAD = {"clamp_force": "handle_torque"}  # of two that do, the one that a shop without a gauge can tell
# A job with this danger asks for all that its sum lacks, not only for one last fact.
ASKS_ALL = {"grip": "clamping", "bending": "stick-out"}
STOCK_TEXTS = ("bar_section", "sawn_faces")  # typed freely: what cannot be read there is told, not left out
# What only some operations have to do with.
ONLY_FOR = {"ramp-entry": ("ramp_or_helix_entry", "pocket", "slot", "rough_constant_engagement")}
NOT_ASKED = ("chatter-speed",)  # it wants a note that is heard only once something squeals


@dataclass(frozen=True)
class Lack:
    """What keeps a sum from being worked out, in words; `fact` is what the sheet or the shop would hold it under."""

    told: str
    fact: str = ""


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

    @property
    def verdict(self) -> str:
        """The answer's; what cannot be read or contradicts itself is to be watched; "" where a fact is missing."""
        if self.answer:
            return str(self.answer["verdict"])
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
    return any(one.calculator is other.calculator for other in done)


def _of(where: Situation, job: Fields, settings: Fields) -> Iterator[Sum]:
    facts = facts_for(where, job, settings)
    facts = _forces(facts) | facts  # what the chip's sum finds, bending and grip can take
    own = {key for group in GROUPS for key in where.fields.get(group, {})} | set(job.get("stock", {}))
    asks_all = {ASKS_ALL.get(danger) for danger in brought(facts_of_job(where.fields))}
    for calculator in CALCULATORS:
        inputs = _inputs(calculator, facts)
        if not own & inputs.keys() or where.operation not in ONLY_FOR.get(calculator.name, (where.operation,)):
            continue
        answer, lacks = None, None
        if missing := _missing(calculator, inputs, facts):
            if calculator.name in asks_all or (len(missing) == 1 and _asks(calculator)):
                lacks = _lack(missing, where.operation)
        else:
            answer, lacks = _worked(calculator, inputs, where.operation)
        if answer or (lacks and calculator.name not in NOT_ASKED):
            yield Sum(calculator, where.setup, where.operation, inputs, answer, lacks, where.at)


def _inputs(calculator: Calculator, facts: Mapping[str, str]) -> dict[str, str]:
    return {one.name: facts[one.name] for one in calculator.inputs if fits(one, facts.get(one.name))}


def _forces(facts: Mapping[str, str]) -> dict[str, str]:
    """The forces of the cut, as far as the chip's sum knows them."""
    chip = named_calculator(CHIP)
    inputs = _inputs(chip, facts)
    answer, _ = (None, None) if _missing(chip, inputs, facts) else _worked(chip, inputs)
    values = answer["values"] if answer else {}
    return {key: plain(values[key]["value"], "N") for key in FORCES if values.get(key, {}).get("value") is not None}


def _asks(calculator: Calculator) -> bool:
    """Whether its last fact is asked for: one that wants little would ask at every operation."""
    return sum(one.required for one in calculator.inputs) > 2


def _missing(calculator: Calculator, inputs: Mapping[str, str], facts: Mapping[str, str]) -> list[Quantity]:
    """What it requires and does not have; for a force of the cut, what that would be found from."""
    lacking = [one for one in calculator.inputs if one.required and one.name not in inputs]
    found = [each for one in lacking for each in (one.name in FORCES and _for_forces(facts)) or [one]]
    return list({one.name: one for one in found}.values())


def _for_forces(facts: Mapping[str, str]) -> list[Quantity]:
    chip = named_calculator(CHIP)
    there = _inputs(chip, facts).keys()
    either = [names[0] for names in EITHER if there.isdisjoint(names)]
    return [one for one in chip.inputs if (one.required and one.name not in there) or one.name in either]


def _worked(
    calculator: Calculator, inputs: Mapping[str, str], operation: str = ""
) -> tuple[dict[str, Any] | None, Lack | None]:
    """The answer; else what one of several is still missing, the two facts that disagree, or what cannot be read."""
    try:
        return work_out(calculator.name, inputs).to_dict(), None
    except Disagree as two:
        labels = {one.name: one.label.lower() for one in calculator.inputs}
        return None, Lack(f"two numbers of the sheet do not agree: {labels[two.field]}, {labels[two.other]}")
    except Refused as refused:
        field = INSTEAD.get(refused.field, refused.field)
        of = next((one for one in calculator.inputs if one.name == field), None)
        if of and of.name not in inputs:
            return None, _lack([of], operation) if _asks(calculator) else None
        unread = of and of.name in STOCK_TEXTS
        return None, Lack(f"{of.label.lower()} cannot be read ({inputs[of.name]})") if of and unread else None
    except ArithmeticError:
        return None, None


def _lack(missing: list[Quantity], operation: str) -> Lack:
    """What is missing, and where the first of it is kept."""
    called, first = {**CALLED[""], **CALLED.get(operation, {})}, missing[0].name
    labels = [SAID.get(one.name, one.label) for one in missing]
    told = [labels[0], *(one[0].lower() + one[1:] for one in labels[1:])]
    if len(told) > FEW + 1:
        told = [*told[:FEW], f"{len(told) - FEW} more"]
    return Lack("; ".join(told), called.get(first, first))


def fits(quantity: Quantity, text: str | None) -> bool:
    """Whether the sum can read it: some words stand for other things there."""
    if not text:
        return False
    try:
        read(text, quantity)
    except Refused:
        return False
    return True


def facts_for(where: Situation, job: Fields, settings: Fields) -> dict[str, str]:
    """Every fact of a situation by the name that a sum takes it under: the shop's first, the operation's last."""
    facts: dict[str, str] = {}
    holding = where.fields.get("holding", {})
    keys = {"machines": where.fields.get("machine"), "vices": holding.get("vice")}
    for kind in OF_THE_SHOP:
        facts |= _texts(named(settings, kind, keys[kind]))
    facts |= _texts(settings.get("saw", {})) | _texts(job.get("stock", {})) | _texts({"quantity": job.get("quantity")})
    for group in GROUPS:
        facts |= _texts(where.fields.get(group, {}))
    facts |= at_speed(named(settings, "machines", keys["machines"]), facts.get("spindle_speed"))
    for called in (CALLED[""], CALLED.get(where.operation, {})):
        facts |= {name: facts[fact] for name, fact in called.items() if fact in facts and name not in facts}
    material = from_words(" ".join(str(where.fields.get(key, "")) for key in ("material", "hardness")))
    if material:
        facts["material"] = material.key
    return facts


def at_speed(machine: Fields, speed: str | None) -> dict[str, str]:
    """Power and torque of a machine at a speed, between the points of its curve; nothing where it has none.

    >>> curve = [{"spindle_speed": "1000 rpm", "spindle_torque": "10 N*m"}, {"spindle_speed": "2000 rpm",
    ...          "spindle_torque": "6 N*m"}]
    >>> at_speed({"power_at": curve}, "1500")
    {'spindle_torque': '8 N*m'}
    """
    points = machine.get("power_at", ())
    if not points or not speed or not fits(SPEED, speed):
        return {}
    at = read(speed, SPEED).value
    found = {}
    for quantity in (POWER, TORQUE):
        curve = sorted((read(one["spindle_speed"], SPEED).value, read(one[quantity.name], quantity).value)
                       for one in points if quantity.name in one and "spindle_speed" in one)  # fmt: skip
        if curve and curve[0][0] <= at <= curve[-1][0]:
            found[quantity.name] = plain(_between(curve, at), quantity.unit)
    return found


def _between(curve: list[tuple[float, float]], at: float) -> float:
    high = next(n for n, (speed, _) in enumerate(curve) if speed >= at)
    (x1, y1), (x2, y2) = curve[max(high - 1, 0)], curve[high]
    return y2 if x1 == x2 else y1 + (y2 - y1) * (at - x1) / (x2 - x1)


def _texts(fields: Fields) -> dict[str, str]:
    return {key: value for key, value in fields.items() if isinstance(value, str)}

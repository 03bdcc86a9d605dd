"""What a job gives to a sum: every fact of a situation, under the name and in the words that the sum takes."""

from collections.abc import Iterator, Mapping

from calc.declare import Calculator
from calc.formulas.threads import thread_of
from calc.material_names import from_words, group_from_words
from calc.quantity import Quantity, Refused
from calc.show import plain
from calc.typed import read
from hooks.brief.situations import Fields, Situation, cutter_of, named

Facts = Mapping[str, str]
GROUPS = ("holding", "cutter", "cutting", "geometry")
OF_THE_SHOP = ("machines", "vices")
# Where a sum calls a fact otherwise, by operation ("" any): {input: fact}.
CALLED: Mapping[str, Mapping[str, str]] = {
    "": {"handle_torque": "torque", "bar_section": "bar"},
    "tap": {"thread_depth": "depth", "drill_diameter": "hole_diameter"},
    "thread_mill": {"thread_depth": "depth", "drill_diameter": "hole_diameter"},
    "drill": {"drill_diameter": "cutter_diameter", "full_depth": "depth"},
    "face": {"step_over": "radial_depth"},
    "finish_floor": {"step_over": "radial_depth"},
    "finish_3d": {"step_over": "radial_depth"},
    "chamfer": {"included_angle": "point_angle"},
}
# Two ways to say one thing: said later, one silences the other; said at once, the first counts, which is the measured.
EITHER_WAY = (("clamp_force", "handle_torque"),)
# Where a sum has another word for it: {(calculator, input): {word of the sheet: word of the sum}}.
WORDS: Mapping[tuple[str, str], Mapping[str, str]] = {
    ("chip-load", "tool_material"): {"indexable_carbide": "carbide", "diamond": "carbide"},
    ("stick-out", "tool_material"): {"indexable_carbide": "hss", "diamond": "carbide"},  # its body is steel
}
# What a word of the sheet says of a thread: {input: {fact: {word: what the sum takes}}}.
OF_A_TAP: Mapping[str, tuple[str, Mapping[str, str]]] = {
    "kind": ("tool_kind", {"form_tap": "form", "cut_tap": "cut"}),
    "hole": ("feature", {"through_hole": "through", "blind_hole": "blind"}),
}
UNPUBLISHED = "unpublished"  # a fact too: the tables have no force for this material, or for its hardness
SURFACES = ("finish_wall", "finish_floor", "finish_3d", "face")
SURFACE_BY = {"ball_end_mill": "ball", "fly_cutter": "fly"}  # which edge leaves the ridges
LENGTH = Quantity("length", "Length", "mm", above=0)
LEAST_HOLE = 0.7  # of a thread's diameter: what is drilled smaller is another hole
SPEED = Quantity("spindle_speed", "Spindle speed", "rpm")
TORQUE, POWER = Quantity("spindle_torque", "Torque", "N*m"), Quantity("spindle_power", "Power", "kW")


def called(operation: str) -> dict[str, str]:
    """{input: fact} at an operation."""
    return {**CALLED[""], **CALLED.get(operation, {})}


def facts_for(where: Situation, job: Fields, settings: Fields) -> dict[str, str]:
    """Every fact of a situation by the name that a sum takes it under: what the job says counts before the shop's."""
    facts: dict[str, str] = {}
    for layer in _layers(where, job, settings):
        told = {key: value for key, value in layer.items() if isinstance(value, str)}
        told = {name: told[fact] for name, fact in called(where.operation).items() if fact in told} | told
        for ways in EITHER_WAY:
            said = [way for way in ways if way in told]
            for way in ways if said else ():
                facts.pop(way, None)
                if way != said[0]:
                    told.pop(way, None)
        facts |= told
    machine = named(settings, "machines", where.fields.get("machine"))
    found = facts | at_speed(machine, facts.get("spindle_speed")) | _cut(where, facts) | _material(where)
    return found | _drilled(where, job, settings, found)


def _layers(where: Situation, job: Fields, settings: Fields) -> Iterator[Fields]:
    keys = {"machines": where.fields.get("machine"), "vices": where.fields.get("holding", {}).get("vice")}
    yield from (named(settings, kind, keys[kind]) for kind in OF_THE_SHOP)
    yield settings.get("saw", {})
    yield job.get("stock", {}) | {"quantity": job.get("quantity")}
    yield from (where.fields.get(group, {}) for group in GROUPS)


def _cut(where: Situation, facts: Facts) -> dict[str, str]:
    """What the kind of cut says without a number."""
    return (_deeper(facts) if where.operation == "profile" else {}) | _kind_of_cut(where, facts)


def _deeper(facts: Facts) -> dict[str, str]:
    """The lowest cut of an outside that is deeper than was said: it ends no higher than that under the blank's top."""
    depth, lowest = _mm(facts.get("depth")), _mm(facts.get("lowest_cut"))
    return {"lowest_cut": facts["depth"]} if depth and lowest and depth > lowest else {}


def _kind_of_cut(where: Situation, facts: Facts) -> dict[str, str]:
    if where.operation in SURFACES:
        usual = "wall" if where.operation == "finish_wall" else "flat"
        return {"tool_kind": SURFACE_BY.get(facts.get("tool_kind", ""), usual)}
    if where.operation == "tap":
        words = {name: of.get(facts.get(fact, ""), "") for name, (fact, of) in OF_A_TAP.items()}
        return {name: word for name, word in words.items() if word}
    if where.operation == "slot" and "radial_depth" not in facts and facts.get("direction") == "full_slot":
        return {"radial_depth": facts["cutter_diameter"]} if "cutter_diameter" in facts else {}
    return {}


def _drilled(where: Situation, job: Fields, settings: Fields, facts: Facts) -> dict[str, str]:
    """The hole that a tap finds, where it does not say itself: the last one drilled before it that may be its."""
    thread = thread_of(facts.get("thread", "")) if where.operation == "tap" else None
    if thread is None or "drill_diameter" in facts:
        return {}
    setup, place = where.at
    for operation in reversed(job["setups"][setup]["operations"][:place]):
        drill = cutter_of(operation, settings).get("cutter_diameter")
        size = _mm(drill) if operation.get("operation") == "drill" else None
        if size and LEAST_HOLE * thread.diameter <= size < thread.diameter:
            depth = operation.get("geometry", {}).get("depth")
            return {"drill_diameter": str(drill)} | ({"drilled_depth": depth} if isinstance(depth, str) else {})
    return {}


def _material(where: Situation) -> dict[str, str]:
    said, hardness = (str(where.fields.get(key) or "") for key in ("material", "hardness"))
    found = from_words(said, hardness)
    if found and found.kc11:
        return {"material": found.key}
    known = found or group_from_words(said, hardness)
    return ({"material": found.key} if found else {}) | ({UNPUBLISHED: "yes"} if known else {})


def inputs_of(calculator: Calculator, facts: Facts) -> dict[str, str]:
    """The facts that a sum can take, in its own words."""
    facts = _of_a_wall(facts) if calculator.name == "corner-clearance" else facts
    texts = {one.name: _in_its_words(calculator, one, facts.get(one.name)) for one in calculator.inputs}
    return {one.name: text for one in calculator.inputs if (text := texts[one.name]) and fits(one, text)}


def _of_a_wall(facts: Facts) -> Facts:
    """Without a width of cut that is no stock left on a wall: half the cutter and more is a slot, or roughing."""
    wide, cutter = _mm(facts.get("radial_depth")), _mm(facts.get("cutter_diameter"))
    no_stock = wide and cutter and wide >= cutter / 2
    return {name: text for name, text in facts.items() if name != "radial_depth"} if no_stock else facts


def _in_its_words(calculator: Calculator, quantity: Quantity, text: str | None) -> str | None:
    return WORDS.get((calculator.name, quantity.name), {}).get(text or "", text)


def _mm(text: str | None) -> float | None:
    """A length as typed; None where it is none."""
    return read(str(text), LENGTH).value if fits(LENGTH, text) else None


def fits(quantity: Quantity, text: str | None) -> bool:
    """Whether the sum can read it: some words stand for other things there."""
    if not text:
        return False
    try:
        read(text, quantity)
    except Refused:
        return False
    return True


def at_speed(machine: Fields, speed: str | None) -> dict[str, str]:
    """Power and torque of a machine at a speed, between the points of its curve; nothing where it has none.

    >>> curve = [{"spindle_speed": "1000 rpm", "spindle_torque": "10 N*m"}, {"spindle_speed": "2000 rpm",
    ...          "spindle_torque": "6 N*m"}]
    >>> at_speed({"power_at": curve}, "1500")
    {'spindle_torque': '8 N*m'}
    """
    points = machine.get("power_at", ())
    if not points or not fits(SPEED, speed):
        return {}
    at = read(str(speed), SPEED).value
    found = {}
    for quantity in (POWER, TORQUE):
        known = [one for one in points if all(fits(each, one.get(each.name)) for each in (SPEED, quantity))]
        curve = sorted((read(one[SPEED.name], SPEED).value, read(one[quantity.name], quantity).value) for one in known)
        if curve and curve[0][0] <= at <= curve[-1][0]:
            found[quantity.name] = plain(_between(curve, at), quantity.unit)
    return found


def _between(curve: list[tuple[float, float]], at: float) -> float:
    high = next(n for n, (speed, _) in enumerate(curve) if speed >= at)
    (x1, y1), (x2, y2) = curve[max(high - 1, 0)], curve[high]
    return y2 if x1 == x2 else y1 + (y2 - y1) * (at - x1) / (x2 - x1)

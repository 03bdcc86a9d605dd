"""What each tooth takes, what it asks of the spindle, and which limit runs out first."""

from collections.abc import Mapping

from calc.answer import Finding, Value
from calc.calculators.chip_advice import advice, shallower, too_deep
from calc.calculators.chip_drawing import drawing
from calc.calculators.chip_given import Given, given
from calc.calculators.chip_sums import LIMITS as FIRST_LIMITS
from calc.calculators.chip_sums import NEAR, Force, Sums, sums, verdict
from calc.calculators.chip_working import working
from calc.declare import Calculator, Guard
from calc.materials import MATERIALS
from calc.quantity import Quantity, Reading, at_least, at_most
from calc.show import number, rough, show

UNCERTAIN = 0.3  # of force and power: a judgement; published values differ by as much

INPUTS = (
    Quantity("cutter_diameter", "Cutter diameter", "mm", above=0, high=400, required=True, first=True),
    Quantity("teeth", "Teeth", "1", low=1, high=60, kind="whole", required=True, first=True),
    Quantity("spindle_speed", "Spindle speed", "rpm", "Or the cutting speed.", above=0, high=200000, first=True),
    Quantity("cutting_speed", "Cutting speed", "m/min", "Or the spindle speed.", above=0, high=5000, first=True),
    Quantity(
        "feed_per_tooth",
        "Feed per tooth",
        "mm",
        "Or the feed rate, or the chip.",
        above=0,
        high=5,
        first=True,
    ),
    Quantity("feed_rate", "Feed rate", "mm/min", "Or the feed per tooth.", above=0, high=100000, first=True),
    Quantity("radial_depth", "Width of cut, radial", "mm", above=0, high=400, required=True, first=True),
    Quantity("axial_depth", "Depth of cut, axial", "mm", above=0, high=400, required=True, first=True),
    Quantity(
        "material",
        "Material",
        help="Or a specific force of your own below.",
        kind="choice",
        choices=tuple(one.key for one in MATERIALS),
        first=True,
    ),
    Quantity(
        "feed_per_tooth_limit",
        "The maker's feed per tooth",
        "mm",
        "The most that the cutter's maker gives for this cut: tells how much you leave unused.",
        above=0,
        high=5,
        first=True,
    ),
    Quantity("spindle_power", "Spindle power", "kW", "The drive's rating.", above=0, high=500, first=True),
    Quantity(
        "spindle_torque",
        "Spindle torque at this speed",
        "N*m",
        "From the machine's curve. A fast spindle has little of it low down.",
        above=0,
        high=10000,
        first=True,
    ),
    Quantity("direction", "Direction", kind="choice", choices=("climb", "conventional"), default="climb"),
    Quantity("chip_thickness", "Greatest chip wanted", "mm", "In place of the feed per tooth.", above=0, high=5),
    Quantity(
        "entering_angle",
        "Entering angle",
        "deg",
        "90 for a square shoulder. The lead angle of inch catalogues is 90 less this.",
        low=10,
        high=90,
        default="90",
    ),
    Quantity("max_spindle_speed", "Fastest spindle speed", "rpm", above=0, high=200000),
    Quantity("max_cutter_speed", "Fastest speed of the cutter's body", "rpm", "Marked on it.", above=0, high=200000),
    Quantity("max_feed_rate", "Fastest feed", "mm/min", above=0, high=200000),
    Quantity("efficiency", "Efficiency of the drive", "1", above=0, high=1, default="0.8"),
    Quantity(
        "edge_radius",
        "Rounding of the cutting edge",
        "mm",
        "0.005 is a sharp edge (from memory). A chip thinner than this is rubbed, not cut.",
        above=0,
        high=1,
        default="0.005",
    ),
    Quantity("tool_material", "Cutter material", kind="choice", choices=("hss", "cobalt_hss", "carbide")),
    Quantity("flute_length", "Length of the flutes", "mm", "To see that the cut is no deeper.", above=0, high=500),
    Quantity(
        "specific_force_1_1",
        "Specific force kc1.1 of your own",
        "N/mm2",
        "For a chip of 1 mm by 1 mm. With its exponent.",
        above=0,
        high=20000,
    ),
    Quantity("chip_exponent", "Its exponent mc", "1", low=0, high=0.9),
)

OUTPUTS = (
    Quantity("feed_rate", "Feed rate", "mm/min"),
    Quantity("spindle_speed", "Spindle speed", "rpm"),
    Quantity("cutting_speed", "Cutting speed", "m/min"),
    Quantity("feed_per_tooth", "Feed per tooth", "mm"),
    Quantity("chip_thickness_max", "Greatest chip", "mm", "rubs when thinner than the edge is round"),
    Quantity("chip_thickness_mean", "Mean chip", "mm"),
    Quantity("engagement", "Cutter in metal", "deg"),
    Quantity("removal_rate", "Metal removed", "cm3/min"),
    Quantity("feed_reserve", "The feed could rise by", "1", "before the first limit"),
    Quantity("first_limit", "Limit that comes first", "1"),
    Quantity("power_use", "Share of the spindle's power", "1", "held to 0.8"),
    Quantity("torque_use", "Share of the spindle's torque", "1", "held to 0.8"),
    Quantity("spindle_power_needed", "Power the drive must give", "kW"),
    Quantity("cutting_power", "Power at the cutter", "kW"),
    Quantity("cutting_torque", "Torque at the cutter", "N*m"),
    Quantity("peak_force", "Force that holding must stand", "N", "1.3 for a worn edge is in it"),
    Quantity("wall_force", "Force that bends the cutter", "N", "square to the finished wall"),
    Quantity("tangential_force", "Mean force on one tooth in metal", "N"),
    Quantity("specific_force", "Specific force at the mean chip", "N/mm2", "no correction for the rake"),
)

LIMITS = (
    "A tooth's path is taken as a circle, the feed per tooth far smaller than the cutter, no run-out. Run-out as "
    "large as the chip gives one tooth most of the work.",
    "Force and power: straight teeth, rake 0, a sharp edge; about a third either way is to be expected. "
    "The law is fitted for chips of about 0.05 to 1 mm and says too little below 0.03 mm.",
    "Power without torque is half the truth: a fast spindle has little torque at low speed.",
    "Nothing here knows of deflection, chatter, chips that cannot get out, or how well the part is held.",
)
SOURCES = (
    "Chip, feed, speed and power: Mitsubishi Materials, technical information, formulae for milling.",
    "Force: O. Kienzle, VDI-Z 94 (1952), with values by VDI 3323 material groups (ISCAR).",
    "Quantities: ISO 3002-3.",
)
# Cutting speeds (m/min) over which high-speed steel soon goes soft: from memory.
SOFTENS = {"N": 120.0, "P": 40.0, "M": 25.0, "K": 35.0, "S": 12.0, "x": 200.0}


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one cut. Raises Refused where the numbers contradict each other."""
    g = given(readings)
    s = sums(g)
    word, deep = verdict(s), too_deep(readings)
    held = "stop" if deep else "watch" if g.clamped and word == "ok" else word
    return Finding(
        values=_values(g, s),
        verdict=held,
        reason=" ".join((*deep, *g.clamped, _reason(g, s, word))),
        advice=shallower(readings) if deep else advice(g, s),
        cautions=_cautions(g, s, readings),
        working=working(g, s),
        drawing=drawing(g, s),
        sources=(g.material.source,) if g.material and g.material.kc11 else (),
    )


def _values(g: Given, s: Sums) -> dict[str, Value]:
    no_force = "no specific force is known for this material; give kc1.1 and mc of your own"
    no_limit = "the maker's feed per tooth was not given: power alone would break small cutters"
    first = s.first_limit
    found = {
        "feed_rate": Value(g.feed, "mm/min"),
        "spindle_speed": Value(g.speed, "rpm"),
        "cutting_speed": Value(s.vc, "m/min"),
        "feed_per_tooth": Value(g.fz, "mm"),
        "chip_thickness_max": Value(s.thickest, "mm"),
        "chip_thickness_mean": Value(s.mean, "mm"),
        "engagement": Value(g.engagement, "deg"),
        "removal_rate": Value(s.removal, "cm3/min"),
        "feed_reserve": Value(s.reserves[first] if first else None, why=no_limit),
        "first_limit": Value(FIRST_LIMITS[first] if first else None, why=no_limit),
        "power_use": _share(s, s.power_use, lambda f: f.needed / (g.get("spindle_power") or 1), "spindle_power", g),
        "torque_use": _share(s, s.torque_use, lambda f: f.torque / (g.get("spindle_torque") or 1), "spindle_torque", g),
    }
    parts = {
        "spindle_power_needed": ("needed", "kW"),
        "cutting_power": ("power", "kW"),
        "cutting_torque": ("torque", "N*m"),
        "peak_force": ("peak", "N"),
        "wall_force": ("wall", "N"),
        "tangential_force": ("tangential", "N"),
        "specific_force": ("kc", "N/mm2"),
    }
    for name, (part, unit) in parts.items():
        found[name] = _uncertain(s, lambda force, part=part: getattr(force, part), unit, no_force)
    return {one.name: found[one.name] for one in OUTPUTS}


def _uncertain(s: Sums, take, unit: str, why: str) -> Value:
    """A force or power with how far it may be out: a third, or down to another edition's value."""
    if s.force is None:
        return Value(None, unit, why=why)
    value, lower = take(s.force), take(s.lower or s.force)
    return Value(value, unit, low=lower * (1 - UNCERTAIN), high=value * (1 + UNCERTAIN))


def _share(s: Sums, use: float | None, take, name: str, g: Given) -> Value:
    if use is None:
        return Value(None, why=f"{name} was not given" if s.force else "no specific force is known")
    return _uncertain(s, take, "1", "")


def _reason(g: Given, s: Sums, word: str) -> str:
    chip = f"Each tooth takes a chip of at most {rough(s.thickest, 'mm')}"
    over = [text for text, use in _uses(s) if not at_most(use, 1.0)]
    near = [text for text, use in _uses(s) if at_least(use, NEAR)]
    first = s.first_limit
    if over:
        return f"Too much for {' and '.join(over)}. {chip}."
    if s.rubbing:
        return f"{chip}, thinner than the edge is round: it rubs more than it cuts."
    told = f"{chip}."
    if first:
        times = number(s.reserves[first], "1")
        limit = FIRST_LIMITS[first]
        told = f"{limit[0].upper()}{limit[1:]} runs out first, at {times} times this feed. {told}"
    if near:
        return f"Close to {' and '.join(near)}. {told}"
    if word == "watch":
        return f"{told} Whether the spindle has the torque is not known: give it, from the machine's curve."
    return f"{told} Nothing found by this calculator."


def _uses(s: Sums) -> list[tuple[str, float]]:
    pairs = (
        (f"the spindle's power ({_times(s.power_use)} of it)", s.power_use),
        (f"the spindle's torque ({_times(s.torque_use)} of it)", s.torque_use),
        (f"the maker's feed per tooth ({_times(s.feed_use)} of it)", s.feed_use),
    )
    return [(text, use) for text, use in pairs if use is not None]


def _times(use: float | None) -> str:
    return rough(use or 0.0, "1")


def _cautions(g: Given, s: Sums, readings: Mapping[str, Reading]) -> tuple[str, ...]:
    found = []
    if s.rubbing:
        found.append(
            "Rubbing heats and work-hardens the part and builds up an edge; in stainless steel and titanium it "
            "ruins the cutter."
        )
    if s.lower is not None and g.material is not None:
        found.append(f"Published values differ: {g.material.source}. The larger is used, the range shows both.")
    if isinstance(s.force, Force) and s.mean < 0.03:
        found.append("The mean chip is under 0.03 mm: force and power are really higher than shown.")
    if g.feed > 0 and g.material and "tool_material" in readings and readings["tool_material"].value != "carbide":
        fastest = SOFTENS[g.material.iso513]
        if s.vc > fastest:
            found.append(
                f"High-speed steel soon goes soft over about {show(fastest, 'm/min')} in this group (from memory); "
                "the maker's table decides."
            )
    if any(not at_most(use, 1.0) for _, use in _uses(s)):
        found.append("An overloaded cutter can break and throw pieces. Guard closed; follow the machine's manual.")
    return tuple(found)


CHIP_LOAD = Calculator(
    name="chip-load",
    title="Chip, force and power",
    step="cutter",
    question="Is the cutter fed too gently or too hard?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="feed_rate",
    find=find,
    example={
        "cutter_diameter": "6 mm",
        "teeth": "3",
        "spindle_speed": "18000 rpm",
        "feed_per_tooth": "0.02 mm",
        "radial_depth": "3 mm",
        "axial_depth": "3 mm",
        "material": "aluminium_hardened",
        "feed_per_tooth_limit": "0.06 mm",
        "spindle_power": "1.5 kW",
        "spindle_torque": "0.8 N*m",
    },
    guard=Guard("chip_thickness_max", at_least="0.01 mm"),
    about=(
        "A cutter that is fed too gently rubs, heats and wears; fed too hard it breaks or stalls the spindle. "
        "Between the two lies much more room than most beginners use.",
        "Give the maker's feed per tooth and the sum says how many times faster you could go before something "
        "runs out, and what that is. It cannot see a cutter that sticks out too far or a part held badly.",
    ),
    limits=LIMITS,
    sources=SOURCES,
)

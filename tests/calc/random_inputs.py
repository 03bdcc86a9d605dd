"""Random inputs for a calculator, made from its declaration: usual numbers, edges, inches, and nonsense."""

import math
import random

from calc.catalogue import named
from calc.quantity import Quantity
from calc.units import INCH_SIDE, factor

TYPICAL = {
    "mm": (0.01, 60.0), "mm/min": (20.0, 8000.0), "rpm": (200.0, 24000.0), "m/min": (5.0, 800.0), "deg": (20.0, 160.0),
    "kW": (0.2, 20.0), "N*m": (0.2, 80.0), "N/mm2": (300.0, 4000.0), "m/s2": (0.1, 20.0), "1": (0.1, 10.0),
    "mm/100 mm": (0.0, 2.0), "N": (20.0, 20000.0), "N/um": (1.0, 100.0), "Hz": (50.0, 5000.0), "min": (0.5, 300.0),
    "um": (0.2, 100.0), "cm3": (0.1, 5000.0), "degC": (-10.0, 120.0), "um/(m K)": (1.0, 200.0),
    "cm3/min": (0.1, 500.0),
}  # fmt: skip
TEXTS = {
    "bar_section": ("60 x 40", "round 80", "2 in x 1 in", "200 x 200", "flat"),
    "hole": ("H7", "H6", "K7", "JS8", "N9", "P7", "M6", "h7", "H12"),
    "shaft": ("g6", "h6", "k6", "m6", "n6", "p6", "s7", "f7", "js6", "z6"),
    "thread": (
        "M6",
        "M10x1.25",
        "1/4-20 UNC",
        "#8-32",
        "1 1/8-7",
        "M3",
        "M99",
        "1/4-36 UNS",
        "M16 x 1,5",
        "1-8 UNC",
        "M8x1.25",
    ),
    "value": (
        "6 mm",
        '1/4"',
        "300 sfm",
        "20 °C",
        "-40 F",
        "5 hp",
        "12 lbf",
        "3 kg",
        "60 HRC",
        "7",
        "1e3 N",
        "0 K",
        "½ in",
    ),
    "obstacle_names": ("part", "part; vice", "clamp 12 mm, guard", "a; b; c; d; e", "the door"),
    "material": ("", "5083", "bronze, old stock"),
    "target": ("", "", "in", "mm", "m/min", "K", "kW", "thou", "oz", "parsec"),
}
# Where usual numbers of a unit would not go together.
BY_NAME = {
    "removed_volume": (0.5, 50.0), "removal_rate": (5.0, 500.0), "measured_time": (5.0, 300.0),
    "nominal_diameter": (1.0, 450.0), "magnet_diameter": (3.0, 40.0), "magnet_thickness": (1.0, 20.0),
    "gap": (0.01, 6.0), "jaw_mass": (0.05, 20.0), "remanence": (0.2, 1.5),
    "saw_kerf": (0.5, 5.0), "stub": (5.0, 150.0),
    "fit_clearance": (0.01, 0.6), "program_length": (5000.0, 100000.0), "included_angle": (20.0, 140.0),
    "max_ramp_angle": (0.5, 30.0),
}  # fmt: skip
PAIRS = ("travel_x", "travel_y", "travel_z")  # lists that hold a lower and a higher end
NONSENSE = ("", "?", "1,500", "1/4", "-3", "nan", "1e999", "6 kg", "0", "abc def", "7:24", "NO", "½", "9" * 60)
LEFT_OUT, INCHES, ODD, EDGES, BOTH = 0.45, 0.3, 0.005, 0.03, 0.05

# One of each is taken, both only now and then: given twice they would hardly ever agree.
EITHER = {
    "facing": ((("spindle_speed",), ("cutting_speed",)),),
    "v-cutter": ((("depth",), ("width",)),),
    "ramp-entry": (((), ("hole_diameter", "pitch")),),
    "surface-finish": ((("cutter_diameter", "step_over", "feed_per_tooth"),),),
    "cycle-time": ((("measured_time",), ("program_length", "feed_rate")),),
    "thread-mill": (
        ((), (), (), (), ("drill_diameter",), ("rod_diameter",)),
        (*[()] * 7, ("thread_class",)),
        ((), ("tip_flat",)),
    ),
    "thermal-growth": ((("part_material",), ("part_coefficient",)), ((), ("scale_material",), ("scale_coefficient",))),
    "travel-clearance": (
        (
            ("obstacles",),
            ("obstacles", "obstacle_names"),
            ("work_zero", "travel_z", "holder_length"),
            ("obstacles", "work_zero", "travel_x", "travel_y", "travel_z", "holder_length"),
        ),
    ),
    "heights": ((("grip_height",), ("jaw_height",)),),
    "clamping": ((("clamp_force",), ("handle_torque",)),),
    "chip-load": (
        (("spindle_speed",), ("cutting_speed",)),
        (("feed_per_tooth",), ("feed_rate",), ("chip_thickness",)),
        (("material",), ("specific_force_1_1", "chip_exponent")),
    ),
    "corner-clearance": (
        (("corner_radius", "radial_depth"), ("pocket_width", "radial_depth"), ("pocket_width",)),
        ((), ("feed_rate",), ("feed_rate", "corner_feed_rate")),
    ),
}
# Usual sizes of one length in cutter diameters, so that most cases are cuts that somebody could take.
IN_DIAMETERS = {
    "corner_radius": (0.45, 4.0), "pocket_width": (0.95, 6.0), "radial_depth": (0.005, 0.4), "axial_depth": (0.05, 2.0),
    "roughing_cutter_diameter": (0.5, 3.0), "feed_per_tooth": (0.001, 0.02), "chip_thickness": (0.001, 0.02),
    "hole_diameter": (1.02, 3.0), "drill_diameter": (0.7, 1.0), "flute_length": (1.0, 4.0), "stick_out": (2.0, 8.0),
    "pitch": (0.02, 0.3), "tip_flat": (0.001, 0.1), "step_over": (0.01, 0.4), "nose_radius": (0.02, 0.3),
    "feed_per_tooth_limit": (0.003, 0.02), "edge_radius": (0.0002, 0.003), "cutter_diameter": (1.0, 1.0),
    "part_length": (2.0, 20.0), "part_width": (1.5, 12.0), "part_corner_radius": (0.005, 0.8), "jaw_gap": (0.3, 2.0),
    "jaw_thickness": (1.5, 9.0), "jaw_length": (6.0, 60.0), "relief_diameter": (0.6, 1.6), "corner_room": (0.002, 0.2),
    "clearance_across": (0.002, 0.3), "step_depth": (0.3, 2.0), "wall_wanted": (0.2, 1.5),
}  # fmt: skip


def random_inputs(name: str, seed: int, count: int) -> list[dict[str, str]]:
    """`count` sets of inputs as typed; the same for the same seed. Some are refused: both Pythons must say so alike."""
    chance = random.Random(f"{name} {seed}")
    calculator = named(name)
    made = [_one(name, calculator.inputs, chance) for _ in range(count - 1)]
    return [dict(calculator.example), *made]


def _one(name: str, inputs: tuple[Quantity, ...], chance: random.Random) -> dict[str, str]:
    scale = 10 ** chance.uniform(-0.3, 1.5)  # lengths of one case go together: mm
    choices = EITHER.get(name, ())
    paired = {key for ways in choices for way in ways for key in way}
    taken = {key for ways in choices for key in chance.choice(ways)}
    if choices and chance.random() < BOTH:
        taken |= paired
    wanted = [one for one in inputs if one.required or one.name in taken or _extra(one, paired, chance)]
    return {one.name: _typed(one, scale, chance) for one in wanted}


def _extra(quantity: Quantity, paired: set[str], chance: random.Random) -> bool:
    return quantity.name not in paired and chance.random() > LEFT_OUT


def _typed(quantity: Quantity, scale: float, chance: random.Random) -> str:
    if chance.random() < ODD:
        return chance.choice(NONSENSE)
    if quantity.kind in ("choice", "yes_no"):
        return chance.choice(quantity.choices or ("yes", "no"))
    if quantity.kind == "list":
        return _list(quantity, chance)
    if quantity.kind == "text":
        return chance.choice(TEXTS[quantity.name])
    if quantity.kind == "whole":
        return str(chance.randint(1, 12))
    if quantity.kind in SHAPED:
        return SHAPED[quantity.kind](quantity, scale, chance)
    return _number(quantity, scale, chance)


def _list(quantity: Quantity, chance: random.Random) -> str:
    if quantity.name in PAIRS:
        low = chance.uniform(-500, 20)
        return f"{low:.4g},{low + chance.uniform(50, 700):.4g} {quantity.unit}"
    if quantity.name == "bar_lengths":
        return ", ".join(f"{chance.choice((1000, 2000, 2500, 3000, 6000))}" for _ in range(chance.randint(1, 3)))
    return ",".join(str(chance.randint(0, 2)) for _ in range(3))


def _pieces(quantity: Quantity, _scale: float, chance: random.Random) -> str:
    """Pieces for the saw or cutters with their teeth, now and then in inches."""
    unit = chance.choice(("", " mm", " in"))
    longest = min(quantity.high or 700.0, 700.0) / (25.4 if unit == " in" else 1.0)
    lengths = [f"{chance.uniform(0.05 * longest, longest):.4g}" for _ in range(chance.randint(1, 6))]
    return ", ".join(f"{length} x {chance.randint(1, 12)}" for length in lengths) + unit


def _point(quantity: Quantity, scale: float, chance: random.Random) -> str:
    """One point, as far out as lengths of this case go."""
    return _joined([_place(scale, chance)], quantity, chance)


def _points(quantity: Quantity, scale: float, chance: random.Random) -> str:
    """One to five points; now and then two of them above each other."""
    found = [_place(scale, chance) for _ in range(chance.randint(1, 5))]
    if len(found) > 1 and chance.random() < 0.3:
        found[1][:2] = found[0][:2]
    return _joined(found, quantity, chance)


def _boxes(quantity: Quantity, scale: float, chance: random.Random) -> str:
    """One to four boxes, either corner first."""
    found = []
    for _ in range(chance.randint(1, 4)):
        one = _place(scale, chance)
        two = [at + chance.choice((-1, 1)) * scale * chance.uniform(0.1, 3) for at in one]
        found.append(one + two)
    return _joined(found, quantity, chance)


def _place(scale: float, chance: random.Random) -> list[float]:
    return [scale * chance.uniform(-5, 5) for _ in range(3)]


def _joined(rows: list[list[float]], quantity: Quantity, chance: random.Random) -> str:
    """Rows as typed, within the limits of the quantity: commas within, semicolons between, one unit at the end."""
    other = INCH_SIDE.get(quantity.unit)
    unit = other if other and chance.random() < INCHES else quantity.unit
    size = float(factor(quantity.unit, unit))
    low, high = (math.inf * sign if edge is None else edge for sign, edge in ((-1, quantity.low), (1, quantity.high)))
    held = [[size * min(max(at, low), high) for at in row] for row in rows]
    return "; ".join(",".join(f"{at:.4f}" for at in row) for row in held) + f" {unit}".removesuffix(" 1")


SHAPED = {"pieces": _pieces, "point": _point, "points": _points, "boxes": _boxes}


def _number(quantity: Quantity, scale: float, chance: random.Random) -> str:
    edges = [edge for edge in (quantity.low, quantity.high) if edge is not None]
    if edges and chance.random() < EDGES:
        return f"{chance.choice(edges):g} {quantity.unit}".removesuffix(" 1")
    low, high = BY_NAME.get(quantity.name) or TYPICAL[quantity.unit]
    value = math.exp(chance.uniform(math.log(max(low, 0.01)), math.log(high)))
    if quantity.name in IN_DIAMETERS:
        value = scale * math.exp(chance.uniform(*map(math.log, IN_DIAMETERS[quantity.name])))
    if not _allowed(value, quantity) and chance.random() > ODD:
        value = chance.uniform(quantity.low or quantity.above or 0.0, quantity.high or high)
    other = INCH_SIDE.get(quantity.unit)
    if other and chance.random() < INCHES:
        return f"{value * float(factor(quantity.unit, other)):.4g} {other}"
    return f"{value:.4g} {quantity.unit}".removesuffix(" 1")


def _allowed(value: float, quantity: Quantity) -> bool:
    return (quantity.low or 0.0) <= value <= (quantity.high or math.inf) and value > (quantity.above or 0.0)

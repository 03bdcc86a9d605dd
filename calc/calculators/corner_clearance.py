"""The cutter in an inside corner: how deep it is in, what rises there, and the ways out."""

from collections.abc import Mapping

from calc.answer import Finding, Value
from calc.calculators.corner_advice import advice, largest_cutter
from calc.calculators.corner_drawing import drawing
from calc.calculators.corner_given import Given, given
from calc.calculators.corner_sums import Sums, sums, verdict
from calc.calculators.corner_working import working
from calc.declare import Calculator, Guard
from calc.quantity import Quantity, Reading
from calc.show import rough, show

LONGEST_MM = 5000.0

INPUTS = (
    Quantity("cutter_diameter", "Cutter diameter", "mm", "", above=0, high=200, required=True, first=True),
    Quantity(
        "pocket_width",
        "Pocket or slot width",
        "mm",
        "Finished width where the cutter turns. Alone, it stands for a pocket with a round end.",
        above=0,
        high=LONGEST_MM,
        first=True,
    ),
    Quantity(
        "corner_radius",
        "Inside corner radius",
        "mm",
        "Finished, as on the drawing. Left empty: half the width, a round end.",
        above=0,
        high=LONGEST_MM,
        first=True,
    ),
    Quantity(
        "radial_depth",
        "Stock left on the wall",
        "mm",
        "What this pass takes off the straight wall. With a width alone: what a pass down the middle leaves.",
        above=0,
        high=200,
        first=True,
        kept=True,
    ),
    Quantity(
        "roughing_cutter_diameter",
        "Diameter of the roughing cutter",
        "mm",
        "A larger one left more metal in the corner than on the wall. Empty: it left the same everywhere.",
        above=0,
        high=400,
    ),
    Quantity(
        "feed_rate",
        "Feed on the straight",
        "mm/min",
        "Of the cutter's centre.",
        above=0,
        high=60000,
        first=True,
    ),
    Quantity(
        "corner_feed_rate",
        "Feed in the corner",
        "mm/min",
        "Of the cutter's centre, where it is slowed down. Needs the feed on the straight.",
        above=0,
        high=60000,
    ),
    Quantity(
        "corner_angle",
        "Angle between the walls",
        "deg",
        "Measured inside the pocket: 90 for a square one.",
        low=10,
        high=170,
        default="90",
    ),
    Quantity(
        "acceleration",
        "Acceleration of the machine",
        "m/s2",
        "From the machine's manual: tells the feed it can hold on the cutter centre's small arc.",
        above=0,
        high=100,
    ),
    Quantity(
        "rise_limit",
        "Times more metal that you allow",
        "1",
        "In the corner against the straight; used to pick the largest cutter.",
        low=1,
        high=100,
        default="4",
    ),
)

OUTPUTS = (
    Quantity("like_straight_depth", "Like taking this off a straight wall", "mm", "ok up to a tenth of the cutter"),
    Quantity("corner_engagement", "Cutter in metal, in the corner", "deg", "held to 75°, or as on the straight"),
    Quantity("straight_engagement", "Cutter in metal, on the straight", "deg"),
    Quantity("removal_rate_rise", "Times more metal in the corner", "1", "ok up to 2, or what you allow"),
    Quantity("chip_thickness_rise", "Times thicker chip in the corner", "1"),
    Quantity("wall_travel_rise", "Times more wall passed by each tooth", "1", "feed marks grow with it"),
    Quantity("diametral_clearance", "Pocket wider than the cutter by", "mm"),
    Quantity("radius_ratio", "Corner radius to cutter radius", "1"),
    Quantity(
        "leftover_thickness",
        "Left in the corner by the roughing cutter",
        "mm",
        "beyond the stock on the wall",
    ),
    Quantity("feed_rate_for_removal", "Corner feed for no more metal than on the straight", "mm/min"),
    Quantity("feed_rate_for_chip", "Corner feed for no thicker a chip", "mm/min"),
    Quantity("feed_rate_reachable", "Feed the machine can hold round the corner", "mm/min"),
    Quantity("largest_cutter", "Largest usual cutter for this corner", "mm", "within the rise you allow"),
)

LIMITS = (
    "A tooth's path is taken as a circle: the feed per tooth must be far smaller than the cutter.",
    "Straight teeth, a stiff cutter and no run-out. A cutter that bends cuts less here and more later.",
    "Either even stock all round, or what one larger cutter left in this corner.",
    "The verdict is a judgement: ok up to twice the metal with at most 75° of the cutter in it (or hardly "
    "more than on the straight), or up to 4 times the metal where that is like at most a tenth of the cutter "
    "off a straight wall.",
    "A control with cutter compensation may slow down in inside arcs by itself. Do not correct twice.",
)

SOURCES = (
    "Steady engagement in an inside arc: Sandvik Coromant, threading application guide, p. 117.",
    "Other corners and larger roughing cutters: own derivation, checked against swept areas.",
    "Engagement: ISO 3002-3.",
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one corner. Raises Refused where the numbers contradict each other."""
    g = given(readings)
    s = sums(g)
    largest = largest_cutter(g)
    word = verdict(g, s)
    return Finding(
        inputs=g.inputs,
        values=_values(g, s, largest),
        verdict=word,
        reason=_reason(g, s, word),
        advice=advice(g, s, largest) if word != "ok" else (),
        cautions=_cautions(g, s, word),
        working=working(g, s),
        drawing=drawing(g, s),
    )


def _values(g: Given, s: Sums, largest: tuple[float, str] | None) -> dict[str, Value]:
    no_fit = "the cutter does not fit into the corner"
    no_feed = "the feed on the straight was not given"
    feeds = no_feed if g.feed is None else no_fit
    known = {
        "like_straight_depth": (s.like_straight, no_fit),
        "corner_engagement": (s.corner, no_fit),
        "straight_engagement": (s.straight, ""),
        "removal_rate_rise": (s.removal_rise, no_fit),
        "chip_thickness_rise": (s.chip_rise, no_fit),
        "wall_travel_rise": (s.wall_rise, "the cutter turns on the spot: one tooth passes all of the corner")
        if s.fits
        else (None, no_fit),
        "diametral_clearance": (g.clearance, ""),
        "radius_ratio": (g.corner_radius / g.cutter_radius, ""),
        "leftover_thickness": (s.leftover, ""),
        "feed_rate_for_removal": (s.feed_for_removal, feeds),
        "feed_rate_for_chip": (s.feed_for_chip, feeds),
        "feed_rate_reachable": (
            s.feed_reachable,
            no_fit if g.acceleration else "the acceleration was not given",
        ),
        "largest_cutter": (largest[0] if largest else None, "no usual size stays within the rise you allow"),
    }
    units = {one.name: one.unit for one in OUTPUTS}
    return {one.name: Value(known[one.name][0], units[one.name], why=known[one.name][1] or None) for one in OUTPUTS}


def _reason(g: Given, s: Sums, word: str) -> str:
    if not s.fits:
        return (
            f"The cutter of {show(2 * g.cutter_radius, 'mm')} does not fit into this corner: its radius is "
            f"{show(g.cutter_radius, 'mm')}, the corner's {show(g.corner_radius, 'mm')}."
        )
    slowed = " at the slower feed" if g.feed_share != 1 else ""
    like = f"In the corner{slowed} this is like taking {rough(s.like_straight, 'mm')} off a straight wall"
    told = f"{like}, not {rough(g.stock, 'mm')}"
    if word == "ok":
        return f"{told}. Nothing found by this calculator."
    more, inside = rough(s.removal_rise, "1"), rough(s.corner, "deg")
    return f"{told}: {more} times the metal, with {inside} of the cutter in it, not {rough(s.straight, 'deg')}."


def _cautions(g: Given, s: Sums, word: str) -> tuple[str, ...]:
    found = []
    if g.fills_slot:
        found.append("With this stock the cutter touches the opposite wall as well; this sum sees one wall only.")
    if s.fits and s.wall_rise is None:
        found.append("Cutter and corner are the same size: it stops at the turn, rubs there and marks the corner.")
    if word == "stop":
        found.append(
            "A cutter that digs in can break and throw pieces. Keep the guard closed, your hands out, "
            "and follow the machine's manual."
        )
    return tuple(found)


CORNER_CLEARANCE = Calculator(
    name="corner-clearance",
    title="Cutter in a corner",
    step="cutter",
    question="Will it dig in at the corner?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="like_straight_depth",
    find=find,
    example={
        "cutter_diameter": "6 mm",
        "pocket_width": "6.8 mm",
        "radial_depth": "0.4 mm",
        "feed_rate": "600 mm/min",
    },
    guard=Guard("removal_rate_rise", at_most="4"),
    about=(
        "On a straight wall a finishing cutter bites with a small part of its rim. In an inside corner the "
        "wall wraps round it: the nearer the corner is to the cutter's own radius, the more of the rim is in "
        "metal, though the stock on the wall is the same.",
        "Use it before finishing any pocket or slot that is not much wider than the cutter. "
        "It says nothing about chips that cannot get out, a worn edge, or a cutter that sticks out too far.",
    ),
    limits=LIMITS,
    sources=SOURCES,
    bench_note="corners",
)

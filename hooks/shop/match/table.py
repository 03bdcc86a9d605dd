"""What is compared, and how much each fact counts: the one table of weights, explained on the page about matching.

Set by judgement of the trade, no source; the ratios weigh most because they decide engagement and stiffness whatever
the size of the part.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Row:
    """One fact that is compared, and what it counts.

    `how`: same = equal keys; any = one key of several; near = numbers compared by their ratio, where one that
    is `halves` times the other counts half; shared = the part of both lists of keys that they have in common;
    words = rare words in common, a tie-break on top of what could agree.
    """

    name: str
    said: str
    how: str
    weight: float
    halves: float = 0.0
    unit: str = "1"


# How much each fact says about whether a lesson fits. Set by judgement of the trade, no source; the
# ratios weigh most because they decide engagement and stiffness whatever the size of the part.
ROWS = (
    Row("operation", "operation", "same", 2.0),
    Row("operation_family", "sort of operation", "same", 1.5),
    Row("feature", "feature", "same", 2.0),
    Row("tool_kind", "kind of cutter", "same", 1.0),
    Row("tool_family", "sort of cutter", "same", 1.0),
    Row("iso513", "material group", "same", 2.0),
    Row("material", "material", "same", 1.0),
    Row("holding_kind", "way of holding", "same", 1.0),
    Row("holding_family", "sort of holding", "same", 1.0),
    Row("finder_kind", "kind of finder", "same", 1.5),
    Row("stage", "stage", "any", 1.5),
    Row("kind", "kind of mishap", "same", 1.5),
    Row("machine", "machine", "same", 0.5),
    Row("contributing", "what helped it to happen", "shared", 3.0),
    Row("surface", "marks on the surface", "shared", 2.5),
    Row("tool_state", "state of the cutter", "shared", 2.0),
    Row("corner_to_cutter", "corner radius to cutter radius", "near", 3.0, 1.15),
    Row("width_to_cutter", "pocket width to cutter diameter", "near", 3.0, 1.3),
    Row("stick_out_to_cutter", "stick-out to cutter diameter", "near", 2.0, 1.4),
    Row("depth_to_cutter", "axial depth to cutter diameter", "near", 1.5, 1.7),
    Row("engagement", "radial depth to cutter diameter", "near", 1.5, 1.7),
    Row("cutter_diameter", "cutter diameter", "near", 1.0, 1.5, "mm"),
    Row("feed_per_tooth", "feed per tooth", "near", 1.0, 1.6, "mm"),
    Row("wall_thickness", "wall thickness", "near", 2.0, 1.5, "mm"),
    Row("floor_thickness", "floor thickness", "near", 2.0, 1.5, "mm"),
    Row("hole_diameter", "hole diameter", "near", 1.0, 1.4, "mm"),
    Row("hardness", "hardness (HRC)", "near", 1.0, 1.15),
    Row("words", "words", "words", 2.0),
)
# Sorts within a vocabulary: what is alike though its word differs.
FAMILIES = {
    "operation_family": ("operation", {
        "walls": "profile pocket slot rough_constant_engagement finish_wall ramp_or_helix_entry plunge",
        "flats": "face finish_floor finish_3d",
        "edges": "chamfer engrave countersink hand_deburr",
        "holes": "spot_drill drill ream bore counterbore",
        "threads": "tap thread_mill",
        "sawing": "saw",
        "finding": "find_edge indicate",
    }),
    "tool_family": ("tool_kind", {
        "end mills": "end_mill slot_drill roughing_cutter ball_end_mill bull_nose",
        "face cutters": "face_mill fly_cutter",
        "points": "chamfer_mill engraver countersink centre_drill spot_drill",
        "hole tools": "twist_drill reamer boring_head",
        "thread tools": "cut_tap form_tap thread_mill",
        "saws": "slitting_saw t_slot dovetail",
        "finders": "edge_finder indicator",
    }),
    "holding_family": ("holding_kind", {
        "vice": "vice_hard_jaws vice_on_parallels vice_soft_jaws",
        "clamps": "toe_clamps strap_clamps",
        "round": "three_jaw collet_block mandrel rotary_axis",
        "flat": "fixture_plate vacuum magnets tape_or_glue",
    }),
}  # fmt: skip
# Added whatever the facts: for what it could have come to, and where nothing proves its cure.
SEVERITY, UNPROVEN = 1.0, 0.5
OUTCOMES = ("nothing", "rework", "scrapped_part", "broken_tool", "damaged_machine", "hurt_person")
PROVEN = ("held", "kept", "retired")
LEAST_OWN = 4.0  # a lesson that says next to nothing is not like everything
NOT_OF_JOBS = ("kind", "contributing", "surface", "tool_state", "words")  # known only once something has happened

"""What is compared, and how much each fact counts: the one table of weights, explained on the page about matching.

Set by judgement of the trade, no source. The danger and the stage weigh most, then the ratios: they decide engagement
and stiffness whatever the size of the part. Which facts bear on which danger is in dangers.py.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Row:
    """One fact that is compared, and what it counts.

    `how`: same = equal keys; any = one key of several; among = one key of several, where another contradicts
    nothing, since a job has more stages and dangers than its sheet names; near = numbers compared by their ratio,
    where one that is `halves` times the other counts half; shared = the part of both lists of keys that they have
    in common; words = rare words in common, a tie-break that is added to the likeness.
    """

    name: str
    said: str
    how: str
    weight: float
    halves: float = 0.0
    unit: str = "1"


ROWS = (
    Row("danger", "danger", "among", 3.0),
    Row("stage", "stage", "among", 3.0),
    Row("stage_family", "sort of stage", "among", 1.5),
    Row("operation", "operation", "same", 2.0),
    Row("operation_family", "sort of operation", "any", 1.5),
    Row("pass", "pass", "same", 1.0),
    Row("feature", "feature", "same", 2.0),
    Row("feature_family", "sort of feature", "any", 1.5),
    Row("tool_kind", "kind of cutter", "same", 1.0),
    Row("tool_family", "sort of cutter", "any", 1.0),
    Row("iso513", "material group", "same", 1.5),
    Row("material", "material", "any", 1.0),
    Row("holding_kind", "way of holding", "same", 1.0),
    Row("holding_family", "sort of holding", "any", 1.0),
    Row("finder_kind", "kind of finder", "same", 1.5),
    Row("kind", "kind of mishap", "same", 1.5),
    Row("machine", "machine", "same", 0.5),
    Row("contributing", "what helped it to happen", "shared", 3.0),
    Row("surface", "marks on the surface", "shared", 2.5),
    Row("tool_state", "state of the cutter", "shared", 2.0),
    Row("corner_to_cutter", "corner radius to cutter radius", "near", 3.0, 1.15),
    Row("width_to_cutter", "pocket width to cutter diameter", "near", 3.0, 1.2),
    Row("stick_out_to_cutter", "stick-out to cutter diameter", "near", 2.0, 1.4),
    Row("grip_to_cutter", "depth held to cutter diameter", "near", 2.0, 2.0),
    Row("depth_to_cutter", "axial depth to cutter diameter", "near", 1.5, 1.7),
    Row("engagement", "radial depth to cutter diameter", "near", 1.5, 1.7),
    Row("cutter_diameter", "cutter diameter", "near", 1.0, 1.5, "mm"),
    Row("feed_per_tooth", "feed per tooth", "near", 1.0, 1.6, "mm"),
    Row("cutting_speed", "cutting speed", "near", 1.0, 1.5, "m/min"),
    Row("wall_thickness", "wall thickness", "near", 2.0, 1.5, "mm"),
    Row("floor_thickness", "floor thickness", "near", 2.0, 1.5, "mm"),
    Row("hole_diameter", "hole diameter", "near", 1.0, 1.4, "mm"),
    Row("hardness", "hardness (HRC)", "near", 1.0, 1.15),
    Row("words", "words", "words", 0.2),
)
# Sorts within a vocabulary: what is alike though its word differs.
FAMILIES = {
    "operation_family": ("operation", {
        "outsides": "profile rough_constant_engagement finish_wall",
        "insides": "pocket slot rough_constant_engagement finish_wall",
        "entries": "ramp_or_helix_entry plunge",
        "flats": "face finish_floor finish_3d",
        "edges": "chamfer engrave countersink hand_deburr",
        "holes": "spot_drill drill ream bore counterbore",
        "threads": "tap thread_mill",
        "sawing": "saw",
        "finding": "find_edge indicate",
    }),
    "feature_family": ("feature", {
        "flats": "open_face datum_face",
        "outsides": "step boss free_form",
        "narrow places": "slot closed_pocket",
        "corners": "inside_corner open_pocket",
        "thin places": "thin_wall thin_floor",
        "holes": "through_hole blind_hole cross_hole thread",
        "edges": "chamfer",
    }),
    "stage_family": ("stage", {
        "the blank": "saw square_blank",
        "the program": "plan program dry_run first_part",
        "holding and turning over": "tram_vice mount_part turn_part_over",
        "the zero": "set_work_offset jog_by_hand",
        "the tools": "load_tools set_tool_length tool_change",
        "the run": "running restart",
        "measuring": "measure_in_machine inspect",
        "hands on the part": "unload deburr clean_and_maintain",
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
# Likeness is what agrees, over all that both say, parts of what only one of them says (it contradicts nothing), and
# CHANCE, so that one light fact alone is little.
ONLY_LESSON, ONLY_JOB, CHANCE = 0.3, 0.1, 2.0
# Times the likeness: LIKENESS, and more for what it could have come to and where nothing proves its cure.
LIKENESS, SEVERITY, UNPROVEN = 3.0, 1.0, 0.2
UNSAID = "scrapped_part"  # what it could have come to, where nobody said
OUTCOMES = ("nothing", "rework", "scrapped_part", "broken_tool", "damaged_machine", "hurt_person")
PROVEN = ("held", "kept", "retired")
NOT_OF_JOBS = ("kind", "contributing", "surface", "tool_state", "words")  # known only once something has happened

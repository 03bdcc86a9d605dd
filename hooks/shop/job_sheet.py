"""A job sheet's fields: what is to be made, how it is held, and what is cut with what."""

from hooks.shop.declaration import CUTTER, CUTTING, DATUM, GEOMETRY, HOLDING, LESSONS, MACHINES
from hooks.shop.fields import LINE, SENTENCE, Field, group, list_of, number, one_of, quantity, size, text

CUTTERS, VICES, JOBS = "cutters", "vices", "jobs"


def _ref(key: str, label: str, of: str, help: str = "", ask: str = "facts") -> Field:
    return Field(key, ask, "ref", label, help, of=of, longest=LINE)


STOCK = (
    text("bar", "Bar or plate", "60 x 40, round 80, plate 12."),
    size("finished_length", "Finished length"),
    size("finished_width", "Finished width"),
    size("finished_height", "Finished height"),
    text("sawn_faces", "Sawn faces", "0, 1 or 2 along length, width, height: 2,0,0"),
    size("bar_length", "Bar length"),
    text("note", "Note", longest=SENTENCE),
)
HELD = (
    *HOLDING,
    _ref("vice", "Vice", VICES),
    size("part_width", "Width between the jaws"),
    size("part_height", "Height of the blank"),
    quantity("parallel_height", "Height of the parallels", "mm"),
    quantity("parallel_thickness", "Thickness of the parallels", "mm"),
    quantity("lowest_cut", "Lowest cut below the blank's top", "mm"),
    quantity("force_height", "Cut above the jaws", "mm"),
)
OPERATION = (
    one_of("operation", "Operation", ask="quick"),
    _ref("cutter_of_shop", "Cutter", CUTTERS, "From the shop's list, with its numbers.", ask="quick"),
    group("cutter", "The cutter's numbers", CUTTER, ask="quick"),
    one_of("pass", "Pass"),
    group("cutting", "Cutting data", CUTTING),
    group("geometry", "What is cut", GEOMETRY),
    text("note", "Note", longest=SENTENCE),
)
SETUP = (
    text("name", "Name"),
    list_of("operations", "Operations", group("operation", "Operation", OPERATION)),
    group("holding", "Holding", HELD),
    group("datum", "Datum", (*DATUM, text("plan", "How the zero is found", longest=SENTENCE))),
    list_of(
        "stages",
        "What this set-up has that most have not",
        one_of("stage", "Stage"),
        "Such as a restart, tramming the vice, new tool lengths.",
    ),
)
ANSWER = (
    _ref("lesson", "Lesson", LESSONS),
    one_of("answer", "Did it hold?", of="held"),
    Field("on", "later", "date", "On"),
)
JOB_FIELDS: tuple[Field, ...] = (
    Field("id", "auto", "text", "Id", "Made on the device; the file is named by it."),
    Field("part", "quick", "text", "Part", "What is made.", required=True, longest=90),
    text("material", "Material", "As the shop calls it.", ask="quick"),
    one_of("iso513", "Material group", "ISO 513.", ask="quick"),
    _ref("machine", "Machine", MACHINES, ask="quick"),
    list_of("setups", "Set-ups", group("setup", "Set-up", SETUP)),
    text("hardness", "Hardness", "Number and scale, as in 58 HRC.", ask="facts"),
    number("quantity", "How many", kind="whole", low=1),
    group("stock", "Stock", STOCK),
    text("note", "Note", longest=SENTENCE),
    _ref("copied_from", "Copied from", JOBS),
    list_of("held", "Did it hold?", group("line", "Line", ANSWER), by="lesson"),
)

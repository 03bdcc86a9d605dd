"""A lesson's fields, declared once: reader, writer, forms, schema and reference come from here.

`ask`: quick = the card at the machine; auto = filled by itself; soon = the same day, one tap each;
later = one question a card; facts = offered from the job, the shop and the last lesson.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from calc.quantity import Quantity

LINE, SENTENCE, PARAGRAPH = 60, 280, 2000  # characters
MACHINES, LESSONS = "machines", "lessons"


@dataclass(frozen=True)
class Field:
    """One field. `type` is text, one_of, yes_no, datetime, date, number, quantity, ref, list, group or map.

    `of` names the vocabulary of a one_of, or what a ref refers to; `item` is what a list holds, `parts`
    what a group holds; `quantity` tells label, unit and limits of a number or quantity.
    """

    key: str
    ask: str
    type: str
    label: str
    help: str = ""
    of: str = ""
    required: bool = False
    longest: int | None = None
    parts: tuple["Field", ...] = ()
    item: "Field | None" = None
    quantity: Quantity | None = None

    @property
    def unit(self) -> str:
        """The unit of a bare number, "" where there is none."""
        return self.quantity.unit if self.quantity else ""


def field(key: str) -> Field:
    """The field of that key. Raises KeyError."""
    return _BY_KEY[key]


def _text(key: str, label: str, help: str = "", ask: str = "later", longest: int = LINE) -> Field:
    return Field(key, ask, "text", label, help, longest=longest)


def _one_of(key: str, label: str, help: str = "", ask: str = "later", of: str = "") -> Field:
    return Field(key, ask, "one_of", label, help, of=of or key)


def _quantity(key: str, label: str, unit: str, help: str = "") -> Field:
    wanted = Quantity(key, label, unit, help, low=0)
    return Field(key, "facts", "quantity", label, help, quantity=wanted, longest=LINE)


def _number(key: str, label: str, kind: str = "number", ask: str = "later") -> Field:
    return Field(key, ask, "number", label, quantity=Quantity(key, label.rstrip("?"), low=0, kind=kind), longest=LINE)


def _list(key: str, label: str, item: Field, help: str = "") -> Field:
    return Field(key, "later", "list", label, help, item=item)


def _group(key: str, label: str, parts: Iterable[Field], ask: str = "facts", help: str = "") -> Field:
    return Field(key, ask, "group", label, help, parts=tuple(parts))


CUTTER = (
    _one_of("tool_kind", "Kind of cutter"),
    _quantity("cutter_diameter", "Cutter diameter", "mm"),
    _number("teeth", "Teeth", kind="whole"),
    _quantity("nose_radius", "Nose radius", "mm"),
    _quantity("flute_length", "Flute length", "mm"),
    _quantity("stick_out", "Stick-out", "mm", "From the holder's nose to the tip."),
    _one_of("tool_material", "Cutter material"),
    Field("coated", "facts", "yes_no", "Coated"),
    _one_of("holder", "Holder"),
    _text("tool_number", "Tool number"),
    _text("length_offset_number", "Length offset number"),
)
HOLDING = (
    _one_of("holding_kind", "How it was held"),
    _quantity("grip_height", "Depth held in the jaws", "mm"),
    _quantity("grip_length", "Length held", "mm"),
    _quantity("overhang", "Overhang", "mm"),
    _quantity("torque", "Torque on the handle", "N*m"),
    _text("note", "Note", longest=SENTENCE),
)
CUTTING = (
    _quantity("spindle_speed", "Spindle speed", "rpm"),
    _quantity("feed_rate", "Feed rate", "mm/min"),
    _quantity("feed_per_tooth", "Feed per tooth", "mm"),
    _quantity("axial_depth", "Depth of cut, axial", "mm"),
    _quantity("radial_depth", "Width of cut, radial", "mm"),
    _one_of("direction", "Direction"),
    _one_of("coolant", "Coolant"),
    _quantity("override", "Override", "1", "As a share: 80 %."),
    _quantity("heard_frequency", "Frequency heard", "Hz"),
)
GEOMETRY = (
    _one_of("feature", "Feature"),
    _quantity("depth", "Depth", "mm"),
    _quantity("pocket_width", "Pocket or slot width", "mm"),
    _quantity("wall_thickness", "Wall thickness", "mm"),
    _quantity("floor_thickness", "Floor thickness", "mm"),
    _quantity("corner_radius", "Inside corner radius", "mm"),
    _quantity("hole_diameter", "Hole diameter", "mm"),
    _text("thread", "Thread"),
    _text("tolerance", "Tolerance"),
    _text("finish", "Finish"),
)
DATUM = (
    _text("work_offset", "Work offset"),
    _one_of("finder_kind", "Kind of finder"),
    _text("face", "Face touched"),
    _text("surface", "State of that face"),
)
PROGRAM = (
    _text("name", "Program"),
    _text("line", "Line"),
    _text("words", "Control words", longest=SENTENCE),
    _text("restart_point", "Restarted at"),
)
MEASURED = (
    _one_of("characteristic", "What was measured"),
    _text("nominal", "Should be"),
    _text("found", "Was"),
    _text("gauge", "Measured with"),
)
CHANGE = (
    _text("what", "What was changed", longest=SENTENCE),
    _one_of("strength", "How strong is it"),
    Field("done_on", "later", "date", "Done on", "Empty while it is only planned."),
)
CHECK = (
    _text("calculator", "Calculator"),
    Field("inputs", "later", "map", "Numbers that went wrong", "name = value with unit, a line each"),
    _text("value", "Value held"),
    _text("at_most", "At most"),
    _text("at_least", "At least"),
    Field("mended_inputs", "later", "map", "Numbers that mend it"),
)

FIELDS: tuple[Field, ...] = (
    Field("id", "auto", "text", "Id", "Made on the device; the file is named by it."),
    Field("when", "auto", "datetime", "When", "Local time with its offset."),
    Field("machine", "auto", "ref", "Machine", of=MACHINES),
    Field("job", "auto", "ref", "Job", "A job or a part number.", of="jobs", longest=LINE),
    Field("kind", "quick", "one_of", "What happened?", of="kind", required=True),
    Field("nearly", "quick", "yes_no", "Nearly", "It nearly happened: a near miss."),
    Field("said", "quick", "text", "In one line", "As you would tell it.", required=True, longest=SENTENCE),
    _list("photos", "Photos", Field("photo", "later", "text", "File", longest=SENTENCE), "Not used yet."),
    _text("title", "A short title", "The first words of the line above until given.", longest=90),
    _one_of("stage", "At which stage?", ask="soon"),
    _one_of("operation", "During which operation?", ask="soon"),
    _one_of("pass", "Which pass?", ask="soon"),
    _one_of("run_mode", "How was the machine running?"),
    _text("material", "Material", "As the shop calls it.", ask="facts"),
    _one_of("iso513", "Material group", "ISO 513.", ask="facts"),
    _text("hardness", "Hardness", "Number and scale, as in 58 HRC.", ask="facts"),
    _group("cutter", "Cutter", CUTTER),
    _group("holding", "Holding", HOLDING),
    _group("cutting", "Cutting data", CUTTING),
    _group("geometry", "Part", GEOMETRY),
    _group("datum", "Datum", DATUM),
    _group("program", "Program", PROGRAM),
    _group("measured", "What was measured?", MEASURED, ask="later"),
    _list("surface", "What does the surface show?", _one_of("mark", "Mark", of="surface_mark")),
    _list("tool_state", "What does the cutter show?", _one_of("damage", "Damage", of="tool_damage")),
    _one_of("noticed_by", "Who or what noticed it?"),
    _one_of("outcome", "What did it come to?", ask="soon"),
    _one_of(
        "could_have",
        "What could it have come to?",
        "The worst that was really likely. Lessons are ranked by it.",
        ask="soon",
        of="outcome",
    ),
    _one_of("stopped_by", "What stopped it?"),
    _number("minutes", "How many minutes did it cost?"),
    _number("parts_scrapped", "How many parts were scrapped?", kind="whole"),
    _list(
        "why",
        "Why did it happen?",
        _text("line", "Because", longest=SENTENCE),
        "Each line: why to the one before.",
    ),
    _list("contributing", "What helped it to happen?", _one_of("condition", "Condition", of="contributing")),
    _text("now_do", "What do we do now?", "One sentence, as an order: it is what gets read.", longest=120),
    _list("changes", "What was changed?", _group("change", "Change", CHANGE, ask="later")),
    _group(
        "check",
        "Which sum would have caught it?",
        CHECK,
        ask="later",
        help="Opens with this lesson's numbers.",
    ),
    Field(
        "repeat_of",
        "later",
        "list",
        "Which lesson did it repeat?",
        item=Field("lesson", "later", "ref", "Lesson", of=LESSONS),
    ),
    Field("shared", "later", "yes_no", "May it be published?", "A published site holds only shared lessons."),
    _text("retired", "Why does it no longer matter?", longest=SENTENCE),
)
_BY_KEY = {one.key: one for one in FIELDS}

MACHINE = (
    Field("key", "facts", "text", "Key", "Lessons name the machine by it.", required=True, longest=LINE),
    Field("name", "facts", "text", "Name", required=True, longest=LINE),
    _text("kind", "Kind", longest=SENTENCE),
    _quantity("max_spindle_speed", "Fastest spindle speed", "rpm"),
    _quantity("max_feed_rate", "Fastest feed", "mm/min"),
    _quantity("spindle_power", "Spindle power", "kW"),
    _quantity("spindle_torque", "Spindle torque", "N*m"),
    _quantity("acceleration", "Acceleration", "m/s2"),
    _quantity("travel_x", "Travel in X", "mm"),
    _quantity("travel_y", "Travel in Y", "mm"),
    _quantity("travel_z", "Travel in Z", "mm"),
    _text("note", "Note", longest=SENTENCE),
)
SHOP_FIELDS: tuple[Field, ...] = (
    Field("name", "facts", "text", "The shop's name", required=True, longest=90),
    Field("demo", "facts", "yes_no", "Invented", "Pages then say that the shop is invented."),
    _text("about", "About the shop", longest=PARAGRAPH),
    _text("address", "Address it is published at", "Feeds then name their pages in full.", longest=SENTENCE),
    _list("machines", "Machines", _group("machine", "Machine", MACHINE)),
    _list("materials", "Materials in stock", _text("material", "Material")),
)

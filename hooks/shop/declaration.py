"""A lesson's fields, declared once: reader, writer, forms, schema and reference come from here.

`ask`: quick = the card at the machine; auto = filled by itself; soon = the same day, one tap each;
later = one question a card; facts = offered from the job, the shop and the last lesson.
"""

from hooks.shop.fields import LINE, SENTENCE, Field, group, list_of, number, one_of, quantity, size, text

MACHINES, LESSONS = "machines", "lessons"

CUTTER = (
    one_of("tool_kind", "Kind of cutter"),
    size("cutter_diameter", "Cutter diameter"),
    number("teeth", "Teeth", kind="whole", low=1),
    quantity("nose_radius", "Nose radius", "mm"),
    size("flute_length", "Flute length"),
    quantity("stick_out", "Stick-out", "mm", "From the holder's nose to the tip."),
    quantity("max_ramp_angle", "Steepest ramp it allows", "deg", high=90),
    one_of("tool_material", "Cutter material"),
    Field("coated", "facts", "yes_no", "Coated"),
    one_of("holder", "Holder"),
    text("tool_number", "Tool number"),
    text("length_offset_number", "Length offset number"),
)
HOLDING = (
    one_of("holding_kind", "How it was held"),
    quantity("grip_height", "Depth held in the jaws", "mm"),
    quantity("grip_length", "Length held", "mm"),
    quantity("overhang", "Overhang", "mm"),
    quantity("torque", "Torque on the handle", "N*m"),
    text("note", "Note", longest=SENTENCE),
)
CUTTING = (
    quantity("spindle_speed", "Spindle speed", "rpm"),
    quantity("feed_rate", "Feed rate", "mm/min"),
    quantity("feed_per_tooth", "Feed per tooth", "mm"),
    quantity("axial_depth", "Depth of cut, axial", "mm"),
    quantity("radial_depth", "Width of cut, radial", "mm"),
    one_of("direction", "Direction"),
    one_of("coolant", "Coolant"),
    quantity("override", "Override", "1", "As a share: 80 %."),
    quantity("heard_frequency", "Frequency heard", "Hz"),
)
GEOMETRY = (
    one_of("feature", "Feature"),
    quantity("depth", "Depth", "mm"),
    size("pocket_width", "Pocket or slot width"),
    size("wall_thickness", "Wall thickness"),
    quantity("floor_thickness", "Floor thickness", "mm"),
    quantity("corner_radius", "Inside corner radius", "mm"),
    size("hole_diameter", "Hole diameter"),
    text("thread", "Thread"),
    text("tolerance", "Tolerance"),
    text("finish", "Finish"),
)
DATUM = (
    text("work_offset", "Work offset"),
    one_of("finder_kind", "Kind of finder"),
    text("face", "Face touched"),
    text("surface", "State of that face"),
)
PROGRAM = (
    text("name", "Program"),
    text("line", "Line"),
    text("words", "Control words", longest=SENTENCE),
    text("restart_point", "Restarted at"),
)
MEASURED = (
    one_of("characteristic", "What was measured"),
    text("nominal", "Should be"),
    text("found", "Was"),
    text("gauge", "Measured with"),
)
CHANGE = (
    text("what", "What was changed", longest=SENTENCE),
    one_of("strength", "How strong is it"),
    Field("done_on", "later", "date", "Done on", "Empty while it is only planned."),
)
CHECK = (
    text("calculator", "Calculator"),
    Field("inputs", "later", "map", "Numbers that went wrong", "name = value with unit, a line each"),
    text("value", "Value held"),
    text("at_most", "At most"),
    text("at_least", "At least"),
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
    list_of("photos", "Photos", Field("photo", "later", "text", "File", longest=SENTENCE), "Not used yet."),
    text("title", "A short title", "The first words of the line above until given.", longest=90),
    one_of("stage", "At which stage?", ask="soon"),
    one_of("operation", "During which operation?", ask="soon"),
    one_of("pass", "Which pass?", ask="soon"),
    one_of("run_mode", "How was the machine running?"),
    text("material", "Material", "As the shop calls it.", ask="facts"),
    one_of("iso513", "Material group", "ISO 513.", ask="facts"),
    text("hardness", "Hardness", "Number and scale, as in 58 HRC.", ask="facts"),
    group("cutter", "Cutter", CUTTER),
    group("holding", "Holding", HOLDING),
    group("cutting", "Cutting data", CUTTING),
    group("geometry", "Part", GEOMETRY),
    group("datum", "Datum", DATUM),
    group("program", "Program", PROGRAM),
    group("measured", "What was measured?", MEASURED, ask="later"),
    list_of("surface", "What does the surface show?", one_of("mark", "Mark", of="surface_mark")),
    list_of("tool_state", "What does the cutter show?", one_of("damage", "Damage", of="tool_damage")),
    one_of("noticed_by", "Who or what noticed it?"),
    one_of("outcome", "What did it come to?", ask="soon"),
    one_of(
        "could_have",
        "What could it have come to?",
        "The worst that was really likely. Lessons are ranked by it.",
        ask="soon",
        of="outcome",
    ),
    one_of("stopped_by", "What stopped it?"),
    number("minutes", "How many minutes did it cost?"),
    number("parts_scrapped", "How many parts were scrapped?", kind="whole"),
    list_of(
        "why",
        "Why did it happen?",
        text("line", "Because", longest=SENTENCE),
        "Each line: why to the one before.",
    ),
    list_of("contributing", "What helped it to happen?", one_of("condition", "Condition", of="contributing")),
    text("now_do", "What do we do now?", "One sentence, as an order: it is what gets read.", longest=120),
    list_of("changes", "What was changed?", group("change", "Change", CHANGE, ask="later")),
    group(
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
    text("retired", "Why does it no longer matter?", longest=SENTENCE),
)
_BY_KEY = {one.key: one for one in FIELDS}


def field(key: str) -> Field:
    """The field of that key. Raises KeyError."""
    return _BY_KEY[key]

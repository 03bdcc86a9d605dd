"""What shop.yaml holds: machines, cutters, vices, saw and materials, under the names that the sums take."""

from hooks.shop.declaration import CUTTER
from hooks.shop.fields import LINE, PARAGRAPH, SENTENCE, Field, group, list_of, quantity, size, text


def _key(help: str) -> Field:
    return Field("key", "quick", "text", "Key", help, required=True, longest=LINE)


NAME = Field("name", "quick", "text", "Name", required=True, longest=LINE)

POWER_AT = (
    quantity("spindle_speed", "At", "rpm"),
    quantity("spindle_power", "Power", "kW"),
    quantity("spindle_torque", "Torque", "N*m"),
)
MACHINE = (
    _key("Lessons and jobs name the machine by it."),
    NAME,
    text("kind", "Kind", longest=SENTENCE),
    size("max_spindle_speed", "Fastest spindle speed", "rpm"),
    quantity("min_spindle_speed", "Slowest spindle speed", "rpm"),
    size("max_feed_rate", "Fastest feed", "mm/min"),
    quantity("spindle_power", "Spindle power", "kW"),
    quantity("spindle_torque", "Spindle torque", "N*m"),
    list_of("power_at", "Power and torque over speed", group("point", "Point", POWER_AT)),
    size("acceleration", "Acceleration", "m/s2"),
    quantity("travel_x", "Travel in X", "mm"),
    quantity("travel_y", "Travel in Y", "mm"),
    quantity("travel_z", "Travel in Z", "mm"),
    text("differs", "Control words that differ from what one expects", longest=SENTENCE),
    text("note", "Note", longest=SENTENCE),
)
SHOP_CUTTER = (
    _key("Jobs name the cutter by it."),
    NAME,
    *CUTTER,
    size("shank_diameter", "Shank diameter", "mm"),
    size("holder_diameter", "Holder diameter", "mm", "At its nose."),
    quantity("feed_per_tooth_limit", "Highest feed per tooth", "mm", "As its maker gives it."),
)
VICE = (
    _key("Jobs name the vice by it."),
    NAME,
    quantity("jaw_height", "Height of the jaws above its bed", "mm"),
    quantity("table_to_parallel", "From the table to its bed", "mm"),
    size("screw_pitch", "Pitch of its screw", "mm"),
    quantity("handle_torque", "Usual torque on the handle", "N*m"),
    quantity("clamp_force", "Clamping force, measured", "N"),
    text("note", "Note", longest=SENTENCE),
)
SAW = (
    quantity("saw_kerf", "Its cut", "mm"),
    quantity("saw_out_of_square", "Out of square", "mm/100 mm"),
    quantity("saw_length_scatter", "Lengths scatter by", "mm"),
    quantity("stub", "What it needs to hold", "mm"),
)
SHOP_FIELDS: tuple[Field, ...] = (
    Field("name", "quick", "text", "The shop's name", required=True, longest=90),
    Field("demo", "facts", "yes_no", "Invented", "Pages then say that the shop is invented."),
    text("about", "About the shop", longest=PARAGRAPH),
    text("address", "Address it is published at", "Feeds then name their pages in full.", longest=SENTENCE),
    list_of("machines", "Machines", group("machine", "Machine", MACHINE), by="key"),
    list_of("cutters", "Cutters", group("cutter", "Cutter", SHOP_CUTTER), by="key"),
    list_of("vices", "Vices", group("vice", "Vice", VICE), by="key"),
    group("saw", "Saw", SAW),
    list_of("materials", "Materials in stock", text("material", "Material")),
    list_of("first_run", "Lines of the first-run card", text("line", "Line", longest=SENTENCE),
            "Empty: the usual ones."),
)  # fmt: skip

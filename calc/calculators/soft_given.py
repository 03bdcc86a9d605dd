"""What was given for a pair of soft jaws: defaults that follow from other inputs, and contradictions refused."""

from collections.abc import Mapping
from dataclasses import dataclass

from calc.quantity import Reading, Refused, at_least, at_most, values
from calc.show import plain, show

USUAL_STOCK, STOCK_SHARE = 0.2, 0.05  # mm, and of the cutter where that is less (judgement)
MOST_STOCK = 0.5  # of the cutter's radius; up to there reliefs are known to leave the corner empty
MOST_ROOM = 0.5  # of the cutter's radius


@dataclass(frozen=True)
class Given:
    """One pocket, lengths in mm; None where not given. `relief` is a diameter, None: the cutter's own."""

    length: float
    width: float
    radius: float
    cutter: float
    reliefs: bool
    relief: float | None
    room: float
    clearance: float
    across: float
    gap: float
    stock: float
    jaw_thickness: float | None
    jaw_length: float | None
    jaw_height: float | None
    part_height: float | None
    step: float | None
    wanted: int
    wall: float

    @property
    def pocket_length(self) -> float:
        """Along the jaws."""
        return self.length + self.clearance

    @property
    def pocket_width(self) -> float:
        """Across them, as cut on the spacer."""
        return self.width + self.across

    @property
    def narrow(self) -> float:
        """The pocket's smaller side."""
        return min(self.pocket_length, self.pocket_width)


def given(readings: Mapping[str, Reading]) -> Given:
    """Read the pocket. Raises Refused."""
    v = values(readings)
    return checked(
        Given(
            length=v["part_length"],
            width=v["part_width"],
            radius=v["part_corner_radius"],
            cutter=v["cutter_diameter"],
            reliefs=v["reliefs"] == "cut",
            relief=v.get("relief_diameter"),
            room=v["corner_room"],
            clearance=v["fit_clearance"],
            across=v.get("clearance_across", v["fit_clearance"]),
            gap=v["jaw_gap"],
            stock=v.get("radial_depth", min(USUAL_STOCK, STOCK_SHARE * v["cutter_diameter"])),
            jaw_thickness=v.get("jaw_thickness"),
            jaw_length=v.get("jaw_length"),
            jaw_height=v.get("jaw_height"),
            part_height=v.get("part_height"),
            step=v.get("step_depth"),
            wanted=v["parts_wanted"],
            wall=v["wall_wanted"],
        )
    )


def checked(g: Given) -> Given:
    """The same, where its numbers can go together. Raises Refused."""
    half = min(g.length, g.width) / 2
    if not at_most(g.radius, half):
        raise Refused("part_corner_radius", f"The part's corner radius is at most half its smaller side, "
                      f"{show(half, 'mm')}; {show(g.radius, 'mm')} was given")  # fmt: skip
    if not at_most(g.cutter, g.narrow):
        raise Refused("cutter_diameter", f"The cutter must go into the pocket, {show(g.narrow, 'mm')} at its "
                      f"narrowest; {show(g.cutter, 'mm')} was given")  # fmt: skip
    if at_least(g.gap, g.pocket_width):
        raise Refused("jaw_gap", f"The spacer must be thinner than the pocket is wide, {show(g.pocket_width, 'mm')}, "
                      f"else nothing is cut; {show(g.gap, 'mm')} was given")  # fmt: skip
    for name, value, share in (("radial_depth", g.stock, MOST_STOCK), ("corner_room", g.room, MOST_ROOM)):
        if not at_most(value, share * g.cutter / 2):
            what = "Stock left on the wall" if name == "radial_depth" else "Room beyond the part's corner"
            raise Refused(name, f"{what} is at most a quarter of the cutter, {show(share * g.cutter / 2, 'mm')}; "
                          f"{show(value, 'mm')} was given")  # fmt: skip
    return g


def shown(readings: Mapping[str, Reading], g: Given) -> dict[str, Reading]:
    """The inputs with what was assumed for those left empty."""
    assumed = {
        "clearance_across": Reading(g.across, "mm", plain(g.across, "mm")),
        "radial_depth": Reading(g.stock, "mm", plain(g.stock, "mm")),
    }
    return {**assumed, **readings}

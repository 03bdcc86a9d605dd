"""What was given for a corner: defaults that follow from other inputs, and contradictions refused."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from calc.formulas.corner import Corner
from calc.quantity import Impossible, Reading, Refused, at_most
from calc.show import plain, show

SAME = 1e-9  # relative: half a width typed in inches is half the width
ROUND_END = 180.0


@dataclass(frozen=True)
class Given:
    """One corner, all lengths in mm, feeds in mm/min; `inputs` as they are shown, defaults included."""

    inputs: Mapping[str, Reading]
    cutter_radius: float
    corner_radius: float
    stock: float
    turn: float
    width: float | None
    rougher: float | None
    feed: float | None
    corner_feed: float | None
    acceleration: float | None
    rise_limit: float

    @property
    def feed_share(self) -> float:
        """Corner feed as a share of the feed on the straight."""
        return self.corner_feed / self.feed if self.corner_feed and self.feed else 1.0

    @property
    def clearance(self) -> float:
        """How much wider than the cutter the pocket is (mm)."""
        return (self.width or 2 * self.corner_radius) - 2 * self.cutter_radius

    @property
    def fills_slot(self) -> bool:
        """Whether the stock is so thick that the cutter meets the opposite wall's too."""
        return self.width is not None and not at_most(self.stock, max(self.clearance, 0.0))

    @property
    def corner(self) -> Corner:
        """The geometry alone."""
        return Corner(self.corner_radius, self.cutter_radius, self.stock, self.turn, self.rougher)

    def with_cutter(self, diameter: float) -> "Given":
        """The same corner and stock with another cutter."""
        return replace(self, cutter_radius=diameter / 2)

    def with_corner(self, radius: float) -> "Given":
        """The same cutter and stock in another corner; a round end stays a round end."""
        width = 2 * radius if self.turn == ROUND_END else self.width
        return replace(self, corner_radius=radius, width=width)


def given(readings: Mapping[str, Reading]) -> Given:
    """Read the corner. Raises Refused."""
    values = {name: reading.value for name, reading in readings.items()}
    diameter, width = values["cutter_diameter"], values.get("pocket_width")
    radius = _radius(values.get("corner_radius"), width)
    stock = _stock(values.get("radial_depth"), radius, width, diameter)
    _fits_wall(stock, radius, diameter)
    round_end = width is not None and abs(radius - width / 2) <= SAME * width
    if values.get("corner_feed_rate") and not values.get("feed_rate"):
        raise Refused("feed_rate", "The feed in the corner needs the feed on the straight (feed_rate) beside it")
    found = Given(
        inputs=_shown(readings, radius, stock),
        cutter_radius=diameter / 2,
        corner_radius=width / 2 if round_end and width else radius,
        stock=stock,
        turn=ROUND_END if round_end else 180.0 - values["corner_angle"],
        width=width,
        rougher=_rougher(values.get("roughing_cutter_diameter")),
        feed=values.get("feed_rate"),
        corner_feed=values.get("corner_feed_rate"),
        acceleration=values.get("acceleration"),
        rise_limit=values["rise_limit"],
    )
    _rougher_fits(found)
    return found


def _radius(radius: float | None, width: float | None) -> float:
    if radius is None and width is None:
        raise Refused(
            "corner_radius",
            "The corner is needed: corner_radius, or pocket_width for a pocket with a round end",
        )
    if radius is None:
        return float(width or 0) / 2
    if width is not None and not at_most(radius, width / 2):
        raise Refused(
            "corner_radius",
            f"Inside corner radius is at most half the width, {show(width / 2, 'mm')}; {show(radius, 'mm')} was given",
        )
    return radius


def _stock(stock: float | None, radius: float, width: float | None, diameter: float) -> float:
    if stock is not None:
        return stock
    if not at_most(diameter / 2, radius) and (width is None or width <= diameter):
        field = "corner_radius" if width is None else "pocket_width"
        place = f"a corner of radius {show(radius, 'mm')}" if width is None else f"a pocket of {show(width, 'mm')}"
        raise Impossible(field, f"The cutter of {show(diameter, 'mm')} does not go into {place}")
    if width is None:
        raise Refused("radial_depth", "Stock left on the wall (radial_depth) is needed: a length in mm or in")
    if width <= diameter:
        raise Refused(
            "radial_depth",
            "Stock left on the wall (radial_depth) is needed where the cutter is as wide as the pocket",
        )
    return (width - diameter) / 2


def _fits_wall(stock: float, radius: float, diameter: float) -> None:
    for limit, what in ((diameter, "the cutter's diameter"), (radius, "the corner radius")):
        if not at_most(stock, limit):
            raise Refused(
                "radial_depth",
                f"Stock left on the wall is at most {what}, {show(limit, 'mm')}; {show(stock, 'mm')} was given",
            )


def _rougher(diameter: float | None) -> float | None:
    return diameter / 2 if diameter else None


def _rougher_fits(g: Given) -> None:
    if g.rougher is None or g.width is None:
        return
    room = g.width - 2 * g.stock
    if not at_most(2 * g.rougher, room):
        raise Refused(
            "roughing_cutter_diameter",
            f"A roughing cutter of {show(2 * g.rougher, 'mm')} cannot have left {show(g.stock, 'mm')} "
            f"on both walls of this pocket: at most {show(max(room, 0.0), 'mm')}",
        )


def _shown(readings: Mapping[str, Reading], radius: float, stock: float) -> dict[str, Reading]:
    derived = {
        "corner_radius": Reading(radius, "mm", plain(radius, "mm")),
        "radial_depth": Reading(stock, "mm", plain(stock, "mm")),
    }
    return {**derived, **readings}

"""The numbers of a cut: chip, force, power, what runs out first, and the verdict."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from calc.calculators.chip_given import Given
from calc.formulas.engagement import chip_share
from calc.formulas.forces import Cut, cutting_power, greatest_forces, specific_force, torque
from calc.formulas.milling import cutting_speed, mean_chip_thickness, removal_rate
from calc.quantity import at_least, at_most

NEAR = 0.8
LIMITS = {
    "max_feed_rate": "the machine's fastest feed",
    "feed_per_tooth_limit": "the maker's feed per tooth",
    "spindle_power": "the spindle's power",
    "spindle_torque": "the spindle's torque",
}


@dataclass(frozen=True)
class Force:
    """What needs kc: N/mm2, N, kW and N m."""

    kc: float
    tangential: float
    peak: float
    wall: float
    power: float
    needed: float
    torque: float


@dataclass(frozen=True)
class Sums:
    """Results; `force` is None where no specific force is known, `reserves` by the limit's input name."""

    vc: float
    thickest: float
    mean: float
    removal: float
    force: Force | None
    lower: Force | None
    power_use: float | None
    torque_use: float | None
    feed_use: float | None
    rubbing: bool
    reserves: Mapping[str, float] = field(default_factory=dict)

    @property
    def first_limit(self) -> str | None:
        """The input name of the limit that runs out first."""
        return min(self.reserves, key=lambda name: self.reserves[name]) if self.reserves else None


def sums(g: Given) -> Sums:
    """All numbers of the cut `g`."""
    mean = mean_chip_thickness(g.fz, g.ae, g.diameter, g.engagement, g.entering)
    force = _force(g, g.kc11, g.mc, mean)
    lower = _force(g, *g.material.lower, mean) if force and _has_lower(g) else None
    limit, power, most = g.get("feed_per_tooth_limit"), g.get("spindle_power"), g.get("spindle_torque")
    thickest = g.fz * g.thickest_share
    power_use = force.needed / power if force and power else None
    torque_use = force.torque / most if force and most else None
    feed_use = g.fz / limit if limit else None
    return Sums(
        vc=cutting_speed(g.speed, g.diameter),
        thickest=thickest,
        mean=mean,
        removal=removal_rate(g.ap, g.ae, g.feed),
        force=force,
        lower=lower,
        power_use=power_use,
        torque_use=torque_use,
        feed_use=feed_use,
        rubbing=not at_least(thickest, g.values["edge_radius"]),
        reserves=_reserves(g, power_use, torque_use, feed_use) if limit else {},
    )


def _has_lower(g: Given) -> bool:
    return g.material is not None and g.material.lower is not None and g.kc11 == g.material.kc11


def _force(g: Given, kc11: float | None, mc: float | None, mean: float) -> Force | None:
    if kc11 is None or mc is None:
        return None
    kc = specific_force(kc11, mc, mean)
    power = cutting_power(g.ap, g.ae, g.feed, kc)
    width = g.ap / chip_share(g.entering)
    cut = Cut(kc11, mc, g.fz, g.ap, g.engagement, g.entering, g.teeth, g.climb)
    peak, wall = greatest_forces(cut)
    return Force(
        kc=kc,
        tangential=kc * mean * width,
        peak=peak,
        wall=wall,
        power=power,
        needed=power / g.values["efficiency"],
        torque=torque(power, g.speed),
    )


def _reserves(g: Given, power_use: float | None, torque_use: float | None, feed_use: float | None) -> dict[str, float]:
    """How many times the feed could rise before each limit; force and power go with feed^(1 - mc)."""
    exponent = 1 / (1 - (g.mc or 0.0))
    most = g.get("max_feed_rate")
    found = {
        "max_feed_rate": most / g.feed if most else None,
        "feed_per_tooth_limit": 1 / feed_use if feed_use else None,
        "spindle_power": power_use**-exponent if power_use else None,
        "spindle_torque": torque_use**-exponent if torque_use else None,
    }
    return {name: reserve for name, reserve in found.items() if reserve is not None}


def verdict(s: Sums) -> str:
    """stop over a limit; watch from 0.8 of one, on rubbing, and where no torque is known."""
    uses = [use for use in (s.power_use, s.torque_use, s.feed_use) if use is not None]
    if any(not at_most(use, 1.0) for use in uses):
        return "stop"
    near = any(at_least(use, NEAR) for use in uses)
    return "watch" if near or s.rubbing or s.torque_use is None else "ok"

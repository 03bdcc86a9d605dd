"""What was given for a cut: either/or pairs settled, speeds and feeds held to the machine's limits."""

from collections.abc import Mapping
from dataclasses import dataclass

from calc.formulas.engagement import chip_share, straight_engagement
from calc.formulas.milling import cutting_speed, feed_rate, spindle_speed
from calc.materials import BY_KEY, Material
from calc.quantity import AGREE, Reading, Refused, at_most
from calc.show import show

FEEDS = ("feed_per_tooth", "feed_rate", "chip_thickness")
SPEEDS = ("cutting_speed", "spindle_speed")


@dataclass(frozen=True)
class Given:
    """One cut after clamping. mm, rpm, mm/min, degrees; `clamped` are sentences on what was held back."""

    values: Mapping[str, float]
    diameter: float
    teeth: int
    climb: bool
    material: Material | None
    kc11: float | None
    mc: float | None
    speed: float
    fz: float
    feed: float
    ae: float
    ap: float
    entering: float
    engagement: float
    feed_input: str
    clamped: tuple[str, ...]

    def get(self, name: str) -> float | None:
        """An optional input."""
        return self.values.get(name)

    @property
    def thickest_share(self) -> float:
        """Thickest chip over feed per tooth: sin(kr), times sin(phi) under half immersion."""
        return chip_share(self.entering) * chip_share(self.engagement)


def given(readings: Mapping[str, Reading]) -> Given:
    """Read the cut. Raises Refused."""
    values = {name: reading.value for name, reading in readings.items()}
    diameter, ae = values["cutter_diameter"], values["radial_depth"]
    if not at_most(ae, diameter):
        raise Refused(
            "radial_depth",
            f"Width of cut is at most the cutter's diameter, {show(diameter, 'mm')}; {show(ae, 'mm')} was given",
        )
    engagement = straight_engagement(diameter / 2, ae)
    share = chip_share(values["entering_angle"]) * chip_share(engagement)
    wanted = _speed(values, diameter)
    fz, name = _feed_per_tooth(values, wanted, share)
    speed, clamped = _clamped_speed(values, wanted)
    feed = values["feed_rate"] if name == "feed_rate" else feed_rate(fz, int(values["teeth"]), speed)
    most = values.get("max_feed_rate")
    if most is not None and not at_most(feed, most):
        clamped.append(f"The feed of {show(feed, 'mm/min')} is over the machine's; worked out with its fastest.")
        feed = most
    material = BY_KEY.get(str(readings["material"].value)) if "material" in readings else None
    kc11, mc = _force(values, material)
    return Given(
        values=values,
        diameter=diameter,
        teeth=int(values["teeth"]),
        climb=readings["direction"].value == "climb",
        material=material,
        kc11=kc11,
        mc=mc,
        speed=speed,
        fz=feed / (int(values["teeth"]) * speed),
        feed=feed,
        ae=ae,
        ap=values["axial_depth"],
        entering=values["entering_angle"],
        engagement=engagement,
        feed_input=name,
        clamped=tuple(clamped),
    )


def _speed(values: Mapping[str, float], diameter: float) -> float:
    """Spindle speed asked for, from either of the pair."""
    n, vc = values.get("spindle_speed"), values.get("cutting_speed")
    if n is None and vc is None:
        raise Refused("spindle_speed", "Give either spindle_speed or cutting_speed")
    if n is None:
        return spindle_speed(vc or 0.0, diameter)
    if vc is not None:
        _agree("cutting_speed", vc, cutting_speed(n, diameter), "m/min", "spindle_speed")
    return n


def _feed_per_tooth(values: Mapping[str, float], speed: float, share: float) -> tuple[float, str]:
    """Feed per tooth from whichever was given (the first named one), and its name."""
    teeth = values["teeth"]
    found = {
        "feed_per_tooth": values.get("feed_per_tooth"),
        "feed_rate": _over(values.get("feed_rate"), teeth * speed),
        "chip_thickness": _over(values.get("chip_thickness"), share),
    }
    known = {name: fz for name, fz in found.items() if fz is not None}
    if not known:
        raise Refused("feed_per_tooth", "Give one of feed_per_tooth, feed_rate or chip_thickness")
    name = next(iter(known))
    for other, fz in known.items():
        _agree(other, fz, known[name], "mm", name)
    return known[name], name


def _over(value: float | None, divisor: float) -> float | None:
    return None if value is None else value / divisor


def _agree(name: str, one: float, other: float, unit: str, beside: str) -> None:
    if abs(one - other) > AGREE * abs(other):
        raise Refused(
            name,
            f"{name} and {beside} do not agree ({show(one, unit)} against {show(other, unit)}); give one of them",
        )


def _clamped_speed(values: Mapping[str, float], wanted: float) -> tuple[float, list[str]]:
    limits = {"machine": values.get("max_spindle_speed"), "cutter's body": values.get("max_cutter_speed")}
    for what, limit in limits.items():
        if limit is not None and not at_most(wanted, limit) and limit == _least(limits):
            text = f"{show(wanted, 'rpm')} is over what the {what} may turn; worked out with {show(limit, 'rpm')}."
            return limit, [text]
    return wanted, []


def _least(limits: Mapping[str, float | None]) -> float:
    return min(limit for limit in limits.values() if limit is not None)


def _force(values: Mapping[str, float], material: Material | None) -> tuple[float | None, float | None]:
    kc11, mc = values.get("specific_force_1_1"), values.get("chip_exponent")
    if (kc11 is None) != (mc is None):
        missing = "chip_exponent" if mc is None else "specific_force_1_1"
        raise Refused(missing, "specific_force_1_1 and chip_exponent belong together; give both")
    if kc11 is None and material is None:
        raise Refused("material", "Give either material, or specific_force_1_1 with chip_exponent")
    if kc11 is None and material is not None:
        return material.kc11, material.mc
    return kc11, mc

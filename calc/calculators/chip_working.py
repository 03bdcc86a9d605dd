"""The working of a cut, in the order a person would do it."""

from collections.abc import Iterator

from calc.answer import Step
from calc.calculators.chip_given import Given
from calc.calculators.chip_sums import Sums
from calc.show import number, show


def working(g: Given, s: Sums) -> tuple[Step, ...]:
    """The steps for `g`, as far as they exist."""
    return (*_chip(g, s), *_force(g, s))


def _n(value: float) -> str:
    return number(value, "mm")


def _chip(g: Given, s: Sums) -> Iterator[Step]:
    d, n = _n(g.diameter), _n(g.speed)
    yield Step("Cutting speed", "vc = π D n/1000", f"π × {d} × {n}/1000", show(s.vc, "m/min"))
    yield Step("Feed rate", "vf = fz z n", f"{_n(g.fz)} × {g.teeth} × {n}", show(g.feed, "mm/min"))
    yield Step("Cutter in metal", "cos φ = 1 − 2 ae/D", f"1 − 2 × {_n(g.ae)}/{d}", show(g.engagement, "deg"))
    yield Step(
        "Greatest chip",
        "hex = fz sin κr sin φ (sin φ is 1 from half the cutter on)",
        f"{_n(g.fz)} × {_n(g.thickest_share)}",
        show(s.thickest, "mm"),
    )
    yield Step(
        "Mean chip",
        "hm = 2 fz ae sin κr/(D φ), φ in radians",
        f"fz = {_n(g.fz)}, ae = {_n(g.ae)}, κr = {_n(g.entering)}°, D = {d}, φ = {show(g.engagement, 'deg')}",
        show(s.mean, "mm"),
    )
    yield Step(
        "Metal removed",
        "Q = ap ae vf/1000",
        f"{_n(g.ap)} × {_n(g.ae)} × {_n(g.feed)}/1000",
        show(s.removal, "cm3/min"),
    )


def _force(g: Given, s: Sums) -> Iterator[Step]:
    f = s.force
    if f is None or g.kc11 is None or g.mc is None:
        return
    yield Step(
        "Specific force",
        "kc = kc1.1 hm^−mc",
        f"{_n(g.kc11)} × {_n(s.mean)}^−{_n(g.mc)}",
        show(f.kc, "N/mm2"),
    )
    yield Step(
        "Power at the cutter",
        "Pc = ap ae vf kc/60 000 000",
        f"{_n(g.ap)} × {_n(g.ae)} × {_n(g.feed)} × {_n(f.kc)}/60 000 000",
        show(f.power, "kW"),
    )
    yield Step(
        "Power the drive must give",
        "Pc/efficiency",
        f"{_n(f.power)}/{_n(g.values['efficiency'])}",
        show(f.needed, "kW"),
    )
    yield Step(
        "Torque at the cutter",
        "M = 30 000 Pc/(π n)",
        f"30 000 × {_n(f.power)}/(π × {_n(g.speed)})",
        show(f.torque, "N*m"),
    )
    yield Step(
        "Force that holding must stand",
        "1.3 × the largest sum over a turn of Ft + Fr; Ft = kc1.1 h^(1−mc) ap/sin κr, Fr = 0.4 Ft sin κr",
        f"{g.teeth} teeth, {show(g.engagement, 'deg')} in metal",
        show(f.peak, "N"),
    )
    yield from _reserve(s)


def _reserve(s: Sums) -> Iterator[Step]:
    for name, reserve in s.reserves.items():
        yield Step(
            f"Room up to {name.replace('_', ' ')}",
            "(limit/use)^(1/(1 − mc))" if name.startswith("spindle") else "limit/now",
            "",
            f"{number(reserve, '1')} ×",
        )

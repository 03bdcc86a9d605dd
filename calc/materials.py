"""Specific cutting force of materials: kc1.1 (N/mm2, at a chip 1 mm thick and 1 mm wide) and its exponent mc.

All read from one maker's table by VDI 3323 groups (ISCAR, milling formulas and material groups), for
rake 0 and a sharp edge, fitted for chips of about 0.05 to 1 mm. What is not published is not here:
acetal and tin bronze have no value that we found, so the user gives one, or force and power stay empty.
"""

from dataclasses import dataclass

TABLE = "ISCAR material groups after VDI 3323"


@dataclass(frozen=True)
class Material:
    """One material: ISO 513 letter, kc1.1 and mc, None where nobody publishes them.

    `lower` is another published kc1.1 and mc for the same material, where editions differ.
    """

    key: str
    label: str
    iso513: str
    kc11: float | None
    mc: float | None
    source: str
    lower: tuple[float, float] | None = None


MATERIALS = (
    Material("aluminium_wrought", "Aluminium, wrought, not hardened", "N", 700, 0.25, f"{TABLE}, group 21"),
    Material("aluminium_hardened", "Aluminium, hardened (5083, 6061)", "N", 800, 0.25, f"{TABLE}, group 22"),
    Material("aluminium_cast", "Aluminium, cast", "N", 750, 0.25, f"{TABLE}, groups 23-25: 700 to 750"),
    Material("brass_copper", "Brass, copper, free-cutting", "N", 700, 0.27, f"{TABLE}, groups 26-28"),
    Material("tin_bronze", "Tin bronze", "N", None, None, "no published value found"),
    Material("mild_steel", "Steel under 0.25 % carbon, annealed", "P", 1350, 0.21, f"{TABLE}, group 1"),
    Material("carbon_steel", "Steel from 0.25 % carbon, annealed", "P", 1500, 0.22, f"{TABLE}, group 2"),
    Material("alloy_steel_annealed", "Low-alloy steel, annealed", "P", 1775, 0.24, f"{TABLE}, group 6"),
    Material("alloy_steel_930", "Low-alloy steel, 930 N/mm2", "P", 1675, 0.24, f"{TABLE}, group 7"),
    Material("alloy_steel_1200", "Low-alloy steel, 1200 N/mm2", "P", 1800, 0.24, f"{TABLE}, group 9"),
    Material("high_alloy_steel", "High-alloy and tool steel", "P", 2450, 0.23, f"{TABLE}, group 10"),
    Material("stainless_ferritic", "Stainless, ferritic or martensitic", "M", 1875, 0.21, f"{TABLE}, groups 12-13"),
    Material("stainless_austenitic", "Stainless, austenitic (304, 316)", "M", 2150, 0.20, f"{TABLE}, group 14"),
    Material("grey_cast_iron", "Grey cast iron", "K", 1150, 0.20, f"{TABLE}, group 15"),
    Material(
        "titanium_6al4v",
        "Titanium Ti-6Al-4V",
        "S",
        2110,
        0.22,
        f"{TABLE}, group 37: 2110 and 0.22 in the 2017 edition, 1245 and 0.24 in that of 2022",
        lower=(1245, 0.24),
    ),
    Material("acetal", "Acetal", "x", None, None, "no published value found"),
)
BY_KEY = {one.key: one for one in MATERIALS}

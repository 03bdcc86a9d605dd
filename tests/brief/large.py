"""A very large job, as the demo's shop could have it."""

from typing import Any

CUTS = {
    "face63": ("face",),
    "em12": ("profile", "pocket", "slot", "finish_wall", "finish_floor", "rough_constant_engagement"),
    "em6": ("slot", "finish_wall", "pocket", "ramp_or_helix_entry"),
    "v90": ("chamfer",),
}
NAMES = ("Saw and square", "First side", "Second side", "Left end", "Right end", "Front edge", "Back edge", "Soft jaws")
OPERATIONS = 39


def operation(setup: int, number: int) -> dict[str, Any]:
    """One of the large job's, cutter after cutter of the demo's shop."""
    key = list(CUTS)[(setup + number) % len(CUTS)]
    return {
        "operation": CUTS[key][(setup * 3 + number) % len(CUTS[key])],
        "cutter_of_shop": key,
        "cutting": {"spindle_speed": "6000 rpm", "feed_rate": "900 mm/min", "axial_depth": f"{2 + number} mm",
                    "radial_depth": "1.5 mm", "direction": "climb"},
        "geometry": {"feature": "closed_pocket", "pocket_width": "24 mm", "corner_radius": "6.5 mm"},
    }  # fmt: skip


def large_job() -> dict[str, Any]:
    """Eight set-ups, 39 operations, every zero told in full."""
    counts = [5] * (len(NAMES) - 1) + [OPERATIONS - 5 * (len(NAMES) - 1)]
    holding = {"holding_kind": "vice_on_parallels", "vice": "vice", "grip_height": "8 mm", "part_height": "40 mm",
               "parallel_height": "25 mm", "lowest_cut": "20 mm", "part_width": "60 mm"}  # fmt: skip
    datum = {"finder_kind": "touch_trigger", "face": "fixed jaw and left end", "surface": "milled",
             "plan": "Touch both faces, then read back"}  # fmt: skip
    setups = [
        {"name": name, "holding": holding, "datum": {"work_offset": f"G{54 + n % 6}", **datum},
         "operations": [operation(n, m) for m in range(count)]}
        for n, (name, count) in enumerate(zip(NAMES, counts, strict=True))
    ]  # fmt: skip
    return {"part": "Gearbox housing", "material": "6061", "iso513": "N", "machine": "bed-mill", "setups": setups}

"""What a job's sums ask for, until they can be done."""

from pathlib import Path
from typing import Any

import pytest

from hooks.brief.sums import Sum, sums
from hooks.shop.read import read_shop

DEMO = Path(__file__).parents[2] / "content" / "demo"
# Where each fact of a facing cut in a vice is written, and a number for it.
PLACES = {
    "teeth": ("cutter", "5"), "spindle_speed": ("cutting", "3000 rpm"), "feed_per_tooth": ("cutting", "0.1 mm"),
    "radial_depth": ("cutting", "40 mm"), "axial_depth": ("cutting", "1 mm"), "force_height": ("holding", "28 mm"),
    "part_width": ("holding", "60 mm"), "torque": ("holding", "40 N m"), "screw_pitch": ("holding", "5 mm"),
}  # fmt: skip


def facing(material: str = "6082") -> dict[str, Any]:
    """A wide cutter on a thin grip, and nothing known of the cut."""
    operation = {"operation": "face", "cutter": {"tool_kind": "face_mill", "cutter_diameter": "63 mm"}, "cutting": {}}
    holding = {"holding_kind": "vice_soft_jaws", "grip_height": "2 mm"}
    return {"part": "x", "material": material, "setups": [{"holding": holding, "operations": [operation]}]}


def put(job: dict[str, Any], fact: str) -> None:
    """Write a fact of PLACES into the sheet."""
    group, text = PLACES[fact]
    (setup,) = job["setups"]
    (setup if group == "holding" else setup["operations"][0])[group][fact] = text


def of(job: dict[str, Any], name: str) -> Sum | None:
    """The job's sum of that name."""
    return next((one for one in sums(job, read_shop(DEMO).settings_typed) if one.calculator.name == name), None)


def test_a_job_with_a_danger_asks_for_one_fact_after_another_until_its_sum_is_done() -> None:
    """The grip of a wide cutter: what the force is found from, then what the vice must hold; no fact twice."""
    job, asked = facing(), []
    while (grip := of(job, "clamping")) and not grip.answer:
        assert grip.lacks and grip.lacks.fact not in asked and grip.lacks.told
        asked.append(grip.lacks.fact)
        put(job, grip.lacks.fact)
    assert asked == ["teeth", "spindle_speed", "feed_per_tooth", "radial_depth", "axial_depth", "force_height",
                     "part_width", "torque"]  # fmt: skip
    chip = of(job, "chip-load")
    assert grip and grip.answer and chip and chip.answer
    assert grip.answer["inputs"]["peak_force"]["value"] == pytest.approx(chip.answer["values"]["peak_force"]["value"])


def test_many_missing_facts_are_counted() -> None:
    """Three are named, the rest are a number; four are all named."""
    job = facing()
    grip = of(job, "clamping")
    assert grip and grip.reason == "Teeth; spindle speed; feed per tooth; 4 more"
    for fact in ("teeth", "spindle_speed", "feed_per_tooth"):
        put(job, fact)
    grip = of(job, "clamping")
    assert grip and grip.reason.count(";") == 3 and "more" not in grip.reason


def test_without_the_danger_a_sum_asks_for_its_last_fact_only() -> None:
    """A small cutter and a deep grip: the grip is worked out once all but one are there, and not asked for before."""
    job = facing()
    (setup,) = job["setups"]
    setup["operations"][0]["cutter"] = {"tool_kind": "end_mill", "cutter_diameter": "10 mm", "teeth": "3"}
    setup["holding"]["grip_height"] = "20 mm"
    assert of(job, "clamping") is None
    for fact in ("spindle_speed", "feed_per_tooth", "axial_depth", "force_height", "part_width", "torque"):
        put(job, fact)
    setup["operations"][0]["cutting"]["radial_depth"] = "5 mm"
    grip = of(job, "clamping")
    assert grip and grip.answer
    del setup["holding"]["force_height"]
    grip = of(job, "clamping")
    assert grip and grip.lacks and grip.lacks.fact == "force_height"


@pytest.mark.parametrize(
    ("material", "told"),
    [
        ("acetal", "tables do not have"),
        ("17-4PH", "tables do not have"),
        ("odd bar from the shed", "a name that the sums know"),
        ("", "a name that"),
    ],
)
def test_a_force_that_cannot_be_found_is_told(material: str, told: str) -> None:
    """Nobody can type a force: what is asked for is the material, or it is said that no source has it."""
    job = facing(material)
    for fact in PLACES:
        put(job, fact)
    grip = of(job, "clamping")
    assert grip and grip.lacks and told in grip.lacks.told


def test_a_hardened_steel_is_not_taken_for_an_annealed_one() -> None:
    """58 HRC beside the material: the published force is for the annealed steel, so none is used."""
    job = facing("O1")
    for fact in PLACES:
        put(job, fact)
    grip = of(job, "clamping")
    assert grip and grip.answer
    grip = of({**job, "hardness": "58 HRC"}, "clamping")
    assert grip and not grip.answer


@pytest.mark.parametrize(("operation", "asks"), [("pocket", True), ("drill", False), ("ream", False), ("face", False)])
def test_a_ramp_is_asked_for_where_a_cutter_goes_in(operation: str, asks: bool) -> None:
    """A pocket or a slot; a drill goes straight down."""
    cut = {"operation": operation, "cutter": {"cutter_diameter": "10 mm", "teeth": "3"},
           "cutting": {"axial_depth": "5 mm"}, "geometry": {"depth": "10 mm"}}  # fmt: skip
    ramp = of({"material": "6082", "setups": [{"operations": [cut]}]}, "ramp-entry")
    assert (ramp is not None) is asks

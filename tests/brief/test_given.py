"""What a job gives to its sums: its own facts before the shop's, in their words, and only where they belong."""

import random
from collections.abc import Iterator
from typing import Any

import pytest

from calc.catalogue import CALCULATORS
from hooks.brief.given import facts_for
from hooks.brief.situations import situations
from hooks.brief.sums import NO_PLACE, NOT_ASKED, Sum, sums
from hooks.shop.fields import Field
from hooks.shop.job_sheet import JOB_FIELDS
from hooks.shop.settings import SHOP_FIELDS
from hooks.shop.vocabulary import VOCABULARIES

CUTTER = {"tool_kind": "end_mill", "cutter_diameter": "10 mm", "teeth": "3"}
CUT = {"spindle_speed": "3000 rpm", "feed_per_tooth": "0.1 mm", "radial_depth": "4 mm", "axial_depth": "5 mm"}
HELD = {"holding_kind": "vice_hard_jaws", "grip_height": "10 mm", "force_height": "20 mm", "part_width": "50 mm"}


def job(operation: str = "profile", material: str = "6082", **groups: Any) -> dict[str, Any]:
    """A sheet of one operation; groups by name, `holding` among them."""
    holding = groups.pop("holding", {})
    return {"part": "x", "material": material,
            "setups": [{"holding": holding, "operations": [{"operation": operation, **groups}]}]}  # fmt: skip


def of(name: str, sheet: dict[str, Any], settings: dict[str, Any] | None = None) -> Sum | None:
    """The sum of that name, where the sheet has it."""
    return next((one for one in sums(sheet, settings or {}) if one.calculator.name == name), None)


def facts(sheet: dict[str, Any], settings: dict[str, Any]) -> dict[str, str]:
    """The facts of a sheet's only operation."""
    (where,) = situations(sheet, settings)
    return facts_for(where, sheet, settings)


@pytest.mark.parametrize(
    ("vice", "said", "expected"),
    [
        ({"handle_torque": "60 N*m"}, {"torque": "10 N*m"}, {"handle_torque": "10 N*m"}),  # the job's own counts
        ({"clamp_force": "10 kN"}, {"torque": "10 N*m"}, {"handle_torque": "10 N*m"}),
        ({"clamp_force": "10 kN", "handle_torque": "60 N*m"}, {}, {"clamp_force": "10 kN"}),  # the measured counts
        ({"handle_torque": "60 N*m"}, {}, {"handle_torque": "60 N*m"}),
    ],
)
def test_one_force_of_the_vice_counts(vice: dict[str, str], said: dict[str, str], expected: dict[str, str]) -> None:
    """A torque typed for this job before the usual one, a measured force before one worked out from a torque."""
    sheet = job(holding={"vice": "v", **said})
    found = facts(sheet, {"vices": [{"key": "v", "name": "V", **vice}]})
    assert {key: found[key] for key in ("clamp_force", "handle_torque") if key in found} == expected


def test_a_loose_handle_is_not_saved_by_the_usual_torque() -> None:
    """10 N m on the sheet where the vice's usual is 60: the grip is that of 10."""
    settings = {"vices": [{"key": "v", "name": "V", "handle_torque": "60 N*m"}]}
    sheet = job(cutter=CUTTER, cutting=CUT, holding={**HELD, "vice": "v", "torque": "10 N*m"})
    plain = job(cutter=CUTTER, cutting=CUT, holding={**HELD, "torque": "10 N*m"})
    with_vice, without = of("clamping", sheet, settings), of("clamping", plain)
    assert with_vice and without and with_vice.answer and with_vice.answer == without.answer


@pytest.mark.parametrize("operation", ["tap", "drill", "spot_drill", "chamfer"])
def test_a_thread_in_a_hole_is_milled_only_where_it_is_milled(operation: str) -> None:
    """An M8 beside a drill or a tap says nothing of a thread mill."""
    sheet = job(operation, cutter={"cutter_diameter": "8 mm"},
                geometry={"thread": "M8", "hole_diameter": "6.8 mm", "depth": "12 mm"})  # fmt: skip
    assert of("thread-mill", sheet) is None
    assert (of("tap", sheet) is not None) is (operation == "tap")


def test_a_form_tap_and_a_through_hole_are_told_to_the_sum() -> None:
    """The hole of 7.4 is right for an M8 that is formed, and weak for one that is cut."""
    geometry = {"thread": "M8", "hole_diameter": "7.4 mm", "depth": "12 mm", "feature": "through_hole"}
    formed = of("tap", job("tap", cutter={"tool_kind": "form_tap"}, geometry=geometry))
    cut = of("tap", job("tap", cutter={"tool_kind": "cut_tap"}, geometry=geometry))
    assert formed and cut and formed.answer and cut.answer
    assert formed.inputs["kind"] == "form" and formed.inputs["hole"] == "through"
    assert cut.answer["verdict"] == "watch" and formed.answer != cut.answer


def test_a_tap_is_held_against_the_hole_drilled_before_it() -> None:
    """6 by 12 deep under an M8 of 16 stops; a 3 and a 20 are other holes; what the tap's own lines say counts."""

    def tapped(*drills: tuple[str, str], **own: str) -> Sum | None:
        drilled = [{"operation": "drill", "cutter": {"cutter_diameter": size}, "geometry": {"depth": depth}}
                   for size, depth in drills]  # fmt: skip
        tap = {
            "operation": "tap",
            "cutter": {"tool_kind": "cut_tap"},
            "geometry": {"thread": "M8", "depth": "16 mm", **own},
        }
        return of("tap", {"material": "4140", "setups": [{"operations": [*drilled, tap]}]})

    small, right, others, own = (
        tapped(("6 mm", "12 mm")), tapped(("6.8 mm", "22 mm")), tapped(("3 mm", "5 mm"), ("20 mm", "30 mm")),
        tapped(("6 mm", "12 mm"), hole_diameter="6.8 mm"),
    )  # fmt: skip
    assert small and right and others and own and small.answer and right.answer
    assert small.verdict == "stop" and small.inputs["drilled_depth"] == "12 mm"
    assert right.verdict == "ok" and right.inputs["drill_diameter"] == "6.8 mm"
    assert "drill_diameter" not in others.inputs and own.inputs["drill_diameter"] == "6.8 mm"


def test_a_thread_without_its_depth_is_asked_for_it() -> None:
    """The sum of the operation itself is never passed over."""
    tap = of("tap", job("tap", cutter={"tool_kind": "cut_tap"}, geometry={"thread": "M8"}))
    assert tap and not tap.answer and tap.lacks and tap.lacks.fact == "depth"
    odd = of("tap", job("tap", cutter={"tool_kind": "cut_tap"}, geometry={"thread": "banana", "depth": "9 mm"}))
    assert odd and odd.verdict == "watch" and "banana" in odd.reason


def test_a_cutter_wider_than_its_slot_is_told() -> None:
    """6 mm into 4, whatever else is not known."""
    corner = of("corner-clearance", job("slot", cutter={"cutter_diameter": "6 mm"}, geometry={"pocket_width": "4 mm"}))
    assert corner and corner.verdict == "stop" and "does not go into" in corner.reason
    rough = job(
        "pocket",
        cutter={"cutter_diameter": "12 mm"},
        cutting={"radial_depth": "6 mm"},
        geometry={"corner_radius": "5 mm"},
    )
    corner = of("corner-clearance", rough)
    assert corner and corner.verdict == "stop" and "radius 5 mm" in corner.reason


def test_ridges_are_of_the_edge_that_leaves_them() -> None:
    """A nose of 0.8 at 0.15 a tooth leaves 0.15^2/(8 x 0.8) = 3.5 um, a ball of 3 at 0.3 3.75; no nose, no number."""
    nose = {"tool_kind": "face_mill", "cutter_diameter": "63 mm", "nose_radius": "0.8 mm"}
    ball = {"tool_kind": "ball_end_mill", "cutter_diameter": "6 mm"}
    faced = of("surface-finish", job("face", cutter=nose, cutting={"feed_per_tooth": "0.15 mm"}))
    balled = of("surface-finish", job("finish_3d", cutter=ball, cutting={"radial_depth": "0.3 mm"}))
    bare = of("surface-finish", job("face", cutter={**nose, "nose_radius": ""}, cutting={"feed_per_tooth": "0.15 mm"}))
    assert faced and balled and faced.answer and balled.answer
    ridges = [one.answer["values"]["peak_to_valley"]["value"] for one in (faced, balled) if one.answer]
    assert ridges == pytest.approx([1000 * 0.15**2 / 6.4, 1000 * 0.3**2 / 24], rel=0.01)
    assert bare is None or not bare.answer


def test_the_width_of_a_slot_is_no_stock_left_on_a_wall() -> None:
    """A full slot says nothing false of its corner; half a millimetre on a wall does count."""
    full = {**CUT, "radial_depth": "10 mm"}
    slot = of("corner-clearance", job("slot", cutter=CUTTER, cutting=full, geometry={"pocket_width": "10 mm"}))
    assert slot is None or slot.verdict == ""
    wall = of("corner-clearance", job("finish_wall", cutter=CUTTER, cutting={**CUT, "radial_depth": "0.5 mm"},
                                      geometry={"corner_radius": "6 mm"}))  # fmt: skip
    assert wall and wall.answer and wall.inputs["radial_depth"] == "0.5 mm"


def test_an_outside_deeper_than_the_lowest_cut_that_was_said_counts() -> None:
    """30 mm of outside on a part that was to be cut 20 deep: the jaws are nearer than that."""
    held = {"holding_kind": "vice_on_parallels", "part_height": "40 mm", "parallel_height": "30 mm",
            "jaw_height": "40 mm", "lowest_cut": "20 mm"}  # fmt: skip
    outside = job("profile", holding=held, geometry={"depth": "30 mm"})
    inside = job("pocket", holding=held, geometry={"depth": "30 mm"})
    assert facts(outside, {})["lowest_cut"] == "30 mm" and facts(inside, {})["lowest_cut"] == "20 mm"


def test_a_cutter_with_inserts_bends_as_steel() -> None:
    """Its body is steel: a third as stiff as carbide."""
    long = {"cutter_diameter": "20 mm", "teeth": "3", "stick_out": "90 mm"}
    bend = {}
    for made in ("carbide", "hss", "indexable_carbide"):
        found = of("stick-out", job(cutter={**long, "tool_material": made}, cutting=CUT))
        assert found and found.answer
        bend[made] = found.answer["values"]["deflection"]["value"]
    assert bend["indexable_carbide"] == bend["hss"] > 2 * bend["carbide"]


def test_numbers_that_contradict_each_other_are_told_and_nothing_is_made_of_them() -> None:
    """1200 mm/min is not 0.1 mm a tooth at 3000 rpm: the chip's sum says so, the grip's blames no table."""
    sheet = job(cutter={**CUTTER, "stick_out": "30 mm"}, cutting={**CUT, "feed_rate": "1200 mm/min"}, holding=HELD)
    chip = of("chip-load", sheet)
    assert chip and chip.verdict == "watch" and "do not agree" in chip.reason
    assert of("clamping", sheet) is None and of("stick-out", sheet) is None


def test_what_is_given_and_cannot_be_taken_is_told_and_not_asked_for() -> None:
    """A cutter of 125 mm is over what the bending is made for."""
    sheet = job("face", cutter={**CUTTER, "cutter_diameter": "125 mm", "stick_out": "60 mm"}, cutting=CUT)
    bending = of("stick-out", sheet)
    assert bending and bending.verdict == "watch" and "125 mm" in bending.reason


@pytest.mark.parametrize("faces", ["both ends", "9,0,0"])
def test_sawn_faces_that_cannot_be_read_are_told(faces: str) -> None:
    """Never taken for the usual two."""
    sizes = {"finished_length": "100 mm", "finished_width": "78 mm", "finished_height": "58 mm"}
    stock = of(
        "stock-allowance", {"stock": {**sizes, "sawn_faces": faces}, "setups": [{"operations": [{"operation": "saw"}]}]}
    )
    assert stock and not stock.answer and faces in stock.reason


@pytest.mark.parametrize("operation", ["drill", "tap", "ream", "find_edge"])
def test_a_hole_is_not_asked_how_wide_it_is_cut(operation: str) -> None:
    """A drill that sticks out six times its size is no end mill: no teeth, no width of cut, no bending by the side."""
    sheet = job(
        operation, cutter={"cutter_diameter": "10 mm", "stick_out": "60 mm"}, holding={**HELD, "grip_height": "1 mm"}
    )
    assert not {one.calculator.name for one in sums(sheet, {})} & {"chip-load", "stick-out", "clamping"}


def test_a_danger_asks_though_the_sum_is_done_elsewhere_and_before_all_others() -> None:
    """A wide cutter on a thin grip in the second set-up, after a first that is all known."""
    first = {
        "holding": {**HELD, "torque": "40 N*m"},
        "operations": [{"operation": "profile", "cutter": CUTTER, "cutting": CUT}],
    }
    wide = {"operation": "face", "cutter": {"tool_kind": "face_mill", "cutter_diameter": "63 mm"}}
    second = {"holding": {"holding_kind": "vice_hard_jaws", "grip_height": "2 mm"}, "operations": [wide]}
    known = {"part": "x", "material": "6082", "stock": {"finished_length": "50 mm"}, "setups": [first, second]}
    found = [one for one in sums(known, {}) if not one.verdict]
    assert found[0].calculator.name == "clamping" and found[0].where == "Set-up 2: face"


def test_clamps_are_not_judged_as_a_vice() -> None:
    """Straps have no jaws."""
    sheet = job(cutter=CUTTER, cutting=CUT, holding={**HELD, "holding_kind": "strap_clamps"})
    assert of("clamping", sheet) is None


def test_what_no_sheet_has_a_place_for_is_never_asked() -> None:
    """Every fact that a sum requires is a field of the sheet or the shop, or known to have none."""
    places = {one.key for field in (*JOB_FIELDS, *SHOP_FIELDS) for one in _flat(field)}
    renamed = {
        "thread_depth",
        "drill_diameter",
        "full_depth",
        "step_over",
        "included_angle",
        "wall_force",
        "peak_force",
    }
    for calculator in CALCULATORS:
        required = {one.name for one in calculator.inputs if one.required}
        if calculator.name not in NOT_ASKED and len(required) > 2:
            assert required <= places | renamed | NO_PLACE, calculator.name
    assert not NO_PLACE & places


def _flat(field: Field) -> Iterator[Field]:
    yield field
    for part in (*field.parts, *([field.item] if field.item else [])):
        yield from _flat(part)


def test_sheets_at_random_are_always_answered() -> None:
    """Three hundred sheets with plausible and silly texts: every sum has a known verdict, or asks in words."""
    chance = random.Random(4)
    fields = {field.key: field for field in JOB_FIELDS}
    for _ in range(300):
        sheet = {key: _made(fields[key], chance) for key in ("material", "hardness", "stock", "quantity", "setups")}
        for one in sums(sheet, {}):
            assert one.verdict in ("stop", "watch", "ok", "") and one.reason


def _made(field: Field, chance: random.Random) -> Any:
    if field.type == "group":
        return {part.key: _made(part, chance) for part in field.parts if chance.random() < 0.6}
    if field.type == "list" and field.item:
        return [_made(field.item, chance) for _ in range(chance.randint(0, 2))]
    if field.type == "one_of":
        return chance.choice(VOCABULARIES[field.of].words).key
    unit = field.unit if field.unit != "1" else ""
    numbers = (f"{chance.uniform(0.01, 100):.3g} {unit}".strip(), f"{chance.randint(1, 12)}", "0", "1e-3", "-1", "1e9")
    return chance.choice((*numbers, "1/4 in", "both", "M8", "6082", "58 HRC", "x" * 40, "½", "2,0,0", "90 x 70"))

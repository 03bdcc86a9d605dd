"""Job sheets and the shop's settings as files: read strictly, written safely, and what they prove of a lesson."""

from pathlib import Path
from typing import Any

import pytest

from hooks.shop import write
from hooks.shop.read import read_shop, state_of
from hooks.shop.sheet import JOB

ID = "20260508-081500-c4e7n"
SETTINGS = (
    '# ours\nname: "x"\nmachines:\n  - {key: "mill", name: "The mill"}  # the old one\n'
    'cutters:\n  - {key: "em6", name: "6 mm", tool_kind: "end_mill", cutter_diameter: "6 mm"}\n'
)
FIELDS: dict[str, Any] = {
    "part": "Plate", "machine": "mill",
    "setups": [{"operations": [{"operation": "slot", "cutter_of_shop": "em6"}]}],
}  # fmt: skip


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A shop with a machine and a cutter."""
    (tmp_path / "shop.yaml").write_text(SETTINGS, encoding="utf-8")
    return tmp_path


def told(shop: Path) -> list[str]:
    """Every problem of the shop, as printed."""
    return [str(problem) for problem in read_shop(shop).problems]


def test_a_job_is_stored_and_comes_back_as_typed(shop: Path) -> None:
    """In jobs/ID.yaml; sent twice it is stored once; an edit leaves the other lines as they were."""
    saved = write.save_new(shop, ID, FIELDS, JOB)
    assert saved.path == f"jobs/{ID}.yaml" and saved.written
    assert not write.save_new(shop, ID, FIELDS, JOB).written
    (job,) = read_shop(shop).jobs
    assert job.typed == {"id": ID, **FIELDS} and not told(shop)
    before = (shop / saved.path).read_text(encoding="utf-8").splitlines()
    write.save_edit(shop, ID, saved.hash, {"quantity": "4"}, JOB)
    after = (shop / saved.path).read_text(encoding="utf-8").splitlines()
    assert [line for line in after if line in before] == before and 'quantity: "4"' in after


@pytest.mark.parametrize(
    ("changed", "part"),
    [
        ({"machine": "mil"}, 'no machine "mil" in shop.yaml'),
        (
            {"setups": [{"operations": [{"cutter_of_shop": "em66"}]}]},
            'no cutter "em66" in shop.yaml; did you mean em6?',
        ),
        ({"setups": [{"holding": {"vice": "big"}}]}, 'no vice "big" in shop.yaml'),
    ],
)
def test_names_that_the_shop_does_not_have_are_told(shop: Path, changed: dict[str, Any], part: str) -> None:
    """With the place in the file; the job itself stays good."""
    write.save_new(shop, ID, FIELDS | changed, JOB)
    (problem,) = told(shop)
    assert part in problem and problem.startswith(f"jobs/{ID}.yaml:")
    assert len(read_shop(shop).jobs) == 1


def test_a_job_in_the_wrong_folder_is_told(shop: Path) -> None:
    """Where lessons lie by year, a job does not."""
    write.save_new(shop, ID, FIELDS, JOB)
    (shop / "jobs" / "2026").mkdir()
    (shop / "jobs" / f"{ID}.yaml").rename(shop / "jobs" / "2026" / f"{ID}.yaml")
    assert not read_shop(shop).jobs and f"expected jobs/{ID}.yaml" in told(shop)[0]


def test_two_cutters_with_one_key_are_told(shop: Path) -> None:
    """Jobs name cutters by key: at the second one, when read and when saved."""
    twice = SETTINGS + '  - {key: "em6", name: "another"}\n'
    (shop / "shop.yaml").write_text(twice, encoding="utf-8")
    assert told(shop) == ['shop.yaml:7:11: a second cutter "em6": each needs a key of its own']
    (shop / "shop.yaml").write_text(SETTINGS, encoding="utf-8")
    base = read_shop(shop).settings_hash
    with pytest.raises(write.Invalid, match="second cutter"):
        write.save_settings(shop, base, {"cutters": [{"key": "a", "name": "1"}, {"key": "a", "name": "2"}]})


def test_the_settings_keep_every_byte_that_was_not_changed(shop: Path) -> None:
    """Comments too; a stale base is a conflict, and then nothing is written."""
    base = read_shop(shop).settings_hash
    write.save_settings(shop, base, {"name": "y"})
    assert (shop / "shop.yaml").read_text(encoding="utf-8") == SETTINGS.replace('"x"', '"y"')
    with pytest.raises(write.Conflict):
        write.save_settings(shop, base, {"name": "z"})


@pytest.mark.parametrize(
    ("answers", "state"),
    [
        (["held", "held"], "changed"),
        (["held", "held", "held"], "held"),
        (["held", "held", "held", "happened_again"], "came_back"),
        (["not_met"] * 5, "changed"),
    ],
)
def test_what_jobs_answered_is_a_lesson_s_proof(shop: Path, answers: list[str], state: str) -> None:
    """Three jobs since the change hold it; once again brings it back; what was not met says nothing."""
    lesson = "20260101-080000-aaaaa"
    write.save_new(shop, lesson, {
        "kind": "crash", "said": "x", "now_do": "y", "changes": [{"what": "z", "done_on": "2026-01-02"}]})  # fmt: skip
    for n, answer in enumerate(answers):
        held = [{"lesson": lesson, "answer": answer, "on": "2026-02-01"}]
        write.save_new(shop, f"20260201-08000{n}-aaaaa", FIELDS | {"held": held}, JOB)
    read = read_shop(shop)
    assert state_of(read.lessons[0], read) == state


@pytest.mark.parametrize(("answers", "state"), [(["held"], "kept"), (["held", "happened_again"], "came_back")])
def test_what_worked_well_and_then_failed_came_back(shop: Path, answers: list[str], state: str) -> None:
    """A trick that failed in a job is no longer worth keeping as it stands."""
    lesson = "20260101-080000-aaaaa"
    write.save_new(shop, lesson, {"kind": "worked_well", "said": "x", "now_do": "y"})
    for n, answer in enumerate(answers):
        held = [{"lesson": lesson, "answer": answer, "on": "2026-02-01"}]
        write.save_new(shop, f"20260201-08000{n}-aaaaa", FIELDS | {"held": held}, JOB)
    read = read_shop(shop)
    assert state_of(read.lessons[0], read) == state


def test_an_answer_from_before_the_change_proves_nothing(shop: Path) -> None:
    """It was about the old way."""
    lesson = "20260101-080000-aaaaa"
    write.save_new(shop, lesson, {
        "kind": "crash", "said": "x", "now_do": "y", "changes": [{"what": "z", "done_on": "2026-03-02"}]})  # fmt: skip
    for n in range(3):
        held = [{"lesson": lesson, "answer": "held", "on": "2026-02-01"}]
        write.save_new(shop, f"20260201-08000{n}-aaaaa", FIELDS | {"held": held}, JOB)
    read = read_shop(shop)
    assert state_of(read.lessons[0], read) == "changed"

"""Hand-over files taken in from a page without a server. The format is the project's own."""

import hashlib
import json
from argparse import Namespace
from pathlib import Path
from typing import Any

import pytest

from hooks.run import commands
from hooks.shop.read import read_shop
from hooks.shop.receive import REFUSED, TAKEN, THERE, counted, receive_files

ID, OTHER_ID = "20261125-063051-k7q2d", "20261125-063052-zzzz9"
LESSON = {"kind": "bad_surface", "said": "The finishing pass dug in at the corners of a small pocket."}
JOB: dict[str, Any] = {"part": "Plate", "material": "316L", "note": "two clamps"}
SETTINGS = '# ours\nname: "x"\ncutters:\n  - {key: "em6", name: "6 mm"}\n  - {key: "em8", name: "8 mm"}\n'


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A shop with two cutters and nothing else."""
    root = tmp_path / "shop"
    root.mkdir()
    (root / "shop.yaml").write_text(SETTINGS, encoding="utf-8")
    return root


def new(kind: str = "lesson", id_: Any = ID, **changed: Any) -> dict[str, Any]:
    """A new lesson or job as a page hands it over."""
    fields = {"lesson": LESSON, "job": JOB}[kind]
    return {"twice_shy": 1, "kind": kind, "id": id_, "fields": {**fields, **changed}}


def edit(kind: str, path: Path, was: dict[str, Any], **changes: Any) -> dict[str, Any]:
    """Changes that a page made of the file as it is now."""
    base = hashlib.sha256(path.read_bytes()).hexdigest()
    return {"twice_shy": 1, "kind": kind, "id": path.stem, "base": base, "was": was, "changes": changes}


def file(shop: Path, content: object, name: str = "handed.json") -> Path:
    """A hand-over file beside the shop."""
    path = shop.parent / name
    path.write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8")
    return path


def took(shop: Path, *contents: object) -> list[str]:
    """Receive each as a file of its own; what became of them."""
    return [
        line.became for line in receive_files(shop, [file(shop, one, f"{n}.json") for n, one in enumerate(contents)])
    ]


def line(shop: Path, content: object) -> str:
    """What is said of a file that is refused, in one line; nothing was written."""
    before = files(shop)
    (told,) = receive_files(shop, [file(shop, content)])
    assert told.became == REFUSED and told.text.isprintable() and len(told.text) < 1000
    assert files(shop) == before
    return told.text


def files(shop: Path) -> dict[str, bytes]:
    """Every file of the shop and of the folder that it is in, but those handed over."""
    return {
        str(path): path.read_bytes() for path in shop.parent.rglob("*") if path.is_file() and path.suffix != ".json"
    }


def job_path(shop: Path) -> Path:
    """A job that is in the shop."""
    assert took(shop, new("job")) == [TAKEN]
    return shop / "jobs" / f"{ID}.yaml"


def test_all_kinds_mixed_are_taken_once_and_known_again(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The second time each is said to be here already, and every byte is as it was."""
    settings = edit("settings", shop / "shop.yaml", {"about": None}, about="two mills")
    mixed = [[new(), new("job")], new("lesson", OTHER_ID), new("job", OTHER_ID), settings]
    paths = [str(file(shop, one, f"{n}.json")) for n, one in enumerate(mixed)]
    asked = Namespace(shop=str(shop), files=paths)
    assert commands.receive(asked) == 0
    assert capsys.readouterr().out.splitlines()[-1] == "5 taken"
    before = files(shop)
    assert commands.receive(asked) == 0
    told = capsys.readouterr().out.splitlines()
    assert told[-1] == "5 here already" and told[1].endswith(f"number 2: job {ID}: here already (jobs/{ID}.yaml)")
    assert files(shop) == before
    assert len(read_shop(shop).lessons) == len(read_shop(shop).jobs) == 2


def test_the_count_names_what_there_is(shop: Path) -> None:
    """Taken, here already and not taken in one line; an empty list says so."""
    took(shop, new())
    lines = receive_files(shop, [file(shop, [new(), new("job"), 7])])
    assert counted(lines) == "1 taken, 1 here already, 1 not taken"
    assert counted(receive_files(shop, [file(shop, [])])) == "nothing was in it"


@pytest.mark.parametrize("kind", ["lesson", "job"])
def test_what_differs_is_told_and_overwrites_nothing(shop: Path, kind: str) -> None:
    """Same id, other words."""
    took(shop, new(kind))
    changed = {"lesson": {"said": "Other words."}, "job": {"part": "Other part"}}[kind]
    assert f"{kind} {ID}: another of that id is here; nothing was changed" in line(shop, new(kind, **changed))


def test_an_edit_is_taken_once_and_twice(shop: Path) -> None:
    """Of a lesson and of a job; one that is sent before what it changes waits for it; a file of old has no "was"."""
    job = job_path(shop)
    took(shop, new())
    lesson = shop / "lessons" / "2026" / f"{ID}.yaml"
    old = edit("edit", lesson, {}, said="In fact: dug in twice.")
    del old["was"]
    both = [old, edit("job-edit", job, {"note": "two clamps", "quantity": None}, note=None, quantity="4")]
    lesson.unlink()
    assert took(shop, *both, new()) == [TAKEN, TAKEN, TAKEN]
    assert took(shop, *both) == [THERE, THERE]
    assert b"dug in twice" in lesson.read_bytes() and b"two clamps" not in job.read_bytes()
    assert b'quantity: "4"' in job.read_bytes()


def test_edits_of_other_fields_both_hold(shop: Path) -> None:
    """Two files from one base: facts in one, answers in the other, and a third changed at home meanwhile."""
    job = job_path(shop)
    facts = edit("job-edit", job, {"material": "316L"}, material="304")
    held = edit("job-edit", job, {"held": None}, held=[{"lesson": ID, "answer": "held", "on": "2026-11-25"}])
    job.write_text(job.read_text(encoding="utf-8").replace("two clamps", "three"), encoding="utf-8")
    assert took(shop, facts, held, facts, held) == [TAKEN, TAKEN, THERE, THERE]
    (read,) = read_shop(shop).jobs
    assert (read.typed["material"], read.typed["note"], len(read.typed["held"])) == ("304", "three", 1)


def test_one_field_changed_on_both_sides_is_told(shop: Path) -> None:
    """Nothing of that edit is taken, its other fields neither; what is here stays as it is."""
    job = job_path(shop)
    mine = edit("job-edit", job, {"note": "two clamps", "material": "316L"}, note="four clamps", material="304")
    took(shop, edit("job-edit", job, {"note": "two clamps"}, note="three clamps"))
    assert "changed here too, to something else: note; nothing was changed" in line(shop, mine)


def test_answers_and_cutters_meet_line_by_line(shop: Path) -> None:
    """Both sides answered another lesson or added another cutter: all of them are there, each once."""
    job, settings = job_path(shop), shop / "shop.yaml"
    answers = [{"lesson": id_, "answer": "held", "on": "2026-11-25"} for id_ in (ID, OTHER_ID)]
    em6, em8, em4, drill = ({"key": key, "name": key} for key in ("em6", "em8", "em4", "drill"))
    em6, em8 = {**em6, "name": "6 mm"}, {**em8, "name": "8 mm"}
    edits = [edit("job-edit", job, {"held": None}, held=[one]) for one in answers]
    edits += [edit("settings", settings, {"cutters": [em6, em8]}, cutters=cutters)
              for cutters in ([em6, em8, em4], [em6, drill])]  # fmt: skip
    assert took(shop, *edits) == [TAKEN] * 4
    assert took(shop, *edits) == [THERE] * 4
    read = read_shop(shop)
    assert read.jobs[0].typed["held"] == answers
    assert [one["key"] for one in read.settings_typed["cutters"]] == ["em6", "em4", "drill"]
    assert settings.read_text(encoding="utf-8").startswith("# ours\n") and not read.problems


def test_one_answer_changed_on_both_sides_is_told(shop: Path) -> None:
    """The same lesson held here and came again there."""
    job = job_path(shop)
    held, again = (
        edit("job-edit", job, {"held": None}, held=[{"lesson": ID, "answer": word}])
        for word in ("held", "happened_again")
    )
    took(shop, held)
    assert "something else: held" in line(shop, again)


def test_a_broken_one_hides_no_other(shop: Path) -> None:
    """Broken files and broken things are told with their reason; the good ones are taken."""
    odd = {**new(), "fields": {**LESSON, "kind": "explosion"}}
    lines = receive_files(
        shop,
        [
            file(shop, "{not json", "a.json"),
            shop.parent / "not-there.json",
            file(shop, [odd, {"twice_shy": 2}, 7, None, new()], "c.json"),
            file(shop, new("job", part=None), "d.json"),
            file(shop, new("job", OTHER_ID), "e.json"),
            shop,
        ],
    )
    assert [one.became for one in lines] == [REFUSED] * 6 + [TAKEN, REFUSED, TAKEN, REFUSED]
    assert "explosion" in lines[2].text

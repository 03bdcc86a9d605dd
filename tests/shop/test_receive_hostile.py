"""Hand-over files that nobody of ours made: one plain line each, and nothing written. Our own rules."""

from pathlib import Path
from typing import Any

import pytest

from hooks.shop.read import read_shop
from hooks.shop.receive import LONGEST, TAKEN, THERE, receive_files
from hooks.site.jobs import job_context
from hooks.site.known import known
from hooks.site.render import html, templates
from tests.shop.test_receive import ID, edit, file, job_path, line, new, shop, took

__all__ = ["shop"]  # a fixture
SCRIPT = '<script>alert("x")</script><img src=x onerror=alert(1)>'
DEEP: Any = "x"
for _ in range(50):
    DEEP = [DEEP]


@pytest.mark.parametrize("kind", ["lesson", "job", "edit", "job-edit"])
@pytest.mark.parametrize(
    "id_",
    ["../../../evil", "", None, 5, f"{ID}/../../x", ["a"], f"{ID}\n", ID.upper(), "20261325-063051-k7q2d", "shop"],
)
def test_a_bad_id_writes_nothing(shop: Path, kind: str, id_: object) -> None:
    """The file's name comes from the id, so only the one shape is taken."""
    handed = {**new("lesson"), "kind": kind, "id": id_, "base": "0" * 64, "changes": {}}
    assert '"id" is no ' in line(shop, handed)


@pytest.mark.parametrize(
    ("handed", "said"),
    [
        (["a text"], "nothing of ours"),
        ({**new(), "twice_shy": 2}, "nothing of ours"),
        ({**new(), "kind": "../lesson"}, '"kind" is none of'),
        ({**new(), "kind": ["job"]}, '"kind" is none of'),
        ({**new(), "fields": [1]}, '"fields" is missing'),
        (new(said=5), "expected a text"),
        (new(said=None), "expected a text"),
        (new(said=["x"]), "expected a text, found a list"),
        (new(said="x" * 281), "too long"),
        (new(said="bell \a"), "control character"),
        (new(check={"inputs": {"bell \a": "1"}}), "control character"),
        (new(id="../../evil"), '"id"'),
        (new("job", setups="one"), "expected a list, found a text"),
        (new("job", setups=[{"holding": {"vice": {"key": "v"}}}]), "expected a text, found a group"),
        (new("job", setups=DEEP), "nested too deep"),
        (new("job", quantity="many"), "quantity"),
        (new("job", part="<b>" * 31), "too long"),
        (new("job", setups=[{"stages": ["plan"] * 3}] * 600), "too "),
        (new("job", note="x" * 200_000), "too long"),
        (new("job", **{SCRIPT + "\x1b[2J\n" * 400_000: "x"}), "unknown key"),
        (new("job", held=[{"lesson": ID, "answer": "perhaps"}]), "held, happened_again, not_met"),
        ({"twice_shy": 1, "kind": "job-edit", "id": ID, "base": "", "changes": {}}, "there is none here to change"),
        ({"twice_shy": 1, "kind": "settings", "base": 0, "changes": {}}, '"base" is missing'),
        ({"twice_shy": 1, "kind": "settings", "base": "0" * 64}, '"changes" is missing'),
    ],
)  # fmt: skip
def test_what_breaks_the_declaration_is_refused(shop: Path, handed: Any, said: str) -> None:
    """Types, sizes, depth and words, as for a save; whatever its keys hold, one line is said."""
    assert said in line(shop, handed)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"note": 5}, "note: expected a text"),
        ({"quantity": 5}, "quantity: expected a text"),
        ({"stock": {"bar": None}}, "expected a text"),
        ({"part": None}, '"part" is missing'),
        ({"id": "20261125-063052-zzzz9"}, '"id"'),
        ({'note: "x"\nmaterial': "y"}, "unknown key"),
        ({"materiel": "y"}, "did you mean material?"),
        ({"held": [{"lesson": ID, "answer": 1}]}, "expected a text"),
        ({"note": SCRIPT * 10}, "too long"),
    ],
)
def test_a_bad_edit_changes_nothing(shop: Path, changes: dict[str, Any], said: str) -> None:
    """Of a job as it is, and of one changed meanwhile; also where the fault is in what it says was there."""
    handed = edit("job-edit", job_path(shop), dict.fromkeys(changes), **changes)
    assert said in line(shop, handed)
    stale = {**handed, "base": "0" * 64}
    assert line(shop, stale)
    assert line(shop, {**stale, "changes": {"quantity": "4"}, "was": changes | {"quantity": 1}})


def test_bad_settings_change_nothing(shop: Path) -> None:
    """Two cutters of one key, an address that is none, a key that is not declared."""
    settings = shop / "shop.yaml"
    twice = [{"key": "em6", "name": "1"}, {"key": "em6", "name": "2"}]
    for changes, said in (
        ({"cutters": twice}, 'a second cutter "em6"'),
        ({"address": "javascript:alert(1)"}, '"address"'),
        ({"owner": "x"}, "unknown key"),
        ({"name": None}, '"name" is missing'),
    ):
        assert said in line(shop, edit("settings", settings, dict.fromkeys(changes), **changes))


@pytest.mark.parametrize(
    "content",
    ["", "[" * 100_000, '{"twice_shy": NaN}', '{"a": 1, "a": 2}', '{"a": "\\ud800"}', "\x00", "9" * 5000],
)
def test_what_is_no_json_of_ours_is_told(shop: Path, content: str) -> None:
    """A line about the file, no traceback."""
    assert "not JSON as expected" in line(shop, content)


def test_a_file_of_letters_that_are_none_and_one_too_large(shop: Path) -> None:
    """Bytes that are not UTF-8; a file longer than any of ours is not even read."""
    path = file(shop, "")
    path.write_bytes(b'{"said": "\xff"}')
    assert "not JSON as expected" in receive_files(shop, [path])[0].text
    with path.open("wb") as long:
        long.truncate(LONGEST + 1)
    assert "longer than any" in receive_files(shop, [path])[0].text


def test_a_file_s_own_name_is_told_in_one_line(shop: Path) -> None:
    """A name with a line end or a terminal's command in it."""
    (told,) = receive_files(shop, [file(shop, "{", "x\n1 taken\x1b[2J.json")])
    assert told.text.isprintable()


def test_a_folder_that_cannot_be_written_is_told(shop: Path) -> None:
    """Where a file stands in the place of the folder, in one line."""
    (shop / "jobs").write_text("", encoding="utf-8")
    assert "cannot be stored" in line(shop, new("job"))


def test_script_in_a_text_is_a_text(shop: Path) -> None:
    """It is kept as typed, letter by letter, and known again; the job's page shows it and runs none of it."""
    held = [{"lesson": SCRIPT[:60], "answer": "held"}]
    setup = {"name": SCRIPT[:60], "datum": {"plan": SCRIPT}, "operations": [{"note": SCRIPT}]}
    handed = new("job", part=SCRIPT[:90], note=SCRIPT, setups=[setup], held=held)
    assert took(shop, handed) == [TAKEN]
    read = read_shop(shop)
    assert read.jobs[0].typed["note"] == SCRIPT
    page = html(templates(), "job.html", **job_context(read.jobs[0], known(read), read))
    assert "&lt;script&gt;" in page and "<script" not in page and "<img" not in page
    assert took(shop, handed) == [THERE]

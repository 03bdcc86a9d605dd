"""A served shop of the notes in tuning.yaml, so that these tests do not depend on what the demo says."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
import yaml

from hooks.shop import write

if TYPE_CHECKING:
    from tests.site_under_test import Site

NOTES = Path(__file__).with_name("tuning.yaml")
SHOP = 'name: "Notes for tests"\ndemo: "yes"\nmachines:\n  - {key: "bed-mill", name: "The bed mill"}\n'
KINDS = ("crash", "part_moved", "tool_failed", "wrong_size", "bad_surface", "worked_well")
LETTERS = "0123456789abcdefghjkmnpqrstvwxyz"


def note_id(name: str) -> str:
    """The lesson's id of a note of tuning.yaml ("a1"), newest last."""
    return f"20260105-100{name[1]}00-0000{LETTERS[ord(name[0]) - ord('a')]}"


def note_fields(number: int, note: Mapping[str, str]) -> dict[str, Any]:
    """A note as a lesson; what tuning.yaml does not say is spread over them by rule."""
    fields: dict[str, Any] = {key: note[key] for key in ("title", "said", "now_do") if key in note}
    fields["kind"] = KINDS[number % len(KINDS)]
    if "why" in note:
        fields["why"] = [note["why"]]
    if number % 3 == 0:
        fields |= {"stage": "running", "operation": "finish_wall", "machine": "bed-mill"}
        fields["cutter"] = {"tool_kind": "end_mill", "cutter_diameter": ("6 mm", '1/4"')[number % 2]}
    if number % 4 == 0:
        fields |= {"nearly": "yes", "iso513": "N", "material": "5083"}
    return fields


@pytest.fixture(scope="session")
def notes_site(tmp_path_factory: pytest.TempPathFactory) -> "Iterator[Site]":
    """The notes as a shop, built and served once for the tests of the find page."""
    from tests.site_under_test import start_site  # the server: most tests do without

    shop = tmp_path_factory.mktemp("notes")
    (shop / "lessons").mkdir()
    (shop / "shop.yaml").write_text(SHOP, encoding="utf-8")
    notes = yaml.load(NOTES.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)["lessons"]
    for number, (name, note) in enumerate(notes.items()):
        write.save_new(shop, note_id(name), note_fields(number, note))
    with start_site(shop, tmp_path_factory.mktemp("pages")) as started:
        yield started

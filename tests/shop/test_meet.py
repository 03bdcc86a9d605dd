"""An edit meets what was stored meanwhile: the very cases that the page's own rule is held to. Our own rules."""

import json
from pathlib import Path
from typing import Any

import pytest

from hooks.shop.fields import Field
from hooks.shop.job_sheet import JOB_FIELDS
from hooks.shop.meet import met
from hooks.shop.settings import SHOP_FIELDS

CASES = json.loads((Path(__file__).parents[1] / "js" / "meet.json").read_text(encoding="utf-8"))
FIELDS = (Field("held", "later", "list", "Did it hold?", by="lesson"),)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["about"])
def test_page_and_receive_have_one_rule(case: dict[str, Any]) -> None:
    """What is left to change, and what clashes."""
    found = met(case["was"], case["stored"], case["mine"], FIELDS)
    assert found == (case["left"], case["clashing"])


def test_of_a_key_not_said_nothing_is_known() -> None:
    """It holds where it says what is stored, and clashes else, even where nothing is stored."""
    assert met({}, {"said": "a"}, {"said": "a"}, FIELDS) == ({}, [])
    assert met({}, {}, {"said": "a", "held": [{"lesson": "a"}]}, FIELDS) == ({}, ["said", "held"])


def test_the_lists_that_meet_by_line_name_a_part_that_they_have() -> None:
    """A slip in `by` would make each list meet as a whole."""
    named = {one.key: one for one in (*JOB_FIELDS, *SHOP_FIELDS) if one.by}
    assert named.keys() == {"held", "machines", "cutters", "vices"}
    assert all(one.by in [part.key for part in one.item.parts] for one in named.values() if one.item)

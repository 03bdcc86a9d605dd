"""From an empty shop: 120 foreign events, a job of three facts, and a brief whose first lines are right."""

import json
from pathlib import Path
from typing import Any

import pytest

from hooks.brief.lines import brief
from hooks.brief.situations import situations
from hooks.run.briefing import as_json
from hooks.shop.importing import carry_out
from hooks.shop.read import Shop, read_shop
from hooks.site.known import known
from tests.shop.test_import import MAP, SAID, SHOP_YAML, mended, plan, replace


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Shop:
    """An empty shop into which the 120 events of tests/shop/events.csv were imported."""
    folder = tmp_path_factory.mktemp("empty")
    (folder / "shop.yaml").write_text(SHOP_YAML, encoding="utf-8")
    assert not read_shop(folder).lessons
    carry_out(folder, plan(folder, mended(), replace(SAID, without_odd=True), MAP))
    return read_shop(folder)


@pytest.mark.parametrize(
    ("material", "operation", "cutter", "rule"),
    [
        ("stainless bar", "face", "end_mill", "Keep the feed up in soft stock."),
        ("grey iron casting", "ream", "roughing_cutter", "Tighten, then find the edge."),
        ("mild steel", "face", "end_mill", "Keep the feed up in soft stock."),
    ],
)
def test_three_facts_bring_the_right_lines(shop: Shop, material: str, operation: str, cutter: str, rule: str) -> None:
    """Lessons that have all three facts stand first, the rule told there among them; no line has none of them."""
    memory = json.loads(json.dumps(known(shop)))
    job: dict[str, Any] = {
        "part": "x", "material": material,
        "setups": [{"operations": [{"operation": operation, "cutter": {"tool_kind": cutter}}]}],
    }  # fmt: skip
    lines = brief(memory, situations(job, {})).lines
    by_id = {one.id: one for one in shop.lessons}

    def agrees(id_: str) -> int:
        one = by_id[id_]
        return (
            (one.get("material") == material)
            + (one.get("operation") == operation)
            + ((one.get("cutter") or {}).get("tool_kind") == cutter)
        )

    assert len(shop.lessons) == 120 and lines
    agreed = [agrees(line.id) for line in lines]
    assert agreed[0] == max(map(agrees, by_id)) == 3
    whole = agreed.count(3)
    assert agreed[:whole] == [3] * whole and all(agreed)
    assert rule in [line.rule for line in lines if agrees(line.id) == 3]


def test_the_terminal_gives_the_page_s_order(shop: Shop, tmp_path: Path) -> None:
    """`run.py brief JOB.yaml --json`: the same lessons in the same order, each with its reasons."""
    sheet = tmp_path / "job.yaml"
    sheet.write_text('part: "x"\nmaterial: "acetal"\nsetups: [{operations: [{operation: "drill"}]}]\n', "utf-8")
    told, problems = as_json(shop.root, sheet)
    rows = json.loads(told)
    job = {"material": "acetal", "setups": [{"operations": [{"operation": "drill"}]}]}
    assert not problems and [row["id"] for row in rows] == [
        line.id for line in brief(known(shop), situations(job, {})).ranked
    ]
    assert rows and all(set(row) == {"id", "title", "score", "why"} and row["why"] for row in rows)


def test_a_broken_job_is_told_with_its_place(shop: Shop, tmp_path: Path) -> None:
    """No trace of Python: file, line, column and what was expected."""
    sheet = tmp_path / "job.yaml"
    sheet.write_text('part: "x"\nsetups: [{operations: [{operation: "dril"}]}]\n', "utf-8")
    told, problems = as_json(shop.root, sheet)
    assert told == "" and "did you mean drill" in str(problems[0]) and str(problems[0]).startswith("job.yaml:2:")

"""What a form is told about a wrong field: one sentence in the page's own words."""

import pytest

from tests.serve.conftest import Served


@pytest.mark.parametrize(
    ("path", "fields", "told"),
    [
        ("/api/jobs", {"material": "5083"}, "Part is missing."),
        ("/api/jobs", {"part": "x" * 91}, "Part: too long (expected at most 90 characters, found 91)."),
        ("/api/jobs", {"part": "x", "iso513": "Z"}, 'Material group: expected one of its words, found "Z".'),
        ("/api/lessons", {"kind": "crash"}, "In one line is missing."),
        ("/api/lessons", {"said": "x", "kind": "crash", "nearly": "maybe"}, 'Nearly: expected "yes" or "no"'),
        (
            "/api/lessons",
            {"said": "x", "kind": "crash", "cutter": {"stick_out": "-1"}},
            "Stick-out must be",
        ),
        (
            "/api/lessons",
            {"said": "x", "kind": "crash", "cutter": {"cutter_diameter": "0 mm"}},
            "Cutter diameter must be",
        ),
        ("/api/lessons", {"said": "x", "kind": "crash", "cutter": {"teeth": "0"}}, "Teeth must be at least 1"),
        ("/api/jobs", {"part": "x", "quantity": "0"}, "How many must be at least 1"),
        ("/api/jobs", {"part": "x", "stock": {"finished_width": "0 in"}}, "Finished width must be"),
    ],
)
def test_a_form_is_told_in_labels_and_never_in_keys(served: Served, path: str, fields: dict, told: str) -> None:
    """A file is told its keys, by line; a page knows labels alone."""
    reply = served.client.post(path, {"id": "20261125-063051-k7q2d", "fields": fields})
    assert reply.status == 400
    assert [problem["text"].startswith(told) for problem in reply.json["problems"]] == [True], reply.json

"""What holds for every calculator: its declaration, its JSON, hostile input, pages and the command line."""

import json
import math
import re
import subprocess
import sys
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.catalogue import CALCULATORS, named, work_out
from calc.declare import STEPS, Calculator
from calc.page import respond
from calc.present import answer_html
from calc.quantity import Refused
from calc.show import in_system
from calc.typed import read
from tests.calc.random_inputs import random_inputs

EVERY = pytest.mark.parametrize("calculator", CALCULATORS, ids=lambda one: one.name)
NAMES = [one.name for one in CALCULATORS]
RANDOM = 400
HOSTILE = st.one_of(
    st.text(max_size=30),
    st.sampled_from(
        ["0", "1e-12 mm", "1e99", "-5", "nan", "1/0 in", "500 in", "0.0000001", "80 %", "yes", "climb", "2,0,0"]
    ),
    st.floats(1e-6, 1e6).map(str),
)


def told(*arguments: str) -> subprocess.CompletedProcess[str]:
    """What the command line says."""
    return subprocess.run([sys.executable, "-m", "calc", *arguments], capture_output=True, text=True, timeout=60)


def finite(value: Any) -> bool:
    """No number in a JSON value that is none."""
    if isinstance(value, float):
        return math.isfinite(value)
    if isinstance(value, dict):
        return all(map(finite, value.values()))
    return all(map(finite, value)) if isinstance(value, list) else True


@EVERY
def test_the_declaration_is_whole(calculator: Calculator) -> None:
    """Names, steps, defaults that read, a guard on a value that exists, sources, an example."""
    assert calculator.step in STEPS and calculator.question.endswith("?")
    assert calculator.sources and calculator.limits and calculator.about
    names = [one.name for one in calculator.inputs]
    assert len(set(names)) == len(names)
    assert all(read(one.default, one) for one in calculator.inputs if one.default)
    guard = calculator.guard
    for limit in (guard.at_most, guard.at_least):
        assert limit is None or read(limit, calculator.output(guard.value))
    assert calculator.output(calculator.headline)
    assert sum(one.first for one in calculator.inputs) <= 12


@EVERY
def test_the_example_answers_with_every_value(calculator: Calculator) -> None:
    """The values are those declared, in their units; texts are there; the JSON is whole."""
    answer = work_out(calculator.name, calculator.example).to_dict()
    assert list(answer["values"]) == [one.name for one in calculator.outputs]
    assert all(answer["values"][one.name]["unit"] == one.unit for one in calculator.outputs)
    assert answer["verdict"] in ("ok", "watch", "stop") and answer["reason"]
    assert answer["working"] and answer["sources"] and answer["limits"]
    assert json.loads(json.dumps(answer, allow_nan=False)) == answer
    assert set(answer) == {
        "calculator", "inputs", "values", "verdict", "reason", "advice", "cautions", "limits", "working",
        "drawing", "sources",
    }  # fmt: skip


@EVERY
def test_a_metric_case_again_in_inches(calculator: Calculator) -> None:
    """The example with every length typed in inches gives the same numbers."""
    turned = {
        key: f"{float(text.removesuffix(' mm')) / 25.4!r} in" if re.fullmatch(r"[-\d.]+ mm", text) else text
        for key, text in calculator.example.items()
    }
    here = work_out(calculator.name, calculator.example).values
    there = work_out(calculator.name, turned).values
    for key, value in here.items():
        if isinstance(value.value, float):
            assert there[key].value == pytest.approx(value.value, rel=1e-9, abs=1e-7), key


@pytest.mark.parametrize("name", NAMES)
def test_drawings_are_sound_whatever_the_numbers(name: str) -> None:
    """Well-formed, no number that is none, no style in it, every text inside the picture."""
    drawn = 0
    for typed in random_inputs(name, 7, RANDOM):
        reply = json.loads(respond(name, json.dumps(typed), "inch"))
        if reply["ok"]:
            drawn += 1
            svg = reply["answer"]["drawing"]
            assert not re.search(r"nan|inf|style=|<script", svg), typed
            root = ElementTree.fromstring(svg)
            _, _, width, height = map(float, root.attrib["viewBox"].split())
            for text in root.iter("{http://www.w3.org/2000/svg}text"):
                assert 0 <= float(text.attrib["x"]) <= width and 0 <= float(text.attrib["y"]) <= height, typed
    assert drawn > RANDOM / 5


@given(st.sampled_from(NAMES), st.data())
@settings(max_examples=300, deadline=None)
def test_hostile_input_gives_a_value_or_one_plain_line(name: str, data: st.DataObject) -> None:
    """Whatever stands in the boxes."""
    keys = st.sampled_from([one.name for one in named(name).inputs])
    typed = data.draw(st.dictionaries(keys, HOSTILE, max_size=8)) | _some(name, data)
    reply = json.loads(respond(name, json.dumps(typed), "metric"))
    if reply["ok"]:
        assert finite(reply["answer"])
        ElementTree.fromstring(reply["html"].replace("&nbsp;", " "))
    else:
        assert reply["message"] and "\n" not in reply["message"]


@pytest.mark.parametrize("name", NAMES)
def test_a_refusal_on_a_page_names_no_key(name: str) -> None:
    """Labels and words as they are said; the names are for the terminal."""
    calculator = named(name)
    wrong = [{one.name: text} for one in calculator.inputs for text in ("-1", "zz", "6 kg")]
    tries = [{}, *wrong, *({**calculator.example, **one} for one in wrong), *random_inputs(name, 7, 20)]
    replies = [json.loads(respond(name, json.dumps(typed), "metric")) for typed in tries]
    said = [reply["message"] for reply in replies if not reply["ok"]]
    names = "|".join(rf"\({one.name}\)" for one in calculator.inputs)
    assert said and [line for line in said if re.search(rf"[a-z]_[a-z]|{names}", line)] == []


def _some(name: str, data: st.DataObject) -> dict[str, str]:
    """Part of the example, so that not everything is refused for being missing."""
    example = dict(named(name).example)
    kept = data.draw(st.lists(st.sampled_from(sorted(example)), unique=True))
    return {key: example[key] for key in kept}


@pytest.mark.parametrize("nonsense", ["", "[]", "7", '{"a": 1}', "{", "null", '"x"'])
def test_a_page_is_answered_whatever_it_sends(nonsense: str) -> None:
    """Not JSON, not an object, not texts: a plain refusal."""
    assert json.loads(respond("corner-clearance", nonsense, "metric"))["ok"] is False
    assert json.loads(respond("no-such", "{}", "metric"))["ok"] is False


@EVERY
def test_the_page_shows_all_parts(calculator: Calculator) -> None:
    """Band, big number, reason, drawing, numbers, working, limits and sources, in both systems."""
    answer = work_out(calculator.name, calculator.example).to_dict()
    for system in ("metric", "inch"):
        page = answer_html(answer, system)
        for part in (
            "answer__band",
            "answer__big",
            "answer__reason",
            "<svg",
            "numbers",
            "working",
            "limits",
            "sources",
        ):
            assert part in page
    assert (
        " mm"
        not in re.sub(r"<details.*", "", answer_html(answer, "inch"))
        .replace("data-try-value", "")
        .split("<svg")[0]
        .split("try-")[0]
    )


@EVERY
def test_the_command_line_answers(calculator: Calculator) -> None:
    """Status 0 and the same Answer as JSON; help lists every input."""
    pairs = [f"{key}={text}" for key, text in calculator.example.items()]
    reply = told(calculator.name, *pairs, "--json")
    assert reply.returncode == 0 and not reply.stderr
    assert json.loads(reply.stdout) == json.loads(json.dumps(work_out(calculator.name, calculator.example).to_dict()))
    assert told(calculator.name, *pairs).returncode == 0
    assert all(one.name in told(calculator.name, "--help").stdout for one in calculator.inputs[:3])


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        (["corner-clearance"], "cutter_diameter"),
        (["corner-clearance", "cutter_diameter=6", "cutter_diameter=7"], "twice"),
        (["corner-clearance", "cutter_diamter=6"], "did you mean cutter_diameter"),
        (["corner-clearence"], "did you mean corner-clearance"),
        (["corner-clearance", "cutter_diameter"], "name=value"),
        (["chip-load", "cutter_diameter=6", "teeth=3", "radial_depth=1", "axial_depth=1"], "cutting_speed"),
        (["corner-clearance", "cutter_diameter=900", "pocket_width=8"], "200 mm"),
    ],
)
def test_the_command_line_refuses_in_one_line(arguments: list[str], part: str) -> None:
    """Status 2, one line on standard error, no trace of Python."""
    reply = told(*arguments)
    assert reply.returncode == 2 and not reply.stdout
    assert part in reply.stderr and len(reply.stderr.strip().splitlines()) == 1


def test_the_catalogue_as_json() -> None:
    """Every calculator in job order, with what the public interface promises."""
    listed = json.loads(told("--json").stdout)["calculators"]
    assert [one["name"] for one in listed] == NAMES
    assert set(listed[0]) == {"name", "title", "step", "inputs", "outputs"}
    assert set(listed[0]["inputs"][0]) == {
        "name",
        "label",
        "unit",
        "low",
        "high",
        "default",
        "required",
        "choices",
        "help",
    }
    steps = [STEPS.index(one["step"]) for one in listed]
    assert steps == sorted(steps)


def test_a_missing_input_says_what_it_takes() -> None:
    """Its name, and a length in mm or in."""
    with pytest.raises(Refused, match=r"cutter_diameter.*a length in mm or in"):
        work_out("corner-clearance", {})


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        ("like taking 3.2 mm off, not 0.4 mm", "like taking 0.13 in off, not 0.016 in"),
        ("75 mm/min and 600 mm/min", "3.0 in/min and 23.6 in/min"),
        ("cutter ⌀6 mm, 94°", "cutter ⌀0.24 in, 94°"),
        ("0 mm, 1500 N, 2382 N/mm²", "0 in, 337.2 lbf, 2382 N/mm²"),
    ],
)
def test_sentences_in_inches(text: str, seen: str) -> None:
    """As many digits count as before, at least two; a quotient of units is left alone."""
    assert in_system(text, "inch") == seen
    assert in_system(text, "metric") == text


def test_advised_numbers_in_inches_keep_their_digits() -> None:
    """What is to be typed in has as many decimals as the unit has anywhere: -262.4 mm is -10.3307 in, not -10.33."""
    assert in_system("Enter -262.4 mm", "inch", 4, exact=True) == "Enter -10.3307 in"
    assert in_system("at most 1.75 mm thick, 20 °C, 75 mm/min", "inch", 4, exact=True) == (
        "at most 0.0689 in thick, 68 °F, 2.953 in/min"
    )
    page = answer_html(work_out("tool-length", named("tool-length").example).to_dict(), "inch")
    assert "would come 1.969 in above" in page and "Enter -10.3307 in" in page

"""Lessons by the thousand, trade words put together by chance: to measure size and time, not ranking."""

import hashlib
import random
from datetime import UTC, datetime, timedelta
from typing import Any

from hooks.shop.declaration import field
from hooks.shop.ids import lesson_path
from hooks.shop.lesson import Lesson
from hooks.shop.nodes import from_json
from hooks.shop.typed import Reading
from hooks.shop.vocabulary import VOCABULARIES

DIAMETERS = ("3 mm", "4 mm", "6 mm", "8 mm", "10 mm", "12 mm", "16 mm", '1/4"', "3/8 in", "1/2 in")
FIRST = datetime(2020, 1, 6, 8, tzinfo=UTC)
THINGS = (
    "cutter", "vice jaw", "parallel", "collet", "end stop", "thin wall", "boss", "cleat", "bracket", "hinge",
    "fairlead", "rudder pin", "bush", "keyway", "pocket floor", "slot", "chamfer", "tap", "reamer", "drill",
    "probe", "coolant hose", "work offset", "tool length", "clearance plane", "drawbar", "strap clamp",
    "shim",
)  # fmt: skip
DID = (
    "dug in", "slipped", "chattered", "broke", "snapped", "moved", "lifted", "came out long",
    "came out tapered", "rubbed", "burnt", "wandered", "hit the clamp", "was left in", "was not tightened",
    "was a millimetre low", "pulled out", "warped", "smeared",
    "marked the face", "was set from the wrong side", "tore the thread",
)  # fmt: skip
WHERE = (
    "at the far end", "in the corner", "on the second side", "on the last pass", "at tool change",
    "while probing",
    "after lunch", "on the first part", "near the hole", "on the sawn face",
    "when the coolant stopped", "at full speed",
)  # fmt: skip


def generated(count: int, seed: int = 1) -> list[Lesson]:
    """That many lessons, the same ones for the same seed, newest first."""
    chance = random.Random(seed)
    return [_lesson(number, chance) for number in range(count, 0, -1)]


def _lesson(number: int, chance: random.Random) -> Lesson:
    when = FIRST + timedelta(hours=5 * number)
    id_ = f"{when:%Y%m%d-%H%M%S}-{''.join(chance.choices('0123456789abcdefghjkmnpqrstvwxyz', k=5))}"
    fields = _fields(number, chance) | {"id": id_, "when": when}
    return Lesson(id_, lesson_path(id_), hashlib.sha256(id_.encode()).hexdigest(), fields)


def _fields(number: int, chance: random.Random) -> dict[str, Any]:
    numbers = {"cutter_diameter": chance.choice(DIAMETERS), "stick_out": f"{chance.randint(12, 60)} mm"}
    return {
        "kind": _word("kind", chance),
        "said": f"{_sentence(chance)}, part {number * 7919 % 99991}",
        "title": _sentence(chance),
        "stage": _word("stage", chance),
        "operation": _word("operation", chance),
        "material": chance.choice(("5083", "6061", "316L", "acetal", "bronze", "Ti-6Al-4V")),
        "iso513": _word("iso513", chance),
        "machine": chance.choice(("bed-mill", "small-mill")),
        "cutter": {"tool_kind": _word("tool_kind", chance), **_read("cutter", numbers)},
        "geometry": _read("geometry", {"corner_radius": f"{chance.randint(2, 30) / 2} mm"}),
        "contributing": (_word("contributing", chance), _word("contributing", chance)),
        "why": tuple(_sentence(chance) for _ in range(chance.randint(0, 3))),
        "now_do": _sentence(chance),
        "could_have": _word("outcome", chance),
        "nearly": chance.random() < 0.3,
    }


def _sentence(chance: random.Random) -> str:
    return " ".join(chance.choice(words) for words in (THINGS, DID, WHERE, THINGS, DID))


def _word(vocabulary: str, chance: random.Random) -> str:
    return chance.choice(VOCABULARIES[vocabulary].words).key


def _read(group: str, texts: dict[str, str]) -> dict[str, Any]:
    """The parts of a group as the reader gives them."""
    return Reading("generated").group(from_json(texts), field(group).parts)

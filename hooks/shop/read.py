"""Reads a shop's folder: every lesson that can be read, and every problem of those that cannot."""

import hashlib
import os
import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hooks.shop.ids import lesson_path
from hooks.shop.job import Job, read_jobs
from hooks.shop.lesson import Lesson
from hooks.shop.nodes import Group, NotStrict, parse
from hooks.shop.problems import Problem, nearest, quoted
from hooks.shop.settings import SHOP_FIELDS
from hooks.shop.sheet import LESSON, placed, read_sheet
from hooks.shop.state import Facts, facts_of, state_of_facts
from hooks.shop.typed import Reading, at, plain
from hooks.shop.words import read_words

if TYPE_CHECKING:
    from hooks.shop.check import CheckResult

SETTINGS = "shop.yaml"
ADDRESS = re.compile(r"https?://[^\s/?#<>\"]+(/[^\s?#<>\"]*)?", re.ASCII)
Stamp = tuple[int, int]


@dataclass(frozen=True)
class ReadFile:
    """What became of one lesson's file, kept so that an unchanged one is not read again."""

    stamp: Stamp
    lesson: Lesson | None
    check: "CheckResult | None"
    problems: tuple[Problem, ...]
    tree: Group | None


@dataclass(frozen=True)
class Shop:
    """A shop as read. `lessons` are newest first; `problems` are sorted and cover every file."""

    root: Path
    name: str
    demo: bool
    settings: Mapping[str, Any]
    lessons: tuple[Lesson, ...]
    problems: tuple[Problem, ...]
    checks: "Mapping[str, CheckResult]" = field(default_factory=dict)
    repeats: Mapping[str, tuple[Lesson, ...]] = field(default_factory=dict)
    files: Mapping[str, ReadFile] = field(default_factory=dict)
    jobs: tuple[Job, ...] = ()
    answers: Mapping[str, tuple[Mapping[str, Any], ...]] = field(default_factory=dict)
    settings_typed: Mapping[str, Any] = field(default_factory=dict)
    settings_hash: str = ""

    @property
    def address(self) -> str:
        """The address the shop is published at, ending in a slash; "" where none is said."""
        said = str(self.settings.get("address", ""))
        return said and said.rstrip("/") + "/"

    def lesson(self, id_: str) -> Lesson | None:
        """The lesson of that id."""
        found = self.files.get(lesson_path(id_))
        return found.lesson if found else None


def state_of(lesson: Lesson, shop: Shop) -> str:
    """The lesson's state, by the table in hooks/shop/state.py."""
    return state_of_facts(standing(lesson, shop))


def standing(lesson: Lesson, shop: Shop) -> Facts:
    """What that follows from: the lesson, those that repeat it, and what jobs answered."""
    return facts_of(lesson, shop.repeats.get(lesson.id, ()), shop.answers.get(lesson.id, ()))


def read_shop(root: Path, before: Shop | None = None, checks: bool = True) -> Shop:
    """The shop in a folder. Files unchanged since `before` (time and size) are taken over from it.

    Without `checks` no lesson's check is worked out, which is most of the time it takes.
    """
    text, problems = _settings_text(root)
    settings, typed, wrong = settings_of(text)
    problems += wrong
    known = before.files if before else {}
    files = {path: _file(root, path, known.get(path), checks) for path in _lesson_files(root)}
    lessons = [one.lesson for one in files.values() if one.lesson]
    lessons.sort(key=lambda one: (one.when, one.id), reverse=True)
    jobs, broken = read_jobs(root, settings)
    problems += [*read_words(root)[1], *broken]
    problems += [problem for one in files.values() for problem in one.problems]
    problems += [problem for one in files.values() for problem in _references(one, lessons, settings)]
    return Shop(
        root=root,
        name=str(settings.get("name", root.name)),
        demo=bool(settings.get("demo", False)),
        settings=settings,
        lessons=tuple(lessons),
        problems=tuple(sorted(problems)),
        checks={one.lesson.id: one.check for one in files.values() if one.lesson and one.check},
        repeats=_repeats(lessons),
        files=files,
        jobs=tuple(jobs),
        answers=_answers(jobs),
        settings_typed=typed,
        settings_hash=hashlib.sha256(text).hexdigest(),
    )


def read_lesson(text: bytes, path: str) -> tuple[Lesson | None, tuple[Problem, ...]]:
    """One lesson from its file's bytes, with its own problems; None where it has any."""
    lesson, _, problems = _lesson(text, path)
    return lesson, problems


def _lesson(text: bytes, path: str) -> tuple[Lesson | None, Group | None, tuple[Problem, ...]]:
    fields, tree, problems = read_sheet(text, path, LESSON)
    if fields is None or tree is None:
        return None, tree, problems
    return Lesson(Path(path).stem, path, hashlib.sha256(text).hexdigest(), fields, plain(tree)), tree, ()


def _lesson_files(root: Path) -> Iterator[str]:
    """Paths of lesson files relative to `root`, sorted; hidden and half-written ones left out."""
    for folder, folders, names in os.walk(root / "lessons"):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(names):
            if name.endswith((".yaml", ".yml")) and not name.startswith("."):
                yield (Path(folder) / name).relative_to(root).as_posix()


def _file(root: Path, path: str, known: ReadFile | None, checks: bool) -> ReadFile:
    try:
        about = (root / path).stat()
        stamp = (about.st_mtime_ns, about.st_size)
        if known and known.stamp == stamp:
            return known
        text = (root / path).read_bytes()
    except OSError as error:
        return ReadFile((0, 0), None, None, (Problem(path, 1, 1, f"cannot be read ({error.strerror})"),), None)
    lesson, tree, problems = _lesson(text, path)
    wrong = placed(lesson.fields if lesson else None, path, LESSON)
    if wrong:
        problems, lesson = wrong, None
    check, more = _checked(lesson, tree, path) if checks else (None, ())
    return ReadFile(stamp, lesson, check, (*problems, *more), tree)


def _checked(lesson: Lesson | None, tree: Group | None, path: str) -> "tuple[CheckResult | None, tuple[Problem, ...]]":
    """The lesson's check run, and what is wrong with it; the lesson itself stays good."""
    from hooks.shop.check import CheckFault, faults, run_check  # all calculators: half a second on a slow machine

    if lesson is None or tree is None:
        return None, ()
    try:
        result = run_check(lesson)
        found = faults(result) if result else []
    except CheckFault as fault:
        result, found = None, [(fault.key, fault.text)]
    return result, tuple(_at_key(tree, path, f"check.{key}".rstrip("."), text) for key, text in found)


def _at_key(tree: Group, path: str, where: str, text: str) -> Problem:
    node = at(tree, where.split("."))
    return Problem(path, node.line, node.column, text, where)


def _references(read: ReadFile, lessons: list[Lesson], settings: Mapping[str, Any]) -> Iterator[Problem]:
    """Names of machines and lessons that are not there."""
    lesson, tree = read.lesson, read.tree
    if lesson is None or tree is None:
        return
    machines = [str(one.get("key")) for one in settings.get("machines", ())]
    machine = lesson.get("machine")
    if machine and machine not in machines:
        hint = nearest(machine, machines)
        yield _at_key(tree, lesson.path, "machine", f"no machine {quoted(machine)} in {SETTINGS}{hint}")
    ids = {one.id for one in lessons} if lesson.get("repeat_of") else set()
    for number, other in enumerate(lesson.get("repeat_of", ())):
        if other not in ids or other == lesson.id:
            yield _at_key(tree, lesson.path, f"repeat_of.{number}", f"no other lesson {quoted(other)} here")


def _repeats(lessons: list[Lesson]) -> dict[str, tuple[Lesson, ...]]:
    found: dict[str, list[Lesson]] = defaultdict(list)
    for lesson in lessons:
        for other in lesson.get("repeat_of", ()):
            found[other].append(lesson)
    return {id_: tuple(ones) for id_, ones in found.items()}


def _answers(jobs: list[Job]) -> dict[str, tuple[Mapping[str, Any], ...]]:
    """What jobs answered to "did it hold?", by lesson."""
    found: dict[str, list[Mapping[str, Any]]] = defaultdict(list)
    for job in jobs:
        for one in job.get("held", ()):
            found[one.get("lesson", "")].append(one)
    return {id_: tuple(ones) for id_, ones in found.items()}


def read_settings(root: Path) -> tuple[dict[str, Any], list[Problem]]:
    """What shop.yaml says, as typed values, and what is wrong with it."""
    text, problems = _settings_text(root)
    settings, _, wrong = settings_of(text)
    return settings, [*problems, *wrong]


def _settings_text(root: Path) -> tuple[bytes, list[Problem]]:
    try:
        return (root / SETTINGS).read_bytes(), []
    except OSError as error:
        return b"", [Problem(SETTINGS, 1, 1, f"cannot be read ({error.strerror})")]


def settings_of(text: bytes) -> tuple[dict[str, Any], dict[str, Any], list[Problem]]:
    """shop.yaml from its bytes: its values, the same as texts, and its problems."""
    if not text:
        return {}, {}, []
    try:
        tree = parse(text, SETTINGS)
    except NotStrict as broken:
        return {}, {}, [broken.problem]
    reading = Reading(SETTINGS)
    settings = reading.group(tree, SHOP_FIELDS)
    for kind in ("machines", "cutters", "vices"):
        keys = [one.get("key") for one in settings.get(kind, ())]
        for n, key in enumerate(keys):
            if key in keys[:n]:
                node = at(tree, (kind, str(n), "key"))
                reading.wrong(node, f"a second {kind[:-1]} {quoted(str(key))}: each needs a key of its own")
    if "address" in settings and not ADDRESS.fullmatch(settings["address"]):
        what = f"expected an address such as https://example.org/shop/, found {quoted(settings['address'])}"
        reading.wrong(tree.entries["address"], f'"address" ({what})', f"Address it is published at: {what}.")
        del settings["address"]
    return settings, plain(tree), reading.problems

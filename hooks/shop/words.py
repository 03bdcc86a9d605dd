"""Words that mean the same: the tool's own words.yaml, and a shop's added to it.

One shape for both files, and for the data file the browser reads:
`{"spellings": {one: other}, "forms": {irregular: plain}, "idle": [word], "same": [[word or phrase]]}`.
"""

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import yaml

from hooks.shop.problems import Problem

OWN = Path(__file__).with_name("words.yaml")
NAME = "words.yaml"
BASE = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
LARGEST = 500_000  # bytes; the tool's own list has 44,000
MAPS, LISTS = ("spellings", "forms"), ("idle", "same")
EMPTY: Mapping[str, Any] = {"spellings": {}, "forms": {}, "idle": [], "same": []}


def read_words(root: Path) -> tuple[dict[str, Any], tuple[Problem, ...]]:
    """The tool's words with those of the shop in the folder `root`, and what is wrong with the shop's.

    The result also has "mark", which changes when any word does.
    """
    own, _ = _read(OWN.read_bytes(), NAME)
    theirs, problems = _read_file(root / NAME)
    joined = {key: {**own[key], **theirs[key]} for key in MAPS}
    joined |= {key: [*own[key], *theirs[key]] for key in LISTS}
    text = json.dumps(joined, sort_keys=True)
    return {"mark": hashlib.sha256(text.encode()).hexdigest()[:16], **joined}, problems


def _read_file(path: Path) -> tuple[Mapping[str, Any], tuple[Problem, ...]]:
    return _read(path.read_bytes(), NAME) if path.is_file() else (EMPTY, ())


def _read(data: bytes, path: str) -> tuple[Mapping[str, Any], tuple[Problem, ...]]:
    """One file's words; a part that is wrong is left out and told, the others stay."""
    if len(data) > LARGEST:
        return EMPTY, (Problem(path, 1, 1, f"too large (at most {LARGEST} bytes)"),)
    try:
        loaded = yaml.load(data.decode("utf-8"), Loader=BASE)  # every scalar stays text
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        return EMPTY, (Problem(path, line, column, f"not YAML: {error.problem}"),)
    except (UnicodeDecodeError, yaml.YAMLError, RecursionError) as error:
        return EMPTY, (Problem(path, 1, 1, f"not YAML in UTF-8: {error}".splitlines()[0]),)
    return _checked(loaded or {}, path)


def _checked(loaded: Any, path: str) -> tuple[Mapping[str, Any], tuple[Problem, ...]]:
    if not isinstance(loaded, dict):
        return EMPTY, (Problem(path, 1, 1, f"expected the parts {', '.join(EMPTY)}"),)
    wrong = [key for key in loaded if key not in EMPTY or not _fits(key, loaded[key])]
    problems = tuple(Problem(path, 1, 1, _told(key)) for key in wrong)
    return {**EMPTY, **{key: value for key, value in loaded.items() if key not in wrong}}, problems


def _fits(key: str, value: Any) -> bool:
    if key in MAPS:
        return isinstance(value, dict) and all(isinstance(word, str) for word in value.values())
    lists = value if key == "same" else [value]
    return isinstance(value, list) and all(
        isinstance(group, list) and all(isinstance(word, str) for word in group) for group in lists
    )


def _told(key: str) -> str:
    if key not in EMPTY:
        return f'unknown part "{key}" (expected {", ".join(EMPTY)})'
    shape = {"same": "a list of lists of words", "idle": "a list of words"}.get(key, "pairs of words")
    return f'"{key}" is left out (expected {shape})'

"""JSON as it may come from outside: UTF-8, no key twice, no NaN, no half of a letter, not nested without end."""

import json
from typing import Any


def loads(content: bytes) -> Any:
    """What the bytes hold. Raises ValueError that says in a few words what is wrong."""
    try:
        found = json.loads(content.decode("utf-8"), object_pairs_hook=_once, parse_constant=_no_constant)
        json.dumps(found, ensure_ascii=False).encode("utf-8")
    except RecursionError:
        raise ValueError("nested too deep") from None
    except ValueError as error:
        raise ValueError(str(error)[:120]) from None
    return found


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a key stands twice")
    return found


def _no_constant(name: str) -> None:
    raise ValueError(f"{name} is no number")

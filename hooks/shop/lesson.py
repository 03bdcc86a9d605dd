"""What was read as a value, and one lesson so."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from typing import Any

from hooks.shop.ids import SECOND

TITLE = 90


@dataclass(frozen=True)
class Stored:
    """What was read from a file of its own. `path` is relative to the shop, `hash` the SHA-256 of the file's bytes.

    `fields` holds typed values: text and one_of -> str, yes_no -> bool, datetime and date -> those,
    number and quantity -> calc.quantity.Reading, list -> tuple, group and map -> mapping. `typed` holds
    the same as texts, lists and mappings, as written.
    """

    id: str
    path: str
    hash: str
    fields: Mapping[str, Any]
    typed: Mapping[str, Any] = field(default_factory=dict)

    def get(self, key: str, default: Any = None) -> Any:
        """The value of a field, or `default`."""
        return self.fields.get(key, default)


@dataclass(frozen=True)
class Lesson(Stored):
    """A lesson that was read."""

    @property
    def title(self) -> str:
        """The title given, else the first words of what was said."""
        return str(self.get("title") or _first_words(self.get("said", "")) or self.id)

    @property
    def when(self) -> datetime:
        """When it happened: as said, else the second in the id (UTC)."""
        return self.get("when") or datetime.strptime(self.id[:15], SECOND).replace(tzinfo=UTC)

    @property
    def last_change(self) -> date | None:
        """The latest day on which something was changed because of it."""
        days = [change["done_on"] for change in self.get("changes", ()) if "done_on" in change]
        return max(days, default=None)


def _first_words(said: str) -> str:
    line = " ".join(said.split())
    if len(line) <= TITLE:
        return line
    return line[: TITLE - 1].rsplit(" ", 1)[0] + "…"

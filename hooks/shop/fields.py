"""What a field of a file is, and short ways to declare one."""

from collections.abc import Iterable
from dataclasses import dataclass

from calc.quantity import Quantity

LINE, SENTENCE, PARAGRAPH = 60, 280, 2000  # characters
LARGEST = 1e6  # of any unit a form asks for: a kilometre, a hundred tonnes, a million turns


@dataclass(frozen=True)
class Field:
    """One field. `type` is text, one_of, yes_no, datetime, date, number, quantity, ref, list, group or map.

    `of` names the vocabulary of a one_of, or what a ref refers to; `item` is what a list holds, `parts`
    what a group holds; `quantity` tells label, unit and limits of a number or quantity; `by` names the
    part that each line of a list is known by, where no two lines may have the same.
    """

    key: str
    ask: str
    type: str
    label: str
    help: str = ""
    of: str = ""
    required: bool = False
    longest: int | None = None
    parts: tuple["Field", ...] = ()
    item: "Field | None" = None
    quantity: Quantity | None = None
    by: str = ""

    @property
    def unit(self) -> str:
        """The unit of a bare number, "" where there is none."""
        return self.quantity.unit if self.quantity else ""


def text(key: str, label: str, help: str = "", ask: str = "later", longest: int = LINE) -> Field:
    """A text field."""
    return Field(key, ask, "text", label, help, longest=longest)


def one_of(key: str, label: str, help: str = "", ask: str = "later", of: str = "") -> Field:
    """A field that picks a word; of a vocabulary of the same name where none is said."""
    return Field(key, ask, "one_of", label, help, of=of or key)


def quantity(key: str, label: str, unit: str, help: str = "", high: float = LARGEST) -> Field:
    """A number with a unit, never under nothing nor over `high`."""
    wanted = Quantity(key, label, unit, help, low=0, high=high)
    return Field(key, "facts", "quantity", label, help, quantity=wanted, longest=LINE)


def size(key: str, label: str, unit: str = "mm", help: str = "") -> Field:
    """A quantity that is never nothing: what has none is not there."""
    wanted = Quantity(key, label, unit, help, above=0, high=LARGEST)
    return Field(key, "facts", "quantity", label, help, quantity=wanted, longest=LINE)


def number(key: str, label: str, kind: str = "number", ask: str = "later", low: float = 0) -> Field:
    """A bare number, never under `low`."""
    return Field(key, ask, "number", label, quantity=Quantity(key, label.rstrip("?"), low=low, kind=kind), longest=LINE)


def list_of(key: str, label: str, item: Field, help: str = "", by: str = "") -> Field:
    """A list of one kind of thing."""
    return Field(key, "later", "list", label, help, item=item, by=by)


def group(key: str, label: str, parts: Iterable[Field], ask: str = "facts", help: str = "") -> Field:
    """Fields under one key."""
    return Field(key, ask, "group", label, help, parts=tuple(parts))

"""What a calculator declares: everything that its page, form, command line and checks are made from."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from calc.answer import Answer
from calc.quantity import Quantity, Reading

STEPS = ("stock", "hold", "datum", "cutter", "run", "inspect", "any")


@dataclass(frozen=True)
class Guard:
    """What a lesson's check holds by default: a value and its limit, as typed."""

    value: str
    at_most: str | None = None
    at_least: str | None = None


@dataclass(frozen=True)
class Calculator:
    """One calculator. `answer` takes readings by name, defaults included, and raises Refused.

    `headline` names the value shown largest; `bench_note` is the slug of a page in docs/notes.
    """

    name: str
    title: str
    step: str
    question: str
    inputs: tuple[Quantity, ...]
    outputs: tuple[Quantity, ...]
    headline: str
    answer: Callable[[Mapping[str, Reading]], Answer]
    example: Mapping[str, str]
    guard: Guard
    about: tuple[str, ...]
    limits: tuple[str, ...]
    sources: tuple[str, ...]
    bench_note: str = ""

    def output(self, name: str) -> Quantity:
        """The declared output of that name. Raises KeyError."""
        return {one.name: one for one in self.outputs}[name]

    def input(self, name: str) -> Quantity:
        """The declared input of that name. Raises KeyError."""
        return {one.name: one for one in self.inputs}[name]

"""What a calculator declares: everything that its page, form, command line and checks are made from."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from calc.answer import Answer, Finding, valued
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
    """One calculator. `find` takes readings by name, defaults included, and raises Refused.

    `headline` names the value shown largest; `bench_note` is the slug of a page in docs/notes.
    """

    name: str
    title: str
    step: str
    question: str
    inputs: tuple[Quantity, ...]
    outputs: tuple[Quantity, ...]
    headline: str
    find: Callable[[Mapping[str, Reading]], Finding]
    example: Mapping[str, str]
    guard: Guard
    about: tuple[str, ...]
    limits: tuple[str, ...]
    sources: tuple[str, ...]
    bench_note: str = ""

    def answer(self, readings: Mapping[str, Reading]) -> Answer:
        """The Answer to readings by name, defaults included. Raises Refused."""
        found = self.find(readings)
        return Answer(
            calculator=self.name,
            inputs=readings if found.inputs is None else found.inputs,
            values={one.name: valued(found.values[one.name], one.unit) for one in self.outputs},
            verdict=found.verdict,
            reason=found.reason,
            advice=found.advice,
            cautions=found.cautions,
            limits=self.limits,
            working=found.working,
            drawing=found.drawing,
            sources=(*self.sources, *found.sources),
        )

    def output(self, name: str) -> Quantity:
        """The declared output of that name. Raises KeyError."""
        return {one.name: one for one in self.outputs}[name]

    def input(self, name: str) -> Quantity:
        """The declared input of that name. Raises KeyError."""
        return {one.name: one for one in self.inputs}[name]

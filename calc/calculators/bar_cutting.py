"""Mixed lengths from the bars that can be bought: the plan at the saw, and how far from the best it can be."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any

from calc.answer import Advice, Finding, Step, judged
from calc.declare import Calculator, Guard
from calc.drawing import WIDTH, Drawing, corners
from calc.formulas.cutting import Bound, Cut, Task, bound, cost, plan, used
from calc.formulas.stock import exact
from calc.quantity import Quantity, Reading, Refused, at_least, values
from calc.show import mm, number, show

NANO = 10**6  # of a millimetre: lengths are counted in whole nanometres
LENGTHS, PIECES, KINDS = 20, 2000, 6  # what a page can work out while one waits
TIGHT = 2.0  # mm to spare: less is lost to a bar's own ends (judgement)
ROWS, ROW, HIGH = 8, 34.0, 16.0  # of the drawing, picture units
LETTER, SHORT, APART = 11.0, 6.0, 2.0  # of a label; pieces narrower than these get no edge, no line of their own

INPUTS = (
    Quantity("bar_lengths", "Bars that can be bought", "mm", "3000, or several: 2000, 3000.", above=0, high=20000,
             kind="list", any_count=True, required=True, first=True),
    Quantity("pieces", "Pieces to saw", "mm", "Length x how many: 83 x 12, 140 x 5.", above=0, high=20000,
             kind="pieces", required=True, first=True),
    Quantity("saw_kerf", "The saw's cut", "mm", "Measure one cut.", low=0, high=20, default="1.5 mm", first=True),
    Quantity("stub", "What the saw needs to hold", "mm", "The end that cannot be sawn.", low=0, high=2000,
             default="0 mm", first=True),
    Quantity("bars_at_hand", "Bars there", help="Of any length, counted together.", low=0, high=10000, kind="whole",
             first=True),
    Quantity("parting_cut_on_last", "The last piece must be cut off too", kind="yes_no",
             help="Empty: yes where the saw holds a stub."),
)  # fmt: skip
OUTPUTS = (
    Quantity("bars_needed", "Bars", "1"),
    Quantity("plan", "Pieces of each bar", "mm", "bar by bar", kind="pieces"),
    Quantity("bars_cut", "Those bars' lengths", "mm", kind="pieces"),
    Quantity("offcuts", "What is left of each", "mm", "stub included", kind="pieces"),
    Quantity("length_bought", "Bar bought", "mm"),
    Quantity("least_possible", "No plan needs less than", "mm"),
    Quantity("waste_share", "Of that, not in a piece", "1"),
    Quantity("proven_optimal", "Proven: no plan needs less bar", "1"),
    Quantity("least_spare", "Tightest bar has to spare", "mm"),
)


@dataclass(frozen=True)
class Sawing:
    """A task in nanometres, its cuts, the least that it can cost, and what each bar has to spare (mm)."""

    task: Task
    kerf: int
    cuts: tuple[Cut, ...]
    least: int
    spare: tuple[float, ...]
    parting: bool

    def lengths(self, one: Cut) -> list[float]:
        """The pieces of one bar, longest first (mm)."""
        pairs = zip(self.task.lengths, one.pattern, strict=True)
        return [(length - self.kerf) / NANO for length, count in pairs for _ in range(count)]

    def bar(self, one: Cut) -> float:
        """Length of the bar that one is cut from (mm)."""
        return self.task.costs[one.kind] / NANO

    def offcut(self, one: Cut) -> float:
        """What is left of it (mm); a sliver thinner than a cut is nothing."""
        return max(0, self.task.costs[one.kind] - used(self.task.lengths, one.pattern)) / NANO

    @property
    def over(self) -> float:
        """How much more bar the plan takes than the bound (mm)."""
        return (cost(self.task, self.cuts) - self.least) / NANO


def find(readings: Mapping[str, Reading]) -> Finding:
    """The plan for one list of pieces. Raises Refused."""
    v = values(readings)
    s = _sawing(v)
    bought = cost(s.task, s.cuts) / NANO
    pieces = sum(sum(s.lengths(one)) for one in s.cuts)
    bars = _bars(len(s.cuts))
    verdict, reason = judged(_found(v, s), f"{bars}, {show(bought, 'mm')} bought{_proof(s)}.")
    return Finding(
        values={
            "bars_needed": len(s.cuts),
            "plan": [s.lengths(one) for one in s.cuts],
            "bars_cut": [s.bar(one) for one in s.cuts],
            "offcuts": [s.offcut(one) for one in s.cuts],
            "length_bought": bought,
            "least_possible": s.least / NANO,
            "waste_share": 1 - pieces / bought,
            "proven_optimal": "no" if s.over else "yes",
            "least_spare": min(s.spare),
        },
        verdict=verdict,
        reason=reason,
        advice=tuple(_advice(v, s)) if verdict != "ok" else (),
        cautions=("Long bars: support both ends, keep hands clear, follow the saw's manual.",),
        working=tuple(_working(v, s)),
        drawing=_drawing(s),
    )


def _sawing(v: Mapping[str, Any]) -> Sawing:
    wanted: Counter[int] = Counter()
    for length, count in v["pieces"]:
        wanted[_nano(length)] += count
    wanted = +wanted
    bars = sorted({_nano(length) for length in v["bar_lengths"]})
    if not wanted:
        raise Refused("pieces", "Pieces to saw (pieces): there is nothing to saw")
    if len(wanted) > LENGTHS or wanted.total() > PIECES or len(bars) > KINDS:
        text = f"At most {LENGTHS} different lengths, {PIECES} pieces and {KINDS} lengths of bar at once"
        raise Refused("pieces" if len(bars) <= KINDS else "bar_lengths", text)
    kerf, stub = _nano(v["saw_kerf"]), _nano(v["stub"])
    parting = v.get("parting_cut_on_last", "yes" if stub else "no") == "yes"
    room = {bar: bar - stub + (0 if parting else kerf) for bar in bars}
    lengths = sorted((length + kerf for length in wanted), reverse=True)
    if lengths[0] > max(room.values()):
        need = lengths[0] + bars[-1] - room[bars[-1]]
        raise Refused("bar_lengths", f"A piece of {show((lengths[0] - kerf) / NANO, 'mm')} needs a bar of "
                                     f"{show(need / NANO, 'mm')} at least, cut and stub included")  # fmt: skip
    useful = [bar for bar in bars if room[bar] >= lengths[-1]]
    task = Task(tuple(lengths), tuple(wanted[length - kerf] for length in lengths),
                tuple(room[bar] for bar in useful), tuple(useful))  # fmt: skip
    limit = bound(task)
    cuts = sorted(_roomy(task, limit), key=lambda one: (-task.costs[one.kind], [-n for n in one.pattern]))
    spare = tuple((task.rooms[one.kind] - used(task.lengths, one.pattern)) / NANO for one in cuts)
    return Sawing(task, kerf, tuple(cuts), limit.least, spare, parting)


def _roomy(task: Task, limit: Bound) -> tuple[Cut, ...]:
    """The cheapest plan found; of the same cost one that leaves TIGHT to spare in each bar, where there is one."""
    cuts = plan(task, limit)
    if all(task.rooms[one.kind] - used(task.lengths, one.pattern) >= TIGHT * NANO for one in cuts):
        return cuts
    less = tuple(room - int(TIGHT * NANO) for room in task.rooms)
    if min(less) < task.lengths[-1] or max(less) < task.lengths[0]:
        return cuts
    roomy = replace(task, rooms=less)
    other = plan(roomy, bound(roomy))
    return other if cost(task, other) <= cost(task, cuts) else cuts


def _nano(length: float) -> int:
    return int(exact(length) * NANO)


def _bars(count: int) -> str:
    return "1 bar" if count == 1 else f"{count} bars"


def _proof(s: Sawing) -> str:
    if not s.over:
        return "; no plan needs less"
    near = ", within one bar of the bound" if s.over <= max(s.task.costs) / NANO else ""
    return f"; {show(s.over, 'mm')} less is not ruled out{near}"


def _found(v: Mapping[str, Any], s: Sawing) -> Iterator[tuple[str, str]]:
    if len(s.cuts) > v.get("bars_at_hand", len(s.cuts)):
        there = "are there" + (", counting bars of any length" if len(v["bar_lengths"]) > 1 else "")
        yield "stop", f"It takes {_bars(len(s.cuts))}, and {number(v['bars_at_hand'], '1')} {there}."
    tight = sum(not at_least(spare, TIGHT) for spare in s.spare)
    if tight:
        have = "has" if tight == 1 else "have"
        left = f"only {show(min(s.spare), 'mm')}" if min(s.spare) else "nothing"
        yield (
            "watch",
            f"{_bars(tight)} of {len(s.cuts)} {have} {left} to spare: a rough end or a wider cut costs a piece.",
        )


def _advice(v: Mapping[str, Any], s: Sawing) -> Iterator[Advice]:
    if len(s.cuts) > v.get("bars_at_hand", len(s.cuts)):
        text = f"Buy {_bars(len(s.cuts) - v['bars_at_hand'])} more, or longer bars"
        yield Advice(text, "bars_at_hand", len(s.cuts), "1")
    more = TIGHT - min(s.spare)
    if more > 0:
        yield Advice(f"Measure the tight bars before you saw: {show(more, 'mm')} longer than bought is safe")
        yield Advice("Or saw the tight bars first, and keep one more at hand")


def _working(v: Mapping[str, Any], s: Sawing) -> Iterator[Step]:
    cut, stub = mm(v["saw_kerf"]), mm(v["stub"])
    last = "each with its cut" if s.parting else "the last one needs no cut"
    for kind, room in enumerate(s.task.rooms):
        kerfs = "" if s.parting else f" + {cut}"
        yield Step(f"Room in a bar; {last}", "bar − stub" + ("" if s.parting else " + one cut"),
                   f"{mm(s.task.costs[kind] / NANO)} − {stub}{kerfs}", show(room / NANO, "mm"))  # fmt: skip
    for one, count in _grouped(s):
        pieces = Counter(s.lengths(one))
        told = " + ".join(f"{number(n, '1')} × ({mm(length)} + {cut})" for length, n in pieces.items())
        yield Step(f"{_bars(count)} of {show(s.bar(one), 'mm')}", "pieces, each with its cut", told,
                   show(used(s.task.lengths, one.pattern) / NANO, "mm"))  # fmt: skip
    yield Step("No plan needs less than", "relaxation over all patterns, rounded up to what bars add up to",
               f"{number(sum(s.task.counts), '1')} pieces", show(s.least / NANO, "mm"))  # fmt: skip


def _grouped(s: Sawing) -> list[tuple[Cut, int]]:
    return list(Counter(s.cuts).items())


def _drawing(s: Sawing) -> str:
    groups = _grouped(s)
    shown = groups[:ROWS]
    longest = max(s.bar(one) for one, _ in groups)
    margin = 8.0 * max(len(_bars(count)) for _, count in shown) + 10  # for the counts on the left, picture units
    span = longest * WIDTH / (WIDTH - margin - 24)
    unit = span / WIDTH  # mm for one unit of the picture
    height = ROW * len(shown) + 44
    d = Drawing("The bars and their pieces", (WIDTH / 2 - margin) * unit, 0.0, span, height)
    for row, (one, count) in enumerate(shown):
        top = (height / 2 - 12 - ROW * row) * unit
        low = top - HIGH * unit
        d.outline(corners(0, low, s.bar(one), top), "stock-left-ground")
        _pieces(d, s, one, (low, top), unit)
        d.outline(corners(0, low, s.bar(one), top), "edge")
        d.write((0, low), _bars(count), "end", (-6, -3))
    if len(groups) > ROWS:
        d.write((0, (10 - height / 2) * unit), f"and {len(groups) - ROWS} other patterns", "start")
    return d.svg()


def _pieces(d: Drawing, s: Sawing, one: Cut, between: tuple[float, float], unit: float) -> None:
    """The pieces of a bar; short ones as one block with thin lines between, or with none where there is no room."""
    (low, top), x = between, 0.0
    for length, same in groupby(s.lengths(one)):
        count, pitch, text = len(list(same)), length + s.kerf / NANO, show(length, "mm")
        end = min(x + count * pitch, s.bar(one))
        begins = [x + n * pitch for n in range(count)]
        if length / unit >= SHORT:
            for at in begins:
                d.block(corners(at, low, min(at + length, s.bar(one)), top))
        else:
            d.block(corners(x, low, end, top))
            for at in begins[1:] if pitch / unit >= APART else ():
                d.line((at, low), (at, top), "dim")
        if LETTER * len(text) < length / unit:
            for at in begins:
                d.write((at + length / 2, low), text, beside=(0, 12))
        elif LETTER * len(f"{count} × {text}") < (end - x) / unit:
            d.write(((x + end) / 2, low), f"{count} × {text}", beside=(0, 12))
        x += count * pitch


BAR_CUTTING = Calculator(
    name="bar-cutting",
    title="Bars to saw",
    step="stock",
    question="How many bars, and which pieces from which?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="bars_needed",
    find=find,
    example={
        "bar_lengths": "2000, 3000 mm",
        "pieces": "640 x 4, 415 x 5, 260 x 6, 97 x 10 mm",
        "saw_kerf": "1.5 mm",
        "stub": "60 mm",
    },
    guard=Guard("least_spare", at_least="2 mm"),
    about=(
        "Adding up lengths and dividing by the bar forgets the saw's cuts, the stub and that pieces do not share. This "
        "one cuts the least length of bar it can find, and says whether less is possible.",
        "It does not know your shelf: offcuts already there go into the bars that can be bought, one length each, but "
        "without their number.",
    ),
    limits=(
        "All pieces from one section and material. Bars of each length without end.",
        "Least length bought: a metre costs the same in every bar. Of equal plans, one with 2 mm to spare in each bar.",
        "2 mm to spare is a judgement: ends of bars are not square.",
    ),
    sources=(
        "Bound: Gilmore and Gomory, A linear programming approach to the cutting-stock problem, 1961. Checked against "
        "an integer-programming solver.",
    ),
    bench_note="sawn-stock",
)

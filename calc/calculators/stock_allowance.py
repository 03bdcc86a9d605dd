"""Whether a sawn blank will clean up, how to share its stock, and how many a bar gives."""

from collections.abc import Iterator, Mapping

from calc.answer import Advice, Finding, Step, Value
from calc.calculators.stock_drawing import drawing
from calc.calculators.stock_sums import AXES, ENOUGH, Sums, said_short, sized, sums, verdict
from calc.declare import Calculator, Guard
from calc.quantity import Quantity, Reading, at_least, values
from calc.show import number, show

LARGEST = 5000.0
STEP, MOST_STEPS = 0.05, 400  # mm: nobody sets a saw stop finer
ASSUMED = "Assumed: measure your own saw."

INPUTS = (
    Quantity("finished_length", "Finished length", "mm", above=0, high=LARGEST, required=True, first=True),
    Quantity("finished_width", "Finished width", "mm", above=0, high=LARGEST, required=True, first=True),
    Quantity("finished_height", "Finished height", "mm", above=0, high=LARGEST, required=True, first=True),
    Quantity(
        "saw_out_of_square",
        "Saw out of square",
        "mm/100 mm",
        f"How far a sawn face leans. {ASSUMED}",
        low=0,
        high=20,
        default="0.5",
        first=True,
    ),
    Quantity(
        "safety_allowance",
        "Safety for each sawn face",
        "mm",
        "A millimetre is usual in a small shop (common practice, no source).",
        low=0,
        high=100,
        default="1 mm",
        first=True,
    ),
    Quantity("machining_allowance", "To mill off each face", "mm", low=0, high=100, default="0.5 mm", first=True),
    Quantity(
        "sawn_faces",
        "Sawn faces",
        "1",
        "Along length, width, height: 0, 1 or 2 each. 2,0,0 is a piece cut off a bar.",
        low=0,
        high=2,
        default="2,0,0",
        kind="list",
    ),
    Quantity("surface_defect", "Roughness and scale of a face", "mm", ASSUMED, low=0, high=20, default="0.1 mm"),
    Quantity(
        "saw_length_scatter",
        "Scatter of sawn lengths",
        "mm",
        "Longest less shortest.",
        low=0,
        high=50,
        default="0 mm",
    ),
    Quantity("holding_stock", "More height, to hold it by", "mm", low=0, high=500, default="0 mm"),
    Quantity("saw_kerf", "Width of the saw's cut", "mm", ASSUMED, low=0, high=20, default="1.5 mm"),
    Quantity("bar_length", "Length of the bar", "mm", "Tells how many blanks it gives.", above=0, high=20000),
    Quantity(
        "stub",
        "What the saw needs to hold",
        "mm",
        "Lost at the end of each bar.",
        low=0,
        high=2000,
        default="0 mm",
    ),
    Quantity("quantity", "Blanks wanted", "1", low=1, high=100000, kind="whole", default="1"),
    Quantity(
        "bar_section",
        "Section of the bar",
        help='"60 x 40" or "round 80". Empty: that of the blank.',
        kind="text",
    ),
)
OUTPUTS = (
    Quantity("blank_length", "Saw the blank to a length of", "mm"),
    Quantity("blank_width", "Blank, width", "mm"),
    Quantity("blank_height", "Blank, height", "mm"),
    Quantity(
        "least_cleanup",
        "Certainly left over, worst axis",
        "mm",
        "held to 0.2 mm; below nothing it will not clean up",
    ),
    Quantity(
        "first_cut",
        "Take off the first face: length, width, height",
        "mm",
        "the rest belongs to the second face",
    ),
    Quantity("blanks_per_bar", "Blanks from a bar", "1"),
    Quantity("bars_needed", "Bars needed", "1"),
    Quantity("offcut", "Left of a full bar", "mm", "stub included"),
    Quantity("material_used_share", "Share of the material in the parts", "1"),
    Quantity("saw_cuts", "Saw cuts in all", "1", "along the bar, for the whole job"),
)
LIMITS = (
    "A straight, flat bar: a bent or twisted one needs more.",
    "The saw leans on the faces that it made, at most by the amount given, in both planes at once.",
    "Only cuts along the bar are counted.",
    "0.2 mm as enough left over is a judgement.",
)
SOURCES = (
    "Own derivation; counting in exact decimals.",
    "A millimetre of safety a sawn face: common practice, no source. Figures for saws: none found published.",
)


def find(readings: Mapping[str, Reading]) -> Finding:
    """What is found for one blank. Raises Refused."""
    s = sums(readings)
    word = verdict(s)
    return Finding(
        values=_values(s),
        verdict=word,
        reason=_reason(s, word),
        advice=tuple(_advice(readings, s)) if word != "ok" else (),
        cautions=_cautions(s),
        working=tuple(_working(readings, s)),
        drawing=drawing(readings, s),
    )


def _values(s: Sums) -> dict[str, Value]:
    bar = s.bar
    none = "the bar's length was not given" if bar is None else "the bar gives no blank"
    found = {f"blank_{axis}": Value(size, "mm") for axis, size in zip(AXES, s.blank, strict=True)}
    found |= {
        "least_cleanup": Value(s.cleanup[s.worst], "mm"),
        "first_cut": Value(list(s.first_cut), "mm"),
        "blanks_per_bar": Value(bar.per_bar if bar else None, why=none),
        "bars_needed": Value(bar.bars if bar else None, why=none),
        "offcut": Value(bar.offcut if bar else None, "mm", why=none),
        "material_used_share": Value(bar.share if bar else None, why=none),
        "saw_cuts": Value(bar.cuts if bar else None, why=none),
    }
    return found


def _reason(s: Sums, word: str) -> str:
    saw = f"Saw it {show(s.blank[0], 'mm')} long"
    if not s.fits:
        return f"The bar is too small: the blank is {show(s.blank[1], 'mm')} by {show(s.blank[2], 'mm')}."
    if s.bar and s.bar.per_bar == 0:
        return f"The bar of {show(s.bar.length, 'mm')} gives no blank of {show(s.blank[0], 'mm')}."
    short = said_short(s)
    if word == "stop":
        return f"It will not clean up for certain: {short}."
    end = "." if word == "watch" else ". Nothing found by this calculator."
    many = s.bar and s.bar.bars and s.bar.bars > 1
    bars = f"; {s.bar.bars} bars are needed, {s.bar.per_bar} blanks from each" if s.bar and many else ""
    return f"{saw}: {short}{bars}{end}"


def _advice(readings: Mapping[str, Reading], s: Sums) -> Iterator[Advice]:
    if at_least(s.cleanup[s.worst], ENOUGH):
        yield from _bar_advice(s)
        return
    if s.sawn[s.worst]:
        more = _mended(readings, "safety_allowance", STEP)
        if more is not None:
            yield Advice(f"Leave {show(more, 'mm')} of safety on each sawn face", "safety_allowance", more, "mm")
        square = _mended(readings, "saw_out_of_square", -STEP / 5)
        if square is not None:
            text = f"Or set the saw square to {show(square, 'mm/100 mm')}"
            yield Advice(text, "saw_out_of_square", square, "mm/100 mm")
    more = _mended(readings, "machining_allowance", STEP)
    if more is not None:
        yield Advice(f"Or leave {show(more, 'mm')} to mill off each face", "machining_allowance", more, "mm")
    yield from _bar_advice(s)


def _bar_advice(s: Sums) -> Iterator[Advice]:
    if not s.fits:
        yield Advice(f"Take a bar of at least {show(s.blank[1], 'mm')} by {show(s.blank[2], 'mm')}")


def _mended(readings: Mapping[str, Reading], name: str, step: float) -> float | None:
    """The first value of an input, in steps from a round one, with which it cleans up; None where none does."""
    v = values(readings)
    first = round(v[name] / step) * step
    for n in range(1, MOST_STEPS):
        value = round(first + n * step, 6)
        if value < 0:
            return None
        tried = sized({**v, name: value})
        if at_least(tried.cleanup[tried.worst], ENOUGH):
            return value
    return None


def _cautions(s: Sums) -> tuple[str, ...]:
    found = []
    if any(s.sawn):
        found.append("A saw takes fingers quietly: push with a stick, let it stop, follow its manual.")
    if max(s.lean) > 1.0:
        found.append(
            f"The saw leans by up to {show(max(s.lean), 'mm')} over this section: a sawn face is no datum, and in a "
            "vice it touches at a few high spots only."
        )
    return tuple(found)


def _working(readings: Mapping[str, Reading], s: Sums) -> Iterator[Step]:
    v = {name: reading.value for name, reading in readings.items()}
    for n, axis in enumerate(AXES):
        yield Step(
            f"Blank, {axis}",
            "finished + 2 × to mill off + sawn faces × safety" + (" + to hold it by" if n == 2 else ""),
            f"{_n(s.finished[n])} + 2 × {_n(v['machining_allowance'])} + {s.sawn[n]} × {_n(v['safety_allowance'])}"
            + (f" + {_n(v['holding_stock'])}" if n == 2 else ""),
            show(s.blank[n], "mm"),
        )
    n = s.worst
    if s.sawn[n]:
        one, other = (s.blank[m] for m in range(3) if m != n)
        yield Step(
            f"Lean of a face sawn across the {AXES[n]}",
            "out of square × (both sides of the section)/100",
            f"{_n(v['saw_out_of_square'])} × ({_n(one)} + {_n(other)})/100",
            show(s.lean[n], "mm"),
        )
    yield Step(
        f"Certainly left over along the {AXES[n]}",
        "2 × to mill off + sawn × safety − 2 × roughness − sawn × lean − scatter",
        f"2 × {_n(v['machining_allowance'])} + {s.sawn[n]} × {_n(v['safety_allowance'])} − 2 × "
        f"{_n(v['surface_defect'])} − {s.sawn[n]} × {_n(s.lean[n])} − "
        f"{_n(v['saw_length_scatter'] if s.sawn[n] else 0.0)}",
        show(s.cleanup[n], "mm"),
    )
    yield from _bar_working(v, s)


def _bar_working(v: Mapping[str, float], s: Sums) -> Iterator[Step]:
    if s.bar is None:
        return
    length, blank, kerf, stub = (_n(x) for x in (s.bar.length, s.blank[0], v["saw_kerf"], v["stub"]))
    with_stub = f"({length} − {stub})/({blank} + {kerf})"
    without = f"({length} + {kerf})/({blank} + {kerf})"
    used, other = (with_stub, without) if v["stub"] else (without, with_stub)
    yield Step(
        "Blanks from a bar, rounded down",
        "(L − stub)/(b + k) where a stub stays in the saw, else (L + k)/(b + k)",
        f"{used}; the other way would be {other}",
        str(s.bar.per_bar),
    )


def _n(value: float) -> str:
    return number(value, "mm")


STOCK_ALLOWANCE = Calculator(
    name="stock-allowance",
    title="Stock on a sawn blank",
    step="stock",
    question="Will the sawn blank clean up?",
    inputs=INPUTS,
    outputs=OUTPUTS,
    headline="blank_length",
    find=find,
    example={
        "finished_length": "80 mm",
        "finished_width": "50 mm",
        "finished_height": "25 mm",
        "saw_out_of_square": "0.5 mm/100 mm",
        "bar_length": "3000 mm",
        "stub": "40 mm",
        "quantity": "20",
    },
    guard=Guard("least_cleanup", at_least="0.2 mm"),
    about=(
        "A saw leans in two planes and leaves a rough face. The sum says how long to saw the blank, what is certainly "
        "left when both faces have cleaned up, and how much belongs to the first cut.",
        "It cannot see a bent bar or a stop that has moved. Measure the first blank before sawing the rest.",
    ),
    limits=LIMITS,
    sources=SOURCES,
    bench_note="sawn-stock",
)

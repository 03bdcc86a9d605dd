"""The brief as HTML: the same text in the build and, when facts change, in the browser."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from html import escape
from typing import Any

from calc.links import fragment
from calc.present import MARKS, WORDS
from calc.show import in_system
from hooks.brief.card import datum_plan, lines, tools
from hooks.brief.lines import Brief, Line, brief
from hooks.brief.situations import situations
from hooks.brief.sums import FEW, Sum, sums

Fields = Mapping[str, Any]
INCHES, MILLIMETRES = re.compile(r"\d ?(?:in\b|inch|\")"), re.compile(r"\d ?mm\b")
SEEN = 6  # more sums without a fault than these are folded; the paper counts them
NOTHING = "Nothing found by this calculator."  # the mark beside says so already


def brief_html(known: Fields, job: Fields, settings: Fields, base: str) -> str:
    """What matters before this job (fields as texts); links begin at `base`."""
    found = brief(known, situations(job, settings))
    parts = (
        _lines(found, base),
        _sums(sums(job, settings), base, system_of(job)),
        _open(found),
        _folded("rest", "More that fits", found.rest, base),
    )
    return "".join(parts)


def system_of(job: Fields) -> str:
    """The units that a job's author writes in: "inch" where more lengths are typed so."""
    return "inch" if len(INCHES.findall(str(job))) > len(MILLIMETRES.findall(str(job))) else "metric"


def card_html(job: Fields, settings: Fields) -> str:
    """The first-run card: tools to be checked, and lines to be ticked."""
    ticks = "".join(f"<li>{_tick(f'card{n}', text)}</li>" for n, text in enumerate(lines(settings)))
    listed = "".join(
        f"<tr><td>{escape(one.number or '–')}</td><td>{escape(one.name)}</td><td>{escape(one.offset or '–')}</td>"
        f"<td>{escape(one.stick_out or '–')}</td><td></td></tr>"
        for one in tools(job, settings)
    )
    heads = ("Tool", "What", "Length offset", "Sticks out", "Measured")
    head = "".join(f'<th scope="col">{one}</th>' for one in heads)
    table = (
        f'<div class="scrolls"><table class="tools"><thead><tr>{head}</tr></thead><tbody>{listed}</tbody></table></div>'
    )
    return (
        '<section class="first-run"><h2>First run</h2>'
        f'{table if listed else ""}{_datum(job)}<ul class="ticks">{ticks}</ul>'
        "<p class=\"field__help\">The machine's manual and the shop's rules come first.</p></section>"
    )


def _lines(found: Brief, base: str) -> str:
    if not found.lines:
        return (
            '<section><h2>Before you cut</h2><p class="notice">Nothing in the memory is like this job. '
            "That makes it a first: go by the card below.</p></section>"
        )
    items = "".join(_line(one, base) for one in found.lines)
    return f'<section><h2>Before you cut</h2><ol class="briefs briefs--job">{items}</ol></section>'


def _line(one: Line, base: str) -> str:
    could = f'<span class="brief-line__could">{escape(one.could)}</span> ' if one.could else ""
    link = f'<a href="{base}/lessons/{escape(one.id)}/">{escape(one.title)}</a>'
    reasons = f'<span class="brief-line__reasons">{escape("; ".join(one.why))}:</span>'
    why = f'<span class="brief-line__why">{could}{reasons} {link}</span>'
    more = _folded("brief-line__more", f"{len(one.more)} more on this danger", one.more, base)
    return f'<li class="brief-line" data-lesson="{escape(one.id)}">{_tick(one.id, one.rule)}{why}{more}</li>'


def _tick(name: str, text: str) -> str:
    return f'<label class="tick"><input type="checkbox" data-tick="{escape(name)}"> <span>{escape(text)}</span></label>'


def _sums(found: list[Sum], base: str, system: str) -> str:
    quiet = [one for one in found if one.verdict == "ok"]
    folded = quiet if len(quiet) > SEEN else []
    shown = _sum_list((one for one in found if one not in folded), base, system)
    if folded:
        counts = Counter(one.calculator.title for one in folded)
        named = ", ".join(f"{title} ({count})" for title, count in counts.items())
        more = f"{len(folded)} more with no fault found: {named}"
        shown += (
            f'<details class="job-sums-ok"><summary>{escape(more)}</summary>{_sum_list(folded, base, system)}</details>'
        )
    return f"<section><h2>The sums of this job</h2>{shown}</section>" if found else ""


def _sum_list(found: Iterable[Sum], base: str, system: str) -> str:
    items = "".join(_sum(one, base, system) for one in found)
    return f'<ul class="job-sums">{items}</ul>' if items else ""


def _sum(one: Sum, base: str, system: str) -> str:
    address = f"{base}/calculators/{one.calculator.name}/#{escape(fragment(one.calculator, one.inputs))}"
    place = f'<span class="job-sum__where">{escape(one.where)}</span>' if one.where else ""
    link = f'<a href="{address}">{escape(one.calculator.title)}</a> {place}'
    if not one.verdict:
        return f'<li class="job-sum"{_lacking(one)}>{link} needs: {escape(one.reason)}</li>'
    mark = f'<svg class="verdict-mark" viewBox="0 0 24 24" aria-hidden="true">{MARKS[one.verdict]}</svg>'
    return (
        f'<li class="job-sum job-sum--{one.verdict}"><span class="job-sum__verdict">{mark} {WORDS[one.verdict]}</span> '
        f"{link} {escape(in_system(one.reason.removesuffix(NOTHING).strip(), system))}</li>"
    )


def _lacking(one: Sum) -> str:
    """Which fact it is and where it belongs, for a page that can ask for it."""
    if not one.lacks:
        return ""
    return f' data-lacks="{escape(one.lacks.fact)}" data-at="{one.at[0]} {one.at[1]}"'


def _open(found: Brief) -> str:
    """What nobody has proved: rules without proof, and operations of which the memory knows nothing."""
    unproven = [str(n) for n, one in enumerate(found.lines, start=1) if not one.proven]
    said = []
    if unproven:
        said.append(f"No job has proved yet: {'line' if len(unproven) == 1 else 'lines'} {', '.join(unproven)}.")
    for told, ones in (("First of its kind here, nothing like it in the memory", found.new),
                       ("No room among the seven lines, see \"More that fits\"", found.unseated)):  # fmt: skip
        if ones:
            said.append(f"{told}: {', '.join(_counted(ones))}.")
    items = "".join(f"<li>{escape(one)}</li>" for one in said)
    return f"<section><h2>Not proved</h2><ul>{items}</ul></section>" if items else ""


def _counted(called: Iterable[str]) -> Iterator[str]:
    """Operations as they are called; one of many set-ups once, with their number."""
    ones: dict[str, list[str]] = {}
    for one in called:
        ones.setdefault(one.partition(" (")[0], []).append(one)
    for name, same in ones.items():
        yield from same if len(same) <= FEW else [f"{name} ({len(same)} set-ups)"]


def _datum(job: Fields) -> str:
    items = "".join(
        f"<div><dt>{escape(name)}: zero</dt> <dd>{escape(text)}</dd></div>" for name, text in datum_plan(job)
    )
    return f'<dl class="datum-plan">{items}</dl>' if items else ""


def _folded(kind: str, called: str, ones: Sequence[Line], base: str) -> str:
    """Lines to be looked at by whoever wants to; nothing where there are none."""
    items = "".join(
        f'<li><a href="{base}/lessons/{escape(one.id)}/">{escape(one.rule or one.title)}</a> '
        f'<span class="brief-line__why">{escape("; ".join(one.why))}</span></li>'
        for one in ones
    )
    return f'<details class="{kind}"><summary>{called}</summary><ul>{items}</ul></details>' if items else ""

"""Threads: what a text such as M10x1.5 or 1/4-20 UNC means, and what a hole leaves of the thread. mm.

Profile: ISO 68-1 and ASME B1.1 share it: H = sqrt(3)/2 P, engaged height 5/8 H.
"""

import math
import re
from dataclasses import dataclass
from fractions import Fraction

# Coarse pitches, ISO 261 first choice and M7, M14, M18, M22, M27, M33 (recalled, the text was not open to us).
COARSE = {
    "1.6": 0.35, "2": 0.4, "2.5": 0.45, "3": 0.5, "3.5": 0.6, "4": 0.7, "5": 0.8, "6": 1.0, "7": 1.0, "8": 1.25,
    "10": 1.5, "12": 1.75, "14": 2.0, "16": 2.0, "18": 2.5, "20": 2.5, "22": 2.5, "24": 3.0, "27": 3.0, "30": 3.5,
    "33": 3.5, "36": 4.0,
}  # fmt: skip
METRIC = re.compile(r"m\s*(?P<d>\d+(?:[.,]\d+)?)\s*(?:[x×*]\s*(?P<p>\d*[.,]?\d+))?", re.IGNORECASE)
INCH = re.compile(
    r"(?:(?:(?P<whole>\d+)[ -]+)?(?P<top>\d+)/(?P<bottom>\d+)\s*-\s*(?P<n>\d+(?:\.\d+)?)"
    r"|(?P<mark>#|no\.?)?\s*(?P<number>\d{1,2})\s*-\s*(?P<m>\d+(?:\.\d+)?))\s*(?P<series>UN[A-Z]*)?",
    re.IGNORECASE,
)
COARSEST = 0.4  # of a numbered size; a coarser pitch, as in 1-8, means inches (the standard's own stay under 0.23)
ENGAGED = 1.25 * math.sqrt(3) / 2  # diameters' difference of the full engaged profile over the pitch: 2 x 5/8 H


@dataclass(frozen=True)
class Thread:
    """A thread: name, nominal diameter and pitch (mm); series M, UNC, UNS, "" for an inch one without."""

    name: str
    diameter: float
    pitch: float
    series: str = ""


def thread_of(text: str) -> Thread | None:
    """The thread that was written; None where it is none that can be read.

    >>> thread_of("M6"), thread_of("1/4-20 UNC").pitch
    (Thread(name='M6', diameter=6.0, pitch=1.0, series='M'), 1.27)
    >>> thread_of("1-8 UNC").diameter, thread_of("#1-64").diameter
    (25.4, 1.8542)
    """
    text = " ".join(text.split())
    found = METRIC.fullmatch(text)
    if found:
        return _metric(text, found)
    found = INCH.fullmatch(text)
    if not found:
        return None
    if found["number"]:
        size, turns = Fraction(60 + 13 * int(found["number"]), 1000), Fraction(found["m"])  # ASME B1.1: 0.060 + 0.013 n
        if not found["mark"] and size * turns * Fraction(COARSEST) < 1:
            size = Fraction(found["number"])
    elif int(found["bottom"]):
        size = int(found["whole"] or 0) + Fraction(int(found["top"]), int(found["bottom"]))
        turns = Fraction(found["n"])
    else:
        return None
    if not turns or not size:
        return None
    series = (found["series"] or "").upper()
    return Thread(text, float(size * Fraction("25.4")), float(Fraction("25.4") / turns), series)


def _metric(text: str, found: re.Match[str]) -> Thread | None:
    diameter = found["d"].replace(",", ".")
    pitch = float(found["p"].replace(",", ".")) if found["p"] else COARSE.get(f"{float(diameter):g}")
    if pitch is None or not 0 < pitch < float(diameter):
        return None
    return Thread(text, float(diameter), pitch, "M")


def thread_share(thread: Thread, hole: float) -> float:
    """Height of thread in a hole of diameter `hole` over the full 5/8 H: (D - d)/(1.0825 P).

    An inch chart takes 3/4 H for full, so its per cent are 5/6 of these.

    >>> round(thread_share(Thread("M6", 6.0, 1.0), 5.0), 4)
    0.9238
    """
    return (thread.diameter - hole) / (ENGAGED * thread.pitch)


def formed_share(thread: Thread, hole: float) -> float:
    """Metal pushed out of the grooves over what the ridges of the full profile hold: past one it has nowhere to go.

    Own derivation: no metal is lost, and the ridge of the basic profile (ISO 68-1) is P/4 wide at the minor diameter
    and 7/8 P at the major one. The usual hole, half a pitch under the diameter, comes to 80 to 90 per cent.

    >>> round(formed_share(Thread("M8", 8.0, 1.25), 7.375), 4)
    0.8474
    """
    outer, high = thread.diameter / 2, ENGAGED * thread.pitch / 2
    inner, wide, widens = outer - high, thread.pitch / 4, 2 / math.sqrt(3)
    ridge = wide * inner * high + (wide + widens * inner) * high**2 / 2 + widens * high**3 / 3
    return thread.pitch * (outer**2 - hole**2 / 4) / 2 / ridge

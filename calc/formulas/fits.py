"""ISO 286 tolerances of holes and shafts up to 500 mm, in um.

The tables are recalled (the standard's own text was not open to us); tests hold every number of them to tables that
makers and textbooks print after it, and to the formulas that ISO 286-1 gives. Steps: over one, up to the next.
"""

import re
from bisect import bisect_left

STEPS = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
GRADES = {
    5: (4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27),
    6: (6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40),
    7: (10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63),
    8: (14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97),
    9: (25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155),
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400),
}
# The side of a shaft's zone nearer to the nominal size: below it for f and g, above it for k to p.
SHAFTS = {
    "f": (6, 10, 13, 16, 20, 25, 30, 36, 43, 50, 56, 62, 68),
    "g": (2, 4, 5, 6, 7, 9, 10, 12, 14, 15, 17, 18, 20),
    "k": (0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5),
    "m": (2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23),
    "n": (4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40),
    "p": (6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68),
}
S_STEPS = (3, 6, 10, 18, 30, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500)
S = (14, 19, 23, 28, 35, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252)
LARGEST_K_SHAFT, LARGEST_KMN_HOLE, LARGEST_P_HOLE = 7, 8, 7
CODE = re.compile(r"(?P<letter>[A-Za-z]{1,2})\s*(?P<grade>\d{1,2})")


def grade(nominal: float, number: int) -> int:
    """Width of the zone (um). Raises KeyError for a grade that is not here.

    >>> grade(25, 7), grade(30, 7), grade(30.1, 7)
    (21, 21, 25)
    """
    return GRADES[number][bisect_left(STEPS, nominal)]


def shaft(nominal: float, code: str) -> tuple[float, float] | None:
    """(upper, lower) deviation of a shaft (um); None where the code is not one of these.

    >>> shaft(25, "g6"), shaft(25, "p6"), shaft(25, "js7")
    ((-7, -20), (35, 22), (10.5, -10.5))
    """
    letter, number = _parts(code)
    if letter is None or letter != letter.lower() or number not in GRADES:
        return None
    width = grade(nominal, number)
    if letter == "h":
        return 0, -width
    if letter == "js":
        return width / 2, -width / 2
    if letter == "s":
        low = S[bisect_left(S_STEPS, nominal)]
        return low + width, low
    if letter not in SHAFTS:
        return None
    near = SHAFTS[letter][bisect_left(STEPS, nominal)]
    if letter in ("f", "g"):
        return -near, -near - width
    if letter == "k" and number > LARGEST_K_SHAFT:
        near = 0
    return near + width, near


def hole(nominal: float, code: str) -> tuple[float, float] | None:
    """(upper, lower) deviation of a hole (um); None where the code is not one of these.

    K, M, N up to grade 8 and P up to 7 lie opposite the shaft's zone, moved by the difference of two grades.

    >>> hole(25, "H7"), hole(25, "K7"), hole(25, "N7"), hole(25, "P7")
    ((21, 0), (6, -15), (-7, -28), (-14, -35))
    """
    letter, number = _parts(code)
    if letter is None or letter != letter.upper() or number not in GRADES or number < 6:
        return None
    width = grade(nominal, number)
    if letter == "H":
        return width, 0
    if letter == "JS":
        return width / 2, -width / 2
    if letter in ("F", "G"):
        near = SHAFTS[letter.lower()][bisect_left(STEPS, nominal)]
        return near + width, near
    if letter not in ("K", "M", "N", "P"):
        return None
    upper = _upper(nominal, letter, number)
    return None if upper is None else (upper, upper - width)


def _upper(nominal: float, letter: str, number: int) -> int | None:
    near = SHAFTS[letter.lower()][bisect_left(STEPS, nominal)]
    most = LARGEST_P_HOLE if letter == "P" else LARGEST_KMN_HOLE
    if number > most:
        if letter == "K":
            return 0 if nominal <= STEPS[0] else None
        return (-near if nominal <= STEPS[0] else 0) if letter == "N" else -near
    if letter == "M" and number == 6 and STEPS[9] < nominal <= STEPS[10]:
        return -9  # the standard's own exception: -11 by the rule
    moved = grade(nominal, number) - grade(nominal, number - 1) if nominal > STEPS[0] else 0
    return -near + moved


def _parts(code: str) -> tuple[str | None, int]:
    found = CODE.fullmatch(code.strip())
    return (found["letter"], int(found["grade"])) if found else (None, 0)

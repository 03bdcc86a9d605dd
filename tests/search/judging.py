"""How good a ranking is: nDCG@10 and recall@5 against judged answers (graded 1 to 3)."""

import math
from collections.abc import Mapping, Sequence

Grades = Mapping[str, int]


def ndcg(found: Sequence[str], grades: Grades, depth: int = 10) -> float:
    """Normalised discounted cumulative gain, gains 2^grade - 1, discount log2(place + 1).

    Source: Järvelin and Kekäläinen, "Cumulated gain-based evaluation of IR techniques", ACM TOIS 20 (2002),
    with the exponential gain of Burges et al., ICML 2005; both from memory.
    """
    best = sorted(grades.values(), reverse=True)
    gained = [grades.get(one, 0) for one in found[:depth]]
    return _discounted(gained) / _discounted(best[:depth])


def recall(found: Sequence[str], grades: Grades, depth: int = 5) -> float:
    """The share of wanted answers among the first; where more are wanted than fit, of those that fit."""
    return sum(one in grades for one in found[:depth]) / min(len(grades), depth)


def _discounted(grades: Sequence[int]) -> float:
    return sum((2**grade - 1) / math.log2(place + 2) for place, grade in enumerate(grades))

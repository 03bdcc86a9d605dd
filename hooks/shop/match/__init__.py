"""Which lessons fit a situation, by its facts: the same columns and the same ranking in build and browser.

A situation is a plain mapping of the names in `ROWS` to what is known there: a key for "same", a
positive number for "near", keys for "shared"; what is not known is left out. Columns are made once
from all lessons, are plain JSON, and keep for each row only the lessons that have it.
"""

from hooks.shop.match.dangers import DANGERS, brought
from hooks.shop.match.facts import GROUPS, RATIOS, Facts, facts_of, facts_of_job
from hooks.shop.match.mishap import Mishap, akin, metal_of, mishap, same_mishap
from hooks.shop.match.ranking import COMPARE, Columns, Match, columns, rank
from hooks.shop.match.table import FAMILIES, OUTCOMES, ROWS, UNPROVEN, Row

__all__ = [
    "COMPARE", "DANGERS", "FAMILIES", "GROUPS", "OUTCOMES", "RATIOS", "ROWS", "UNPROVEN",
    "Columns", "Facts", "Match", "Mishap", "Row",
    "akin", "brought", "columns", "facts_of", "facts_of_job", "metal_of", "mishap", "rank", "same_mishap",
]  # fmt: skip

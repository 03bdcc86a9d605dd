"""Which material a shop's words mean. What a designation stands for is from memory where no source is named."""

import re
import time

import pytest

from calc.material_names import GROUPS, NAMES, from_words, group_from_words
from calc.materials import BY_KEY


def test_every_name_means_its_own_material_and_no_other() -> None:
    """Each alone and in a sentence; no name stands twice, and each material can be named."""
    every = [name for names in (*NAMES.values(), *GROUPS.values()) for name in names.split(", ")]
    assert len(set(every)) == len(every)
    for key, names in NAMES.items():
        for name in names.split(", "):
            for text in (name, name.upper(), f"{name} plate, new", f"bar, {name}"):
                found = from_words(text)
                assert found is BY_KEY[key], text
                assert group_from_words(text) == BY_KEY[key].iso513
    assert set(NAMES) == set(BY_KEY) - {"alloy_steel_1200"}  # a strength that no name tells


@pytest.mark.parametrize("group", GROUPS)
def test_a_general_name_tells_the_group_alone(group: str) -> None:
    """Steel is P, and no force is taken for it."""
    for name in GROUPS[group].split(", "):
        assert group_from_words(name) == group and from_words(name) is None


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("EN AW-6082 T6", "aluminium_hardened"), ("6082-T651", "aluminium_hardened"), ("6061t6", "aluminium_hardened"),
        ("aluminium 5083 H111", "aluminium_hardened"), ("AW6060", "aluminium_hardened"), ("Ti6Al4V", "titanium_6al4v"),
        ("stainless steel 303", "stainless_austenitic"), ("AISI 316L", "stainless_austenitic"),
        ("EN-GJL-250", "grey_cast_iron"), ("GJL 250", "grey_cast_iron"), ("1018 CRS", "mild_steel"),
        ("4140", "alloy_steel_annealed"), ("4140 prehard", "alloy_steel_930"), ("C45+N", "carbon_steel"),
        ("S355J2+N", "mild_steel"), ("POM-C black", "acetal"), ("tool steel O1", "high_alloy_steel"),
        ("X5CrNi18-10 (1.4301)", "stainless_austenitic"), ("EN 8", "carbon_steel"), ("EN 24T", "alloy_steel_930"),
        ("42 CrMo 4", "alloy_steel_annealed"), ("AL6061-T6", "aluminium_hardened"), ("SUS304", "stainless_austenitic"),
        ("Ti gr 5", "titanium_6al4v"), ("Ti\u20116Al\u20114V", "titanium_6al4v"),
        ("W.Nr.1.4301", "stainless_austenitic"),
        ("off-cut of 7075", "aluminium_hardened"), ("bar 60 x 40, 6082", "aluminium_hardened"),
        ("6082 T6 50,8 x 304,8", "aluminium_hardened"), ("6082 round 20 h11", "aluminium_hardened"),
        ("416 pcs brass", "brass_copper"), ("brass CZ121 h11", "brass_copper"),
        ("zinc plated mild steel", "mild_steel"),
        ("spring steel 301", "stainless_austenitic"), ("4140 pre-hardened", "alloy_steel_930"),
        ("EN24T, hardened and tempered", "alloy_steel_930"), ("O1, to be hardened after", "high_alloy_steel"),
        ("O1, not hardened", "high_alloy_steel"), ("4140 at 30 HRC", "alloy_steel_930"),
        ("4140 pre-hardened, 28-32 HRC", "alloy_steel_930"), ("EN24T, HRC 38", "alloy_steel_1200"),
    ],
)  # fmt: skip
def test_names_are_read_as_they_are_written(text: str, key: str) -> None:
    """With the temper, the standard's letters, hyphens or none, and other words around."""
    assert from_words(text) is BY_KEY[key]


@pytest.mark.parametrize(
    ("text", "group"),
    [
        ("", ""), ("something hard", ""), ("60820", ""), ("1.60825", ""), ("16082", ""), ("brass or steel", ""),
        ("6082 or 5052", "N"), ("6061 and 5052", "N"), ("304 on 6061", ""),  # two materials, one group, or two
        ("aluminium bronze", "N"), ("beryllium copper", "N"), ("17-4 PH", "M"), ("steely", ""), ("cast iron", "K"),
        ("O1 58 HRC", "H"), ("1.2379 at 60-62 HRC", "H"), ("hardened steel", "H"),
        ("440C, 58 HRC", "M"), ("oak", "x"), ("soaked", ""), ("O1 HRC 58", "H"), ("O1 58+2 HRC", "H"),
        ("O1 58 Rc", "H"),
        ("4140 at 50 HRC", "H"), ("EN8 at 30 HRC", "P"), ("302 HB", ""),
        ("steel bar, 304 mm long", "P"), ("steel plate 410 x 300", "P"),
        ("304,8 mm plate", ""), ("0,316 thick shim", ""), ("job 430", ""), ("PO 4140-22", ""),
        ("rest from rack D2", ""),
        ("odd bar from 2024", ""), ("bright bar 20 h11", ""), ("drawing A36", ""), ("copper tungsten", "N"),
        ("alu bronze", "N"), ("MDF 1200 x 600", "x"), ("steel " + "9" * 4400 + " HRC", "P"),
    ],
)  # fmt: skip
def test_what_is_not_sure_is_no_material(text: str, group: str) -> None:
    """No force is taken for it; its group may still be told."""
    assert from_words(text) is None and group_from_words(text) == group


def test_a_hardness_said_beside_it_is_read_and_holds_no_name() -> None:
    """302 HB is no stainless; 58 HRC beside O1 makes it hard; 30 HRC is what 4140 is sold at."""
    assert from_words("odd bar", "302 HB") is None and group_from_words("odd bar", "302 HB") == ""
    assert from_words("O1", "58 HRC") is None and group_from_words("O1", "58 HRC") == "H"
    prehard = from_words("4140", "30 HRC")
    assert prehard and prehard.key == "alloy_steel_930" and group_from_words("4140", "30 HRC") == "P"
    assert from_words("O1", "30 HRC") is None


def test_a_very_long_text_takes_no_time() -> None:
    """A pasted book: read in about a second on a slow machine, and nothing is found in it."""
    began = time.monotonic()
    assert from_words("the part 60 x 40 was 304,8 long, " * 3000) is None
    assert time.monotonic() - began < 10


def test_aluminium_follows_the_series() -> None:
    """EN 573 and EN 515 (from memory): 2, 6 and 7 are hardened by heat, 1, 3 and 5 are not; 5083 is work-hardened."""
    soft, hard = (
        [name[0] for name in NAMES[key].split(", ") if re.fullmatch(r"\d{4}a?", name)]
        for key in ("aluminium_wrought", "aluminium_hardened")
    )
    assert set(soft) == {"1", "3", "5"} and set(hard) == {"2", "5", "6", "7"} and hard.count("5") == 1

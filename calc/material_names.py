"""Which material a shop's words mean: designations of the standards, and the names that the trade gives them.

Designations and their kinds are from memory (EN 573-3, EN 10027-2, EN 10088, EN 1561, AISI and SAE, British EN and BS
970 numbers); a name that may be two things is left out. Aluminium of the series 2, 6 and 7 counts as hardened, and
5083 with it, since it is sold work-hardened; low-alloy steel counts as annealed unless its name says otherwise.
"""

import re

from calc.materials import BY_KEY, Material

NAMES = {
    "aluminium_wrought": "1050, 1050a, 1100, 1200, 3003, 3103, 5005, 5052, 5251, 5754, almg3, 3.3535",
    "aluminium_hardened": "2007, 2011, 2014, 2014a, 2017, 2017a, 2024, 2030, 5083, 6005, 6005a, 6026, 6060, 6061, "
    "6063, 6082, 7010, 7020, 7022, 7050, 7075, 7175, almg4.5mn, almgsi1, dural, duralumin, "
    "3.1325, 3.1355, 3.2315, 3.3206, 3.3211, 3.3547, 3.4365",
    "aluminium_cast": "cast aluminium, cast aluminum, aluminium casting, aluminum casting, a356, a360, a380, "
    "lm6, lm24, lm25, adc12, alsi7mg, alsi9cu3, alsi10mg, alsi12",
    "brass_copper": "brass, copper, cz108, cz121, cw004a, cw008a, cw614n, cw617n, c101, c110, c11000, c353, "
    "c360, c36000, cuzn37, cuzn39pb3, ms58",
    "tin_bronze": "bronze, tin bronze, phosphor bronze, leaded bronze, gunmetal, pb1, pb102, sae 660, c932, "
    "c93200, c544, c54400, cusn8, cusn12, cc483k, cw453k, rg7, lg2",
    "mild_steel": "mild steel, s235, s235jr, s275, s275jr, s355, s355jr, s355j2, st37, st52, a36, 1018, "
    "1020, 1215, 12l14, en1a, en3b, c15, 11smn30, 11smnpb30, 230m07, 080a15, 1.0037, 1.0038, "
    "1.0044, 1.0045, 1.0570, 1.0577, 1.0715, 1.0718",
    "carbon_steel": "medium carbon steel, 1040, 1045, en8, 080m40, c35, c40, c45, c45e, ck45, 1.0501, 1.0503, "
    "1.0511, 1.1191",
    "alloy_steel_annealed": "4130, 4140, 4340, 5140, 8620, en16, en19, en24, en36, 709m40, 817m40, 16mncr5, 25crmo4, "
    "34crmo4, 34crnimo6, 41cr4, 42crmo4, 1.6582, 1.7035, 1.7131, 1.7218, 1.7220, 1.7225",
    "alloy_steel_930": "4140 prehard, 4140 pre-hard, 4140 qt, 4140ht, 4140+qt, 42crmo4 qt, 42crmo4+qt, en19t, "
    "en24t",
    "high_alloy_steel": "tool steel, gauge plate, ground flat stock, silver steel, d2, o1, h11, h13, p20, "
    "40crmnmo7, 90mncrv8, x153crmov12, 1.2311, 1.2312, 1.2343, 1.2344, 1.2379, 1.2510, "
    "1.2767, 1.2842",
    "stainless_ferritic": "410, 416, 420, 430, 440b, 440c, x20cr13, x30cr13, 1.4005, 1.4016, 1.4021, 1.4034, "
    "1.4104, 1.4112, 1.4125",
    "stainless_austenitic": "301, 302, 303, 304, 304l, 310, 316, 316l, 316ti, 321, 18/8, 18/10, x5crni18-10, "
    "x8crnis18-9, x2crnimo17-12-2, 1.4301, 1.4305, 1.4307, 1.4310, 1.4401, 1.4404, 1.4435, "
    "1.4541, 1.4571",
    "grey_cast_iron": "grey iron, gray iron, grey cast iron, gray cast iron, gg20, gg25, gg30, gjl-200, "
    "gjl-250, gjl-300",
    "titanium_6al4v": "ti-6al-4v, ti64, titanium grade 5, grade 5 titanium, titanium gr5, gr5 titanium, ti gr5, "
    "3.7164, 3.7165",
    "acetal": "acetal, pom, pom-c, pom-h",
}  # fmt: skip
# What tells the ISO 513 group and no more.
GROUPS = {
    "P": "steel, spring steel",
    "M": "stainless, stainless steel, inox, duplex, 17-4ph, 17-4 ph, 15-5ph, 15-5 ph, 1.4542, 1.4462",
    "K": "cast iron, ductile iron, nodular iron, sg iron, malleable iron, ggg40, ggg50, gjs-400, "
    "gjs-500, gjs-600",
    "N": "aluminium, aluminum, alu, magnesium, zinc, aluminium bronze, aluminum bronze, beryllium "
    "copper",
    "S": "titanium, nickel alloy, superalloy, cobalt chrome",
    "x": "plastic, nylon, polyamide, pa6, pa66, peek, ptfe, hdpe, uhmw, pvc, abs, pmma, acrylic, "
    "polycarbonate, pet, phenolic, fr4, g10, carbon fibre, carbon fiber, wood, plywood, mdf, "
    "beech, oak, foam, wax",
}  # fmt: skip
WEAK = "steel"  # it says no more than a steel's own name beside it: stainless steel 303
STEELS = {"P", "M"}
HARD = re.compile(r"\bhardened\b|\b(\d+)(?:[.,]\d)?(?: ?- ?\d+)? ?hrc\b")
HARD_FROM = 45  # HRC, from which steel is of the group H (VDI 3323, from memory)


def _listed(table: dict[str, str]) -> dict[str, str]:
    return {name: key for key, names in table.items() for name in names.split(", ")}


MATERIAL_OF, GROUP_OF = _listed(NAMES), _listed(GROUPS)
CALLED = sorted(MATERIAL_OF | GROUP_OF, key=len, reverse=True)  # the longest first: "cast iron" before "iron"


def _pattern(name: str) -> str:
    return re.sub(r"(?:\\-|\\ )", "[- ]?", re.escape(name))


# Whole names, "AW6082" and the temper of "6082-T6" among them; never part of a number or of another word.
NAMED = re.compile(
    rf"(?<![a-z0-9.])(?:aw)?({'|'.join(f'(?:{_pattern(name)})' for name in CALLED)})(?:[th]\d{{1,4}})?(?![a-z0-9]|\.\d)"
)
BY_FORM = {re.sub("[- ]", "", name): name for name in CALLED}


def from_words(text: str) -> Material | None:
    """The material that a shop's words name ("5083 plate", "316L"), None where that is not sure.

    >>> [from_words(text).key for text in ("EN AW-6082 T6", "316L", "brass bar")]
    ['aluminium_hardened', 'stainless_austenitic', 'brass_copper']
    >>> from_words("something hard"), from_words("aluminium bronze"), from_words("O1, hardened")
    (None, None, None)
    """
    names = _names(text)
    keys = {MATERIAL_OF[name] for name in names if name in MATERIAL_OF}
    if len(keys) != 1 or len(_groups(names)) != 1 or HARD.search(text.casefold()):
        return None
    return BY_KEY[keys.pop()]


def group_from_words(text: str) -> str:
    """The ISO 513 letter ("x" for what is no metal) that a shop's words tell, "" where that is not sure.

    >>> [group_from_words(text) for text in ("stainless steel 303", "brass", "O1 at 58 HRC", "oak", "odd bar")]
    ['M', 'N', 'H', 'x', '']
    """
    groups = _groups(_names(text))
    if len(groups) != 1:
        return ""
    (group,) = groups
    hard = HARD.search(text.casefold())
    return "H" if hard and group == "P" and int(hard[1] or HARD_FROM) >= HARD_FROM else group


def _names(text: str) -> list[str]:
    found = [BY_FORM[re.sub("[- ]", "", one[1])] for one in NAMED.finditer(" ".join(text.casefold().split()))]
    own = [name for name in found if name != WEAK]
    return own if own and _groups(own) <= STEELS else found


def _groups(names: list[str]) -> set[str]:
    return {GROUP_OF.get(name) or BY_KEY[MATERIAL_OF[name]].iso513 for name in names}

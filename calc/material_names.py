"""Which material a shop's words mean: designations of the standards, and the names that the trade gives them.

Designations and their kinds are from memory (EN 573-3, EN 10027-2, EN 10088, EN 1561, AISI and SAE, British EN and BS
970 numbers); a name that may be two things is left out. Aluminium of the series 2, 6 and 7 counts as hardened, and
5083 with it, since it is sold work-hardened; low-alloy steel counts as annealed unless its name says otherwise; tool
steel is put where the table of forces puts it.
"""

import re

from calc.materials import BY_KEY, Material

NAMES = {
    "aluminium_wrought": "1050, 1050a, 1100, 1200, 3003, 3103, 5005, 5052, 5251, 5754, almg3, 3.3535",
    "aluminium_hardened": "2007, 2011, 2014, 2014a, 2017, 2017a, 2024, 2030, 5083, 6005, 6005a, 6026, 6060, 6061, "
    "6063, 6082, 7010, 7020, 7022, 7050, 7075, 7175, almg4.5mn, almgsi1, dural, duralumin, "
    "3.1325, 3.1355, 3.2315, 3.3206, 3.3211, 3.3547, 3.4365, almgsi0.5, alcumgpb, alznmgcu1.5",
    "aluminium_cast": "cast aluminium, cast aluminum, aluminium casting, aluminum casting, a356, a360, a380, "
    "lm6, lm24, lm25, adc12, alsi7mg, alsi9cu3, alsi10mg, alsi12",
    "brass_copper": "brass, copper, cz108, cz121, cw004a, cw008a, cw614n, cw617n, c101, c110, c11000, c353, "
    "c360, c36000, cuzn37, cuzn39pb3, ms58",
    "tin_bronze": "bronze, tin bronze, phosphor bronze, leaded bronze, gunmetal, pb1, pb102, sae 660, c932, "
    "c93200, c544, c54400, cusn8, cusn12, cc483k, cw453k, rg7, lg2",
    "mild_steel": "mild steel, s235, s235jr, s275, s275jr, s355, s355jr, s355j2, st37, st52, a36, 1018, "
    "1020, 1215, 12l14, en1a, en3b, c15, 11smn30, 11smnpb30, 230m07, 080a15, 1.0037, 1.0038, "
    "1.0044, 1.0045, 1.0570, 1.0577, 1.0715, 1.0718, en3, en32",
    "carbon_steel": "medium carbon steel, 1040, 1045, en8, 080m40, c35, c40, c45, c45e, ck45, 1.0501, 1.0503, "
    "1.0511, 1.1191, en9, 1144, c60, 1.1730, c45u",
    "alloy_steel_annealed": "4130, 4140, 4340, 5140, 8620, en16, en19, en24, en36, 709m40, 817m40, 16mncr5, 25crmo4, "
    "34crmo4, 34crnimo6, 41cr4, 42crmo4, 1.6582, 1.7035, 1.7131, 1.7218, 1.7220, 1.7225, "
    "en31, 100cr6, 1.3505, 16mncrs5, 20mncr5, 52100",
    "alloy_steel_930": "en19t, en24t, 42crmo4v, p20, 40crmnmo7, 1.2311, 1.2312",
    "high_alloy_steel": "tool steel, gauge plate, ground flat stock, silver steel, d2, o1, h11, h13, 90mncrv8, "
    "x153crmov12, 1.2343, 1.2344, 1.2379, 1.2510, 1.2767, 1.2842",
    "stainless_ferritic": "410, 416, 420, 430, 440b, 440c, x20cr13, x30cr13, 1.4005, 1.4016, 1.4021, 1.4034, "
    "1.4104, 1.4112, 1.4125, 431, 420f, 430f, 1.4057",
    "stainless_austenitic": "301, 302, 303, 304, 304l, 310, 316, 316l, 316ti, 321, 18/8, 18/10, x5crni18-10, "
    "x8crnis18-9, x2crnimo17-12-2, 1.4301, 1.4305, 1.4307, 1.4310, 1.4401, 1.4404, 1.4435, "
    "1.4541, 1.4571, 303se, 304s11, 304s15, 310s, 316lvm, v2a, v4a, 1.4303",
    "grey_cast_iron": "grey iron, gray iron, grey cast iron, gray cast iron, gg20, gg25, gg30, gjl-200, "
    "gjl-250, gjl-300",
    "titanium_6al4v": "ti-6al-4v, ti64, titanium grade 5, grade 5 titanium, 3.7164, 3.7165, ti grade 5, "
    "titanium gr 5, gr 5 titanium, ti gr 5",
    "acetal": "acetal, pom, pom-c, pom-h",
}  # fmt: skip
# What tells the ISO 513 group and no more.
GROUPS = {
    "P": "steel, spring steel",
    "M": "stainless, stainless steel, inox, duplex, 1.4542, 1.4462, 17-4, 17-4 ph, 15-5, 15-5 ph, "
    "2205",
    "K": "cast iron, ductile iron, nodular iron, sg iron, malleable iron, ggg40, ggg50, gjs-400, "
    "gjs-500, gjs-600",
    "N": "aluminium, aluminum, alu, magnesium, zinc, aluminium bronze, aluminum bronze, beryllium "
    "copper, alu bronze, albz, cube2, copper tungsten, tungsten copper, copper nickel, "
    "cupronickel, zinc alloy, tooling plate",
    "S": "titanium, nickel alloy, superalloy, cobalt chrome, nickel superalloy, alloy 625, alloy "
    "718",
    "x": "plastic, nylon, polyamide, pa6, pa66, peek, ptfe, hdpe, uhmw, pvc, abs, pmma, acrylic, "
    "polycarbonate, pet, phenolic, fr4, g10, carbon fibre, carbon fiber, wood, plywood, mdf, "
    "beech, oak, foam, wax, pa 6.6, pe1000, pe500, pp, uhmwpe, pa",
}  # fmt: skip
WEAK = {"steel", "spring steel"}  # they say no more than a steel's own name beside them: stainless steel 303
STEELS = {"P", "M"}
ANNEALED, PREHARD = "alloy_steel_annealed", "alloy_steel_930"
# Low-alloy steel by its hardness, up to so many HRC: 930 N/mm2 is about 29, 1200 about 38 (ISO 18265, from memory).
QUENCHED = ((PREHARD, 34), ("alloy_steel_1200", 42))
SOLD_PREHARD = re.compile(
    r"pre-?hard(?:ened)?|(?:hardened|quenched) (?:and|&) tempered|\bq ?& ?t\b|\+?\bqt\b|(?<=\d)ht\b"
)
HARDENED = re.compile(r"(?<!pre-)(?<!pre )(?<!not )(?<!be )\bhardened\b(?! (?:and|&) tempered)")
HRC = re.compile(r"\bhrc ?(\d{2})\b|\b(\d{2})(?:[.,]\d)?(?: ?(?:-|to|\+|\+/-|±) ?\d{1,2})? ?(?:hrc|rc)\b")
HARD_FROM = 45  # HRC, from which steel is of the group H (VDI 3323, from memory)
# Hardness, sizes, tolerances, counts and orders, whose numbers are no names.
NUMBER = r"(?<![a-z0-9.])\d+(?:[.,]\d+)?"
SIZE = rf"{NUMBER} ?(?:[x×*]|by) ?[\d.,]+(?: ?(?:[x×*]|by) ?[\d.,]+)?|[ø⌀] ?[\d.,]+|\d+,\d+"
NO_NAMES = re.compile(
    rf"{HRC.pattern}|\b(?:hb|hv) ?\d+|\b\d{{2,3}} ?(?:hb|hv)\b|{SIZE}|{NUMBER} [hgk]\d{{1,2}}\b"
    rf"|{NUMBER} ?(?:mm|cm|m|in|inch|\"|long|thick|wide|off|pcs|pieces)\b"
    r"|\b(?:job|order|po|no|rack|lot|batch|drawing|part)[ .:#-]+[a-z]?\d[\w-]*"
    r"|\b(?:zinc|nickel|chrome|tin)[ -]plated|\bgalvani[sz]ed"
)
SHAPES = (
    "bar|plate|flat|round|rod|sheet|block|billet|blank|off-?cut|tube|hex|square|hexagon|strip|new|old|cast|rolled|drawn|"
    "material|alloy|grade|of"
)


def _listed(table: dict[str, str]) -> dict[str, str]:
    return {name: key for key, names in table.items() for name in names.split(", ")}


MATERIAL_OF, GROUP_OF = _listed(NAMES), _listed(GROUPS)
CALLED = sorted(MATERIAL_OF | GROUP_OF, key=len, reverse=True)  # the longest first: "cast iron" before "iron"


def _pattern(name: str) -> str:
    """With a gap or none where the name has one, and between its letters and numbers ("EN 8", "GG-25", "Ti6Al4V")."""
    if len(name) < 3:
        return re.escape(name)
    gaps = re.sub(r"[- ]|(?<=[a-z])(?=\d)|(?<=\d)(?=[a-z])", "~", name)
    return re.escape(gaps).replace("\\~", "[- ]?").replace("~", "[- ]?")


# Whole names, "AW6082" and the temper of "6082-T6" among them; never part of a number or of another word.
NAMED = re.compile(
    r"(?<![a-z0-9.,])(?:(?:en ?aw|aw|aa|al|ss|sus|aisi|sae|no\.|w\.?nr\.?)[- ]?(?=\d))?"
    rf"({'|'.join(f'(?:{_pattern(name)})' for name in CALLED)})(?:[th]\d{{1,4}})?(?![a-z0-9]|[.,]\d)"
)
BY_FORM = {re.sub("[- ]", "", name): name for name in CALLED}
# A bare number or a letter with one may be anything: it is a name beside a surer one, or where only a shape is before.
DOUBTFUL = re.compile(r"\d{3,4}a?|[a-z]\d{1,3}")
NOTHING_BEFORE = re.compile(rf"(?:(?:{SHAPES}|en|aisi|sae|din|astm|bs|,|-) ?)*")


def from_words(text: str, hardness: str = "") -> Material | None:
    """The material that a shop's words name ("5083 plate", "316L"), None where that or its hardness is not sure.

    >>> [from_words(text).key for text in ("EN AW-6082 T6", "316L", "brass bar", "4140 pre-hardened")]
    ['aluminium_hardened', 'stainless_austenitic', 'brass_copper', 'alloy_steel_930']
    >>> from_words("something hard"), from_words("aluminium bronze"), from_words("O1", "58 HRC")
    (None, None, None)
    """
    names = _names(text)
    keys = {MATERIAL_OF[name] for name in names if name in MATERIAL_OF}
    said = _plain(f"{text} {hardness}")
    if len(keys) != 1 or len(_groups(names)) != 1 or HARDENED.search(said):
        return None
    (key,) = keys
    hard = hrc(said)
    if key in (ANNEALED, PREHARD) and hard is not None:
        return next((BY_KEY[of] for of, most in QUENCHED if hard < most), None)
    if hard is not None:
        return None
    return BY_KEY[PREHARD if key == ANNEALED and SOLD_PREHARD.search(said) else key]


def group_from_words(text: str, hardness: str = "") -> str:
    """The ISO 513 letter ("x" for what is no metal) that a shop's words tell, "" where that is not sure.

    >>> [group_from_words(text) for text in ("stainless steel 303", "brass", "O1 at 58 HRC", "oak", "odd bar")]
    ['M', 'N', 'H', 'x', '']
    """
    groups = _groups(_names(text))
    if len(groups) != 1:
        return ""
    (group,) = groups
    said = _plain(f"{text} {hardness}")
    number = hrc(said)
    hard = bool(HARDENED.search(said)) if number is None else number >= HARD_FROM
    return "H" if hard and group == "P" else group


def hrc(text: str) -> float | None:
    """The Rockwell C hardness that a text tells, its lower number where it tells two; None where it tells none.

    >>> hrc("58-60 HRC"), hrc("HRC 30"), hrc("58 +/- 2 Rc"), hrc("302 HB")
    (58.0, 30.0, 58.0, None)
    """
    found = HRC.search(text.casefold())
    return float(found[1] or found[2]) if found else None


def _plain(text: str) -> str:
    """Small letters, one sort of hyphen, one sort of space."""
    return " ".join(re.sub("[\u2010-\u2015]", "-", text.casefold()).split())


def _names(text: str) -> list[str]:
    said = " ".join(NO_NAMES.sub(" ", _plain(text)).split())
    found = [(BY_FORM[re.sub("[- ]", "", one[1])], one.start()) for one in NAMED.finditer(said)]
    sure = [name for name, _ in found if not DOUBTFUL.fullmatch(name)]
    told = _groups(sure)
    akin = told | STEELS if told & STEELS else told
    if sure:
        names = [name for name, _ in found if name in sure or _groups([name]) <= akin]
    else:
        names = [name for name, _ in found] if found and NOTHING_BEFORE.fullmatch(said[: found[0][1]]) else []
    own = [name for name in names if name not in WEAK]
    return own if own and _groups(own) <= STEELS else names


def _groups(names: list[str]) -> set[str]:
    return {GROUP_OF.get(name) or BY_KEY[MATERIAL_OF[name]].iso513 for name in names}

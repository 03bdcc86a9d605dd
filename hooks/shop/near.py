"""Words that a foreign spreadsheet uses for the words a lesson picks from. Only whole cells are compared.

Common practice of the trade, no source. What is not here is asked, never guessed.
"""

from collections.abc import Iterator, Mapping

from hooks.shop.problems import nearest
from hooks.shop.vocabulary import VOCABULARIES

NEAR: Mapping[str, Mapping[str, str]] = {
    "kind": {
        "crash": "collision, hit, impact, crashed, bump, machine crash",
        "part_moved": "part slipped, part shifted, workpiece moved, work moved, part flew, slipped, workholding, "
        "part came loose, clamping",
        "tool_failed": "broken tool, tool break, tool breakage, broken cutter, cutter broke, tool broke, tool failure, "
        "tool wear, tool, breakage, snapped tool",
        "wrong_size": "size, dimension, dimensional, out of tolerance, oversize, undersize, out of size, off size, "
        "wrong dimension, position, tolerance, scrap size",
        "bad_surface": "finish, surface, surface finish, poor finish, bad finish, chatter, burr, burrs, dig in, "
        "roughness, rough surface",
        "machine_trouble": "machine, machine fault, alarm, breakdown, machine failure, machine problem, fault, leak, "
        "machine down",
        "person_at_risk": "safety, injury, accident, hurt, person, unsafe",
        "worked_well": "tip, good, success, good idea, trick, improvement, worked, good practice",
    },
    "iso513": {
        "P": "steel, carbon steel, mild steel, alloy steel", "M": "stainless, stainless steel",
        "K": "cast iron, iron", "N": "aluminium, aluminum, brass, bronze, copper, non-ferrous, nonferrous",
        "S": "titanium, superalloy, nickel alloy, heat resistant", "H": "hardened, hardened steel, hard steel",
        "x": "plastic, wood, composite, plastics",
    },
    "operation": {
        "face": "facing, face milling", "profile": "profiling, contour, contouring, outside profile",
        "pocket": "pocketing", "slot": "slotting, grooving", "finish_wall": "wall finishing, finishing walls",
        "finish_floor": "floor finishing", "drill": "drilling", "ream": "reaming", "bore": "boring",
        "tap": "tapping", "thread_mill": "thread milling", "chamfer": "chamfering", "engrave": "engraving",
        "saw": "sawing", "plunge": "plunging", "spot_drill": "spotting, spot drilling, centre drilling",
        "countersink": "countersinking", "counterbore": "counterboring", "hand_deburr": "deburring, deburr",
        "rough_constant_engagement": "adaptive, adaptive clearing, trochoidal",
        "finish_3d": "3d finish, 3d finishing, surfacing", "find_edge": "edge finding", "indicate": "indicating",
    },
    "stage": {
        "mount_part": "set-up, setup, loading, clamping, fixturing", "running": "run, machining, production, cutting",
        "set_work_offset": "zeroing, datum, work zero", "set_tool_length": "tool setting, tool length",
        "program": "programming", "saw": "sawing", "deburr": "deburring", "inspect": "inspection, measuring",
        "clean_and_maintain": "maintenance, cleaning", "turn_part_over": "second side, flip", "plan": "planning",
        "first_part": "first article, first off", "unload": "unloading", "dry_run": "air cut",
    },
    "tool_kind": {
        "end_mill": "endmill, square end mill, flat end mill", "ball_end_mill": "ball nose, ball mill, ballnose",
        "bull_nose": "bull nose end mill, corner radius end mill", "face_mill": "facemill, shell mill",
        "roughing_cutter": "rougher, roughing end mill", "chamfer_mill": "chamfer, chamfer cutter",
        "twist_drill": "drill, jobber drill, drill bit", "cut_tap": "tap, machine tap", "form_tap": "roll tap",
        "fly_cutter": "flycutter", "edge_finder": "wiggler", "slitting_saw": "saw blade",
        "centre_drill": "center drill", "spot_drill": "spotting drill", "engraver": "engraving cutter",
    },
    "outcome": {
        "nothing": "none, no damage, ok", "rework": "reworked, repair, repaired part",
        "scrapped_part": "scrap, scrapped, part scrapped, reject", "broken_tool": "tool broken, lost tool, tool",
        "damaged_machine": "machine damage, machine damaged", "hurt_person": "injury, injured, first aid",
    },
    "holding_kind": {
        "vice_hard_jaws": "vice, vise, machine vice", "vice_soft_jaws": "soft jaws",
        "vice_on_parallels": "parallels, vice and parallels, vise and parallels", "strap_clamps": "clamps, straps",
        "toe_clamps": "side clamps", "three_jaw": "chuck, 3 jaw chuck, three jaw chuck", "tape_or_glue": "tape, glue",
        "fixture_plate": "fixture, plate", "vacuum": "vacuum table", "magnets": "magnet, magnetic chuck",
    },
    "coolant": {"off_by_mistake": "forgotten", "air": "air blast", "flood": "emulsion, suds", "dry": "none, no"},
    "pass": {"roughing": "rough", "finishing": "finish", "semi_finishing": "semi finish", "spring_pass": "spring"},
    "tool_material": {"carbide": "solid carbide", "indexable_carbide": "inserts, insert, indexable"},
}  # fmt: skip


def meant(word: str, vocabulary: str) -> str:
    """The key that a cell's words mean, "" where that is not sure."""
    said = folded(word)
    found = {key for key, words in _words(vocabulary) if said in words}
    return found.pop() if len(found) == 1 else ""


def hint(word: str, vocabulary: str) -> str:
    """`; did you mean X?` for the word that is spelled most like it, or nothing."""
    by_word = {one: key for key, words in _words(vocabulary) for one in words}
    told = nearest(folded(word), by_word)
    near = told.removeprefix("; did you mean ").removesuffix("?")
    return f"; did you mean {by_word[near]}?" if near in by_word else ""


def folded(word: str) -> str:
    """A word without capitals, underscores, and marks at its end."""
    return " ".join(word.casefold().replace("_", " ").replace("-", " ").split()).strip(" .!,;:")


def _words(vocabulary: str) -> Iterator[tuple[str, set[str]]]:
    """Each key of a vocabulary with all the words that mean it."""
    near = NEAR.get(vocabulary, {})
    for word in VOCABULARIES[vocabulary].words:
        others = near.get(word.key, "").split(", ") if word.key in near else []
        yield word.key, {folded(one) for one in (word.key, word.label, *others)}

"""The words a lesson may pick from. Sources are said where a list leans on a standard; "recalled" means
from general knowledge, with the text not open to us."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Word:
    """One word: how it is stored, how it is shown, what it means."""

    key: str
    label: str
    help: str = ""


@dataclass(frozen=True)
class Vocabulary:
    """A list of words and where it comes from."""

    name: str
    source: str
    words: tuple[Word, ...]

    def word(self, key: str) -> Word:
        """The word of that key; an unknown key stands for itself."""
        return next((one for one in self.words if one.key == key), Word(key, key.replace("_", " ")))


def _said(name: str, source: str, **helps: str) -> Vocabulary:
    return Vocabulary(name, source, tuple(Word(key, _label(key), text) for key, text in helps.items()))


def _plain(name: str, source: str, keys: str) -> Vocabulary:
    return Vocabulary(name, source, tuple(Word(key, _label(key)) for key in keys.split()))


def _label(key: str) -> str:
    return LABELS.get(key, key.replace("_", " "))


# Keys whose spoken form is not the key with spaces.
LABELS = {
    "mdi": "MDI", "finish_3d": "finish a 3D surface", "ramp_or_helix_entry": "ramp or helix entry",
    "rough_constant_engagement": "rough at constant engagement", "t_slot": "T-slot cutter",
    "hss": "high-speed steel", "cobalt_hss": "cobalt high-speed steel",
    "saw_heard_felt": "saw, heard or felt it",
    "set_work_offset": "set work offset", "dig_in": "dig-in", "run_out": "run-out", "finder_sign_or_radius":
    "finder: sign or radius", "too_slow_rubbing": "too slow, rubbing", "unit_mixup": "units mixed up",
    "plan_missing": "no plan", "warmed_up": "not warmed up", "gauge_or_method": "gauge or how it was used",
}  # fmt: skip

TRADE = "trade"
ALL = (
    _said(
        "kind",
        TRADE,
        crash="something hit something",
        part_moved="the part or a jaw moved or flew",
        tool_failed="broke, pulled out, burnt",
        wrong_size="size, form or place",
        bad_surface="dig-in, chatter, burr, finish",
        machine_trouble="alarm, lost position, leak",
        person_at_risk="hand, eye, lift, entanglement",
        worked_well="a setting, trick or fix worth keeping",
    ),
    _plain(
        "stage",
        "trade, in job order",
        "plan program saw square_blank tram_vice mount_part load_tools set_work_offset "
        "set_tool_length dry_run first_part running tool_change jog_by_hand measure_in_machine "
        "turn_part_over restart unload deburr inspect clean_and_maintain",
    ),
    _plain("run_mode", TRADE, "jog mdi single_block dry_run auto"),
    _plain(
        "operation",
        "trade; DIN 8589 process groups recalled",
        "face profile pocket slot rough_constant_engagement finish_wall finish_floor finish_3d "
        "ramp_or_helix_entry plunge chamfer engrave spot_drill drill ream bore counterbore "
        "countersink tap thread_mill saw find_edge indicate hand_deburr",
    ),
    _plain("pass", TRADE, "roughing semi_finishing finishing spring_pass"),
    Vocabulary(
        "iso513",
        "ISO 513 main groups, letters and marking colours; x is ours for what falls outside",
        (
            Word("P", "P, steel", "blue"),
            Word("M", "M, stainless steel", "yellow"),
            Word("K", "K, cast iron", "red"),
            Word("N", "N, aluminium and other non-ferrous", "green"),
            Word("S", "S, heat-resistant alloys and titanium", "brown"),
            Word("H", "H, hardened", "grey"),
            Word("x", "plastic, composite, wood", "outside ISO 513"),
        ),
    ),
    _plain(
        "tool_kind",
        "trade; geometry words ISO 3002-1",
        "end_mill slot_drill roughing_cutter ball_end_mill bull_nose face_mill fly_cutter "
        "chamfer_mill engraver thread_mill t_slot slitting_saw dovetail centre_drill spot_drill "
        "twist_drill reamer boring_head cut_tap form_tap countersink edge_finder indicator",
    ),
    _plain("tool_material", TRADE, "hss cobalt_hss carbide indexable_carbide diamond"),
    _plain(
        "holder",
        TRADE,
        "collet side_lock shrink hydraulic face_mill_arbor drill_chuck tapping_head boring_head",
    ),
    _plain(
        "holding_kind",
        TRADE,
        "vice_hard_jaws vice_on_parallels vice_soft_jaws toe_clamps strap_clamps three_jaw "
        "collet_block fixture_plate vacuum magnets tape_or_glue mandrel rotary_axis",
    ),
    _plain("finder_kind", TRADE, "kicking fixed_stylus plain_pin dial touch_trigger cutter_with_feeler"),
    _plain("direction", TRADE, "climb conventional full_slot"),
    _plain("coolant", TRADE, "dry air mist flood through_tool off_by_mistake"),
    _plain(
        "feature",
        TRADE,
        "open_face step open_pocket closed_pocket slot thin_wall thin_floor inside_corner boss "
        "through_hole blind_hole cross_hole thread chamfer free_form datum_face",
    ),
    _plain(
        "characteristic",
        "ISO 1101 and ISO 286 terms",
        "size straightness flatness roundness parallelism squareness angularity position coaxiality "
        "symmetry run_out profile thread_fit depth",
    ),
    _plain(
        "surface_mark",
        "trade; ISO 8785 terms recalled",
        "dig_in gouge chatter_mark witness_line step_between_passes tearing built_up_smear scratch "
        "dent burr clamp_mark taper discoloration",
    ),
    _plain(
        "tool_damage",
        "ISO 8688-2 phenomena in our words, recalled",
        "worn notched chipped built_up_edge burnt broken pulled_out packed_with_chips wrong_tool dull_on_arrival",
    ),
    _plain(
        "noticed_by",
        "earliest to latest, after the detection idea of IEC 60812",
        "thought_of_it_before dry_run saw_heard_felt machine_alarm measured_in_machine inspection "
        "next_operation customer",
    ),
    _plain(
        "outcome",
        "own, in rising order",
        "nothing rework scrapped_part broken_tool damaged_machine hurt_person",
    ),
    _plain("stopped_by", "own", "a_check the_machine quick_hand luck nothing"),
    _plain(
        "contributing",
        "conditions after the WHO patient-safety classes, reworded",
        "plan_missing drawing_unclear program_error post_or_control_setting wrong_program_version "
        "wrong_offset offset_not_updated finder_sign_or_radius wrong_tool_called tool_length_wrong "
        "tool_worn tool_unsuited stick_out_too_long dirt_in_taper not_tightened not_seated "
        "chip_under_part burr_left holding_too_weak holding_in_the_way left_in_spindle handle_left_on "
        "stock_not_as_planned material_not_as_marked too_fast too_slow_rubbing corner_too_tight "
        "chips_not_cleared coolant machine_condition warmed_up gauge_or_method unit_mixup "
        "unfamiliar_job interrupted rushed tired two_jobs_at_once skipped_own_rule rule_did_not_fit "
        "light_or_noise supplier",
    ),
    _said(
        "strength",
        "hierarchy of controls, ISO 45001 8.1.2 recalled",
        remove="it can no longer happen: design, fixture, forced order",
        guard="the machine, a stop or a check prevents it",
        aid="card, marked tool, standard set-up",
        remind="note, be careful",
    ),
    _plain("held", "own", "held happened_again not_met"),
)
VOCABULARIES: dict[str, Vocabulary] = {one.name: one for one in ALL}
OUTCOMES = tuple(word.key for word in VOCABULARIES["outcome"].words)  # in rising order

"""All measures of a batch."""

from collections.abc import Callable
from functools import partial
from typing import Final

from diagnose.batch import Batch, timeline_of
from diagnose.batch.probe import ProbeLog
from diagnose.documents import Path
from diagnose.evidence.beer import beer_of
from diagnose.evidence.closing import entries_that_close
from diagnose.evidence.facts import Facts
from diagnose.evidence.finding import Finding, OutsideFinding
from diagnose.evidence.measures import (
    additions,
    air,
    as_recorded,
    bittering,
    cooling,
    fermentation,
    gas,
    grist,
    hot_side,
    ingredients,
    kit,
    package,
    pitching,
    store,
    supply,
    tasters,
    vessel,
    waters,
    yields,
)
from diagnose.evidence.placing import has_place
from diagnose.evidence.supposing import Glass
from diagnose.knowledge import RuleBase
from diagnose.process import Band, OutsideValidity

Measuring = Callable[[Facts], Finding | None]

COMPUTED: Final[tuple[Measuring, ...]] = (
    fermentation.early_beer_c,
    fermentation.early_excess_c,
    fermentation.peak_beer_c,
    fermentation.diacetyl_half_lives,
    fermentation.days_on_yeast_after_final,
    fermentation.yeast_contact_days_at_20c,
    fermentation.gravity_drop_after_final,
    fermentation.ph_drop_after_final,
    fermentation.points_left_to_ferment,
    pitching.pitch_ratio,
    pitching.oxygen_at_pitch_mg_per_l,
    pitching.alcohol_percent,
    pitching.attenuation_gap,
    hot_side.mash_c,
    hot_side.mash_hours,
    hot_side.evaporation_percent_per_h,
    hot_side.hot_stand_minutes,
    hot_side.dms_ug_per_l,
    ingredients.extract_age_fraction,
    ingredients.malt_age_months,
    ingredients.crushed_malt_months,
    ingredients.hop_alpha_left_percent,
    ingredients.dry_hop_days,
    bittering.bitterness_ratio,
    package.packaged_oxygen_mg_per_l,
    package.storage_days_at_20c,
    package.days_since_packaging,
    package.light_dose_klux_h,
    gas.carbonation_volumes,
    gas.priming_volumes,
    waters.water_disinfectant,
    waters.disinfectant_treated,
    waters.water_chlorine_mg_per_l,
    waters.sulfate_mg_per_l,
    waters.chloride_mg_per_l,
    waters.sodium_mg_per_l,
    waters.iron_mg_per_l,
    grist.has_extract,
    grist.extract_form,
    grist.pale_lager_malt_share,
    grist.smoked_malt,
    as_recorded.souring_on_purpose,
    as_recorded.yeast_family,
    as_recorded.bleach_used,
    as_recorded.line_cleaned,
    as_recorded.dry_hopped,
    as_recorded.mash_scorch_signs,
    as_recorded.open_transfer,
    as_recorded.glass_colour,
    grist.crystal_share_percent,
    grist.roast_share_percent,
    yields.sugar_share_percent,
    yields.mash_efficiency_percent,
    yields.enzyme_power_lintner,
    supply.water_source,
    supply.water_through_hose,
    additions.special_addition,
    additions.cold_side_addition,
    additions.late_sugars,
    hot_side.kettle_share,
    pitching.yeast_form,
    fermentation.early_cold_c,
    fermentation.days_final_to_package,
    cooling.fall_before_final_c,
    air.openings_after_pitch,
    air.cold_crash,
    ingredients.dry_hop_g_per_l,
    vessel.vessel_material,
    vessel.fermenter_light,
    store.mean_store_c,
    store.coldest_store_c,
    store.serving_c,
    kit.new_part,
    tasters.tasters_agree,
)


def measure_batch(rules: RuleBase, batch: Batch, log: ProbeLog | None) -> dict[str, Finding]:
    """Every measure the record and the probe log give, by id, in the rule base's order.

    Args:
        rules: its constants feed the process models; its styles and yeasts name the beer; its
            lexicon and compounds read the tasters.
        batch: the record.
        log: the probe log, where there is one.

    Raises:
        UnusableInput: the record names a style or yeast the rule base does not know.
    """
    facts = facts_of(rules, batch, log)
    found: dict[str, Finding] = {}
    for entry in as_recorded.ENTRIES:
        finding = entry(facts)
        if finding is not None:
            found[entry.measure] = finding
    for function in COMPUTED:
        computed = _computed(function, facts)
        if computed is not None:
            found[function.__name__] = computed
    return {key: found[key] for key in rules.measures if key in found}


def what_would_close(
    rules: RuleBase, batch: Batch, log: ProbeLog | None
) -> dict[str, tuple[Path, ...]]:
    """For every measure that stays open, the entries that would close it, in the rules' order.

    Args:
        rules: as for `measure_batch`.
        batch: the record.
        log: the probe log, where there is one.

    Returns:
        Paths of entries by id of the measure, see `entries_that_close`; none where the measure
        has no place in this batch.

    Raises:
        UnusableInput: as for `measure_batch`.
    """
    glass = Glass(rules, facts_of(rules, batch, log))
    named = {entry.measure: entry for entry in as_recorded.ENTRIES}
    by_id: dict[str, Measuring] = {**named, **{one.__name__: one for one in COMPUTED}}
    return {
        key: entries_that_close(glass, partial(_computed, by_id[key]))
        if has_place(glass.facts, key)
        else ()
        for key in rules.measures
        if _computed(by_id[key], glass.facts) is None
    }


def facts_of(rules: RuleBase, batch: Batch, log: ProbeLog | None) -> Facts:
    """What the measures of a batch draw on.

    Args:
        rules: as for `measure_batch`.
        batch: the record.
        log: the probe log, where there is one.

    Raises:
        UnusableInput: as for `measure_batch`.
    """
    return Facts(
        batch=batch,
        timeline=timeline_of(batch.record),
        log=log,
        beer=beer_of(rules, batch),
        constants={key: Band(c.low, c.value, c.high) for key, c in rules.constants.items()},
        lexicon=rules.lexicon,
        compounds=rules.compounds,
    )


def _computed(function: Measuring, facts: Facts) -> Finding | None:
    """The finding, or that the model does not cover this batch."""
    try:
        return function(facts)
    except OutsideValidity as error:
        measure = getattr(function, "measure", None) or function.__name__
        return OutsideFinding(measure, str(error), facts.batch.document.name)

"""Bitterness follows the gravity in the kettle and the heat of the stand."""

from textwrap import dedent

import pytest

from diagnose.evidence.finding import NumberFinding
from diagnose.process import Band
from tests.evidence.records import findings_of

HOPS = "recipe: {hops: [{use: boil, amount: 30 g, alpha: 5 %, boiled: 60 min}]}"
STOOD = "recipe: {hops: [{use: hot stand, amount: 85 g, alpha: 12 %, steeped: 30 min}]}"
BATCH = """
volume: 20 L
gravity: {original: 1.050}
"""
# Source: the sum of the worked table, 17.3 IBU to 50 points in a full boil.
FULL_BOIL = 0.346


def ratio(*entries: str) -> Band:
    finding = findings_of("\n".join((dedent(BATCH), *entries)))["bitterness_ratio"]
    assert isinstance(finding, NumberFinding)
    return finding.band


def test_half_the_volume_in_the_kettle_boils_the_hops_in_wort_twice_as_strong() -> None:
    # Source: Tinseth's page, 1.65 x 0.000125^(gravity): 0.000125^0.05 is 0.638 of the full boil's.
    found = ratio(HOPS, "boil: {volume_after: 10 L}", "method: all grain")
    assert found.mid == pytest.approx(0.638 * FULL_BOIL, rel=2e-3)


def test_extract_that_may_have_gone_in_late_leaves_the_full_boil_in_the_range() -> None:
    found = ratio(HOPS, "boil: {volume_after: 10 L}", "method: extract")
    assert found.high >= FULL_BOIL
    assert found.mid == pytest.approx(0.638 * FULL_BOIL, rel=2e-3)


def test_a_kettle_fuller_than_the_fermenter_changes_nothing() -> None:
    assert ratio(HOPS, "boil: {volume_after: 23 L}").mid == pytest.approx(FULL_BOIL, rel=2e-3)


def test_wort_that_would_be_stronger_than_the_equation_covers_is_taken_at_its_limit() -> None:
    limit = ratio(HOPS, "boil: {volume_after: 7.6 L}", "method: all grain").mid
    assert ratio(HOPS, "boil: {volume_after: 4 L}", "method: all grain").mid == pytest.approx(
        limit, rel=0.02
    )


# Source: an activation energy of 98.6 kJ/mol, by hand: 11,859 K x (1/T - 1/373.15 K).
@pytest.mark.parametrize(("stand_c", "share"), [(100, 1.0), (90, 0.417), (80, 0.166), (70, 0.062)])
def test_a_stand_counts_by_its_heat(stand_c: int, share: float) -> None:
    boiled = STOOD.replace("hot stand", "boil").replace("steeped", "boiled")
    as_boiled = ratio(boiled.replace("30 min", f"{30 * share:.3f} min")).mid
    found = ratio(STOOD, f"hot_stand: {{at: {stand_c} C}}").mid
    assert found == pytest.approx(as_boiled, rel=0.01)


def test_a_stand_whose_heat_nobody_noted_counts_as_is_usual() -> None:
    cold, usual, hot = (
        ratio(STOOD, *heat).mid
        for heat in (["hot_stand: {at: 75 C}"], [], ["hot_stand: {at: 95 C}"])
    )
    assert cold < usual < hot

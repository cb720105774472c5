"""Lactose and its like, which no beer yeast takes: sums that a brewer can do by hand."""

import pytest

from tests.evidence.records import band_of, findings_of

# 500 g of lactose in 20 L: 365 x 0.5 / 20 points of 0.001 that stay.
POINTS = 365 * 0.5 / 20 / 1000

ALE = "volume: 20 L\ngravity: {original: %s, final: %s}\npitch: {yeast: {family: clean ale}}\n"
GRIST = "recipe: {fermentables: [{kind: base malt, name: pale, amount: 5 kg}%s]}"
LACTOSE = ", {kind: sugar, name: lactose, amount: 500 g%s}"


def test_lactose_in_the_kettle_is_taken_off_both_gravities() -> None:
    without = ALE % ("1.050", "1.012") + GRIST % ""
    with_it = ALE % (f"{1.050 + POINTS:.6f}", f"{1.012 + POINTS:.6f}") + GRIST % (LACTOSE % "")
    assert band_of("attenuation_gap", with_it).mid == pytest.approx(
        band_of("attenuation_gap", without).mid, abs=0.01
    )


def test_lactose_after_the_boil_is_taken_off_the_final_gravity_only() -> None:
    without = ALE % ("1.050", "1.012") + GRIST % ""
    late = LACTOSE % ", added: fermenter"
    with_it = ALE % ("1.050", f"{1.012 + POINTS:.6f}") + GRIST % late
    assert band_of("attenuation_gap", with_it).mid == pytest.approx(
        band_of("attenuation_gap", without).mid, abs=0.01
    )


def test_lactose_that_nobody_weighed_leaves_the_attenuation_open() -> None:
    record = ALE % ("1.050", "1.020") + GRIST % ", {kind: sugar, name: lactose}"
    assert "attenuation_gap" not in findings_of(record)


def test_lactose_in_a_volume_that_nobody_noted_leaves_the_attenuation_open() -> None:
    record = (ALE % ("1.050", "1.020") + GRIST % (LACTOSE % "")).replace("volume: 20 L\n", "")
    assert "attenuation_gap" not in findings_of(record)


# Source: definition; what is stirred in late stands in the final gravity and made no alcohol.
def test_lactose_put_in_late_takes_nothing_off_the_alcohol() -> None:
    without = ALE % ("1.050", "1.012") + GRIST % ""
    late = LACTOSE % ", added: fermenter"
    with_it = ALE % ("1.050", f"{1.012 + POINTS:.6f}") + GRIST % late
    alcohol = [band_of("alcohol_percent", one).mid for one in (without, with_it)]
    assert alcohol[1] == pytest.approx(alcohol[0], abs=0.01)


def test_late_lactose_that_nobody_weighed_leaves_the_alcohol_open() -> None:
    record = ALE % ("1.050", "1.020") + GRIST % ", {kind: sugar, name: lactose, added: fermenter}"
    assert "alcohol_percent" not in findings_of(record)


OTHER = "recipe: {fermentables: [{kind: base malt, amount: 5 kg}], other: [{name: lactose%s}]}"


# Source: mass balance; the grain gave the same wort, the lactose came on top.
@pytest.mark.parametrize("recipe", [GRIST % (LACTOSE % ""), OTHER % ", amount: 500 g"])
def test_lactose_in_the_kettle_does_not_raise_the_mash_efficiency(recipe: str) -> None:
    without = ALE % ("1.050", "1.012") + GRIST % ""
    with_it = ALE % (f"{1.050 + POINTS:.6f}", "1.020") + recipe
    share = [band_of("mash_efficiency_percent", one).mid for one in (without, with_it)]
    assert share[1] == pytest.approx(share[0], abs=0.01)


def test_lactose_that_nobody_weighed_leaves_the_mash_efficiency_open() -> None:
    assert "mash_efficiency_percent" not in findings_of(ALE % ("1.060", "1.020") + OTHER % "")


# Source: the cards; yeast takes a little of maltodextrin and none of lactose.
def test_maltodextrin_holds_the_gravity_up_a_little_less_than_lactose() -> None:
    record = ALE % ("1.060", "1.020") + GRIST % (LACTOSE % "")
    lactose = band_of("attenuation_gap", record).mid
    assert band_of("attenuation_gap", record.replace("lactose", "maltodextrin")).mid < lactose

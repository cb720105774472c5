"""Sugar, honey and fruit put in after the original gravity was read make alcohol too."""

import pytest

from diagnose.process import Band
from tests.evidence.records import band_of, findings_of

ALE = "volume: 20 L\ngravity: {original: 1.050, final: 1.010}\n"
GRIST = "recipe: {fermentables: [{kind: base malt, amount: 5 kg}%s]%s}"


def alcohol(fermentable: str = "", other: str = "") -> Band:
    return band_of("alcohol_percent", ALE + GRIST % (fermentable, other))


# Source: 46 points in a US gallon by the pound of sugar, 384 points x L/kg; common practice.
def test_a_kilogram_of_late_sugar_counts_as_its_points_in_the_original() -> None:
    sugar = ", {kind: sugar, amount: 1 kg, added: fermenter day 3}"
    in_the_kettle = band_of(
        "alcohol_percent",
        "volume: 20 L\ngravity: {original: %.4f, final: 1.010}" % (1.050 + 0.384 / 20),
    )
    assert alcohol(sugar).mid == pytest.approx(in_the_kettle.mid, abs=1e-3)
    assert alcohol(sugar).mid - alcohol().mid == pytest.approx(2.6, abs=0.2)


@pytest.mark.parametrize(
    "late",
    [
        ", {kind: honey, amount: 500 g, added: fermenter}",
        ", {kind: fruit, name: raspberry puree, amount: 2 kg, added: fermenter}",
    ],
)
def test_honey_and_fruit_count_less_than_their_weight_of_sugar(late: str) -> None:
    assert alcohol().mid < alcohol(late).mid < alcohol(late.replace("honey", "sugar")).mid + 1e-9
    assert alcohol(late).high - alcohol(late).low > alcohol().high - alcohol().low


@pytest.mark.parametrize(
    "other",
    [
        ", other: [{name: table sugar, amount: 130 g, added: priming}]",
        ", other: [{name: candi sugar, amount: 500 g, added: 10 min before the end of the boil}]",
        ", other: [{name: milk sugar, amount: 0 g, added: fermenter}]",
    ],
)
def test_what_is_primed_boiled_or_no_food_adds_nothing(other: str) -> None:
    assert alcohol("", other).mid == pytest.approx(alcohol().mid, abs=1e-9)


def test_late_sugar_that_nobody_weighed_leaves_the_alcohol_open() -> None:
    record = ALE + GRIST % ("", ", other: [{name: honey, added: fermenter}]")
    assert "alcohol_percent" not in findings_of(record)

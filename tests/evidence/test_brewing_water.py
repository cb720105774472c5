"""Sources mixed and salts dissolved: sums that a brewer can do by hand."""

import pytest

from diagnose.evidence.brewing_water import Part, ion_mg_per_l, litres_of, residual_alkalinity
from diagnose.evidence.measuring import facts_of
from diagnose.process import Band
from tests.evidence.records import batch_of, edges
from tests.knowledge.shipped import rule_base

SPLIT = """
water:
  - {source: distilled, volume: 12 L, used_for: mash}
  - {source: tap, volume: 12 L, used_for: sparge, calcium: 60 mg/L, magnesium: 0 mg/L,
     bicarbonate: 150 mg/L}
  - {source: tap, used_for: rinse, calcium: 300 mg/L}
salts:
  - {salt: calcium chloride dihydrate, amount: 3 g, into: mash}
"""


def ion(text: str, name: str, part: Part = "whole brew") -> Band | None:
    return ion_mg_per_l(facts_of(rule_base(), batch_of(text), None), name, part)


# Source of the table: molar masses; 3 g of the dihydrate hold 0.818 g of calcium.
@pytest.mark.parametrize(
    ("part", "calcium"), [("mash", 68.2), ("sparge", 60.0), ("whole brew", 64.1)]
)
def test_waters_are_mixed_by_volume_and_salts_stay_where_they_went(
    part: Part, calcium: float
) -> None:
    found = ion(SPLIT, "calcium", part)
    assert found is not None
    assert found.mid == pytest.approx(calcium, abs=0.1)


# Source of the table: a report is a fifth off, a scale of unknown steps 5 % and one of 0.1 g half a
# step, distilled water carries up to 2 mg/L (judgement); the doubts go the same way.
WIDTHS = [
    (SPLIT, "sparge", (48.0, 60.0, 72.0)),
    (SPLIT, "mash", (68.15 * 0.95, 68.15, 68.15 * 1.05 + 2.0)),
    (SPLIT, "whole brew", (24.0 + 32.37, 64.08, 37.0 + 35.78)),
    (
        SPLIT.replace("amount: 3 g", "amount: 3 g, scale_step: 0.1 g"),
        "mash",
        (67.01, 68.15, 69.29 + 2.0),
    ),
]


@pytest.mark.parametrize(("record", "part", "expected"), WIDTHS)
def test_an_ion_is_as_unsure_as_report_scale_and_still(
    record: str, part: Part, expected: tuple[float, float, float]
) -> None:
    found = ion(record, "calcium", part)
    assert found is not None
    assert edges(found) == pytest.approx(expected, abs=0.1)


def test_rinse_water_is_no_brewing_water() -> None:
    facts = facts_of(rule_base(), batch_of(SPLIT), None)
    assert litres_of(facts, "whole brew") == Band(24.0, 24.0, 24.0)


def test_a_salt_without_a_place_leaves_the_mash_open() -> None:
    assert ion(SPLIT.replace(", into: mash", ""), "calcium", "mash") is None


def test_a_tap_that_was_never_analysed_leaves_its_ions_open() -> None:
    assert ion(SPLIT, "sodium") is None


# Calcium 68.2 mg/L is 170 ppm as CaCO3; over 3.5 it takes 49 ppm off.
def test_calcium_in_distilled_water_makes_the_residual_alkalinity_negative() -> None:
    facts = facts_of(rule_base(), batch_of(SPLIT), None)
    found = residual_alkalinity(facts, "mash")
    assert found is not None
    assert found.mid == pytest.approx(-48.7, abs=0.2)


def test_waters_without_volumes_may_be_any_mixture() -> None:
    found = ion(
        "water: [{source: tap, sodium: 10 mg/L}, {source: well, sodium: 90 mg/L}]", "sodium"
    )
    assert found is not None
    assert (found.low <= 10.0, found.high >= 90.0) == (True, True)

"""Sentences of the measures: one day is a day, six weeks are no month."""

import pytest

from diagnose.evidence.finding import NumberFinding
from tests.evidence.records import findings_of

BREWED = "brewed: 2026-03-14\n"
# Source of the table: English, and the calendar.
SAID = [
    ("malt_age_months", "recipe: {fermentables: [{kind: base malt, age: 6 weeks}]}", "6 weeks old"),
    (
        "malt_age_months",
        "recipe: {fermentables: [{kind: base malt, age: 3 months}]}",
        "3 months old",
    ),
    ("dry_hop_days", "recipe: {hops: [{use: dry hop, steeped: 1 day}]}", "for 1 day"),
    (
        "days_since_packaging",
        BREWED + "packaging: {when: day 14}\ntastings: [{when: day 15}]",
        "tasted 1 day after packaging",
    ),
    ("storage_days_at_20c", "storage: [{at: 20 C, time: 1 day}]", "1 day at 20 C"),
    ("mean_store_c", "storage: [{at: 20 C, time: 24 h}]", "over 1 day"),
]


@pytest.mark.parametrize(("measure", "record", "said"), SAID)
def test_a_time_is_told_as_people_say_it(measure: str, record: str, said: str) -> None:
    assert findings_of(record)[measure].says.endswith(said)


def test_a_lit_place_counts_for_the_days_between_its_dates_as_for_the_days_noted() -> None:
    lit = "packaging: {when: 2026-04-01, package: bottle, glass: green}\n"
    dated = (
        lit + "storage: [{since: 2026-04-01, light: room light}]\ntastings: [{when: 2026-04-21}]"
    )
    noted = lit + "storage: [{time: 20 days, light: room light}]"
    one, other = (findings_of(record)["light_dose_klux_h"] for record in (dated, noted))
    assert isinstance(one, NumberFinding)
    assert isinstance(other, NumberFinding)
    assert one.band == other.band

"""What an entry does not say of its own doubt is in the range of every measure that uses it.

Source: logic; a batch's volume is known as surely in one measure as in another.
"""

from dataclasses import replace

import pytest

from diagnose.evidence.finding import NumberFinding
from diagnose.evidence.measuring import measure_batch
from tests.evidence.records import batch_of
from tests.knowledge.shipped import rule_base

PALE = "volume: 20 L\ngravity: {original: 1.050}\n"
BY_VOLUME = [
    ("dry_hop_g_per_l", "recipe: {hops: [{use: dry hop, amount: 60 g, steeped: 4 days}]}"),
    (
        "bitterness_ratio",
        "recipe: {hops: [{use: boil, amount: 30 g, alpha: 10 %, boiled: 60 min}]}",
    ),
    (
        "pitch_ratio",
        "pitch: {yeast: {family: american ale, form: dry, amount: 11 g, age: 2 months}}",
    ),
    ("mash_efficiency_percent", "recipe: {fermentables: [{kind: base malt, amount: 4.5 kg}]}"),
]


@pytest.mark.parametrize(("measure", "record"), BY_VOLUME)
def test_a_volume_less_sure_widens_whatever_is_reckoned_with_it(measure: str, record: str) -> None:
    rules = rule_base()
    unsure = rules.constants["batch_volume_scale"].model_copy(update={"low": 0.7, "high": 1.3})
    vaguer = replace(rules, constants={**rules.constants, "batch_volume_scale": unsure})
    batch = batch_of(PALE + record)
    one, other = (measure_batch(of, batch, None)[measure] for of in (rules, vaguer))
    assert isinstance(one, NumberFinding)
    assert isinstance(other, NumberFinding)
    assert other.band.low < one.band.low < one.band.high < other.band.high

"""What the mash lets a yeast do: by its main rest, and only where a mash is noted."""

from textwrap import dedent

import pytest

from diagnose.evidence.finding import NumberFinding
from tests.evidence.records import findings_of

ALE = """
gravity: {original: 1.050, final: 1.012}
pitch: {yeast: {family: clean ale}}
"""


def gap(mash: str = "") -> NumberFinding:
    finding = findings_of(dedent(ALE) + mash)["attenuation_gap"]
    assert isinstance(finding, NumberFinding)
    return finding


def test_a_mash_nobody_noted_is_not_spoken_of() -> None:
    assert "mash" not in gap().says
    assert "this mash" in gap("mash: {at: 66 C}").says


@pytest.mark.parametrize("at", [63, 66, 70])
def test_the_longest_of_several_rests_counts_as_a_single_one_would(at: int) -> None:
    rests = (
        f"[{{at: 52 C, time: 10 min}}, {{at: {at} C, time: 40 min}}, {{at: 77 C, time: 10 min}}]"
    )
    single, several = gap(f"mash: {{at: {at} C}}"), gap(f"mash: {{rests: {rests}}}")
    assert several.band == single.band


def test_of_several_rests_one_that_makes_no_sugar_says_nothing_of_the_attenuation() -> None:
    rests = "[{at: 45 C, time: 60 min}, {at: 66 C, time: 40 min}]"
    assert gap(f"mash: {{rests: {rests}}}").band == gap().band

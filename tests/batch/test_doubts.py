"""Entries that look odd are said and used all the same."""

import pytest

from tests.batch.written import batch_of

# Source of the table: from memory; beer ends 50-92 % attenuated and between pH 3.0 and 4.9.
ODD = [
    (
        "gravity:\n  original: 1.050\n  final: 1.040\n",
        3,
        "gravity.final",
        "20 % apparent attenuation is outside the usual 50-92 %",
    ),
    (
        "gravity:\n  original: 1.050\n  final: 0.998\n",
        3,
        "gravity.final",
        "104 % apparent attenuation is outside the usual 50-92 %",
    ),
    (
        "gravity:\n  readings:\n    - ph: 4.4\n    - ph: 5.5\n",
        4,
        "gravity.readings[2].ph",
        "pH 5.5 is outside 3.0-4.9 for beer",
    ),
    (
        "gravity:\n  readings:\n    - ph: 2.5\n",
        3,
        "gravity.readings[1].ph",
        "pH 2.5 is outside 3.0-4.9 for beer",
    ),
    # 900 kg over 20 L, 3 kg over 20 L
    (
        "volume: 20 L\nrecipe:\n  fermentables:\n    - amount: 900 kg\n",
        4,
        "recipe.fermentables[1].amount",
        "900 kg in 20 L is 45000 g/L",
    ),
    (
        "volume: 20 L\nrecipe:\n  hops:\n    - amount: 3 kg\n",
        4,
        "recipe.hops[1].amount",
        "3 kg in 20 L is 150 g/L",
    ),
]


@pytest.mark.parametrize(("text", "line", "key", "said"), ODD, ids=lambda part: str(part)[:30])
def test_an_odd_entry_raises_a_doubt_on_its_line(text: str, line: int, key: str, said: str) -> None:
    (doubt,) = batch_of(text).doubts
    assert (doubt.line, doubt.key) == (line, key)
    assert doubt.text.startswith(said)


# Source of the table: from memory; what is usual, and what is too thin to judge.
USUAL = [
    "gravity: {original: 1.050, final: 1.012}",
    "gravity: {original: 1.050, final: 1.025}",
    "gravity: {original: 1.008, final: 1.007}",
    "gravity: {original: 1.050}",
    "gravity: {final: 1.012}",
    # a barley wine's malt, and fresh hops by the bucket
    "volume: 3 US gal\nrecipe: {fermentables: [{amount: 14 lb}], hops: [{amount: 1 kg}]}",
    "recipe: {fermentables: [{amount: 900 kg}]}",
    "gravity: {readings: [{ph: 3.0}, {ph: 4.9}, {gravity: 1.012}]}",
]


@pytest.mark.parametrize("text", USUAL)
def test_a_usual_entry_raises_none(text: str) -> None:
    assert batch_of(text).doubts == ()


def test_a_doubtful_entry_is_used_as_it_stands() -> None:
    record = batch_of("gravity: {original: 1.050, final: 1.040}").record
    assert record.gravity.final.value == pytest.approx(1.040)  # type: ignore[union-attr]


def test_a_beer_fermented_very_far_is_not_only_put_down_to_the_hydrometer() -> None:
    # common practice, no source: mixed cultures, enzymes and sugar go past 92 %
    (far,) = batch_of("gravity: {original: 1.050, final: 1.002}").doubts
    (short,) = batch_of("gravity: {original: 1.050, final: 1.040}").doubts
    assert "wild yeast" in far.text
    assert "wild yeast" not in short.text

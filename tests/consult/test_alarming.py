"""Words of danger are heard whatever else is understood. Source: common practice, no source."""

import pytest

from tests.consult.test_cautions import given, text_of, texts
from tests.knowledge.shipped import rule_base

SAID = [
    ("one bottle burst in the cupboard", "gushing_bottles"),
    ("tastes fine, but two of the bottles have burst", "gushing_bottles"),
    ("buttery, and the cap flew off", "gushing_bottles"),
    ("the can is swollen", "gushing_bottles"),
    ("I swallowed some of the sanitizer", "suspect_beer"),
    ("drank the line cleaner by mistake", "suspect_beer"),
    ("there was broken glass in it", "suspect_beer"),
    ("a patch of mold on top", "mouldy_ingredients"),
]
TRIGGERS = [
    (words, card.id)
    for card in rule_base().cautions.values()
    for trigger in card.when
    for words in trigger.said
]
HARMLESS = [
    ("no bottle ever burst, it is only papery", "gushing_bottles"),
    ("a burst of citrus, then sour", "gushing_bottles"),
    ("in my bottle of stout, slow to start, comes a burst of roast", "gushing_bottles"),
    ("bitter after I swallowed it", "suspect_beer"),
    ("a cleaner taste than the last one", "suspect_beer"),
    ("not mouldy, just stale", "mouldy_ingredients"),
]


@pytest.mark.parametrize(("words", "caution"), [*SAID, *TRIGGERS])
def test_danger_is_heard_in_the_words(words: str, caution: str) -> None:
    assert text_of(caution) in texts(given(words))


@pytest.mark.parametrize(("words", "caution"), SAID)
def test_danger_is_heard_in_the_notes_of_the_record(words: str, caution: str) -> None:
    assert text_of(caution) in texts(given("cardboard", f'notes: "{words}"'))


@pytest.mark.parametrize(("words", "caution"), HARMLESS)
def test_what_is_denied_or_meant_otherwise_alarms_nobody(words: str, caution: str) -> None:
    assert text_of(caution) not in texts(given(words))
    assert text_of(caution) not in texts(given("cardboard", f'notes: "{words}"'))

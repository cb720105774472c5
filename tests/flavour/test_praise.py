"""A beer that is praised has no unnamed fault, whatever else of the note is not understood."""

import pytest

from tests.flavour.shipped import read

# Source of both tables: ordinary usage, from memory; what each note means is judgement.
PRAISE = [
    ("clean and crisp", ("clean", "crisp")),
    ("refreshing, well balanced, no off flavours", ("refreshing", "well balanced")),
    ("crisp, the neighbours came back twice", ("crisp",)),
]
NO_PRAISE = [
    "not crisp",
    "isn't very clean",
    "barely drinkable",
    "crisp, but a bit sour",
    "lovely beer, bit too bitter",
    "fine at bottling, now it tastes frobby",
    "crisp but frobby",
    "good beer, smells of frobs",
    "nice colour",
    "a lovely head, frobby",
    "frobby",
]


@pytest.mark.parametrize(("said", "praise"), PRAISE)
def test_words_of_praise_are_heard_as_such(said: str, praise: tuple[str, ...]) -> None:
    assert read(said).praise == praise


@pytest.mark.parametrize("said", NO_PRAISE)
def test_praise_that_is_denied_or_leads_on_to_a_fault_is_none(said: str) -> None:
    assert read(said).praise == ()

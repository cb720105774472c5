"""Comparisons as people type them: weaker than another beer is there, than a wish is not."""

import pytest

from tests.flavour.shipped import absent, read, reported

# Source for both tables: judgement; what each sentence ought to mean.
THERE: list[tuple[str, dict[str, str | None]]] = [
    ("not as sour as last time", {"sour_milk": "faint"}),
    ("not so sour as last time", {"sour_milk": "faint"}),
    ("isn't quite as sour as it was", {"sour_milk": "faint"}),
    ("nowhere near as buttery as before", {"butter": "faint"}),
    ("less sour than last time", {"sour_milk": "faint"}),
    ("a bit less sour than at bottling", {"sour_milk": "faint"}),
    ("less bitter than the other half", {"bitter_bite": "faint"}),
    ("no less sour than before", {"sour_milk": None}),
    ("no more buttery than last time", {"butter": None}),
    ("as sour as last time", {"sour_milk": None}),
    ("more bitter than I wanted", {"bitter_bite": None}),
    ("sweeter than I expected", {"sweet_cloying": None}),
    ("thinner than usual", {"watery": None}),
    ("less butter than corn", {"butter": "faint", "cooked_corn": None}),
    ("not as sour as vinegar", {"sour_milk": "faint"}),
    ("not as sour as last time and a bit buttery", {"sour_milk": "faint", "butter": "faint"}),
    ("not as buttery as the last batch but metallic", {"butter": "faint", "metal": None}),
    ("not papery, less sour than last time", {"sour_milk": "faint"}),
    ("plastic and plaster", {"plastic": None, "plaster": None}),
    ("plaster and plastic", {"plaster": None, "plastic": None}),
    ("sour and vinegary", {"vinegar": None}),
    ("as sour as vinegar", {"vinegar": None}),
]
NOT_THERE: list[tuple[str, set[str]]] = [
    ("less bitter than I wanted", {"bitter_bite"}),
    ("not as bitter as I expected", {"bitter_bite"}),
    ("not so bitter as it should be", {"bitter_bite"}),
    ("isn't as bitter as the recipe", {"bitter_bite"}),
    ("less bitter than usual", {"bitter_bite"}),
    ("no more buttery than I like", {"butter"}),
    ("not sweeter than it should be", {"sweet_cloying"}),
    ("not as sour as vinegar", {"vinegar"}),
    ("not papery, less sour than last time", {"wet_cardboard"}),
]


@pytest.mark.parametrize(("text", "wanted"), THERE)
def test_a_comparison_reports(text: str, wanted: dict[str, str | None]) -> None:
    assert reported(text) == wanted


@pytest.mark.parametrize(("text", "wanted"), NOT_THERE)
def test_a_comparison_denies(text: str, wanted: set[str]) -> None:
    assert absent(text) == wanted


def test_the_words_of_a_wish_are_read_and_others_are_handed_back() -> None:
    assert read("not as sour as I expected").not_understood == ()
    assert read("less bitter than zxqv").not_understood == ("zxqv",)


def test_what_another_beer_was_like_is_no_circumstance_of_this_one() -> None:
    assert read("less sour than at bottling").circumstances == {}

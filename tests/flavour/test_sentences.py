"""Sentences as people type them: tables, one row per sentence."""

import pytest

from tests.flavour.shipped import absent, read, reported

# Source for every table of this file: written for it in the manner of practitioner pages; what
# each sentence ought to mean is judgement.
REPORTED: list[tuple[str, dict[str, str | None]]] = [
    ("hint of cough syrup, not cardboard, after 3 weeks in keg", {"sherry": "faint"}),
    ("just not right", {"something_off": None}),
    ("no butter or corn, just papery", {"wet_cardboard": None}),
    ("not just buttery", {"butter": None}),
    ("a hint of something buttery on the burp", {"butter": "faint"}),
    ("buttrey", {"butter": None}),
    ("diacetil and a bit of vinager", {"butter": None, "vinegar": "faint"}),
    ("wet soggy cardbord", {"wet_cardboard": None}),
    ("wet card board", {"wet_cardboard": None}),
    (
        "my hefeweizen tastes of bananas but also a bit of plaster",
        {"banana": None, "plaster": "faint"},
    ),
    ("no diacetyl, no DMS, slight sulphur", {"rotten_egg": "faint"}),
    ("Definately bannana and clove, which is fine for a hefe", {"banana": "clear", "clove": None}),
    ("like licking a 9 volt battery", {"metal": None}),
    ("smells like my grandma's attic", {"musty": None}),
    ("weird. sort of sweet, sort of wet paper?", {"sweet_cloying": None, "wet_cardboard": None}),
    ("Cheesy hops. Like feet.", {"cheese": None}),
    ("not sour, not vinegar, just kind of stale", {"stale": None}),
    ("gushing out of the bottles and tastes like clove", {"gusher": None, "clove": None}),
    ("hot, boozy, gives me a headache", {"hot_alcohol": None}),
    ("cream corn nose, cabbage when it warms up", {"cooked_corn": None, "cabbage": None}),
    ("dry puckery like sucking on a teabag", {"tea_bag": None}),
    ("smells like a wet dog that ate eggs", {"musty": None, "rotten_egg": None}),
    ("burnt match / rubber tire", {"struck_match": None, "rubber": None}),
    ("thin and watery, no head", {"watery": None, "flat": None}),
    ("I don't like the butter taste", {"butter": None}),
    ("can't get rid of the buttery taste", {"butter": None}),
    ("without a doubt diacetyl", {"butter": None}),
    ("hardly any banana", {"banana": "faint"}),
    # How strong it is goes to the flavour nearest to it.
    ("butter very slight & banana", {"butter": "faint", "banana": None}),
    ("clove banana butter slight", {"clove": None, "banana": None, "butter": "faint"}),
    ("buttery banana vinegar very", {"butter": None, "banana": None, "vinegar": "strong"}),
    ("strong banana, weak clove", {"banana": "strong", "clove": "faint"}),
    ("papery, faint", {"wet_cardboard": "faint"}),
    ("hop aroma faded", {"stale": None}),
    ("the hops have gone", {"stale": None}),
    ("slightly sour and metallic", {"sour_milk": "faint", "metal": None}),
    ("really strong solvent smell", {"solvent": "strong"}),
    ("tastes like someone put pennies in it", {"metal": None}),
    ("better than last time but still metallic", {"metal": None}),
    ("old wet newspaper", {"wet_cardboard": None}),
    ("homebrew twang", {"extract_twang": None}),
    ("my homebrew lager tastes of corn", {"cooked_corn": None}),
    ("dry hopped pale ale, grassy", {"grassy": None}),
    ("burnt rubber, skunky", {"skunk": None}),
    ("sulfur but not egg", {"struck_match": None}),
    ("bananaish", {"banana": None}),
    ("off flavour, like nail polish remover", {"nail_varnish": None}),
    ("not without butter", {"butter": None}),
    ("no smoke and it tastes papery", {"wet_cardboard": None}),
    ("cardboard? yes. butter? no.", {"wet_cardboard": None}),
    ("gone from great to cardboard in six weeks", {"wet_cardboard": None}),
    ("smoky bacon note that I did not want", {"smoke": None}),
    ("sherry-like oxidation, not unpleasant", {"sherry": None}),
    ("tastes like pencil lead, not metallic", {"pencil_inky": None}),
    ("bit eggy, bit matchy", {"rotten_egg": "faint", "struck_match": "faint"}),
    ("no diacetyl; dms low; phenols high", {"cooked_corn": "faint", "phenolic": "strong"}),
    ("the taste isn't bad but it's a little thin", {"watery": "faint"}),
    ("Not getting any banana, which I wanted", {}),
    ("not papery, only something off", {"something_off": None}),
    ("tastes of nothing", {"watery": None}),
    # Strength before a word of praise is the praise's own.
    ("really good, roasty, slight coffee, no off flavours", {"coffee_stale": "faint"}),
    ("very nice banana", {"banana": None}),
    ("no head retention, but loads of fizz", {"poor_head": None}),
    ("no head, but very noticeable butter", {"flat": None, "butter": "clear"}),
    # As brewers say it whose first language is another.
    ("the bier is very sauer", {"sour_milk": "strong"}),
    ("smell like apple green", {"green_apple": None}),
    ("taste like medicine for cough", {"cough_medicine": None}),
    ("the beer comes only foam from the tap", {"gassy": None}),
    ("leaves a film in the mouth", {"slick": None}),
    ("acidic bite, a wee bit of sulphur", {"sour_milk": None, "rotten_egg": "faint"}),
    ("pours like oil, hazy as hell", {"slick": None, "haze": "strong"}),
    ("too much oxygen, like wet newsprint", {"wet_cardboard": "strong"}),
]
ABSENT: list[tuple[str, set[str]]] = [
    ("hint of cough syrup, not cardboard, after 3 weeks in keg", {"wet_cardboard"}),
    ("no butter or corn, just papery", {"butter", "cooked_corn"}),
    ("not butter, corn or egg but papery", {"butter", "cooked_corn", "rotten_egg"}),
    ("neither butter nor corn", {"butter", "cooked_corn"}),
    ("butter: no, corn: no, papery: yes", {"butter", "cooked_corn"}),
    ("butter? not really", {"butter"}),
    ("can't taste any butter", {"butter"}),
    ("no taste of butter at all", {"butter"}),
    ("not the slightest hint of diacetyl", {"butter"}),
    ("diacetyl free", {"butter"}),
    ("diacetyl test negative", {"butter"}),
    ("isn’t papery", {"wet_cardboard"}),
    ("free of smoke and ash", {"smoke", "ash_burnt"}),
    ("nothing like banana", {"banana"}),
    ("butter isn't there", {"butter"}),
    ("cardboard? yes. butter? no.", {"butter"}),
]
SILENT = ["not bad", "nothing wrong", "gone after two weeks", "", "   ", "...!?", "no idea"]
TOLD: list[tuple[str, dict[str, str]]] = [
    ("hint of cough syrup, after 3 weeks in keg", {"first_noticed": "first_weeks"}),
    ("papery after three weeks", {"first_noticed": "first_weeks"}),
    ("papery after 6 weeks", {"first_noticed": "after_a_month"}),
    ("chemicals, unchanged after months", {"course": "steady"}),
    (
        "chemicals, getting worse after 3 months",
        {"course": "grows", "first_noticed": "after_a_month"},
    ),
    ("papery 3-4 weeks later", {"first_noticed": "first_weeks"}),
    ("fine at bottling, papery after 3 months", {"first_noticed": "after_a_month"}),
    (
        "It wasn't there at bottling but after 2 months: cardboard",
        {"first_noticed": "after_a_month"},
    ),
    ("butter after 4 days in the fermenter", {"first_noticed": "in_fermenter"}),
    ("gone after two weeks", {"course": "fades"}),
    ("buttery popcorn, gets worse every week", {"course": "grows"}),
    ("plaster when it warms up", {"when_warm": "stronger_warm"}),
    ("every bottle tastes like wet dog", {"spread": "every_package"}),
    ("first pint only, plasticky", {"first_pour": "first_glass_only"}),
    ("plastic, every batch, every summer", {"other_batches": "every_batch", "season": "summer"}),
    ("skunky, only in the bottles, keg is fine", {"package_contrast": "only_bottles"}),
    ("butter at bottling and butter in the fermenter", {}),
    ("papery, hop aroma faded, slightly stale", {}),
    ("butter, the head has gone", {}),
    ("gone flat after two weeks in keg", {"first_noticed": "first_weeks"}),
    ("it has gone papery after 6 wks", {"first_noticed": "after_a_month"}),
    ("the egg is gone, papery", {"course": "fades"}),
    ("butter, the head has gone, fading away", {"course": "fades"}),
]
FOREIGN = [
    "un goût de beurre rance",
    "riecht nach nassem Hund",
    "gusto di cartone bagnato",
    "пахне маслом",
    "バターの味",
]


@pytest.mark.parametrize(("text", "wanted"), REPORTED)
def test_a_sentence_reports(text: str, wanted: dict[str, str | None]) -> None:
    assert reported(text) == wanted


@pytest.mark.parametrize(("text", "wanted"), ABSENT)
def test_a_sentence_denies(text: str, wanted: set[str]) -> None:
    assert absent(text) == wanted


@pytest.mark.parametrize("text", SILENT)
def test_a_sentence_without_a_flavour_reports_none(text: str) -> None:
    assert read(text).heard == ()


@pytest.mark.parametrize(("text", "wanted"), TOLD)
def test_a_sentence_tells_circumstances(text: str, wanted: dict[str, str]) -> None:
    assert read(text).circumstances == wanted


@pytest.mark.parametrize("text", FOREIGN)
def test_words_of_another_language_are_handed_back(text: str) -> None:
    assert not read(text).heard
    assert " ".join(read(text).not_understood).split() == text.split()

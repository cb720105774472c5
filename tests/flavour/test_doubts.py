"""What is not certain is said: other meanings, one question, less certainty."""

import pytest

from tests.flavour.shipped import LEXICON, read

# Source of the table: judgement on what each phrase may mean.
SEVERAL: list[tuple[str, list[str]]] = [
    ("cough syrup", ["sherry", "phenolic", "cough_medicine"]),
    ("medicinal", ["tcp_antiseptic", "plaster", "cough_medicine"]),
    ("sulphury", ["rotten_egg", "struck_match", "sewer"]),
    ("popcorn", ["butter", "cooked_corn", "mouse_cage"]),
    ("dry", ["tea_bag", "watery"]),
    ("flat", ["flat", "stale"]),
    ("plastic", ["plastic", "plaster"]),
    ("twang", ["extract_twang", "cidery"]),
]


@pytest.mark.parametrize(("text", "wanted"), SEVERAL)
def test_a_phrase_of_several_meanings_offers_them_likeliest_first(
    text: str, wanted: list[str]
) -> None:
    (doubt,) = read(text).doubts
    assert [one.id for one in doubt.candidates] == wanted


@pytest.mark.parametrize(("text", "wanted"), SEVERAL)
def test_a_phrase_of_several_meanings_is_still_heard_as_the_likeliest(
    text: str, wanted: list[str]
) -> None:
    (heard,) = read(text).heard
    assert heard.descriptor == wanted[0]
    assert heard.certainty < 1


@pytest.mark.parametrize(("text", "wanted"), SEVERAL)
def test_shares_of_the_meanings_sum_to_one(text: str, wanted: list[str]) -> None:
    (doubt,) = read(text).doubts
    assert sum(one.score for one in doubt.candidates) == pytest.approx(1)


@pytest.mark.parametrize("senses", LEXICON.words.several_senses, ids=lambda s: s.said[0])
def test_the_first_two_meanings_have_a_written_trick(senses) -> None:
    first, second = senses.first_to_last[:2]
    assert not LEXICON.trick(first, second).startswith("Is it more like")


def test_a_trick_is_the_same_both_ways() -> None:
    assert LEXICON.trick("plaster", "clove") == LEXICON.trick("clove", "plaster")


def test_two_flavours_without_a_trick_get_a_plain_question() -> None:
    wanted = "Is it more like banana or more like haze?"
    assert LEXICON.trick("banana", "haze") == wanted


def test_one_or_the_other_is_in_doubt_with_the_question_between_them() -> None:
    understood = read("butter or maybe corn")
    assert [one.certainty for one in understood.heard] == [0.5, 0.5]
    assert understood.doubts[0].ask == LEXICON.trick("butter", "cooked_corn")


def test_a_slip_of_the_finger_is_asked_about() -> None:
    (doubt,) = read("buttrey").doubts
    assert (doubt.said, doubt.ask) == ("buttrey", "Do you mean butter?")


def test_maybe_lowers_certainty() -> None:
    assert read("maybe smoke").heard[0].certainty < read("smoke").heard[0].certainty


def test_a_bare_second_flavour_after_not_is_absent_but_asked_about() -> None:
    understood = read("not smoky and papery")
    assert [one.state for one in understood.heard] == ["absent", "absent"]
    assert [one.said for one in understood.doubts] == ["papery"]


def test_a_flavour_said_and_denied_stays_reported_and_is_asked_about() -> None:
    understood = read("buttery cold, no butter warm")
    assert [(one.descriptor, one.state) for one in understood.heard] == [("butter", "reported")]
    assert understood.doubts[0].ask == LEXICON.cards["butter"].asks


def test_a_meaning_named_elsewhere_settles_the_doubt() -> None:
    assert read("burnt rubber, skunky").doubts == ()


def test_an_unnamed_fault_is_never_given_a_flavour() -> None:
    assert [one.descriptor for one in read("just not right").heard] == ["something_off"]

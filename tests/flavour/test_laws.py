"""What must hold for every phrase of every card, and for any text at all."""

import re
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.flavour import DescriptorCard, Role
from diagnose.flavour.tokens import cut_into_words
from tests.flavour.shipped import BRANDS, LEXICON, absent, candidates, phrases_of, read, reported

# Source of the phrases: the cards (seen on practitioner pages, or ordinary usage from memory).
CARDS = pytest.mark.parametrize("card", LEXICON.cards.values(), ids=lambda card: card.id)
PHRASES = sorted({phrase for card in LEXICON.cards.values() for phrase in card.phrasings})
TRANSATLANTIC = [
    ("wet color", "wet colour"),
    ("moldy", "mouldy"),
    ("sulphury", "sulfury"),
    ("yogurt", "yoghurt"),
    ("licorice", "liquorice"),
    ("burnt tire", "burnt tyre"),
    ("smokey", "smoky"),
    ("oxidized", "oxidised"),
    ("movie theater popcorn", "movie theatre popcorn"),
    ("plasticy", "plasticky"),
    ("savory", "savoury"),
    ("gray mold", "grey mould"),
    ("cheesey", "cheesy"),
    ("caramelized", "caramelised"),
]
SMALL_WORDS = ["no", "not", "and", "or", "but", ",", ";", "very", "hint", "maybe", "fine", "the"]
quickly = settings(max_examples=200, deadline=None, derandomize=True)
words_and_noise = st.lists(
    st.one_of(
        st.sampled_from(PHRASES),
        st.sampled_from(SMALL_WORDS),
        st.text(max_size=8),
    ),
    max_size=12,
).map(" ".join)


@CARDS
def test_a_phrase_alone_means_its_descriptor_or_offers_it(card: DescriptorCard) -> None:
    assert [p for p in phrases_of(card) if card.id not in candidates(p)] == []


@CARDS
def test_a_phrase_denied_is_absent_or_offered_as_absent(card: DescriptorCard) -> None:
    missed = [p for p in phrases_of(card) if card.id not in candidates(f"no {p}", "absent")]
    assert missed == []


@CARDS
def test_filler_words_and_capitals_change_nothing(card: DescriptorCard) -> None:
    dressed = "It tastes like {} to me, the beer."
    changed = [
        p for p in phrases_of(card) if candidates(dressed.format(p.upper())) != candidates(p)
    ]
    assert changed == []


@CARDS
def test_an_article_inside_changes_nothing(card: DescriptorCard) -> None:
    opened = {p: p.replace(" ", " the ") for p in phrases_of(card)}
    assert [p for p, other in opened.items() if candidates(other) != candidates(p)] == []


@CARDS
def test_a_strength_before_a_phrase_is_its_strength(card: DescriptorCard) -> None:
    wrong = [p for p in phrases_of(card) if set(reported(f"faint {p}").values()) != {"faint"}]
    assert wrong == []


@pytest.mark.parametrize(("american", "british"), TRANSATLANTIC)
def test_spelling_of_either_shore_reads_the_same(american: str, british: str) -> None:
    assert candidates(american) == candidates(british)


@CARDS
def test_no_household_name_is_shown_alone_or_in_a_sentence(card: DescriptorCard) -> None:
    forms = ("{}", "not {}", "maybe {} or smoke", "{}ish qwerty", "The {}'s")
    texts = [form.format(phrase) for phrase in phrases_of(card) for form in forms]
    shown = [household_names_in(read(text).model_dump_json()) for text in texts]
    assert [names for names in shown if names] == []


@pytest.mark.parametrize("brand", [brand for brand in BRANDS if len(brand) > 4])
def test_a_household_name_written_as_one_word_or_inside_one_is_not_shown(brand: str) -> None:
    joined = re.sub(r"[^a-z]", "", brand)
    for text in (joined, f"{joined}zz", f"zz{joined}", f"{joined}'s"):
        assert joined not in read(text).model_dump_json()


@CARDS
def test_no_household_name_stands_on_a_card_where_it_would_be_shown(card: DescriptorCard) -> None:
    tricks = [confusion.trick for confusion in card.confused_with]
    shown = " | ".join([card.name, card.says, card.asks, *card.phrasings, *tricks])
    assert not household_names_in(shown)


@quickly
@given(st.one_of(words_and_noise, st.text(max_size=200)))
def test_every_word_of_any_text_is_accounted_for_once(text: str) -> None:
    typed = [token.typed for token in cut_into_words(text)]
    told = " ".join(piece.said for piece in read(text).account).split(" ")
    assert sorted(filter(None, told)) == sorted(typed)


@quickly
@given(words_and_noise, st.sampled_from(BRANDS), words_and_noise)
def test_no_household_name_is_shown_whatever_stands_round_it(
    before: str, brand: str, after: str
) -> None:
    assert not household_names_in(read(f"{before} {brand} {after}").model_dump_json())


@quickly
@given(st.text())
def test_no_letter_or_digit_falls_between_the_words(text: str) -> None:
    kept = "".join(token.typed for token in cut_into_words(text))
    normal = unicodedata.normalize("NFKC", text)
    assert [c for c in kept if c.isalnum()] == [c for c in normal if c.isalnum()]


@quickly
@given(words_and_noise)
def test_what_is_not_understood_is_handed_back(text: str) -> None:
    understood = read(text)
    unread = [p.said for p in understood.account if p.role is Role.NOT_UNDERSTOOD]
    assert " ".join(understood.not_understood) == " ".join(unread)


@quickly
@given(words_and_noise)
def test_certainties_and_shares_are_probabilities_and_ids_are_known(text: str) -> None:
    understood = read(text)
    for heard in understood.heard:
        assert 0 < heard.certainty <= 1
        assert {heard.descriptor, *(a.id for a in heard.alternatives)} <= LEXICON.cards.keys()
        assert sum(a.score for a in heard.alternatives) < 1


@quickly
@given(words_and_noise)
def test_one_descriptor_is_heard_at_most_once(text: str) -> None:
    ids = [heard.descriptor for heard in read(text).heard]
    assert len(ids) == len(set(ids))


@quickly
@given(words_and_noise)
def test_the_same_text_is_understood_the_same_way_twice(text: str) -> None:
    assert read(text) == read(text)


def test_absence_does_not_leak_past_a_full_stop() -> None:
    assert absent("no butter. corn") == {"butter"}


def household_names_in(shown: str) -> list[str]:
    """Household names that stand in `shown` as words of their own."""
    flat = re.sub(r"[^a-z0-9_]+", " ", shown.lower())
    names = [re.sub(r"[^a-z0-9]+", " ", brand) for brand in BRANDS]
    return [name for name in names if f" {name} " in f" {flat} "]

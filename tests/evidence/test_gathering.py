"""From what is known to pieces of evidence: nothing twice, nothing impossible, nothing made up."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.evidence.finding import ClassFinding, Finding
from diagnose.evidence.gathering import Known, check_piece, counted_once, gather
from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.evidence.weighing import cause_is_possible
from diagnose.flavour import Heard, understand
from tests.knowledge.shipped import rule_base

CONDITIONED = [cause.id for cause in rule_base().causes.values() if cause.possible_when]
ECHOES = [
    (card.id, other)
    for kind in ("circumstances", "checks")
    for card in getattr(rule_base(), kind).values()
    for other in card.same_as
]
SAME = 1e-9
weights = st.floats(-20.0, 20.0)


def known_of(words: str = "", **known: object) -> Known:
    parts = {"findings": {}, "circumstances": {}, "checks": {}, **known}
    return Known(heard=understand(words, rule_base().lexicon).heard, **parts)  # type: ignore[arg-type]


def evidence_of(words: str = "", **known: object) -> Evidence:
    return gather(rule_base(), known_of(words, **known))


def piece_called(evidence: Evidence, key: str) -> Piece:
    (piece,) = (piece for piece in evidence.pieces if piece.key == key)
    return piece


def classed(measure: str, value: str) -> dict[str, Finding]:
    return {measure: ClassFinding(measure, value, value, "batch.yaml:1")}


def butter(certainty: float) -> Heard:
    return Heard(
        descriptor="butter", state="reported", intensity="clear", certainty=certainty, said="butter"
    )


# What is known is told apart by its id alone, so no two findings may share one.
def test_no_two_things_to_know_share_an_id() -> None:
    rules = rule_base()
    ids = [*rules.measures, *rules.circumstances, *rules.checks, *rules.descriptors]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize(("one", "other"), ECHOES)
@given(first=weights, second=weights)
def test_of_two_that_say_the_same_only_the_louder_counts(
    one: str, other: str, first: float, second: float
) -> None:
    pieces = [
        Piece("check", one, responsible={"hop_creep": first}),
        Piece("measure", other, happened={"hop_creep": second}),
    ]
    kept = counted_once(rule_base(), pieces)
    spoken = [w for piece in kept for w in (*piece.happened.values(), *piece.responsible.values())]
    assert spoken == [max(first, second, key=abs)]


@pytest.mark.parametrize(("one", "other"), ECHOES)
def test_an_echo_is_silenced_cause_by_cause(one: str, other: str) -> None:
    loud_here = Piece("check", one, happened={"hop_creep": 5.0, "brett_contamination": 1.0})
    loud_there = Piece("measure", other, happened={"hop_creep": -2.0, "brett_contamination": -4.0})
    first, second = counted_once(rule_base(), [loud_here, loud_there])
    assert (dict(first.happened), dict(second.happened)) == (
        {"hop_creep": 5.0},
        {"brett_contamination": -4.0},
    )


def test_an_echo_that_says_nothing_of_a_cause_leaves_it_alone() -> None:
    one, other = ECHOES[0]
    pieces = [
        Piece("check", one, happened={"hop_creep": 5.0}),
        Piece("measure", other, happened={"overprimed": -4.0}),
    ]
    assert counted_once(rule_base(), pieces) == pieces


def test_what_nobody_logged_is_no_echo() -> None:
    one, other = ECHOES[0]
    pieces = [
        Piece("check", one, happened={"hop_creep": 5.0}),
        Piece("unlogged", other, happened={"hop_creep": -4.0}),
    ]
    assert counted_once(rule_base(), pieces) == pieces


@pytest.mark.parametrize("cause", CONDITIONED)
def test_a_cause_is_out_when_what_it_needs_was_not_there(cause: str) -> None:
    for condition in rule_base().causes[cause].possible_when:
        for value in rule_base().measures[condition.measure].classes:
            evidence = evidence_of(findings=classed(condition.measure, value))
            assert (cause in evidence.impossible) == (value not in condition.any_of)


@pytest.mark.parametrize("cause", CONDITIONED)
def test_a_cause_stays_possible_while_nobody_says(cause: str) -> None:
    assert cause_is_possible(rule_base().causes[cause], {})


@pytest.mark.parametrize("cause", CONDITIONED)
def test_what_nobody_logged_weighs_as_much_as_it_is_common(cause: str) -> None:
    evidence = evidence_of()
    for condition in rule_base().causes[cause].possible_when:
        typical = rule_base().measures[condition.measure].typical
        share = sum(part for value, part in typical if value in condition.any_of)
        piece = piece_called(evidence, condition.measure)
        assert piece.kind == "unlogged"
        assert 10.0 ** (piece.happened[cause] / 10.0) == pytest.approx(share)


@pytest.mark.parametrize("cause", CONDITIONED)
def test_what_is_logged_needs_no_common_share(cause: str) -> None:
    for condition in rule_base().causes[cause].possible_when:
        findings = classed(condition.measure, condition.any_of[0])
        kinds = {piece.kind for piece in evidence_of(findings=findings).pieces}
        keys = {p.key for p in evidence_of(findings=findings).pieces if p.kind == "unlogged"}
        assert condition.measure not in keys, kinds


def test_a_record_without_entries_speaks_only_of_what_is_common() -> None:
    assert {piece.kind for piece in evidence_of().pieces} == {"unlogged"}


# Source of the table: common practice, no source; a louder word is less likely to be a slip.
@pytest.mark.parametrize(
    ("louder", "softer"),
    [
        ("strong butter", "butter"),
        ("clear butter", "hint of butter"),
        ("butter", "maybe butter"),
        ("strong butter", "perhaps a hint of butter"),
    ],
)
def test_a_louder_word_is_less_likely_to_be_a_mistake(louder: str, softer: str) -> None:
    off = [
        piece_called(evidence_of(words), "butter").words["butter"][0] for words in (louder, softer)
    ]
    assert off[0] < off[1]


def test_a_word_twice_counts_once_at_its_strongest() -> None:
    hint, strong = (
        understand(said, rule_base().lexicon).heard for said in ("hint of butter", "strong butter")
    )
    twice = gather(rule_base(), Known({}, {}, {}, (*hint, *strong, *hint)))
    assert piece_called(twice, "butter") == piece_called(evidence_of("strong butter"), "butter")


def test_an_absent_flavour_is_surely_absent() -> None:
    assert piece_called(evidence_of("butter, not sour"), "sour_milk").words == {"sour_milk": ABSENT}


def test_only_reported_words_are_reported() -> None:
    evidence = evidence_of("butter, not sour")
    assert evidence.reported == ("butter",)
    assert set(evidence.judged) == {"butter", "sour_milk", "vinegar"}  # in every sense


@pytest.mark.parametrize("word", rule_base().lexicon.words.vague)
def test_a_vague_word_is_no_evidence(word: str) -> None:
    heard = Heard(descriptor=word, state="reported", intensity=None, certainty=1.0, said=word)
    evidence = gather(rule_base(), Known({}, {}, {}, (heard,)))
    assert evidence.judged == ()


@pytest.mark.parametrize("certainty", [0.0, 0.3, 0.6, 1.0])
def test_a_word_is_never_likelier_where_the_flavour_is_not(certainty: float) -> None:
    heard = butter(certainty)
    off, on = piece_called(gather(rule_base(), Known({}, {}, {}, (heard,))), "butter").words[
        "butter"
    ]
    assert 0.0 <= off <= on <= 1.0


def test_a_word_that_may_mean_anything_says_nothing() -> None:
    heard = butter(0.0)
    off, on = piece_called(gather(rule_base(), Known({}, {}, {}, (heard,))), "butter").words[
        "butter"
    ]
    assert off == on


@pytest.mark.parametrize("key", sorted(rule_base().circumstances))
def test_a_circumstance_weighs_only_the_branch_in_which_the_cause_is_to_blame(key: str) -> None:
    value = next(iter(rule_base().circumstances[key].values))
    piece = piece_called(evidence_of(circumstances={key: value}), key)
    assert piece.responsible
    assert not (piece.happened or piece.present or piece.words)


@pytest.mark.parametrize("key", sorted(rule_base().checks))
def test_a_check_s_results_rank_alike_in_weight_and_in_share(key: str) -> None:
    check = rule_base().checks[key]
    for speaks in check.speaks_for:
        spoken_for = speaks.cause or speaks.compound
        ratios = [
            (speaks.shares[r.id] / check.otherwise[r.id], check_piece(check, r.id))
            for r in check.results
        ]
        ordered = sorted(ratios, key=lambda one: one[0])
        found = [{**piece.happened, **piece.present}[spoken_for] for _, piece in ordered]
        assert all(lower <= higher + SAME for lower, higher in pairwise(found))


@pytest.mark.parametrize("key", sorted(rule_base().checks))
def test_a_check_s_weight_is_the_ratio_of_its_shares(key: str) -> None:
    check = rule_base().checks[key]
    for result in check.results:
        piece = check_piece(check, result.id)
        for speaks in check.speaks_for:
            weight = {**piece.happened, **piece.present}[speaks.cause or speaks.compound or ""]
            ratio = speaks.shares[result.id] / check.otherwise[result.id]
            assert weight == pytest.approx(10.0 * math.log10(ratio))


def test_evidence_without_a_piece_is_what_it_was_before_the_piece() -> None:
    before = evidence_of("butter")
    assert before.with_piece(Piece("measure", "new", {"hop_creep": 3.0})).without("new") == before

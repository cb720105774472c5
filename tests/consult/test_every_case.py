"""What holds of every shipped case's diagnosis, whatever it says."""

import json
import re
from itertools import pairwise

import numpy as np
import pytest

from diagnose.answers import Diagnosis, FaultGroup, RankedCause
from diagnose.evidence.pieces import Evidence, Piece
from diagnose.evidence.said import said_words
from diagnose.inference.explanation import explain
from diagnose.inference.network import Network
from diagnose.inference.question import LEAST_MINUTES
from diagnose.inference.ranking import Ranking, rank
from tests.casebook.replayed import consultation_of, diagnosis_of
from tests.consult.asked import network_and_evidence
from tests.knowledge.shipped import case_ids, rule_base

TOLERANCE = 1e-9
ADDED_UP = 1e-6
ROUNDED_DECIBANS = 1e-6
CHECKED_ONE_BY_ONE = 4
every_case = pytest.mark.parametrize("case_id", case_ids())


def ranked_in(diagnosis: Diagnosis) -> list[tuple[FaultGroup, RankedCause]]:
    return [(group, cause) for group in diagnosis.faults for cause in group.causes]


def solved(case_id: str) -> tuple[Network, Evidence]:
    return network_and_evidence(consultation_of(case_id))


def assert_same(found: Ranking, row: int, wanted: Ranking) -> None:
    for name in ("shares", "happened", "log_evidence"):
        one, other = getattr(found, name)[row], getattr(wanted, name)[0]
        np.testing.assert_allclose(one, other, rtol=0, atol=TOLERANCE)


@every_case
def test_every_chance_is_a_chance(case_id: str) -> None:
    diagnosis = diagnosis_of(case_id)
    chances = [
        *(cause.responsible for _, cause in ranked_in(diagnosis)),
        *(cause.happened for _, cause in ranked_in(diagnosis)),
        *(group.expected_here for group in diagnosis.faults),
        *(group.not_in_rule_base for group in diagnosis.faults),
        *(compound.probability for compound in diagnosis.compounds),
    ]
    assert all(0.0 <= chance <= 1.0 + TOLERANCE for chance in chances)


@every_case
def test_the_outcomes_of_a_fault_are_no_more_than_all(case_id: str) -> None:
    for group in diagnosis_of(case_id).faults:
        causes = sum(cause.responsible for cause in group.causes)
        assert causes + group.expected_here + group.not_in_rule_base <= 1.0 + ADDED_UP


@every_case
def test_what_is_to_blame_has_happened(case_id: str) -> None:
    for _, cause in ranked_in(diagnosis_of(case_id)):
        assert cause.responsible <= cause.happened + TOLERANCE


@every_case
def test_suspects_come_likeliest_first(case_id: str) -> None:
    for group in diagnosis_of(case_id).faults:
        found = [cause.responsible for cause in group.causes]
        assert found == sorted(found, reverse=True)


@every_case
def test_evidence_comes_loudest_first(case_id: str) -> None:
    for _, cause in ranked_in(diagnosis_of(case_id)):
        weights = [abs(line.decibans) for line in cause.evidence]
        assert weights == sorted(weights, reverse=True)


@every_case
def test_no_number_of_an_answer_is_missing_or_endless(case_id: str) -> None:
    document = diagnosis_of(case_id).model_dump(mode="json", by_alias=True)
    assert json.loads(json.dumps(document, allow_nan=False)) == document


@every_case
def test_every_path_leads_from_the_suspect_to_a_reported_word(case_id: str) -> None:
    said = said_words(rule_base(), consultation_of(case_id).known.heard)
    for group, cause in ranked_in(diagnosis_of(case_id)):
        senses = {
            sense for word in group.descriptors if word in said for sense in said[word].senses
        }
        assert all(start == cause.id and end in senses for start, _, end in cause.paths)


@every_case
def test_every_reported_word_stands_in_one_group_of_faults(case_id: str) -> None:
    diagnosis = diagnosis_of(case_id)
    vague = rule_base().lexicon.words.vague
    reported = {
        word.descriptor
        for word in diagnosis.understood
        if word.state == "reported" and word.descriptor not in vague
    }
    grouped = [word for group in diagnosis.faults for word in group.descriptors]
    assert sorted(grouped) == sorted(reported)


@every_case
def test_every_line_of_evidence_says_something(case_id: str) -> None:
    for _, cause in ranked_in(diagnosis_of(case_id)):
        assert all(line.text.strip() for line in cause.evidence)


@every_case
def test_a_weight_from_the_rules_names_its_source(case_id: str) -> None:
    for _, cause in ranked_in(diagnosis_of(case_id)):
        for line in cause.evidence:
            if line.own and line.kind != "word":
                assert line.source in rule_base().sources


@every_case
def test_no_next_step_is_worth_less_than_nothing(case_id: str) -> None:
    assert all(step.gain_bits >= 0.0 for step in diagnosis_of(case_id).next_)


@every_case
def test_questions_come_best_for_their_effort_first(case_id: str) -> None:
    # A check has a place of its own, and so has what the verdict asks.
    diagnosis = diagnosis_of(case_id)
    worth = [
        step.gain_bits / max(step.minutes, LEAST_MINUTES)
        for step in diagnosis.next_
        if step.kind != "check" and step.text not in diagnosis.verdict_text
    ]
    assert all(better >= worse - TOLERANCE for better, worse in pairwise(worth))


@every_case
def test_nothing_is_asked_that_is_known(case_id: str) -> None:
    known = consultation_of(case_id).known
    told = {*known.findings, *known.circumstances, *known.checks}
    told |= {heard.descriptor for heard in known.heard}
    assert not told & {step.id for step in diagnosis_of(case_id).next_}


@every_case
def test_nothing_is_missing_that_was_found(case_id: str) -> None:
    measures, findings = rule_base().measures, consultation_of(case_id).known.findings
    assert not {measures[key].name for key in findings} & set(diagnosis_of(case_id).missing)


# Source of the table: the floors of the words in diagnose/answers/chances.py, in percent.
FLOORS = {
    "almost certain": 95,
    "very likely": 75,
    "likely": 55,
    "about even": 35,
    "possible": 15,
    "unlikely": 5,
    "very unlikely": 0,
}
WORD_AND_NUMBER = re.compile(rf"({'|'.join(sorted(FLOORS, key=len, reverse=True))}), (\d+) %")


@every_case
def test_a_word_of_chance_agrees_with_its_number(case_id: str) -> None:
    for word, number in WORD_AND_NUMBER.findall(diagnosis_of(case_id).verdict_text):
        assert word == max((one for one in FLOORS if FLOORS[one] <= int(number)), key=FLOORS.get)


@every_case
def test_what_would_tell_two_apart_is_a_question_of_the_rule_base(case_id: str) -> None:
    rules, text = rule_base(), diagnosis_of(case_id).verdict_text
    cards = (rules.circumstances, rules.checks, rules.measures, rules.descriptors)
    asked = re.findall(r"(?:This would|To tell, ask): (.*\?)", text)
    assert {*asked} <= {card.asks for some in cards for card in some.values()}
    assert ("cannot tell" in text) <= (len(asked) == 1 or "no one question" in text)


@every_case
def test_what_the_verdict_asks_stands_among_the_first_steps(case_id: str) -> None:
    diagnosis = diagnosis_of(case_id)
    asked = re.findall(r"(?:This would|To tell, ask): (.*\?)", diagnosis.verdict_text)
    assert {*asked} <= {step.text for step in diagnosis.next_[:3]}


@every_case
def test_a_verdict_claims_no_certainty(case_id: str) -> None:
    assert not re.search(r"\b(0|100) %|certainly|surely", diagnosis_of(case_id).verdict_text)


@every_case
def test_the_gravest_caution_comes_first(case_id: str) -> None:
    levels = [("stop", "warn", "note").index(line.level) for line in diagnosis_of(case_id).cautions]
    assert levels == sorted(levels)


@every_case
def test_no_caution_is_given_twice(case_id: str) -> None:
    texts = [line.text for line in diagnosis_of(case_id).cautions]
    assert len(texts) == len(set(texts))


@every_case
def test_the_order_of_the_evidence_does_not_matter(case_id: str) -> None:
    network, evidence = solved(case_id)
    words = [piece for piece in evidence.pieces if piece.kind == "word"]
    rest = [piece for piece in evidence.pieces if piece.kind != "word"]
    turned = Evidence((*words, *reversed(rest)), evidence.impossible)
    assert_same(rank(network, [turned]), 0, rank(network, [evidence]))


@every_case
def test_a_finding_of_no_weight_changes_nothing(case_id: str) -> None:
    network, evidence = solved(case_id)
    nothing = Piece("measure", "of_no_weight", happened=dict.fromkeys(network.causes, 0.0))
    both = rank(network, [evidence.with_piece(nothing)])
    assert_same(both, 0, rank(network, [evidence]))


@every_case
def test_the_weight_of_evidence_is_what_leaving_it_out_takes_away(case_id: str) -> None:
    network, evidence = solved(case_id)
    explanation = explain(network, evidence)
    groups = explanation.ranking.structure.groups
    spoken = [row for row, (kind, _) in enumerate(explanation.keys) if kind != "word"]
    loudest = sorted(spoken, key=lambda row: -np.abs(explanation.decibans[row]).max(initial=0.0))
    for row in loudest[:CHECKED_ONE_BY_ONE]:
        without = rank(network, [evidence.without(explanation.keys[row][1])])
        assert without.structure.groups == groups
        moved = decibans(explanation.ranking.responsible[0]) - decibans(without.responsible[0])
        np.testing.assert_allclose(explanation.decibans[row], moved, atol=ROUNDED_DECIBANS)


@every_case
def test_all_evidence_together_is_what_the_words_alone_would_lack(case_id: str) -> None:
    network, evidence = solved(case_id)
    words = tuple(piece for piece in evidence.pieces if piece.kind == "word")
    explanation = explain(network, evidence)
    alone = rank(network, [Evidence(words, evidence.impossible)])
    moved = decibans(explanation.ranking.responsible[0]) - decibans(alone.responsible[0])
    np.testing.assert_allclose(explanation.together, moved, atol=ROUNDED_DECIBANS)


def decibans(chance: np.ndarray) -> np.ndarray:
    kept = np.clip(chance, 1e-15, 1.0 - 1e-15)
    return 10.0 * np.log10(kept / (1.0 - kept))

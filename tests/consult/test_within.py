"""A tasting of very many words: what is weighed in full, and what is said of the rest."""

import io
from datetime import date

import pytest
from rich.console import Console

from diagnose.answers import Diagnosis
from diagnose.batch import read_batch
from diagnose.consult import consult_on, diagnose
from diagnose.consult.gathering import Consultation
from diagnose.consult.networks import network_of_batch
from diagnose.consult.within import reachable
from diagnose.evidence.gathering import gather
from diagnose.inference.ranking import rank
from diagnose.knowledge import RuleBase
from diagnose.report import print_diagnosis
from diagnose.shipped import shipped

FEW = "buttery, no cardboard"
DENIED = (
    "sour, vinegar, no smoke, not soapy, not salty, no chlorine, no green apple, no honey, "
    "no sherry, not buttery, no banana, no clove, no cardboard, not skunky, no cabbage, "
    "not metallic, not thin, no solvent, not harsh, no sulphur"
)
TOLERANCE = 1e-9


def told(rules: RuleBase, words: str) -> Consultation:
    folder = shipped("cases") / "a_bottle_and_one_word"
    return consult_on(rules, read_batch(folder / "batch.yaml", date(2026, 11, 25)), [words])


@pytest.fixture(scope="module")
def many(rules: RuleBase) -> tuple[Consultation, Diagnosis]:
    consultation = told(rules, DENIED)
    return consultation, diagnose(rules, consultation)


def test_a_tasting_of_few_words_is_weighed_whole(rules: RuleBase) -> None:
    consultation = told(rules, FEW)
    assert reachable(rules, consultation) is consultation
    assert diagnose(rules, consultation).partly is None


def test_what_is_left_out_is_named_and_all_that_was_said_is_repeated(
    many: tuple[Consultation, Diagnosis],
) -> None:
    consultation, diagnosis = many
    assert diagnosis.partly is not None
    assert diagnosis.partly.left_out
    assert all(name in diagnosis.partly.says for name in diagnosis.partly.left_out)
    assert len(diagnosis.understood) == len(consultation.known.heard)


def test_every_chance_with_all_words_is_that_of_weighing_them_all(
    rules: RuleBase, many: tuple[Consultation, Diagnosis]
) -> None:
    consultation, diagnosis = many
    network = network_of_batch(rules, consultation)
    exact = rank(network, [gather(rules, consultation.known)])
    assert len(diagnosis.faults) == len(exact.structure.groups) == 1
    for cause in diagnosis.faults[0].causes:
        held = cause.responsible_with_all
        chance = exact.responsible[0, 0, network.cause_index[cause.id]]
        assert held is not None
        assert held.low - TOLERANCE <= chance <= held.high + TOLERANCE


def test_the_page_says_what_the_ranking_leaves_out(
    many: tuple[Consultation, Diagnosis],
) -> None:
    page = io.StringIO()
    print_diagnosis(Console(file=page, width=80), many[1])
    assert "The ranking" in page.getvalue()
    assert "with all words:" in page.getvalue()


def test_what_is_weighed_is_some_of_what_was_said(rules: RuleBase) -> None:
    consultation = told(rules, DENIED)
    kept = reachable(rules, consultation).known.heard
    assert 0 < len(kept) < len(consultation.known.heard)
    assert set(kept) <= set(consultation.known.heard)

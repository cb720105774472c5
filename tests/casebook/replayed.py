"""Every shipped case, read and diagnosed once for all the tests that look at it."""

from functools import cache

from diagnose.answers import Diagnosis
from diagnose.batch import read_batch
from diagnose.casebook import Case, read_cases, replay
from diagnose.consult import Consultation, consult_on
from tests.knowledge.shipped import CASES, TODAY, rule_base


@cache
def case_called(case_id: str) -> Case:
    (case,) = read_cases(CASES / case_id)
    return case


@cache
def consultation_of(case_id: str) -> Consultation:
    case = case_called(case_id)
    batch = read_batch(case.folder / "batch.yaml", TODAY)
    return consult_on(rule_base(), batch)


@cache
def diagnosis_of(case_id: str) -> Diagnosis:
    return replay(rule_base(), case_called(case_id), TODAY)

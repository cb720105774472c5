"""One full diagnosis query in process, step by step, and what it is made of."""

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from statistics import median

import numpy as np

from diagnose.batch import read_batch
from diagnose.consult import consult_on
from diagnose.consult.asking import questions_about
from diagnose.consult.gathering import Consultation
from diagnose.consult.networks import network_of_batch
from diagnose.evidence.gathering import gather
from diagnose.inference.explanation import explain
from diagnose.inference.question import expected_gains
from diagnose.inference.ranking import Ranking
from diagnose.knowledge import RuleBase
from diagnose.shipped import shipped

TODAY = date(2026, 11, 25)
SUSPECTS = 8
STEPS = ("its network", "its evidence", "posteriors, left out", "questions", "their worth")


@dataclass(frozen=True)
class Timed:
    """What one full query took, step by step [ms], and how many questions it weighed."""

    case: str
    steps_ms: tuple[float, ...]
    questions: int

    @property
    def ms(self) -> float:
        """The whole query."""
        return sum(self.steps_ms)


def consultations(rules: RuleBase, every: int) -> Iterator[Consultation]:
    """One case in so many, read."""
    for path in sorted(shipped("cases").glob("*/batch.yaml"))[::every]:
        yield consult_on(rules, read_batch(path, TODAY))


def full_query(rules: RuleBase, consultation: Consultation) -> Timed:
    """Answer everything about one batch that is in memory."""
    clock = [time.process_time()]

    def then() -> None:
        clock.append(time.process_time())

    network = network_of_batch(rules, consultation)
    then()
    evidence = gather(rules, consultation.known)
    then()
    ranking = explain(network, evidence).ranking
    then()
    questions = questions_about(rules, consultation.known, suspects(ranking))
    then()
    expected_gains(network, evidence, questions)
    then()
    steps = tuple(1e3 * (end - start) for start, end in pairwise(clock))
    return Timed(consultation.batch.name, steps, len(questions))


def suspects(ranking: Ranking) -> list[str]:
    """The likeliest causes, which the questions are about."""
    best = ranking.responsible[0].max(axis=0, initial=0.0)
    order = np.argsort(-best, kind="stable")[:SUSPECTS]
    return [ranking.structure.network.causes[int(i)] for i in order]


def quickest(rules: RuleBase, consultation: Consultation, rounds: int) -> Timed:
    """The quickest of so many full queries."""
    return min((full_query(rules, consultation) for _ in range(rounds)), key=lambda one: one.ms)


def query_table(timed: Sequence[Timed], target_ms: float) -> str:
    """The median, the slow end and the slowest of every step and of the whole."""
    lines = [f"full query, {len(timed)} cases{'median':>10}{'p90':>10}{'slowest':>10}"]
    rows = [(name, [one.steps_ms[step] for one in timed]) for step, name in enumerate(STEPS)]
    for name, took in [*rows, ("all of it", [one.ms for one in timed])]:
        figures = median(took), float(np.quantile(took, 0.9)), max(took)
        lines.append(f"{name:21}" + "".join(f"{ms:7.1f} ms" for ms in figures))
    asked = median(one.questions for one in timed)
    lines.append(f"wanted: median under {target_ms:.0f} ms; {asked:.0f} questions weighed (median)")
    return "\n".join(lines) + "\n"


def time_ms(job: Callable[[], object]) -> float:
    """How long a job keeps the processor [ms]: other programs may be running beside it."""
    start = time.process_time()
    job()
    return 1e3 * (time.process_time() - start)

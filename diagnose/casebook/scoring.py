"""Cases replayed against the rule base."""

import math
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from diagnose.answers import CaseScore, Diagnosis, ScoreAnswer
from diagnose.batch import read_batch
from diagnose.casebook.case import Case, Expect, read_cases
from diagnose.casebook.exam import hold_exam
from diagnose.casebook.mentions import refuse_retired
from diagnose.casebook.outcomes import NOTHING_NAMED, outcomes_of
from diagnose.casebook.perturbing import perturbed_firsts
from diagnose.casebook.watching import Watch, unwatched
from diagnose.consult import consult_on, diagnose
from diagnose.knowledge import RuleBase

LEAST_PROBABILITY = 1e-6


def score_cases(
    rules: RuleBase,
    folders: Sequence[Path],
    today: date,
    draws: int = 0,
    watch: Watch = unwatched,
) -> ScoreAnswer:
    """Replay every case below the folders; real accounts are put to the exam.

    Args:
        rules: the rule base.
        folders: where to look for cases.
        today: dates after this day are refused.
        draws: how often to redraw our guesses within their ranges.
        watch: what may show how far it is.

    Raises:
        UnusableInput: no case there, faults in the cases, or an id that is retired.
    """
    cases = [case for folder in folders for case in read_cases(folder)]
    refuse_retired(rules, cases)
    answers = [(case, replay(rules, case, today)) for case in watch(cases, "cases")]
    worked = [(case, answer) for case, answer in answers if case.card.exam is None]
    exam = [(case, answer) for case, answer in answers if case.card.exam is not None]
    scores = tuple(score_case(case, answer) for case, answer in worked)
    judged = [score for score in scores if score.wanted]
    places = [score.place or math.inf for score in judged]
    losses = [-math.log(max(score.probability, LEAST_PROBABILITY)) for score in judged]
    number = max(len(judged), 1)
    return ScoreAnswer(
        cases=scores,
        top_1=sum(place == 1 for place in places) / number,
        top_3=sum(place <= 3 for place in places) / number,
        mean_log_loss=sum(losses) / number,
        all_hold=all(score.holds for score in scores),
        exam=hold_exam(rules, exam) if exam else None,
        draws=draws,
        perturbed=perturbed_firsts(rules, cases, today, draws, watch),
    )


def replay(rules: RuleBase, case: Case, today: date) -> Diagnosis:
    """The diagnosis of a case."""
    batch = read_batch(case.folder / "batch.yaml", today)
    return diagnose(rules, consult_on(rules, batch))


def score_case(case: Case, diagnosis: Diagnosis) -> CaseScore:
    """What came of a case against what must."""
    expect = case.card.expect
    ranked = outcomes_of(diagnosis)
    place = next((n for n, (name, _) in enumerate(ranked, 1) if name in expect.first), None)
    broken = _broken(expect, diagnosis, ranked)
    return CaseScore(
        case=case.card.id,
        first=ranked[0][0] if ranked else NOTHING_NAMED,
        wanted=expect.first,
        place=place,
        probability=_probability(expect, ranked, place),
        verdict=diagnosis.verdict,
        holds=not broken,
        why="; ".join(broken),
    )


def _probability(expect: Expect, ranked: list[tuple[str, float]], place: int | None) -> float:
    """The chance of the wanted cause, nothing where it is not ranked; else that of the first."""
    if place is not None:
        return ranked[place - 1][1]
    return ranked[0][1] if ranked and not expect.first else 0.0


def _broken(expect: Expect, diagnosis: Diagnosis, ranked: list[tuple[str, float]]) -> list[str]:
    first = ranked[0][0] if ranked else ""
    chances = dict(ranked)
    broken = []
    if expect.first and first not in expect.first:
        broken.append(f"wanted {' or '.join(expect.first)} first, found {first}")
    if expect.expected_here and first != "expected here":
        broken.append(f"wanted the beer itself first, found {first}")
    for name in expect.quiet:
        if chances.get(name, 0.0) >= expect.quiet_below:
            broken.append(f"{name} must stay quiet, has {chances[name]:.0%}")
    if expect.verdict and diagnosis.verdict not in expect.verdict:
        broken.append(
            f"wanted the verdict {' or '.join(expect.verdict)}, found {diagnosis.verdict}"
        )
    steps = {step.id for step in diagnosis.next_}
    if expect.asks and not steps & set(expect.asks):
        broken.append(f"wanted to be asked {' or '.join(expect.asks)}")
    levels = {line.level for line in diagnosis.cautions}
    missing = [level for level in expect.cautions if level not in levels]
    return [*broken, *(f"wanted a caution of level {level}" for level in missing)]

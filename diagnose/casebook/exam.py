"""The exam: real accounts whose answer is known, scored with a plain lookup beside them."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from diagnose.answers import CalibrationBin, Diagnosis, ExamAnswer, ExamLine, FaultGroup
from diagnose.casebook.case import Case, Exam
from diagnose.casebook.outcomes import EXPECTED_HERE, outcomes_of
from diagnose.knowledge import RuleBase, paths_between

Answered = Sequence[tuple[Case, Diagnosis]]
LEAST_PROBABILITY = 1e-3
# Claims below the first edge are not worth a table row.
EDGES = (0.05, 0.2, 0.4, 0.6, 0.8, 1.0)


def hold_exam(rules: RuleBase, answered: Answered) -> ExamAnswer:
    """Score real accounts; those not marked as scored are listed and not counted."""
    lines = [_line(rules, case, answer) for case, answer in answered]
    counted = [
        line
        for line, (case, _) in zip(lines, answered, strict=True)
        if case.card.exam is not None and case.card.exam.scored
    ]
    faults = [line for line in counted if line.verdict == "fault"]
    losses = [-math.log(max(line.probability, LEAST_PROBABILITY)) for line in faults]
    return ExamAnswer(
        scored=len(counted),
        top_1=_share(line.right_first for line in counted),
        top_3=_share(line.right_in_three for line in counted),
        mean_log_loss=sum(losses) / max(len(losses), 1),
        brier=sum((1.0 - line.probability) ** 2 for line in faults) / max(len(faults), 1),
        lookup_top_1=_share(line.lookup_first for line in counted),
        lookup_top_3=_share(line.lookup_in_three for line in counted),
        calibration=_calibration(answered),
        lines=tuple(lines),
    )


def _share(rights: Iterable[bool]) -> float:
    every = list(rights)
    return sum(every) / max(len(every), 1)


def _line(rules: RuleBase, case: Case, diagnosis: Diagnosis) -> ExamLine:
    exam = case.card.exam
    if exam is None:
        raise ValueError(f"{case.card.id} has no exam")
    accepted = (*exam.truth, *exam.also)
    ranked = [name for name, _ in outcomes_of(diagnosis)]
    looked_up = lookup(rules, diagnosis)
    right = _rights(exam, diagnosis, ranked)
    plain = _rights_by_lookup(exam, looked_up)
    return ExamLine(
        case=case.card.id,
        verdict=exam.verdict,
        accepted=accepted,
        first=tuple(ranked[:3]),
        probability=max((_chance(group, accepted) for group in diagnosis.faults), default=0.0),
        right_first=right[0],
        right_in_three=right[1],
        lookup_first=plain[0],
        lookup_in_three=plain[1],
        why="" if right[0] else _why(exam, diagnosis, ranked),
    )


def _chance(group: FaultGroup, accepted: tuple[str, ...]) -> float:
    return sum(cause.responsible for cause in group.causes if cause.id in accepted)


def _rights(exam: Exam, diagnosis: Diagnosis, ranked: list[str]) -> tuple[bool, bool]:
    """Right first, and right among the first three."""
    accepted = {*exam.truth, *exam.also}
    first, three = bool(accepted & set(ranked[:1])), bool(accepted & set(ranked[:3]))
    if exam.verdict == "normal":
        expected = diagnosis.verdict == "expected" or ranked[:1] == [EXPECTED_HERE]
        return expected or first, expected or three or EXPECTED_HERE in ranked[:3]
    if exam.verdict == "ask_first":
        asks = diagnosis.verdict in ("open", "close") and bool(diagnosis.next_)
        return asks or first, asks or three
    if exam.verdict == "no_fault_found":
        accuses_nothing = diagnosis.verdict in ("open", "expected")
        return accuses_nothing, accuses_nothing
    return first, three


def _rights_by_lookup(exam: Exam, looked_up: list[str]) -> tuple[bool, bool]:
    """The same for a lookup, which knows neither normal beer nor asking first."""
    accepted = {*exam.truth, *exam.also}
    if exam.verdict == "no_fault_found":
        return not looked_up, not looked_up
    return bool(accepted & set(looked_up[:1])), bool(accepted & set(looked_up[:3]))


def lookup(rules: RuleBase, diagnosis: Diagnosis) -> list[str]:
    """The baseline: causes by how strongly they are listed under the reported words.

    No record, no circumstances, no base rates: what a printed table of faults can do.
    """
    words = {u.descriptor for u in diagnosis.understood if u.state == "reported"}
    scores: dict[str, float] = {}
    for cause in rules.causes:
        for word in words:
            for _, compound, _ in paths_between(rules, cause, word)[:1]:
                card = rules.compounds[compound]
                strength = card.made_by[cause].value * card.gives[word].value
                scores[cause] = scores.get(cause, 0.0) + strength
    return sorted(scores, key=lambda cause: (-scores[cause], cause))


def _why(exam: Exam, diagnosis: Diagnosis, ranked: list[str]) -> str:
    if not diagnosis.faults:
        return "no flavour word was understood"
    accepted = (*exam.truth, *exam.also)
    places = [ranked.index(name) + 1 for name in accepted if name in ranked]
    place = f"place {min(places)}" if places else "not among the first"
    return f"{diagnosis.verdict}; {ranked[0]} first, the answer at {place}"


def _calibration(answered: Answered) -> tuple[CalibrationBin, ...]:
    """Every claim made of a cause in a scored fault case, against whether it was right."""
    claims = [
        (cause.responsible, cause.id in (*case.card.exam.truth, *case.card.exam.also))
        for case, diagnosis in answered
        if case.card.exam is not None
        and case.card.exam.scored
        and case.card.exam.verdict == "fault"
        for group in diagnosis.faults
        for cause in group.causes
    ]
    bins = []
    for low, high in pairwise(EDGES):
        # What is claimed with certainty belongs in the last bin.
        top = high == EDGES[-1]
        inside = [one for one in claims if low <= one[0] and (one[0] < high or top)]
        number = max(len(inside), 1)
        bins.append(
            CalibrationBin(
                low=low,
                high=high,
                claims=len(inside),
                mean_claim=sum(claim for claim, _ in inside) / number,
                right=sum(right for _, right in inside) / number,
            )
        )
    return tuple(bins)

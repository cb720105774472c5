"""What to do next: the best questions, what would overturn the ranking, what is missing."""

from collections.abc import Container

import numpy as np

from diagnose.answers import NextStep
from diagnose.consult.answered import Answered
from diagnose.evidence.gathering import Known
from diagnose.inference.question import Gain
from diagnose.knowledge import RuleBase

SHOWN_STEPS = 5
NAMED_PLACE, CHECK_PLACE = 2, 3
# Less than this is not worth the asking. Judgement.
LEAST_BITS = 0.02
MOST_OVERTURNING = 2
LIKELY_ENOUGH = 0.02


def next_steps(
    rules: RuleBase, gains: list[Gain], named: Container[str] = ()
) -> tuple[NextStep, ...]:
    """The best few questions, entries and checks, by information per minute.

    Args:
        rules: the rule base.
        gains: all questions with what they tell, the worthiest first.
        named: the ids of those that the verdict names; they always have a place.
    """
    useful = [gain for gain in gains if gain.bits >= LEAST_BITS or gain.question.key in named]
    shown = useful
    checks = [gain for gain in useful if gain.question.kind == "check"]
    if checks:
        # A check takes longer than a question, and is worth more than its minutes say: nobody
        # remembers wrongly what stands in two glasses. The best one always has a place.
        shown = _placed(shown, max(checks, key=lambda gain: gain.bits), CHECK_PLACE)
    for gain in (gain for gain in useful if gain.question.key in named):
        shown = _placed(shown, gain, NAMED_PLACE)
    return tuple(_step(rules, gain) for gain in shown[:SHOWN_STEPS])


def _placed(gains: list[Gain], one: Gain, place: int) -> list[Gain]:
    """The gains with one of them in this place at the latest, counted from 1."""
    if any(gain is one for gain in gains[:place]):
        return gains
    others = [gain for gain in gains if gain is not one]
    return [*others[: place - 1], one, *others[place - 1 :]]


def _step(rules: RuleBase, gain: Gain) -> NextStep:
    question = gain.question
    return NextStep.model_validate(
        {
            "id": question.key,
            "kind": question.kind,
            "text": question_text(rules, gain),
            "gain_bits": gain.bits,
            "minutes": question.minutes,
            "answers": tuple(answer.label for answer in question.answers),
        }
    )


def question_text(rules: RuleBase, gain: Gain) -> str:
    """How a question is put to the brewer."""
    question = gain.question
    if question.word is not None:
        return rules.descriptors[question.word].asks
    if question.kind == "check":
        return rules.checks[question.key].asks
    if question.kind == "entry":
        return rules.measures[question.key].asks
    return rules.circumstances[question.key].asks


def overturned_by(rules: RuleBase, told: Answered, at: tuple[int, int]) -> tuple[str, ...]:
    """Single answers that would halve a cause's chance, or leave less of it.

    Half, that is, of what the question leaves it on average.
    """
    share, average = told.responsible[(slice(None), *at)], told.average[(slice(None), *at)]
    falls = (told.chance >= LIKELY_ENOUGH) & (share < 0.5 * average[told.question])
    found = [(float(share[k]), _answer(rules, told, k)) for k in np.flatnonzero(falls)]
    return tuple(text for _, text in sorted(found)[:MOST_OVERTURNING])


def _answer(rules: RuleBase, told: Answered, place: np.intp) -> str:
    gain = told.gains[told.question[place]]
    return answer_text(rules, gain, gain.outcomes[told.number[place]].answer.label)


def answer_text(rules: RuleBase, gain: Gain, label: str) -> str:
    """An answer as a statement: "bitterness: about 2"."""
    question = gain.question
    if question.word is not None:
        found = "is found too" if label.endswith(": yes") else "is not found"
        return f"{rules.descriptors[question.word].name} {found}"
    if question.kind == "check":
        return f"{rules.checks[question.key].name}: {label}"
    if question.kind == "entry":
        return f"{rules.measures[question.key].name}: {label}"
    return label


def missing_entries(rules: RuleBase, known: Known, suspects: list[str]) -> tuple[str, ...]:
    """Names of the measures that the suspects' evidence lacks, in the suspects' order."""
    wanted = (i.measure for suspect in suspects for i in rules.causes[suspect].indicators)
    absent = dict.fromkeys(key for key in wanted if key not in known.findings)
    return tuple(rules.measures[key].name for key in absent)

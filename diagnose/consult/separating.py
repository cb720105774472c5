"""What would best tell the first two causes of a group apart."""

import numpy as np

from diagnose.answers import Separating
from diagnose.consult.answered import Answered
from diagnose.consult.stepping import question_text
from diagnose.inference.network import Floats
from diagnose.inference.question import LEAST_MINUTES
from diagnose.inference.ranking import entropy_bits
from diagnose.knowledge import RuleBase

# Less than this about which of the two it is, is not worth the asking. Judgement.
LEAST_BITS = 0.05
# A question that tells this part of the most for its effort tells nearly as much. Judgement.
NEARLY_AS_MUCH = 0.5
_FLOOR = 1e-300


def separating_question(
    rules: RuleBase, told: Answered, group: int, pair: tuple[int, int]
) -> Separating | None:
    """The question to ask about which of two causes it is.

    Of those that tell nearly the most for their effort, the one that is worth most for the whole
    ranking: so it stands among the next steps in the same order.

    Args:
        rules: the rule base.
        told: all answers to all questions, the worthiest question first.
        group: the group of words.
        pair: indices of the two causes.

    Returns:
        The question as it is put to the brewer; None where none tells enough.
    """
    if not told.gains:
        return None
    bits, before = _bits_between(told, told.responsible[:, group, list(pair)])
    minutes = np.array([max(gain.question.minutes, LEAST_MINUTES) for gain in told.gains])
    worth = np.where(bits >= LEAST_BITS, bits / minutes, 0.0)
    if not worth.any():
        return None
    place = int(np.flatnonzero(worth >= NEARLY_AS_MUCH * worth.max())[0])
    return Separating(
        id=told.gains[place].question.key,
        text=question_text(rules, told.gains[place]),
        gain_bits=float(bits[place]),
        open_bits=float(before[place]),
    )


def separating_all(
    rules: RuleBase, told: Answered, pair: tuple[int, int] | None
) -> Separating | None:
    """As `separating_question`, in the group of words where the question tells most."""
    if pair is None:
        return None
    groups = range(told.responsible.shape[1])
    found = [separating_question(rules, told, group, pair) for group in groups]
    return max(filter(None, found), key=lambda one: one.gain_bits, default=None)


def _bits_between(told: Answered, after: Floats) -> tuple[Floats, Floats]:
    """Expected information about which of the two it is, if it is one, and what is open now.

    Args:
        told: all answers to all questions.
        after: chances of the two after each of k answers, (k, 2).

    Returns:
        Both for each of q questions, (q,) [bits].
    """
    joint = after * told.chance[:, None]
    either = joint.sum(axis=1)
    total = told.summed(joint)
    whole = np.maximum(total.sum(axis=1), _FLOOR)
    before = entropy_bits(total / whole[:, None])
    left = entropy_bits(joint / np.maximum(either, _FLOOR)[:, None])
    bits: Floats = before - told.summed(either * left) / whole
    return bits, before

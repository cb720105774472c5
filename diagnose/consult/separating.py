"""What would best tell the first two causes of a group apart."""

from collections.abc import Sequence

import numpy as np

from diagnose.answers import Separating
from diagnose.consult.stepping import question_text
from diagnose.inference.network import Floats
from diagnose.inference.question import LEAST_MINUTES, Gain
from diagnose.inference.ranking import entropy_bits
from diagnose.knowledge import RuleBase

# Less than this about which of the two it is, is not worth the asking. Judgement.
LEAST_BITS = 0.05


def separating_question(
    rules: RuleBase, gains: Sequence[Gain], group: int, pair: tuple[int, int]
) -> Separating | None:
    """The question that tells most for its effort about which of two causes it is.

    Args:
        rules: the rule base.
        gains: every question with what its answers lead to.
        group: the group of words.
        pair: indices of the two causes.

    Returns:
        The question as it is put to the brewer; None where none tells enough.
    """
    best, most = None, 0.0
    for gain in gains:
        told, before = _bits_between(gain, group, pair)
        worth = told / max(gain.question.minutes, LEAST_MINUTES)
        if told >= LEAST_BITS and worth > most:
            text = question_text(rules, gain)
            best, most = Separating(text=text, gain_bits=told, open_bits=before), worth
    return best


def _bits_between(gain: Gain, group: int, pair: tuple[int, int]) -> tuple[float, float]:
    """Expected information about which of the two it is, if it is one, and what is open now."""
    after: Floats = np.array([outcome.responsible[group, list(pair)] for outcome in gain.outcomes])
    joint = after * np.array([[outcome.chance] for outcome in gain.outcomes])
    either = joint.sum(axis=1)
    if joint.sum() <= 0.0:
        return 0.0, 0.0
    before = entropy_bits(joint.sum(axis=0) / joint.sum())
    left = entropy_bits(joint / np.where(either > 0.0, either, 1.0)[:, None])
    return float(before - (either / joint.sum()) @ left), float(before)

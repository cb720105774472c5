"""All answers to all questions side by side, for what is asked of each of them in turn."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from diagnose.inference.network import Floats
from diagnose.inference.question import Gain


@dataclass(frozen=True)
class Answered:
    """The answers (k) to the questions (q), in their order.

    `question` (k,) is the place of the question, `number` (k,) that of the answer among its
    own; `chance` (k,) is how likely the answer is, `responsible` (k, groups, causes) what it
    leads to and `average` (q, groups, causes) what its question leads to on average.
    """

    gains: Sequence[Gain]
    question: NDArray[np.intp]
    number: NDArray[np.intp]
    chance: Floats
    responsible: Floats
    average: Floats

    def summed(self, of_answers: Floats) -> Floats:
        """A figure (k, ...) of the answers added up for each question, (q, ...)."""
        return _summed(of_answers, self.number)


def answered(gains: Sequence[Gain], shape: tuple[int, int]) -> Answered:
    """The answers of every question side by side.

    Args:
        gains: every question with what its answers lead to.
        shape: how many groups and how many causes there are.
    """
    counts = [len(gain.outcomes) for gain in gains]
    number = np.array([place for count in counts for place in range(count)], dtype=np.intp)
    outcomes = [outcome for gain in gains for outcome in gain.outcomes]
    chance: Floats = np.array([outcome.chance for outcome in outcomes])
    responsible = np.array([outcome.responsible for outcome in outcomes]).reshape(
        len(outcomes), *shape
    )
    return Answered(
        gains=gains,
        question=np.repeat(np.arange(len(gains)), counts),
        number=number,
        chance=chance,
        responsible=responsible,
        average=_summed(chance[:, None, None] * responsible, number),
    )


def _summed(of_answers: Floats, number: NDArray[np.intp]) -> Floats:
    if not number.size:
        return of_answers
    added: Floats = np.add.reduceat(of_answers, np.flatnonzero(number == 0), axis=0)
    return added

"""What an answer would be worth: expected information about the ranking, in bits."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.network import Floats, Network
from diagnose.inference.ranking import Ranking, entropy_bits, rank
from diagnose.inference.scenarios import structure_of


@dataclass(frozen=True)
class Answer:
    """One possible answer: how common it is before anything is known, and what it would say."""

    label: str
    share: float
    piece: Piece


@dataclass(frozen=True)
class Question:
    """Something that could be asked, looked up or checked; `word` names a descriptor to judge."""

    kind: str
    key: str
    minutes: float
    answers: tuple[Answer, ...]
    word: str | None = None


@dataclass(frozen=True)
class Outcome:
    """What one answer would lead to: its chance, and every cause's responsibility after it.

    `responsible` has shape (groups, causes).
    """

    answer: Answer
    chance: float
    responsible: Floats


@dataclass(frozen=True)
class Gain:
    """A question, its expected information on the ranking, and what each answer leads to."""

    question: Question
    bits: float
    outcomes: tuple[Outcome, ...]


def expected_gains(
    network: Network, evidence: Evidence, questions: Sequence[Question]
) -> list[Gain]:
    """Expected information of every question, exact within the model, best per minute first.

    The answers' chances are their base shares reweighted by how well each fits what is known;
    the gain is the entropy of the mixture of rankings less the mean entropy after the answer
    (never negative). Faults in separate groups add.
    """
    touched = set(structure_of(network, evidence).compounds)
    gains: list[Gain] = []
    for questions_alike, words in _alike(network, touched, questions):
        gains += _gains_together(network, evidence, questions_alike, words)
    return sorted(gains, key=lambda gain: (-worth(gain), gain.question.key))


# Fetching a glass, a pen or the notebook costs this much whatever the question. Judgement.
LEAST_MINUTES = 3.0


def worth(gain: Gain) -> float:
    """Bits per minute of effort."""
    return gain.bits / max(gain.question.minutes, LEAST_MINUTES)


def _alike(
    network: Network, touched: set[int], questions: Sequence[Question]
) -> list[tuple[list[Question], tuple[str, ...]]]:
    """Questions that can share a solve: they touch the same further compounds and words.

    What one answer touches widens the solve for all that share it, so each set keeps to its own.
    """
    alike: dict[tuple[frozenset[int], str | None], list[Question]] = {}
    for question in questions:
        weighed = {network.compound_index[k] for a in question.answers for k in a.piece.present}
        alike.setdefault((frozenset(weighed - touched), question.word), []).append(question)
    return [(some, () if word is None else (word,)) for (_, word), some in alike.items()]


def _gains_together(
    network: Network, evidence: Evidence, questions: Sequence[Question], asked: tuple[str, ...]
) -> list[Gain]:
    answered = [evidence.with_piece(a.piece) for question in questions for a in question.answers]
    ranking = rank(network, [evidence, *answered], asked)
    gains, start = [], 1
    for question in questions:
        columns = slice(start, start + len(question.answers))
        start = columns.stop
        gains.append(_gain(ranking, columns, question))
    return gains


def _gain(ranking: Ranking, columns: slice, question: Question) -> Gain:
    fit = np.exp(ranking.log_evidence[columns] - ranking.log_evidence[0])
    chance: Floats = np.array([answer.share for answer in question.answers]) * fit
    chance = chance / chance.sum()
    outcomes = tuple(
        Outcome(answer, float(share), responsible)
        for answer, share, responsible in zip(
            question.answers, chance, ranking.responsible[columns], strict=True
        )
    )
    return Gain(question, _bits(ranking, columns, chance), outcomes)


def _bits(ranking: Ranking, columns: slice, chance: Floats) -> float:
    bits = 0.0
    for group in range(len(ranking.structure.groups)):
        after = ranking.shares[columns, group]
        bits += float(entropy_bits(chance @ after) - chance @ entropy_bits(after))
    return max(bits, 0.0)

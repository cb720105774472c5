"""What an answer would be worth: expected information about the ranking, in bits."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.bundles import Bundle, bundles_of
from diagnose.inference.mixing import Mixer
from diagnose.inference.network import Floats, Network
from diagnose.inference.ranking import Stories, entropy_bits, stories_told, told_of
from diagnose.inference.scenarios import Structure, scenarios_of, structure_of
from diagnose.inference.unnamed import unnamed_group, unnamed_outcomes


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
    structure = structure_of(network, evidence)
    known = scenarios_of(network, [evidence])
    mixer = Mixer(structure, known, every_cause=evidence.unnamed)
    near, far = _near_and_far(mixer, structure, questions)
    gains = _gains_together(mixer, evidence, near)
    for some in far:
        outside = frozenset().union(*(one.touches for one in some))
        wider = structure_of(network, evidence.with_piece(_touching(network, outside)))
        mixer = Mixer(wider, known, every_cause=evidence.unnamed)
        gains += _gains_together(mixer, evidence, some)
    return sorted(gains, key=lambda gain: (-worth(gain), gain.question.key))


# Fetching a glass, a pen or the notebook costs this much whatever the question. Judgement.
LEAST_MINUTES = 3.0


def worth(gain: Gain) -> float:
    """Bits per minute of effort."""
    return gain.bits / max(gain.question.minutes, LEAST_MINUTES)


@dataclass(frozen=True)
class _Posed:
    """A question with its answers as bundles."""

    question: Question
    answers: Sequence[Sequence[Bundle]]

    @property
    def touches(self) -> frozenset[int]:
        """The compounds that the answers weigh."""
        return frozenset(j for answer in self.answers for one in answer for j in one.present)


# Bundles that bring more compounds than this are solved over a structure that holds them.
MOST_OUTSIDE = 5


def _near_and_far(
    mixer: Mixer, structure: Structure, questions: Sequence[Question]
) -> tuple[list[_Posed], list[list[_Posed]]]:
    """The questions that can be mixed here, and the others by the compounds they touch."""
    near: list[_Posed] = []
    far: dict[frozenset[int], list[_Posed]] = {}
    for question in questions:
        answers = [bundles_of(structure, answer.piece) for answer in question.answers]
        posed = _Posed(question, answers)
        widest = max(mixer.widens_by(bundle) for bundles in answers for bundle in bundles)
        if widest <= MOST_OUTSIDE:
            near.append(posed)
        else:
            far.setdefault(posed.touches, []).append(posed)
    return near, list(far.values())


def _touching(network: Network, compounds: Iterable[int]) -> Piece:
    return Piece("asked", "asked", present={network.compounds[j]: 0.0 for j in compounds})


def _gains_together(mixer: Mixer, evidence: Evidence, some: Sequence[_Posed]) -> list[Gain]:
    for posed in some:
        for bundles in posed.answers:
            mixer.add(bundles)
    pieces = [answer.piece for posed in some for answer in posed.question.answers]
    stories, log_evidence = _after(mixer, evidence, pieces)
    gains, start = [], 1
    for posed in some:
        rows = slice(start, start + len(posed.answers))
        start = rows.stop
        fit = np.exp(log_evidence[rows] - log_evidence[0])
        gains.append(_gain(posed.question, stories.shares[rows], fit))
    return gains


def _after(mixer: Mixer, evidence: Evidence, pieces: Sequence[Piece]) -> tuple[Stories, Floats]:
    """The main explanations, and the log of the evidence, before any answer and after each."""
    structure, mixed = mixer.structure, mixer.solve()
    network = structure.network
    outcomes = mixed.responsible, mixed.expected_here, mixed.not_in_rule_base
    if evidence.unnamed:
        structure = unnamed_group(structure)
        outcomes = unnamed_outcomes(network, mixed.happened)
    told = told_of(network, [(), *([piece] for piece in pieces)])
    stories = stories_told(structure, outcomes, told * told_of(network, [evidence.pieces]))
    return stories, mixed.log_evidence + stories.log_fit


def _gain(question: Question, shares: Floats, fit: Floats) -> Gain:
    """The gain, from the main explanations after each answer and how well each answer fits."""
    chance: Floats = np.array([answer.share for answer in question.answers]) * fit
    chance = chance / chance.sum()
    mixture: Floats = np.tensordot(chance, shares, axes=1)
    bits = float(entropy_bits(mixture).sum() - chance @ entropy_bits(shares).sum(axis=1))
    outcomes = tuple(
        Outcome(answer, float(share), after)
        for answer, share, after in zip(question.answers, chance, shares[..., :-2], strict=True)
    )
    return Gain(question, max(bits, 0.0), outcomes)

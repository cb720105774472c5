"""Asking by gain against asking in a fixed order, over batches drawn from the rule base.

    python -m tests.inference.asking [BATCHES]

A beer is drawn from the model, and one of the causes truly behind its first two words is the one
to be found. Every answer is drawn from what is true of the beer. Asking stops when that cause is
first with more than half, or after ten questions, which then count as ten. All orders ask only
what bears on the suspects of the moment and see the same beers. The listed order is that of
the rule base; the practised one goes by what each question was worth, on average, at the start
of other batches.
"""

import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from statistics import fmean

import numpy as np

from diagnose.consult.asking import questions_about
from diagnose.evidence.gathering import Known
from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.network import Floats, Network
from diagnose.inference.question import Gain, Question, expected_gains, worth
from diagnose.inference.ranking import Ranking, rank
from diagnose.knowledge import RuleBase, load_rules
from diagnose.shipped import shipped
from tests.inference.networks import REPORTED_SURELY
from tests.inference.simulated import Beer, Random, draw_beer, some_beer

BATCHES, PRACTICE = 300, 60
MOST_QUESTIONS, ENOUGH = 10, 0.5
SUSPECTS, WORDS = 8, 2
NOTHING_TOLD = Known({}, {}, {}, ())
Chooser = Callable[[Network, Evidence, Sequence[Question]], Question]


@dataclass(frozen=True)
class Batch:
    """A beer, the cause to be found, and the words that are known at the start."""

    network: Network
    beer: Beer
    cause: int
    evidence: Evidence


@dataclass
class Tries:
    """How many questions each batch took in one order, and in how many its cause was found."""

    questions: list[int] = field(default_factory=list)
    found: int = 0


def draw_batch(rules: RuleBase, random: Random) -> Batch:
    """A batch in which a cause gave a word, and up to two such words."""
    while True:
        network = some_beer(rules, random)
        beer = draw_beer(random, network)
        words = [int(word) for word in random.permutation(np.flatnonzero(beer.said))[:WORDS]]
        behind = np.flatnonzero(beer.responsible(words)) if words else np.zeros(0)
        if behind.size:
            names = [network.descriptors[word] for word in words]
            pieces = (Piece("word", name, words={name: REPORTED_SURELY}) for name in names)
            return Batch(network, beer, int(random.choice(behind)), Evidence(tuple(pieces)))


def questions_needed(
    rules: RuleBase, batch: Batch, choose: Chooser, random: Random
) -> tuple[int, bool]:
    """How many questions it takes, at most ten, and whether the cause was found."""
    evidence, asked = batch.evidence, set[str]()
    for number in range(MOST_QUESTIONS + 1):
        ranking = rank(batch.network, [evidence])
        if _found(ranking, batch.cause):
            return number, True
        suspects = _suspects(ranking)
        questions = [q for q in questions_about(rules, NOTHING_TOLD, suspects) if fresh(q, asked)]
        if number == MOST_QUESTIONS or not questions:
            break
        question = choose(batch.network, evidence, _unheard(questions, evidence))
        asked.add(question.key)
        evidence = evidence.with_piece(answered(random, batch, question))
    return MOST_QUESTIONS, False


def fresh(question: Question, asked: set[str]) -> bool:
    """Whether the question was not asked yet."""
    return question.key not in asked


def _unheard(questions: Sequence[Question], evidence: Evidence) -> list[Question]:
    return [question for question in questions if question.word not in evidence.judged]


def _found(ranking: Ranking, cause: int) -> bool:
    best = ranking.responsible[0].max(axis=0)
    return int(best.argmax()) == cause and bool(best[cause] > ENOUGH)


def _suspects(ranking: Ranking) -> list[str]:
    best = ranking.responsible[0].max(axis=0)
    names = ranking.structure.network.causes
    return [names[int(i)] for i in np.argsort(-best, kind="stable")[:SUSPECTS]]


def answered(random: Random, batch: Batch, question: Question) -> Piece:
    """The piece of an answer drawn from what is true of the beer."""
    if question.word is not None:
        there = batch.beer.said[batch.network.descriptor_index[question.word]]
        yes, no = question.answers
        wrong_yes, _ = yes.piece.words[question.word]
        return (yes if there or random.random() < wrong_yes else no).piece
    fit = np.array([a.share * _likelihood(batch, a.piece) for a in question.answers])
    return question.answers[int(random.choice(len(fit), p=fit / fit.sum()))].piece


def _likelihood(batch: Batch, piece: Piece) -> float:
    network, beer = batch.network, batch.beer
    decibans = _true_weights(piece.happened, beer.acted, network.cause_index)
    decibans += _true_weights(piece.present, beer.stands, network.compound_index)
    decibans += piece.responsible.get(network.causes[batch.cause], 0.0)
    return float(10.0 ** (decibans / 10.0))


def _true_weights(weights: Mapping[str, float], true: Floats, place: Mapping[str, int]) -> float:
    return sum(weight for name, weight in weights.items() if true[place[name]])


def by_gain(network: Network, evidence: Evidence, questions: Sequence[Question]) -> Question:
    """The question of the greatest expected information."""
    return max(expected_gains(network, evidence, questions), key=lambda gain: gain.bits).question


def by_worth(network: Network, evidence: Evidence, questions: Sequence[Question]) -> Question:
    """The question of the greatest expected information a minute, as the program asks."""
    return max(expected_gains(network, evidence, questions), key=worth).question


def as_listed(network: Network, evidence: Evidence, questions: Sequence[Question]) -> Question:
    """The first that the rule base lists."""
    return questions[0]


def practised(rules: RuleBase, random: Random, batches: int) -> Chooser:
    """The question that was worth most at the start of other batches."""
    gains: dict[str, list[float]] = {}
    for _ in range(batches):
        batch = draw_batch(rules, random)
        for gain in _gains_at_the_start(rules, batch):
            gains.setdefault(gain.question.key, []).append(gain.bits)
    average = {key: sum(bits) / batches for key, bits in gains.items()}

    def choose(network: Network, evidence: Evidence, questions: Sequence[Question]) -> Question:
        return max(questions, key=lambda question: average.get(question.key, 0.0))

    return choose


def _gains_at_the_start(rules: RuleBase, batch: Batch) -> list[Gain]:
    suspects = _suspects(rank(batch.network, [batch.evidence]))
    questions = _unheard(questions_about(rules, NOTHING_TOLD, suspects), batch.evidence)
    return expected_gains(batch.network, batch.evidence, questions)


def race(
    rules: RuleBase, seed: int, batches: int, choosers: Mapping[str, Chooser]
) -> dict[str, Tries]:
    """Let every order find the cause of the same batches."""
    tries = {name: Tries() for name in choosers}
    for number in range(batches):
        batch = draw_batch(rules, np.random.default_rng((seed, number)))
        for name, choose in choosers.items():
            random = np.random.default_rng((seed, number, 1))
            questions, found = questions_needed(rules, batch, choose, random)
            tries[name].questions.append(questions)
            tries[name].found += found
    return tries


def table(tries: Mapping[str, Tries]) -> str:
    """The mean number of questions and the share of causes found, for each order."""
    lines = [f"{'asked':26}{'questions':>10}{'give or take':>14}{'found':>8}"]
    for name, one in tries.items():
        give_or_take = 2.0 * np.std(one.questions) / np.sqrt(len(one.questions))
        found = one.found / len(one.questions)
        lines.append(f"{name:26}{fmean(one.questions):10.2f}{give_or_take:14.2f}{found:8.0%}")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    rule_base = load_rules(shipped("rules"))
    orders: dict[str, Chooser] = {
        "by gain": by_gain,
        "by gain a minute": by_worth,
        "in the practised order": practised(rule_base, np.random.default_rng(1), PRACTICE),
        "in the listed order": as_listed,
    }
    sys.stdout.write(table(race(rule_base, 0, int((*sys.argv, BATCHES)[1]), orders)))

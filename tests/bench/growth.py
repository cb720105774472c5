"""How a full query grows with the number of causes, on made-up networks of equal width.

Compounds and words are as many in all of them, in sets that hang together; the causes are shared
out over the sets. A network whose plan is not exactly so wide is drawn again.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

import numpy as np

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference.explanation import explain
from diagnose.inference.network import Network
from diagnose.inference.question import Answer, Question, expected_gains
from diagnose.inference.scenarios import structure_of
from tests.bench.query import time_ms
from tests.inference.networks import Random, network_with

CAUSES = (50, 100, 200)
WIDTH = 6
SETS, COMPOUNDS_OF_A_SET, WORDS_OF_A_SET = 3, 9, 20
MOST_LINKS = 4
REPORTED, DENIED, LOGGED, ASKED = 4, 8, 10, 40
SAID = (0.05, 1.0)


@dataclass(frozen=True)
class Grown:
    """The median time [ms] of a full query with so many causes, on networks of one width."""

    causes: int
    ms: float


def network_of_sets(random: Random, causes: int) -> Network:
    """Causes linked to one to four compounds of one set, words to one or two of one set."""
    compounds, words = SETS * COMPOUNDS_OF_A_SET, SETS * WORDS_OF_A_SET
    strength, gives = np.zeros((causes, compounds)), np.zeros((compounds, words))
    for i in range(causes):
        linked = random.permutation(COMPOUNDS_OF_A_SET)[: random.integers(1, MOST_LINKS + 1)]
        strength[i, i % SETS * COMPOUNDS_OF_A_SET + linked] = random.uniform(0.1, 0.9, len(linked))
    for d in range(words):
        given = random.permutation(COMPOUNDS_OF_A_SET)[: random.integers(1, 3)]
        gives[d % SETS * COMPOUNDS_OF_A_SET + given, d] = random.uniform(0.3, 0.8, len(given))
    return network_with(random, strength, gives)


def evidence_on(random: Random, network: Network) -> Evidence:
    """Words reported and denied, and log findings, as many in every network."""
    words = [str(word) for word in random.permutation(network.descriptors)[: REPORTED + DENIED]]
    said = [SAID] * REPORTED + [ABSENT] * DENIED
    heard = [
        Piece("word", word, words={word: pair}) for word, pair in zip(words, said, strict=True)
    ]
    causes = [str(cause) for cause in random.permutation(network.causes)[:LOGGED]]
    weights = random.uniform(-10.0, 10.0, LOGGED)
    logged = [
        Piece("log", cause, happened={cause: float(weight)})
        for cause, weight in zip(causes, weights, strict=True)
    ]
    return Evidence((*heard, *logged))


def questions_on(random: Random, network: Network) -> list[Question]:
    """As many checks of a cause each."""
    questions = []
    for cause in random.permutation(network.causes)[:ASKED]:
        answers = tuple(
            Answer(str(weight), 0.5, Piece("check", str(cause), happened={str(cause): weight}))
            for weight in (6.0, -6.0)
        )
        questions.append(Question("check", str(cause), 5.0, answers))
    return questions


def query_ms(random: Random, causes: int) -> float:
    """How long a full query takes [ms] on a network of the width wanted, the quicker of two."""
    while True:
        network = network_of_sets(random, causes)
        evidence = evidence_on(random, network)
        if structure_of(network, evidence).plan.width == WIDTH:
            break
    questions = questions_on(random, network)

    def query() -> None:
        explain(network, evidence)
        expected_gains(network, evidence, questions)

    return min(time_ms(query), time_ms(query))


def grow(seed: int, networks: int, sizes: Sequence[int] = CAUSES) -> list[Grown]:
    """The median over so many networks, for each number of causes."""
    return [
        Grown(
            causes,
            median(query_ms(np.random.default_rng((seed, n)), causes) for n in range(networks)),
        )
        for causes in sizes
    ]


def growth_table(grown: Sequence[Grown]) -> str:
    """The times, and each against what growth in step with the causes would make of the first."""
    first = grown[0]
    lines = [f"growth at width {WIDTH}{'full query':>14}{'if linear':>12}"]
    for one in grown:
        linear_ms = first.ms * one.causes / first.causes
        lines.append(f"{one.causes:6} causes     {one.ms:11.1f} ms{linear_ms:9.1f} ms")
    return "\n".join(lines) + "\n"

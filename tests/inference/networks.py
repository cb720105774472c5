"""Random networks and random evidence, small enough to enumerate or as large as the real one."""

import numpy as np

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference.network import Floats, Network

Random = np.random.Generator
MOST_BITS = 14
# A word that was said and cannot be a slip.
REPORTED_SURELY = (0.0, 1.0)


def numbered(kind: str, count: int) -> tuple[str, ...]:
    """The names kind_0, kind_1 …"""
    return tuple(f"{kind}_{index}" for index in range(count))


def network_with(random: Random, strength: Floats, gives: Floats) -> Network:
    """A network with these links and random leaks and base rates."""
    (n, m), d = strength.shape, gives.shape[1]
    return Network(
        causes=numbered("cause", n),
        compounds=numbered("compound", m),
        descriptors=numbered("word", d),
        base_rate=random.uniform(0.005, 0.3, n),
        strength=strength,
        expected=random.uniform(0.0, 0.2, m) * (random.random(m) < 0.5),
        unexplained=random.uniform(0.001, 0.05, m),
        gives=gives,
        wrong_word=random.uniform(0.002, 0.05, d),
        expected_said=np.ones(d),
    )


def small_network(random: Random) -> Network:
    """Three or four causes and compounds and five words, few enough links to enumerate."""
    n, m, d = int(random.integers(3, 5)), int(random.integers(3, 5)), 5
    strength = random.uniform(0.05, 0.95, (n, m)) * (random.random((n, m)) < 0.6)
    linked = random.permutation(np.argwhere(strength > 0))
    for i, j in linked[MOST_BITS - n - 2 * m :]:
        strength[i, j] = 0.0
    gives = random.uniform(0.05, 0.95, (m, d)) * (random.random((m, d)) < 0.3)
    return network_with(random, strength, gives)


def realistic_network(random: Random) -> Network:
    """As many causes, compounds and words as the rule base has, linked in clusters."""
    n, m, d = 36, 33, 64
    strength = random.uniform(0.1, 0.95, (n, m)) * _clustered(random, (n, m), own=0.25, far=0.05)
    gives = random.uniform(0.3, 0.8, (m, d)) * _clustered(random, (m, d), own=0.25, far=0.0)
    confused = random.uniform(0.03, 0.1, (m, d)) * (random.random((m, d)) < 0.04)
    return network_with(random, strength, np.maximum(gives, confused))


def _clustered(random: Random, shape: tuple[int, int], own: float, far: float) -> Floats:
    """Ones and zeros, denser where row and column belong to the same of eight clusters."""
    rows, columns = (random.integers(0, 8, size) for size in shape)
    chance = np.where(rows[:, None] == columns[None, :], own, far)
    chance[np.arange(shape[0]), random.integers(0, shape[1], shape[0])] = 1.0
    return (random.random(shape) < chance).astype(float)


def words_piece(random: Random, network: Network, counts: tuple[int, int, int]) -> Piece:
    """A tasting: so many words reported, so many absent, so many said with some doubt."""
    reported, absent, soft = counts
    picked = [str(word) for word in random.permutation(network.descriptors)[: sum(counts)]]
    said = [REPORTED_SURELY] * reported + [ABSENT] * absent
    said += [(float(off), float(on)) for off, on in random.uniform(0.05, 1.0, (soft, 2))]
    return Piece("tasting", "tasting", words=dict(zip(picked, said, strict=True)))


def log_pieces(random: Random, network: Network, decibans: float = 15.0) -> tuple[Piece, ...]:
    """Log findings on three causes, fault findings on two, and a finding on two compounds."""
    happened = _weighed(random, network.causes, 3, decibans)
    responsible = _weighed(random, network.causes, 2, decibans)
    return (
        Piece("log", "log", happened=happened),
        Piece("fault", "fault", responsible=responsible),
        Piece("both", "both", happened=_weighed(random, network.causes, 1, decibans)),
        Piece("compound", "compound", present=_weighed(random, network.compounds, 2, decibans)),
    )


def random_evidence(
    random: Random, network: Network, counts: tuple[int, int, int], decibans: float = 15.0
) -> Evidence:
    """A tasting with findings of every kind, and one cause that cannot be."""
    pieces = (words_piece(random, network, counts), *log_pieces(random, network, decibans))
    return Evidence(pieces, frozenset({str(random.choice(network.causes))}))


def _weighed(
    random: Random, names: tuple[str, ...], count: int, decibans: float
) -> dict[str, float]:
    picked = random.permutation(names)[:count]
    return {str(name): float(random.uniform(-decibans, decibans)) for name in picked}

"""Every piece of evidence weighed for every cause, by leaving it out and solving again."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.evidence.pieces import Evidence
from diagnose.inference.network import Floats, Network
from diagnose.inference.ranking import Ranking, rank

_FLOOR = 1e-15


@dataclass(frozen=True)
class Explanation:
    """The ranking, and what each piece moves.

    `keys` are the evidence's pieces as (kind, key); `decibans` (pieces, groups, causes) is how
    much the odds of responsibility rise because of the piece; `together` (groups, causes) the
    same for all pieces but the reported words at once. The ranking's columns are: everything,
    each piece left out, the words alone, then what else was asked about.
    """

    ranking: Ranking
    keys: tuple[tuple[str, str], ...]
    decibans: Floats
    together: Floats

    @property
    def left_out(self) -> Floats:
        """Responsibilities with each piece left out, shape (pieces, groups, causes)."""
        return self.ranking.responsible[1 : 1 + len(self.keys)]

    @property
    def also(self) -> Floats:
        """Responsibilities for what else was asked about, shape (asked, groups, causes)."""
        return self.ranking.responsible[2 + len(self.keys) :]


def explain(network: Network, evidence: Evidence, also: Sequence[Evidence] = ()) -> Explanation:
    """Solve once with everything, once without each piece and once on the words alone.

    Args:
        network: the network.
        evidence: what is known.
        also: further sets of evidence to rank in the same solve.
    """
    words = Evidence(
        tuple(piece for piece in evidence.pieces if piece.kind == "word"), evidence.impossible
    )
    without = [evidence.without(piece.key, piece.kind) for piece in evidence.pieces]
    ranking = rank(network, [evidence, *without, words, *also])
    log_odds = _decibans(ranking.responsible[: 2 + len(without)])
    return Explanation(
        ranking=ranking,
        keys=tuple((piece.kind, piece.key) for piece in evidence.pieces),
        decibans=log_odds[0] - log_odds[1:-1],
        together=log_odds[0] - log_odds[-1],
    )


def _decibans(probability: Floats) -> Floats:
    clipped = np.clip(probability, _FLOOR, 1.0 - _FLOOR)
    return 10.0 * np.log10(clipped / (1.0 - clipped))

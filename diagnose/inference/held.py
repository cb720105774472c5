"""Which pieces each of many sets of evidence holds, so that what they share is laid out once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.evidence.pieces import Piece
from diagnose.inference.network import Floats


@dataclass(frozen=True)
class Held:
    """The distinct pieces of several sets; `times` (c, p) is how often set c holds piece p."""

    pieces: tuple[Piece, ...]
    times: Floats

    def added(self, weights: Sequence[Mapping[str, float]], index: Mapping[str, int]) -> Floats:
        """The sum of the weights for every set.

        Args:
            weights: what each piece weighs, by name [decibans].
            index: the place of every name.

        Returns:
            (c, names) [decibans].
        """
        laid_out = np.zeros((len(weights), len(index)))
        for row, named in enumerate(weights):
            for name, weight in named.items():
                laid_out[row, index[name]] = weight
        added: Floats = self.times @ laid_out
        return added


def held_by(sets: Sequence[Sequence[Piece]]) -> Held:
    """What the sets hold; a piece is the same piece only where it is the same object."""
    places: dict[int, int] = {}
    pieces: list[Piece] = []
    pairs = []
    for row, some in enumerate(sets):
        for piece in some:
            place = places.setdefault(id(piece), len(pieces))
            if place == len(pieces):
                pieces.append(piece)
            pairs.append((row, place))
    times = np.zeros((len(sets), len(pieces)))
    if pairs:
        np.add.at(times, tuple(np.array(pairs).T), 1.0)
    return Held(tuple(pieces), times)

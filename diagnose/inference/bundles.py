"""What an answer multiplies: weights over the structure there is, and compounds outside it.

An answer may speak of compounds that nothing touched before. Taking them into the sweep would
widen it; but given the causes, such a compound is absent with a chance that is a product over
them, and a word stays unsaid with a chance that is a product over its compounds. So an answer
is a sum of bundles, each a product of plain weights and of untouched compounds' ratios.

Source: derived here from the noisy-OR (Pearl 1988, section 4.3.2, from memory).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from diagnose.evidence.pieces import Piece
from diagnose.inference.scenarios import Structure


@dataclass(frozen=True)
class Bundle:
    """A product of weights, all by index.

    `on` multiplies the weights of causes having acted, `present` those of compounds standing,
    touched or not, `said` the likelihoods of reported words.
    """

    factor: float = 1.0
    on: Mapping[int, float] = field(default_factory=dict)
    present: Mapping[int, float] = field(default_factory=dict)
    said: Mapping[int, tuple[float, float]] = field(default_factory=dict)

    def times(self, other: "Bundle") -> "Bundle":
        """Both at once."""
        said = dict(self.said)
        for word, (off, on) in other.said.items():
            before = said.get(word, (1.0, 1.0))
            said[word] = (before[0] * off, before[1] * on)
        return Bundle(
            self.factor * other.factor,
            _product(self.on, other.on),
            _product(self.present, other.present),
            said,
        )


def _product(one: Mapping[int, float], other: Mapping[int, float]) -> Mapping[int, float]:
    if not one or not other:
        return one or other
    return {key: one.get(key, 1.0) * other.get(key, 1.0) for key in {*one, *other}}


NOTHING_MORE = Bundle()


def bundles_of(structure: Structure, piece: Piece) -> list[Bundle]:
    """The sum of bundles that a piece multiplies what is known by."""
    network = structure.network
    bundles = [
        Bundle(
            on={network.cause_index[cause]: _ratio(db) for cause, db in piece.happened.items()},
            present={network.compound_index[c]: _ratio(db) for c, db in piece.present.items()},
        )
    ]
    for word, likelihoods in piece.words.items():
        heard = _heard(structure, network.descriptor_index[word], likelihoods)
        bundles = [one.times(other) for one in bundles for other in heard]
    return bundles


def _heard(structure: Structure, word: int, likelihoods: tuple[float, float]) -> Sequence[Bundle]:
    """A word heard or denied; one that is no variable is there unless every link fails."""
    off, on = likelihoods
    if word in structure.words:
        return [Bundle(said={word: likelihoods})]
    if word in structure.absent:
        return [Bundle(off)]
    gives = structure.network.gives[:, word]
    unsaid = (off - on) * (1.0 - float(structure.network.wrong_word[word]))
    silent = {int(j): 1.0 - float(gives[j]) for j in np.flatnonzero(gives)}
    without = Bundle(unsaid, present=silent)
    return [without] if on == 0.0 else [Bundle(on), without]


def _ratio(decibans: float) -> float:
    return float(10.0 ** (decibans / 10.0))

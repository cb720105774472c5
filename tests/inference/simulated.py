"""Beers drawn from the model itself: what acted, what came of it, and what a taster said."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference.groups import compounds_behind
from diagnose.inference.network import Floats, Network, network_of
from diagnose.knowledge import RuleBase
from tests.inference.networks import REPORTED_SURELY

Random = np.random.Generator
Truths = NDArray[np.bool_]
DECIBANS_PER_NAT = 10.0 / np.log(10.0)


def some_beer(rules: RuleBase, random: Random) -> Network:
    """The rule base in a beer of a random yeast family and style, one in eight not known."""
    yeast, style = random.choice(sorted(rules.yeasts)), random.choice(sorted(rules.styles))
    known = random.random(2) > 1 / 8
    return network_of(rules, str(yeast) if known[0] else None, str(style) if known[1] else None)


@dataclass(frozen=True)
class Beer:
    """One beer with all that went on in it.

    Shapes, with n causes, m compounds and d descriptors: `acted` (n,); `caused` (n, m) the links
    that fired; `expected` (m,) whether yeast or style brought a compound, `stands` (m,) whether
    it is noticeable; `gave` (m, d) which compound gave which word; `said` (d,) the words.
    """

    acted: Truths
    caused: Truths
    expected: Truths
    stands: Truths
    gave: Truths
    said: Truths

    def speaks(self, words: list[int]) -> Truths:
        """The compounds that gave any of the words, shape (m,)."""
        spoke: Truths = self.gave[:, words].any(axis=1)
        return spoke

    def responsible(self, words: list[int]) -> Truths:
        """The causes with a link that fired into a compound which gave a word, shape (n,)."""
        behind: Truths = (self.caused & self.speaks(words)).any(axis=1)
        return behind

    def expected_here(self, words: list[int]) -> bool:
        """Whether yeast or style brought a compound that gave one of the words."""
        return bool((self.expected & self.speaks(words)).any())


def draw_beer(random: Random, network: Network) -> Beer:
    """A beer of the network."""
    acted = random.random(len(network.causes)) < network.base_rate
    caused = acted[:, None] & (random.random(network.strength.shape) < network.strength)
    expected = random.random(len(network.compounds)) < network.expected
    unexplained = random.random(len(network.compounds)) < network.unexplained
    stands = caused.any(axis=0) | expected | unexplained
    gave = stands[:, None] & (random.random(network.gives.shape) < network.gives)
    wrong = random.random(len(network.descriptors)) < network.wrong_word
    return Beer(acted, caused, expected, stands, gave, gave.any(axis=0) | wrong)


def sheet_about(random: Random, network: Network, near: int, far: int) -> list[int]:
    """Words to judge, chosen before anything is tasted.

    One word at random, so many of those that share a compound with it, so many of the rest.
    """
    first = int(random.integers(len(network.descriptors)))
    behind = list(compounds_behind(network, (network.descriptors[first],)))
    related = np.flatnonzero((network.gives[behind] > 0.0).any(axis=0))
    close = [int(word) for word in random.permutation(related) if word != first][:near]
    others = set(range(len(network.descriptors))) - {first, *close}
    return [first, *close, *(int(word) for word in random.permutation(sorted(others))[:far])]


def tasted(network: Network, beer: Beer, sheet: list[int]) -> tuple[Piece, ...]:
    """A piece for each word of the sheet, reported or absent as it is."""
    pieces = []
    for word in sheet:
        name, said = network.descriptors[word], REPORTED_SURELY if beer.said[word] else ABSENT
        pieces.append(Piece("word", name, words={name: said}))
    return tuple(pieces)


def looked_up(random: Random, network: Network, beer: Beer, share: float, spread: float) -> Piece:
    """Findings on a share of the causes, each as strong as it says.

    A weight of evidence that is normal with this spread [nats], and its mean half the square of
    it above 0 where the cause acted and as far below where not, is its own log likelihood ratio.
    """
    looked_at = np.flatnonzero(random.random(len(network.causes)) < share)
    means = np.where(beer.acted[looked_at], 0.5, -0.5) * spread**2
    weights: Floats = random.normal(means, spread) * DECIBANS_PER_NAT
    names = (network.causes[int(i)] for i in looked_at)
    return Piece("log", "log", happened=dict(zip(names, map(float, weights), strict=True)))


@dataclass(frozen=True)
class Tasting:
    """A beer, the places of the words reported of it, and the evidence that came of it."""

    beer: Beer
    reported: list[int]
    evidence: Evidence


def draw_tasting(random: Random, network: Network, words: tuple[int, int]) -> Tasting:
    """A beer in which the taster found at least one word of the sheet.

    Args:
        random: where the draws come from.
        network: the model.
        words: how many related and how many unrelated words stand on the sheet beside the first.
    """
    while True:
        sheet = sheet_about(random, network, *words)
        beer = draw_beer(random, network)
        reported = [word for word in sheet if beer.said[word]]
        if reported:
            log = looked_up(random, network, beer, share=0.2, spread=2.0)
            return Tasting(beer, reported, Evidence((*tasted(network, beer, sheet), log)))

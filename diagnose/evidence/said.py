"""Flavour words as evidence: how surely each was meant, in which senses, and how loudly said."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnose.evidence.palates import (
    HeardBy,
    Palate,
    denied_by,
    keenest,
    palate_of,
)
from diagnose.evidence.pieces import ABSENT, Piece
from diagnose.flavour import Heard
from diagnose.knowledge import RuleBase


@dataclass(frozen=True)
class SaidWord:
    """How a reported word was said.

    `senses` are the shares of the descriptors it may mean, summing to 1; `expected_said` is how
    readily a taster complains so of what the beer is meant to have, against a fault. `palate` is
    how keen whoever said it is on some compounds.
    """

    senses: Mapping[str, float]
    expected_said: float
    palate: Palate = field(default_factory=dict)


def word_pieces(rules: RuleBase, heard: tuple[Heard, ...]) -> list[Piece]:
    """One piece for each descriptor that was heard, reported or absent.

    A word said twice counts once, at its strongest. How sure a faint word is, and how
    sure the reading of a phrase, soften it. What is denied is denied in every sense of the word.
    A taster of a known palate denies on their own account, whatever others say.
    """
    pieces: dict[str, Piece] = {}
    denials: dict[str, dict[str, Palate]] = {}
    for one in heard:
        if one.descriptor in rules.lexicon.words.vague:
            continue
        likelihoods = ABSENT if one.state == "absent" else word_likelihoods(rules, one)
        for word in _senses_denied(one, heard) or (one.descriptor,):
            palate = palate_of(rules, one)
            if isinstance(one, HeardBy) and likelihoods == ABSENT and _knows(rules, palate, word):
                denials.setdefault(word, {})[one.who] = palate
                continue
            kept = pieces.get(word)
            if kept is None or likelihoods[0] < kept.words[word][0]:
                pieces[word] = Piece("word", word, words={word: likelihoods})
    for word, palates in denials.items():
        pieces[word] = denied_by(rules, word, pieces.get(word), palates)
    return list(pieces.values())


def _knows(rules: RuleBase, palate: Palate, word: str) -> bool:
    """Whether the taster is known for a compound that gives the word."""
    return any(word in rules.compounds[name].gives for name in palate if name in rules.compounds)


def _senses_denied(one: Heard, heard: tuple[Heard, ...]) -> tuple[str, ...]:
    """Every sense of a word that was said to be absent, but for those reported by another word."""
    if one.state != "absent":
        return ()
    reported = {other.descriptor for other in heard if other.state == "reported"}
    others = (other.id for other in one.alternatives if other.id not in reported)
    return (one.descriptor, *others)


def said_words(rules: RuleBase, heard: tuple[Heard, ...]) -> dict[str, SaidWord]:
    """How each reported descriptor was said.

    A word of several meanings ("sour") tells that one of them is there, so it stands for all
    of them by their shares. A descriptor also reported by a plain word of its own stands alone.
    """
    said: dict[str, SaidWord] = {}
    palates: dict[str, list[Palate]] = {}
    for one in heard:
        if one.state == "reported":
            scores = {one.descriptor: _first_share(one)}
            scores.update((other.id, other.score) for other in one.alternatives)
            plain = one.descriptor in said and len(said[one.descriptor].senses) == 1
            senses = {one.descriptor: 1.0} if plain else scores
            strength = getattr(rules.lexicon.words.intensity, one.intensity or "clear")
            told = palates.setdefault(one.descriptor, [])
            told.append(palate_of(rules, one))
            palate = keenest(told)
            said[one.descriptor] = SaidWord(senses, strength.expected_said.value, palate)
    return said


def _first_share(heard: Heard) -> float:
    return 1.0 - math.fsum(other.score for other in heard.alternatives)


def word_likelihoods(rules: RuleBase, heard: Heard) -> tuple[float, float]:
    """(if not there, if there) for a reported word."""
    strengths = rules.lexicon.words.intensity
    strength = getattr(strengths, heard.intensity or "clear")
    there, not_there = strength.said_if_there.value, strength.said_if_not.value
    # A doubtful reading of the phrase mixes in the chance that something else was meant; which
    # of its senses a word was said in is told by `said_words`.
    certainty = heard.certainty / _first_share(heard)
    return 1.0 - certainty * (1.0 - not_there), 1.0 - certainty * (1.0 - there)

"""How often a cause that acted makes a compound noticeable at this brewer's.

Only batches in which the cause is judged to have acted can tell. Nearly all of them were judged
because something was tasted, and a cause that went unnoticed was never judged; so of those in
which any of the cause's words was told, only how the words are divided counts, and a cause with
one compound learns nothing from them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from diagnose.history.brews import Brew
from diagnose.history.learning_beta import Floats, Spread, after_likelihood, points, spread_of
from diagnose.history.learning_facts import CONFIRMED_FROM, Judged, Taught
from diagnose.history.learning_telling import Tellings


@dataclass(frozen=True)
class StrengthMoved:
    """One link before and after: in how many of the judged batches the compound was told."""

    cause: str
    compound: str
    before: Spread
    after: Spread
    told: tuple[str, ...]
    judged: tuple[Judged, ...]


class _Link(NamedTuple):
    """What is expected of the words of a link's compound, and of all words of its cause.

    `own` and `own_by_others`: chance that the compound's words are told by the compound once it
    is noticeable, and by anything else; `any` and `any_by_others` the same of all the words.
    """

    words: frozenset[str]
    all_words: frozenset[str]
    own: float
    own_by_others: float
    any: float
    any_by_others: float


def learn_strengths(
    tellings: Tellings, taught: Taught, judged: Sequence[Judged]
) -> tuple[StrengthMoved, ...]:
    """Every link that judged batches say something about, by cause and compound."""
    brews = {one.key: one for one in taught.brews}
    by_cause: dict[str, list[Judged]] = {}
    for one in judged:
        known = one.cause in tellings.rules.causes and brews[one.batch].tastings
        if one.acted >= CONFIRMED_FROM and known:
            by_cause.setdefault(one.cause, []).append(one)
    found = []
    for cause in sorted(by_cause):
        for compound, card in sorted(tellings.rules.compounds.items()):
            before = spread_of(card.made_by[cause]) if cause in card.made_by else None
            if before is not None:
                link = _link(tellings, cause, compound)
                found.append(_moved((cause, compound), before, link, by_cause[cause], brews))
    return tuple(found)


def _moved(
    named: tuple[str, str],
    before: Spread,
    link: _Link,
    judged: Sequence[Judged],
    brews: dict[str, Brew],
) -> StrengthMoved:
    log_likelihood = np.zeros_like(points())
    told = []
    for one in judged:
        reported = brews[one.batch].reported
        seen = bool(link.words & reported), bool(link.all_words & reported)
        told += [one.batch] if seen[0] else []
        ratio = _likelihood(link, seen, points())
        ratio /= _likelihood(link, seen, np.array([before.mean]))
        log_likelihood += np.log(one.acted * ratio + 1.0 - one.acted)
    after = after_likelihood(before, log_likelihood)
    return StrengthMoved(*named, before, after, tuple(told), tuple(judged))


def _likelihood(link: _Link, seen: tuple[bool, bool], strength: Floats) -> Floats:
    """How likely it is to hear this of a batch in which the cause acted, at each strength (k,)."""
    silent: Floats = (1.0 - strength * link.any) * (1.0 - link.any_by_others)
    if not seen[1]:
        return silent
    own: Floats = 1.0 - (1.0 - strength * link.own) * (1.0 - link.own_by_others)
    heard = own if seen[0] else 1.0 - own - silent
    # Something had to be told for the batch to be judged.
    return heard / (1.0 - silent)


def _link(tellings: Tellings, cause: str, compound: str) -> _Link:
    network = tellings.network
    at = network.compound_index[compound]
    strength = network.strength[network.cause_index[cause]].copy()
    made = [network.compounds[index] for index in np.nonzero(strength)[0]]
    words = tellings.words_of(compound)
    all_words = words.union(*(tellings.words_of(one) for one in made))
    strength[at] = 0.0
    present = 1.0 - (1.0 - tellings.present(cause)) * (1.0 - strength)
    chances = []
    for some in (words, all_words):
        gives = tellings.gives_any(some)
        wrong = network.wrong_word[[network.descriptor_index[word] for word in sorted(some)]]
        others = 1.0 - float(np.prod(1.0 - present * gives) * np.prod(1.0 - wrong))
        chances += [float(gives[at]), others]
    return _Link(words, all_words, *chances)

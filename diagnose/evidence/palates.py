"""How keen a taster is: what a word told or denied by one who notices less, or more, is worth.

A taster who is as keen as x ordinary ones misses what is there as often as all x of them at once:
with the chance that one misses it, to the power of x.
"""

import math
from collections.abc import Iterable, Mapping

from diagnose.evidence.pieces import ABSENT, Piece
from diagnose.flavour import Heard
from diagnose.knowledge import RuleBase, fold

# Nobody is taken for less than a tenth of an ordinary taster, nor for more than ten. Judgement.
DULLEST, KEENEST = 0.1, 10.0
_SUREST = 1.0 - 1e-9
Palate = Mapping[str, float]
ORDINARY: Palate = {}


class HeardBy(Heard):
    """One flavour read in the note of a taster of whom it is known what they notice."""

    who: str


def keenness(noticed: float, by_people: float) -> float:
    """How many ordinary tasters one is worth who notices a compound with this chance.

    Args:
        noticed: the taster's chance of naming it where it is there, 0 to 1.
        by_people: that of people in general.
    """
    own, general = (math.log1p(-min(chance, _SUREST)) for chance in (noticed, by_people))
    return min(max(own / general, DULLEST), KEENEST) if general else 1.0


def heard_by(rules: RuleBase, heard: Iterable[Heard], who: str | None) -> tuple[Heard, ...]:
    """What was heard, with the taster's name where something is known of their palate."""
    name = fold(who or "")
    if not any(taster == name for taster, _ in rules.notices):
        return tuple(heard)
    return tuple(HeardBy.model_validate({**dict(one), "who": name}) for one in heard)


def palate_of(rules: RuleBase, one: Heard) -> Palate:
    """How keen the taster is on each compound they are known for."""
    if not isinstance(one, HeardBy):
        return ORDINARY
    return {c: keen for (taster, c), keen in rules.notices.items() if taster == one.who}


def keenest(palates: Iterable[Palate]) -> Palate:
    """Of several who told the same word, the keenest on each compound."""
    palates = list(palates)
    named = {compound for palate in palates for compound in palate}
    return {c: max(palate.get(c, 1.0) for palate in palates) for c in sorted(named)}


def denied_by(
    rules: RuleBase, word: str, said: Piece | None, palates: Mapping[str, Palate]
) -> Piece:
    """The piece of a word that known tasters denied, each with a palate of their own.

    Args:
        rules: the rule base.
        word: the descriptor.
        said: what others say of the word, where they do; it stands.
        palates: those of the tasters who denied it, by name.
    """
    present = {}
    for name, card in rules.compounds.items():
        if word in card.gives:
            keen = sum(palate.get(name, 1.0) for palate in palates.values())
            # The plain denial already counts one ordinary taster.
            more = keen if said else keen - 1.0
            missed = 1.0 - min(card.gives[word].value, _SUREST)
            present[name] = more * 10.0 * math.log10(missed)
    words = said.words if said else {word: ABSENT}
    return Piece("word", word, present=present, words=words)

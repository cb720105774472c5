"""Whether several tasters found the same thing."""

from dataclasses import dataclass
from itertools import combinations

from diagnose.batch import NotLogged
from diagnose.evidence.facts import Facts
from diagnose.evidence.finding import Finding
from diagnose.flavour import understand

_PATH = ("tastings",)


@dataclass(frozen=True)
class _Palate:
    """What one taster reported: descriptors, and the compounds that could stand behind them."""

    descriptors: frozenset[str]
    compounds: frozenset[str]


def tasters_agree(facts: Facts) -> Finding | None:
    """One taster only, or several who name the same thing or do not.

    Words without a name may be another taster's, so one name beside them leaves it open; so do
    several tasters none of whom found anything.
    """
    said = _words_by_name(facts)
    nameless = any(
        isinstance(tasting.words, str) and isinstance(tasting.who, NotLogged)
        for tasting in facts.record.tastings
    )
    if not said or (len(said) == 1 and nameless):
        return None
    if len(said) == 1:
        return facts.word("tasters_agree", "one_only", f"tasted by {said.popitem()[0]}", _PATH)
    palates = {who: _palate(facts, words) for who, words in said.items()}
    for (one, first), (other, second) in combinations(palates.items(), 2):
        if _found_the_same(first, second):
            says = f"{one} and {other} found the same thing"
            return facts.word("tasters_agree", "several_agree", says, _PATH)
    if not any(palate.descriptors for palate in palates.values()):
        return None
    says = f"{len(palates)} tasters, and no two found the same thing"
    return facts.word("tasters_agree", "several_disagree", says, _PATH)


def _words_by_name(facts: Facts) -> dict[str, list[str]]:
    """The notes of every taster who is named."""
    said: dict[str, list[str]] = {}
    for tasting in facts.record.tastings:
        if isinstance(tasting.who, str) and isinstance(tasting.words, str):
            said.setdefault(" ".join(tasting.who.split()).title(), []).append(tasting.words)
    return said


def _palate(facts: Facts, notes: list[str]) -> _Palate:
    heard = [one for note in notes for one in understand(note, facts.lexicon).heard]
    descriptors = frozenset(one.descriptor for one in heard if one.state == "reported")
    named = descriptors - set(facts.lexicon.words.vague)
    compounds = frozenset(key for key, card in facts.compounds.items() if named & set(card.gives))
    return _Palate(descriptors, compounds)


def _found_the_same(one: _Palate, other: _Palate) -> bool:
    return bool(one.compounds & other.compounds)

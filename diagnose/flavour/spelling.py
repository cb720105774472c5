"""One spelling per word: British and American forms, plurals, and slips of the finger."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

_SHORTEST = 5  # a shorter word is one slip away from too many others
_LONG = 7  # shorter words are often one letter away from an everyday one
_TWO_SLIPS = 9  # from this length on, two slips still leave most of the word


@dataclass(frozen=True)
class Spelling:
    """The words known to a lexicon and how other spellings lead to them.

    `known` are all words of all phrases, `flavours` those that name one alone, `targets` those a
    slip may stand for.
    """

    spellings: Mapping[str, str]
    known: frozenset[str]
    flavours: frozenset[str]
    targets: tuple[str, ...]
    never_a_slip: frozenset[str]
    endings: tuple[str, ...]


def canonical(word: str, spellings: Mapping[str, str]) -> str:
    """A folded word in the one spelling and number that phrases are kept in."""
    word = spellings.get(word, word)
    single = _singular(word)
    return spellings.get(single, single)


def _singular(word: str) -> str:
    if len(word) <= 3 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    return word[:-2] if word.endswith(("ches", "shes", "sses", "xes")) else word[:-1]


def without_ending(word: str, spelling: Spelling) -> str | None:
    """The flavour word that `word` is a made-up form of ("bananaish"), if any."""
    for ending in spelling.endings:
        stem = word.removesuffix(ending)
        if stem != word and len(stem) > 2 and stem in spelling.flavours:
            return stem
    return None


def nearest_word(word: str, spelling: Spelling) -> str | None:
    """The flavour word that `word` is most likely a slip of, if one is near enough."""
    if len(word) < _SHORTEST or word in spelling.never_a_slip or not word.isalpha():
        return None
    # Most notes have no slip in them, and then need not wait for this import.
    from rapidfuzz import process  # noqa: PLC0415
    from rapidfuzz.distance import OSA, JaroWinkler  # noqa: PLC0415

    allowed = 2 if len(word) >= _TWO_SLIPS else 1
    near = process.extract(
        word, spelling.targets, scorer=OSA.distance, score_cutoff=allowed, limit=8
    )
    alike = [one for one in near if _could_be_a_slip(word, one[0])]
    ranked = sorted(alike, key=lambda one: (one[1], -JaroWinkler.similarity(word, one[0]), one[0]))
    return canonical(ranked[0][0], spelling.spellings) if ranked else None


def _could_be_a_slip(word: str, target: str) -> bool:
    """The first letter is seldom mistyped, and a short word with one letter changed is another."""
    if word[0] != target[0]:
        return False
    exchanged = len(word) == len(target) and sorted(word) != sorted(target)
    return len(word) >= _LONG or not exchanged


def correction_targets(
    flavours: Iterable[tuple[str, ...]], spellings: Mapping[str, str]
) -> tuple[str, ...]:
    """Every word a slip may be led back to: those that name a flavour, alone or as a long word.

    Small words are left out: a slip in one costs nothing, while half the dictionary is one letter
    away from one of them.
    """
    named = {key[0] for key in flavours if len(key) == 1}
    parts = {word for key in flavours for word in key if len(word) >= _LONG}
    words = {word for word in named | parts if len(word) >= _SHORTEST and word.isalpha()}
    variants = {typed for typed, written in spellings.items() if written in words}
    return tuple(sorted(words | variants))

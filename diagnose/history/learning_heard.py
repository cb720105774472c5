"""Which tastings say something: a complaint that was not understood is no clean beer."""

from collections.abc import Iterable
from dataclasses import replace

from diagnose.flavour import Lexicon, understand
from diagnose.history.brews import Brew, Tasting
from diagnose.history.learning_facts import Taught


def as_heard(lexicon: Lexicon, taught: Taught) -> Taught:
    """The batches without the tastings from which nothing can be learned."""
    return replace(taught, brews=tuple(heard_in(lexicon, taught.brews)))


def heard_in(lexicon: Lexicon, brews: Iterable[Brew]) -> list[Brew]:
    """Batches without the tastings that say neither what is wrong nor that nothing is.

    That is one without words, and one that names no flavour and yet complains: in a word that
    only says that something is wrong, or in words that were not understood.
    """
    known: dict[str, bool] = {}
    kept = []
    for brew in brews:
        told = tuple(one for one in brew.tastings if _says(lexicon, one, known))
        # A batch of which only doubtful words are left, beside a flavour, keeps the flavour.
        kept.append(replace(brew, tastings=told if _whole(brew.tastings, told) else ()))
    return kept


def _whole(tastings: tuple[Tasting, ...], told: tuple[Tasting, ...]) -> bool:
    """Whether what is left may stand for the batch: all was heard, or a flavour was."""
    spoken = [one for one in tastings if one.words.strip() or one.reported or one.absent]
    return len(told) == len(spoken) or any(one.reported for one in told)


def _says(lexicon: Lexicon, one: Tasting, known: dict[str, bool]) -> bool:
    if one.reported:
        return True
    if one.words not in known:
        known[one.words] = _is_clear(lexicon, one.words)
    return known[one.words] if one.words.strip() else bool(one.absent)


def _is_clear(lexicon: Lexicon, words: str) -> bool:
    """Whether words that name no flavour say that there is none."""
    understood = understand(words, lexicon)
    vague = lexicon.words.vague
    complains = any(one.descriptor in vague and one.state == "reported" for one in understood.heard)
    return not complains and not understood.not_understood

"""Comparisons in a tasting note: "not as sour as last time", "less bitter than I wanted".

Weaker than another beer is there, faintly; weaker than a wish is not there. The words of a
comparison are put as plain strength or denial, which the rest of the reading understands.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from diagnose.flavour.lexicon import Lexicon
from diagnose.flavour.meaning import Meaning, Role
from diagnose.flavour.piece import Piece, clauses, typed
from diagnose.flavour.tokens import Token

_FAINT = Meaning(Role.INTENSITY, "faint")
_DENIED = Meaning(Role.NEGATION, "not_this")
_READ_PAST = Meaning(Role.FILLER)
_PARTS = frozenset({Role.BOTH, Role.EITHER, Role.NEGATION, Role.INTENSITY, Role.UNSURE})
_NOT_SO = "not so"
_SHORTEST_STEM = 3


@dataclass(frozen=True)
class _Clause:
    """The pieces between two stops, with their words folded, and the lexicon they are read by."""

    pieces: Sequence[Piece]
    said: Sequence[str]
    lexicon: Lexicon

    def first(self, role: Role, start: int) -> int | None:
        """The first piece of a role from `start` on."""
        return next((at for at in range(start, len(self.said)) if self.role(at) is role), None)

    def role(self, at: int) -> Role:
        """The part that a piece plays."""
        return self.pieces[at].role

    def is_read(self, at: int) -> bool:
        """Whether a piece may be read past: no word that nothing covers is."""
        wish = self.said[at] in self.lexicon.words.comparisons.a_wish
        return wish or self.role(at) is not Role.NOT_UNDERSTOOD


@dataclass(frozen=True)
class _Comparison:
    """One comparison: its denial, its opening word, and "than" or "as" with what follows.

    `way` is "less", "more" or "as", as the opening word has it.
    """

    way: str
    denial: int | None
    opening: int
    mark: int
    reference: tuple[int, ...]
    other_flavour: bool


def settle_comparisons(
    pieces: Sequence[Piece], tokens: Sequence[Token], lexicon: Lexicon
) -> list[Piece]:
    """The pieces with every comparison put as a strength or a denial of its flavour."""
    settled: list[Piece] = []
    for start, end in clauses(pieces):
        here = [_plain_form(pieces, at, tokens, lexicon) for at in range(start, end)]
        said = [_folded(piece, tokens) for piece in here]
        for found in list(_comparisons(_Clause(here, said, lexicon))):
            for at, meaning in _meanings(found, said, lexicon).items():
                here[at] = replace(here[at], meaning=meaning)
        settled += here
    return settled


def _folded(piece: Piece, tokens: Sequence[Token]) -> str:
    return " ".join(tokens[i].folded for i in piece.at)


def _plain_form(
    pieces: Sequence[Piece], at: int, tokens: Sequence[Token], lexicon: Lexicon
) -> Piece:
    """ "Sweeter", before "than", as the flavour "sweet"."""
    piece = pieces[at]
    if at + 1 == len(pieces) or typed(pieces[at + 1], tokens).casefold() != "than":
        return piece
    for form in _positive_forms(_folded(piece, tokens)):
        meaning = lexicon.meanings.get((form,))
        if meaning is not None and meaning.role is Role.DESCRIPTOR:
            return replace(piece, meaning=meaning)
    return piece


def _positive_forms(word: str) -> tuple[str, ...]:
    """What "sweeter", "fruitier", "thinner" and "staler" may be the comparative of."""
    stem = word.removesuffix("er")
    if stem == word or len(stem) < _SHORTEST_STEM:
        return ()
    fuller = f"{stem[:-1]}y" if stem.endswith("i") else f"{stem}e"
    return (stem, fuller, stem[:-1]) if stem[-1] == stem[-2] else (stem, fuller)


def _comparisons(clause: _Clause) -> Iterator[_Comparison]:
    start = 0
    while start < len(clause.said):
        found = _comparison(clause, start)
        if found is not None:
            yield found
            start = found.mark
        start += 1


def _comparison(clause: _Clause, opening: int) -> _Comparison | None:
    way = _way(clause, opening)
    flavour = clause.first(Role.DESCRIPTOR, opening)
    if not way or flavour is None:
        return None
    mark_word = "as" if way == "as" else "than"
    later = range(flavour + 1, len(clause.said))
    mark = next((at for at in later if clause.said[at] == mark_word), None)
    if mark is None:
        return None
    after = range(mark + 1, len(clause.said))
    other = mark + 1 in after and clause.role(mark + 1) is Role.DESCRIPTOR
    end = next((at for at in after if clause.role(at) in _PARTS), len(clause.said))
    reference = () if other else tuple(at for at in range(mark + 1, end) if clause.is_read(at))
    return _Comparison(way, _denial(clause, opening), opening, mark, reference, other)


def _denial(clause: _Clause, opening: int) -> int | None:
    """The word of denial up to the opening word, with no flavour between them."""
    for at in range(opening, -1, -1):
        if clause.role(at) is Role.NEGATION:
            return at
        if clause.role(at) is Role.DESCRIPTOR and at < opening:
            return None
    return None


def _way(clause: _Clause, at: int) -> str:
    """How the word at a place opens a comparison; empty where it opens none."""
    said, words = clause.said[at], clause.lexicon.words.comparisons
    if said in words.weaker:
        return "less"
    if said in words.stronger or said == "no more":
        return "more"
    if said in ("as", _NOT_SO):
        return "as"
    is_comparative = clause.role(at) is Role.DESCRIPTOR and said.endswith("er")
    follows = at + 1 < len(clause.said) and clause.said[at + 1] == "than"
    return "more" if is_comparative and follows else ""


def _meanings(found: _Comparison, said: Sequence[str], lexicon: Lexicon) -> dict[int, Meaning]:
    """What the pieces of a comparison come to mean, by their places."""
    wishes = lexicon.words.comparisons.a_wish
    wished = any(word in wishes for at in found.reference for word in said[at].split())
    denied = found.denial is not None or said[found.opening] == _NOT_SO
    weaker = denied if found.way == "as" else found.way == "less" and not denied
    if found.other_flavour and not weaker:
        return {}
    meanings = dict.fromkeys(found.reference, _READ_PAST)
    if found.denial is not None:
        stays = found.way == "more" and wished
        meanings[found.denial] = _DENIED if stays else _READ_PAST
    if weaker:
        meanings[found.opening] = _DENIED if wished else _FAINT
    if found.other_flavour and denied:
        meanings[found.mark] = _DENIED
    return meanings

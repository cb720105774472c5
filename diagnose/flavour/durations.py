"""Lengths of time in a tasting note: "after 3 weeks", "two months later"."""

from collections.abc import Sequence

from diagnose.flavour.lexicon import Lexicon
from diagnose.flavour.meaning import Meaning, Role
from diagnose.flavour.piece import Piece, joined
from diagnose.flavour.spelling import canonical
from diagnose.flavour.tokens import Gap, Token

_SINCE_THEN = frozenset({"after", "within"})
_BEFORE_IT = _SINCE_THEN | {"in", "about", "around", "for", "roughly", "nearly"}
_BEHIND_IT = frozenset({"later", "old"})
_BETWEEN = frozenset({"to", "or"})


def read_durations(
    pieces: Sequence[Piece], tokens: Sequence[Token], lexicon: Lexicon
) -> list[Piece]:
    """Join the words of each length of time.

    "After 3 weeks" says when the fault was first noticed; any other length of time is a note.
    """
    said = [_word(piece, tokens, lexicon) for piece in pieces]
    done: list[Piece] = []
    at = 0
    while at < len(pieces):
        start, end = _extent(pieces, said, at=at, lexicon=lexicon)
        if start == end:
            done.append(pieces[at])
            at += 1
            continue
        del done[len(done) - (at - start) :]
        value = _first_noticed(said[start:end], lexicon)
        done.append(joined(pieces[start:end], Meaning(Role.DURATION, value), 1.0))
        at = end
    return done


def _extent(
    pieces: Sequence[Piece], said: Sequence[str], *, at: int, lexicon: Lexicon
) -> tuple[int, int]:
    """The pieces of a length of time whose number stands at `at`; empty if there is none."""
    unit = at + 1
    if _days(said[at], lexicon.words.numbers) is None or not _follows(pieces, unit):
        return at, at
    if said[unit] not in lexicon.words.spans:
        return at, at
    start, end = at, unit + 1
    while start and pieces[start].gap is Gap.NONE and _introduces(said[start - 1], lexicon):
        start -= 1
    while _follows(pieces, end) and said[end] in _BEHIND_IT:
        end += 1
    return start, end


def _follows(pieces: Sequence[Piece], at: int) -> bool:
    return at < len(pieces) and pieces[at].gap is Gap.NONE


def _introduces(word: str, lexicon: Lexicon) -> bool:
    number = _days(word, lexicon.words.numbers) is not None
    return number or word in _BEFORE_IT or word in _BETWEEN or word in lexicon.glue


def _first_noticed(said: Sequence[str], lexicon: Lexicon) -> str:
    words = lexicon.words
    if not (_SINCE_THEN & set(said) or said[-1] in _BEHIND_IT):
        return ""
    numbers = [number for word in said if (number := _days(word, words.numbers)) is not None]
    unit = next(words.spans[word] for word in said if word in words.spans)
    early = numbers[-1] * unit <= words.first_weeks_end.value
    return "first_noticed=first_weeks" if early else "first_noticed=after_a_month"


def _days(word: str, numbers: dict[str, float]) -> float | None:
    text = word.replace(",", ".")
    if text.replace(".", "", 1).isdecimal():
        return float(text)
    return numbers.get(word)


def _word(piece: Piece, tokens: Sequence[Token], lexicon: Lexicon) -> str:
    """The one word of a piece, or nothing if it is a longer phrase."""
    if len(piece.at) > 1:
        return ""
    return canonical(tokens[piece.at[0]].folded, lexicon.spelling.spellings)

"""Words to pieces: the longest known phrase at each place, after spelling is put right."""

from collections.abc import Sequence
from dataclasses import dataclass

from diagnose.flavour.lexicon import Lexicon
from diagnose.flavour.meaning import Meaning, Role
from diagnose.flavour.piece import Piece
from diagnose.flavour.spelling import canonical, nearest_word, without_ending
from diagnose.flavour.tokens import Gap, Token


@dataclass(frozen=True)
class Word:
    """A token in the lexicon's spelling; `misspelt` if it took a guess to get there."""

    known_as: str
    gap: Gap
    misspelt: bool = False


def read_phrases(tokens: Sequence[Token], lexicon: Lexicon) -> list[Piece]:
    """Every word in exactly one piece; what no phrase covers is a piece not understood."""
    words = [_known_word(token, lexicon) for token in tokens]
    pieces: list[Piece] = []
    at = 0
    while at < len(words):
        piece = _longest_phrase(words, at, lexicon)
        pieces.append(piece)
        at = piece.at[-1] + 1
    return pieces


def _known_word(token: Token, lexicon: Lexicon) -> Word:
    spelling = lexicon.spelling
    word = canonical(token.folded, spelling.spellings)
    if word in spelling.known or word in spelling.never_a_slip:
        return Word(word, token.gap)
    stem = without_ending(word, spelling)
    if stem:
        return Word(stem, token.gap)
    brand = _brand_within(word, lexicon)
    near = brand or nearest_word(word, spelling)
    return Word(near, token.gap, misspelt=True) if near else Word(word, token.gap)


def _brand_within(word: str, lexicon: Lexicon) -> str | None:
    """A household name inside a longer word: it must not be shown, so it must be read."""
    return next((brand for brand in lexicon.brand_words if brand in word), None)


def _longest_phrase(words: Sequence[Word], at: int, lexicon: Lexicon) -> Piece:
    if words[at].known_as in lexicon.glue:
        return Piece((at,), Meaning(Role.FILLER), words[at].gap)
    run = _run(words, at, lexicon)
    found = _first_known(words, run, lexicon)
    alone = _first_known(words, run[:1], lexicon)
    if alone and found and alone.role is Role.NEGATION and found.role is Role.DESCRIPTOR:
        after = _first_known(words, run[1:], lexicon)
        if after and after.role is Role.DESCRIPTOR and after.at[-1] > found.at[-1]:
            return alone  # "no foam bananas" denies foam bananas, it does not report "no foam"
    return found or Piece((at,), Meaning(Role.NOT_UNDERSTOOD), words[at].gap)


def _first_known(words: Sequence[Word], run: list[int], lexicon: Lexicon) -> Piece | None:
    """The longest phrase that starts where `run` does."""
    for size in range(len(run), 0, -1):
        for key in _spellings_of([words[i].known_as for i in run[:size]]):
            meaning = lexicon.meanings.get(key)
            if meaning is not None:
                return _piece(words, run[:size], meaning=meaning, lexicon=lexicon)
    return None


def _run(words: Sequence[Word], at: int, lexicon: Lexicon) -> list[int]:
    """Positions a phrase that starts at `at` could cover: articles skipped, gaps not crossed."""
    run = [at]
    for i in range(at + 1, len(words)):
        if words[i].gap > Gap.NONE or len(run) > lexicon.longest:
            break
        if words[i].known_as not in lexicon.glue:
            run.append(i)
    return run


def _spellings_of(parts: list[str]) -> list[tuple[str, ...]]:
    """A phrase as typed and, for two words, written as one ("card board")."""
    whole = tuple(parts)
    return [whole, ("".join(parts),)] if len(parts) == 2 else [whole]


def _piece(words: Sequence[Word], run: list[int], *, meaning: Meaning, lexicon: Lexicon) -> Piece:
    misspelt = any(words[i].misspelt for i in run)
    certainty = lexicon.words.certainty.misspelt.value if misspelt else 1.0
    at = tuple(range(run[0], run[-1] + 1))
    return Piece(at, meaning, words[run[0]].gap, certainty, misspelt)

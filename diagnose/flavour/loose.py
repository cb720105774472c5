"""Second look at the pieces: phrases whose words stand apart, and words that lean on others."""

from collections.abc import Sequence
from dataclasses import dataclass

from diagnose.flavour.lexicon import Lexicon
from diagnose.flavour.meaning import Key, Role
from diagnose.flavour.piece import Piece, clauses, joined
from diagnose.flavour.spelling import canonical
from diagnose.flavour.tokens import Gap, Token

_ROOM = 2  # further apart, words that make a phrase mostly do so by chance


@dataclass(frozen=True)
class Typed:
    """The words of a note and the lexicon they are read with."""

    tokens: Sequence[Token]
    lexicon: Lexicon

    def key(self, piece: Piece) -> Key:
        """The words of a piece as phrases are looked up."""
        spellings = self.lexicon.spelling.spellings
        words = [canonical(self.tokens[i].folded, spellings) for i in piece.at]
        return tuple(word for word in words if word not in self.lexicon.glue) or tuple(words)


def look_again(pieces: Sequence[Piece], tokens: Sequence[Token], lexicon: Lexicon) -> list[Piece]:
    """Pieces with scattered phrases gathered and hanging words taken in by their neighbour."""
    typed = Typed(tokens, lexicon)
    gathered: list[Piece] = []
    for start, end in clauses(pieces):
        gathered += _gather(list(pieces[start:end]), typed)
    return _become(_lean(_take_in(gathered, typed), typed), typed)


def _gather(clause: list[Piece], typed: Typed) -> list[Piece]:
    """Join words of one clause that together make a known phrase ("a house on fire")."""
    unread = [piece for piece in clause if piece.role is Role.NOT_UNDERSTOOD]
    loose = {typed.key(piece)[0]: piece for piece in unread}
    key = _fitting(loose, typed.lexicon) if len(loose) > 1 else None
    if key is None:
        return clause
    parts = [loose[word] for word in key]
    lexicon = typed.lexicon
    whole = joined(parts, lexicon.meanings[key], lexicon.words.certainty.loose.value)
    rest = [piece for piece in clause if piece not in parts]
    return sorted([*rest, whole], key=lambda piece: piece.at)


def _fitting(loose: dict[str, Piece], lexicon: Lexicon) -> Key | None:
    """The longest phrase all of whose words are there, and near one another."""
    keys = {key for word in loose for key in lexicon.keys_with.get(word, ())}
    fitting = [
        key
        for key in keys
        if set(key) <= loose.keys() and len(set(key)) == len(key) and _near(key, loose)
    ]
    return min(fitting, key=lambda key: (-len(key), key), default=None)


def _near(key: Key, loose: dict[str, Piece]) -> bool:
    places = [loose[word].at[0] for word in key]
    return max(places) - min(places) < len(key) + _ROOM


def _take_in(pieces: list[Piece], typed: Typed) -> list[Piece]:
    """Give a word not understood to a neighbour whose other phrases use it ("soggy cardboard")."""
    done: list[Piece] = []
    for piece in pieces:
        last = done[-1] if done and piece.gap is Gap.NONE else None
        if last and _belongs(last, piece, typed):
            done[-1] = joined([last, piece], last.meaning, last.certainty)
        elif last and _belongs(piece, last, typed):
            done[-1] = joined([last, piece], piece.meaning, piece.certainty)
        else:
            done.append(piece)
    return done


def _belongs(flavour: Piece, word: Piece, typed: Typed) -> bool:
    if flavour.role is not Role.DESCRIPTOR or word.role is not Role.NOT_UNDERSTOOD:
        return False
    return typed.key(word)[0] in typed.lexicon.words_of[flavour.meaning.senses[0]]


def _lean(pieces: list[Piece], typed: Typed) -> list[Piece]:
    """Join an adjective that names a fault only when alone ("old cheese") to the next flavour."""
    done: list[Piece] = []
    for piece in pieces:
        last = done[-1] if done and piece.gap is Gap.NONE else None
        if last and _leans(last, piece, typed):
            done[-1] = joined([last, piece], piece.meaning, piece.certainty)
        else:
            done.append(piece)
    return done


def _become(pieces: list[Piece], typed: Typed) -> list[Piece]:
    """Read past "gone" where the flavour follows at once: "gone flat" is a flat beer."""
    followed = [after.role is Role.DESCRIPTOR and after.gap is Gap.NONE for after in pieces[1:]]
    return [
        piece.as_role(Role.FILLER) if at_once and _becomes(piece, typed) else piece
        for piece, at_once in zip(pieces, (*followed, False), strict=False)
    ]


def _becomes(piece: Piece, typed: Typed) -> bool:
    return " ".join(typed.key(piece)) in typed.lexicon.words.becomes


def _leans(last: Piece, piece: Piece, typed: Typed) -> bool:
    both = last.role is Role.DESCRIPTOR and piece.role is Role.DESCRIPTOR
    return both and typed.key(last) in typed.lexicon.leans

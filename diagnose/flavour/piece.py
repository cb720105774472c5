"""A run of typed words that means one thing."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from diagnose.flavour.meaning import Meaning, Role
from diagnose.flavour.tokens import Gap, Token


@dataclass(frozen=True)
class Piece:
    """Some words of a sentence, what they mean together and how surely they were read so.

    `at` are the positions of the words; `gap` is what stands before the first of them.
    """

    at: tuple[int, ...]
    meaning: Meaning
    gap: Gap
    certainty: float = 1.0
    misspelt: bool = False

    @property
    def role(self) -> Role:
        """The part it plays."""
        return self.meaning.role

    def as_role(self, role: Role) -> "Piece":
        """The same words in another part."""
        return replace(self, meaning=Meaning(role))


def typed(piece: Piece, tokens: Sequence[Token]) -> str:
    """The words of a piece as they were typed."""
    return " ".join(tokens[i].typed for i in piece.at)


def joined(pieces: Sequence[Piece], meaning: Meaning, certainty: float) -> Piece:
    """Several pieces as one with a new meaning."""
    at = tuple(sorted(i for piece in pieces for i in piece.at))
    first = min(pieces, key=lambda piece: piece.at)
    misspelt = any(piece.misspelt for piece in pieces)
    return Piece(at, meaning, first.gap, certainty, misspelt)


def clauses(pieces: Sequence[Piece]) -> Iterator[tuple[int, int]]:
    """Half-open ranges of pieces between commas, full stops and words of turning."""
    start = 0
    for i, piece in enumerate(pieces):
        if i > start and (piece.gap >= Gap.COMMA or piece.role is Role.TURN):
            yield start, i
            start = i
    if pieces:
        yield start, len(pieces)

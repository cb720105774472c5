"""What is known about one batch, in the only forms the network takes in: pieces of evidence."""

from collections.abc import Mapping
from dataclasses import dataclass, field

ABSENT = (1.0, 0.0)
UNNAMED = "unnamed"


@dataclass(frozen=True)
class Piece:
    """One piece of evidence; everything it says enters or leaves together.

    `happened` weighs a cause as such (the log shows it); `responsible` weighs only the
    branch in which the cause is behind the fault (when the fault was noticed, in which
    bottles); both by cause id, in decibans. `expected` weighs, in decibans, the branch in
    which yeast or style bring the flavour. `present` weighs compounds, in decibans.
    `words` gives for a descriptor the likelihoods (if not there, if there).
    """

    kind: str
    key: str
    happened: Mapping[str, float] = field(default_factory=dict)
    responsible: Mapping[str, float] = field(default_factory=dict)
    expected: float = 0.0
    present: Mapping[str, float] = field(default_factory=dict)
    words: Mapping[str, tuple[float, float]] = field(default_factory=dict)

    @property
    def reported(self) -> tuple[str, ...]:
        """Descriptors this piece speaks for."""
        return tuple(word for word, (off, on) in self.words.items() if on > off)


@dataclass(frozen=True)
class Evidence:
    """All pieces of evidence about one batch, and the causes that cannot be."""

    pieces: tuple[Piece, ...] = ()
    impossible: frozenset[str] = frozenset()

    @property
    def reported(self) -> tuple[str, ...]:
        """Every reported descriptor, in the order given."""
        return tuple(dict.fromkeys(word for piece in self.pieces for word in piece.reported))

    @property
    def unnamed(self) -> bool:
        """Whether something is wrong that nobody could put a flavour word to."""
        return not self.reported and any(piece.kind == UNNAMED for piece in self.pieces)

    @property
    def judged(self) -> tuple[str, ...]:
        """Every descriptor that was judged, reported or absent."""
        return tuple(dict.fromkeys(word for piece in self.pieces for word in piece.words))

    def with_piece(self, piece: Piece) -> "Evidence":
        """The same evidence and one more piece."""
        return Evidence((*self.pieces, piece), self.impossible)

    def without(self, key: str, kind: str | None = None) -> "Evidence":
        """The same evidence less the pieces called `key`, of one kind or of any."""
        kept = tuple(p for p in self.pieces if p.key != key or kind not in (None, p.kind))
        return Evidence(kept, self.impossible)

"""Praise in a tasting note: a beer that somebody called clean or crisp has no unnamed fault."""

from collections.abc import Mapping, Sequence

from diagnose.flavour.denial import Verdict
from diagnose.flavour.meaning import PART_OF_THE_BEER, Meaning, Role
from diagnose.flavour.piece import Piece, clauses

_READ_PAST = frozenset({Role.FILLER, Role.INTENSITY, Role.ANEW, Role.UNSURE})
_FAINT = Meaning(Role.INTENSITY, "faint")
# After praise these lead on to what is wrong: "fine at bottling", "crisp, but".
_LEAD_ON = frozenset({Role.TURN, Role.CIRCUMSTANCE, Role.DURATION})
_TASTES = Meaning(Role.FILLER, "tasting_words")


def praised(pieces: Sequence[Piece], verdicts: Mapping[int, Verdict]) -> tuple[int, ...]:
    """The places of the words of praise, where the note names no fault and denies no praise.

    Words that nothing covers may be the complaint where the praise leads on to something, or where
    the beer is said to taste of them. Praise of a part ("nice colour") is not that of the beer.
    """
    places = [
        at
        for at, piece in enumerate(pieces)
        if piece.role is Role.FINE and not _of_a_part(pieces, at)
    ]
    roles = {piece.role for piece in pieces}
    named = any(not verdict.absent for verdict in verdicts.values())
    denied = any(_is_denied(pieces, at) for at in places)
    unread = Role.NOT_UNDERSTOOD in roles and bool(roles & _LEAD_ON)
    return () if named or denied or unread or _tastes_unread(pieces) else tuple(places)


def _of_a_part(pieces: Sequence[Piece], at: int) -> bool:
    return at + 1 < len(pieces) and pieces[at + 1].meaning == PART_OF_THE_BEER


def _tastes_unread(pieces: Sequence[Piece]) -> bool:
    """Whether the beer tastes or smells of what nothing covers."""
    for start, end in clauses(pieces):
        clause = pieces[start:end]
        said = next(
            (at for at, piece in enumerate(clause) if piece.meaning == _TASTES), len(clause)
        )
        if any(piece.role is Role.NOT_UNDERSTOOD for piece in clause[said:]):
            return True
    return False


def _is_denied(pieces: Sequence[Piece], at: int) -> bool:
    """Whether it is said not to be so, or hardly to be ("not very clean", "barely drinkable")."""
    earlier = reversed(pieces[:at])
    before = next((p for p in earlier if p.role not in _READ_PAST or p.meaning == _FAINT), None)
    return before is not None and (before.role is Role.NEGATION or before.meaning == _FAINT)

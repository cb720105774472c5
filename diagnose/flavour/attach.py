"""Which flavour each word of strength or doubt belongs to."""

from collections.abc import Mapping, Sequence

from diagnose.flavour.meaning import PART_OF_THE_BEER, Meaning, Role
from diagnose.flavour.piece import Piece, clauses
from diagnose.flavour.words import Intensity

_READ_PAST = Meaning(Role.FILLER, "small_words")
_WEAKEST_FIRST: tuple[Intensity, ...] = ("faint", "clear", "strong")


def strengths(pieces: Sequence[Piece]) -> Mapping[int, Intensity]:
    """The intensity of each flavour that has one, by the position of its piece.

    A word of strength goes to the nearest flavour of its clause, the next one before the last
    one; alone in its clause it goes to the flavour before ("papery, faint"). Of two words for
    one flavour the weaker stands, since people soften a strong word on purpose. Right before a
    word of praise it is the praise that is strong ("really good, roasty"), and in a clause without
    a flavour a part of the beer ("no head, but loads of fizz").
    """
    found: dict[int, set[str]] = {}
    for at, owner in _owners(pieces, Role.INTENSITY).items():
        found.setdefault(owner, set()).add(pieces[at].meaning.value)
    return {
        owner: next(one for one in _WEAKEST_FIRST if one in said) for owner, said in found.items()
    }


def unsure(pieces: Sequence[Piece]) -> frozenset[int]:
    """Positions of the flavours in a clause that says "maybe", or right after such a clause."""
    doubted: set[int] = set()
    for start, end in clauses(pieces):
        if any(pieces[at].role is Role.UNSURE for at in range(start, end)):
            flavours = _flavours(pieces, start, end)
            doubted.update(flavours or _flavours(pieces, 0, start)[-1:])
    return frozenset(doubted)


def _owners(pieces: Sequence[Piece], role: Role) -> dict[int, int]:
    owners: dict[int, int] = {}
    for start, end in clauses(pieces):
        here = [
            at
            for at in range(start, end)
            if pieces[at].role is role and not _of_praise(pieces, at, end)
        ]
        near = _flavours(pieces, start, end) if here else []
        for at in here:
            of_a_part = not near and _before_a_part(pieces, at, end)
            choice = () if of_a_part else near or _beyond(pieces, start, end)
            if choice:
                owners[at] = _nearest(pieces, at, choice)
    return owners


def _of_praise(pieces: Sequence[Piece], at: int, end: int) -> bool:
    return at + 1 < end and pieces[at + 1].role is Role.FINE


def _before_a_part(pieces: Sequence[Piece], at: int, end: int) -> bool:
    after = next((p for p in pieces[at + 1 : end] if p.meaning != _READ_PAST), None)
    return after is not None and after.meaning == PART_OF_THE_BEER


def _beyond(pieces: Sequence[Piece], start: int, end: int) -> list[int]:
    """The flavour before a clause without one, or failing that the one after it."""
    return _flavours(pieces, 0, start)[-1:] or _flavours(pieces, end, len(pieces))[:1]


def _nearest(pieces: Sequence[Piece], at: int, flavours: Sequence[int]) -> int:
    def distance(flavour: int) -> tuple[bool, int, bool]:
        low, high = min(at, flavour), max(at, flavour)
        parted = any(pieces[i].role in (Role.BOTH, Role.EITHER) for i in range(low, high))
        return (parted, high - low, flavour < at)

    return min(flavours, key=distance)


def _flavours(pieces: Sequence[Piece], start: int, end: int) -> list[int]:
    return [at for at in range(start, end) if pieces[at].role is Role.DESCRIPTOR]

"""Which flavours of a sentence are said to be there, and which not to be there."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from diagnose.flavour.meaning import Role
from diagnose.flavour.piece import Piece
from diagnose.flavour.tokens import Gap

_QUIET = frozenset({Role.FILLER, Role.ANEW, Role.UNSURE, Role.INTENSITY})
_LISTED = frozenset({Role.FILLER, Role.DESCRIPTOR, Role.EITHER, Role.BOTH})


@dataclass(frozen=True)
class Verdict:
    """What a sentence says of one flavour; `doubtful` if the words could mean the opposite."""

    absent: bool
    doubtful: bool = False


@dataclass
class _Reach:
    """How far a word of denial reaches while the sentence is read from left to right."""

    denies: bool = False
    whole_list: bool = False
    doubtful: bool = False
    after_both: bool = False
    found: dict[int, Verdict] = field(default_factory=dict)

    def start(self, *, whole_list: bool, again: bool) -> None:
        self.denies = not (again and self.denies)
        self.whole_list = whole_list
        self.doubtful = self.after_both = False

    def stop(self) -> None:
        self.denies = self.doubtful = self.after_both = False


def judge_flavours(pieces: Sequence[Piece]) -> dict[int, Verdict]:
    """The verdict on each flavour, by the position of its piece."""
    reach = _Reach()
    for at, piece in enumerate(pieces):
        if piece.gap is Gap.HARD or (piece.gap is Gap.COMMA and not _list_goes_on(pieces, at)):
            reach.stop()
        _step(reach, pieces, at)
    return reach.found


def _step(reach: _Reach, pieces: Sequence[Piece], at: int) -> None:
    role = pieces[at].role
    if role is Role.DESCRIPTOR:
        doubtful = reach.doubtful or (reach.after_both and not reach.whole_list)
        reach.found[at] = Verdict(reach.denies, reach.denies and doubtful)
    elif role is Role.NEGATION:
        _negate(reach, pieces, at)
    elif role is Role.TURN:
        reach.stop()
    elif role is Role.BOTH:
        reach.after_both = reach.denies
    elif role in (Role.ANEW, Role.INTENSITY, Role.UNSURE) and reach.after_both:
        reach.stop()
    elif role is Role.NOT_UNDERSTOOD:
        reach.doubtful = True


def _negate(reach: _Reach, pieces: Sequence[Piece], at: int) -> None:
    """A denial reaches forward, or back to the last flavour if nothing follows it."""
    back = _flavour_before(pieces, at)
    after_the_word = pieces[at].meaning.value == "after_the_word" and pieces[at].gap < Gap.COMMA
    if back is not None and (after_the_word or _nothing_follows(pieces, at)):
        reach.found[back] = Verdict(absent=True)
        reach.stop()
        return
    again = at > 0 and pieces[at].gap is Gap.NONE and pieces[at - 1].role is Role.NEGATION
    reach.start(whole_list=pieces[at].meaning.value != "not_this", again=again)


def _flavour_before(pieces: Sequence[Piece], at: int) -> int | None:
    """The last flavour before `at` in its clause, or in the one before if this one is bare."""
    commas = 0
    for i in range(at - 1, -1, -1):
        gap = pieces[i + 1].gap
        commas += gap is Gap.COMMA
        if gap is Gap.HARD or commas > 1 or pieces[i].role is Role.TURN:
            return None
        if pieces[i].role is Role.DESCRIPTOR:
            return i
        if pieces[i].role not in _QUIET:
            return None
    return None


def _nothing_follows(pieces: Sequence[Piece], at: int) -> bool:
    if at + 1 == len(pieces):
        return True
    after = pieces[at + 1]
    return after.gap >= Gap.COMMA or after.role in (Role.TURN, Role.BOTH)


def _list_goes_on(pieces: Sequence[Piece], at: int) -> bool:
    """Whether a comma stands inside a list that ends in "or" ("no butter, corn or egg")."""
    for i in range(at, len(pieces)):
        if (i > at and pieces[i].gap is Gap.HARD) or pieces[i].role not in _LISTED:
            return False
        if pieces[i].role is Role.EITHER:
            return True
    return False

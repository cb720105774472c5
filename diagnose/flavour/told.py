"""When, where and in which packages the fault shows, as told beside the flavour words."""

from collections.abc import Mapping, Sequence

from diagnose.flavour.denial import Verdict
from diagnose.flavour.meaning import PART_OF_THE_BEER, Role
from diagnose.flavour.piece import Piece, clauses

_TELLING = (Role.CIRCUMSTANCE, Role.DURATION)
_FADES = "course=fades"
_LASTING = {_FADES, "course=steady"}
_TIMES = {"first_noticed=first_weeks", "first_noticed=after_a_month"}


def circumstances(pieces: Sequence[Piece], verdicts: Mapping[int, Verdict]) -> dict[str, str]:
    """Circumstance -> value, as far as the sentence says so without contradicting itself.

    What stands in a clause about sound beer ("fine at bottling") says nothing of the fault, and
    a length of time beside what does not grow ("unchanged after months") not when it was first
    noticed. What goes or fades where a part of the beer itself is spoken of ("the head has gone")
    is that part. A set phrase outweighs a length of time ("after 4 days in the fermenter").
    """
    told = [pieces[at] for at in _of_the_fault(pieces, verdicts) if pieces[at].meaning.value]
    found: dict[str, str] = {}
    for role in _TELLING:
        said = {p.meaning.value for p in told if p.role is role}
        pairs = sorted(tuple(value.split("=", 1)) for value in said)
        names = [name for name, _ in pairs]
        for name, value in pairs:
            if names.count(name) == 1:
                found.setdefault(name, value)
    return found


def _of_the_fault(pieces: Sequence[Piece], verdicts: Mapping[int, Verdict]) -> list[int]:
    kept: list[int] = []
    for start, end in clauses(pieces):
        here = range(start, end)
        told = [at for at in here if pieces[at].role in _TELLING]
        if told and not _of_sound_beer(pieces, here, verdicts):
            lasting = any(pieces[at].meaning.value in _LASTING for at in told)
            told = [at for at in told if not (lasting and _is_a_time(pieces[at]))]
            part = _of_a_part(pieces, here, verdicts)
            kept += [at for at in told if not (part and pieces[at].meaning.value == _FADES)]
    return kept


def _of_a_part(pieces: Sequence[Piece], here: range, verdicts: Mapping[int, Verdict]) -> bool:
    named = any(pieces[at].meaning == PART_OF_THE_BEER for at in here)
    return named and not any(at in verdicts for at in here)


def _is_a_time(piece: Piece) -> bool:
    return piece.role is Role.DURATION or piece.meaning.value in _TIMES


def _of_sound_beer(pieces: Sequence[Piece], here: range, verdicts: Mapping[int, Verdict]) -> bool:
    states = [verdicts[at].absent for at in here if at in verdicts]
    if states:
        return all(states)
    return any(pieces[at].role in (Role.FINE, Role.NEGATION) for at in here)

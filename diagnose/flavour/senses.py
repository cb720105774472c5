"""Which of its meanings a phrase has in this sentence, with the share of each."""

from collections.abc import Mapping, Sequence

from diagnose.flavour.denial import Verdict
from diagnose.flavour.lexicon import Lexicon
from diagnose.flavour.meaning import Role
from diagnose.flavour.piece import Piece
from diagnose.flavour.understanding import Candidate

Shares = tuple[Candidate, ...]


def weigh_senses(
    pieces: Sequence[Piece], verdicts: Mapping[int, Verdict], lexicon: Lexicon
) -> dict[int, Shares]:
    """The meanings of each flavour piece, likeliest first, shares summing to 1.

    The rest of the sentence decides where it can: a meaning named outright elsewhere wins, and a
    meaning said to be absent ("sulfur, but not egg") is out.
    """
    plain = {at: pieces[at].meaning.senses[0] for at in verdicts if _is_plain(pieces[at])}
    there = {one for at, one in plain.items() if not verdicts[at].absent}
    not_there = {one for at, one in plain.items() if verdicts[at].absent} - there
    first = lexicon.words.certainty.first_sense.value
    weighed: dict[int, Shares] = {}
    for at, verdict in verdicts.items():
        senses = pieces[at].meaning.senses
        if verdict.absent or _is_beside_another(pieces, at, lexicon):
            left = _without(senses, there)
        else:
            left = _left(senses, there, not_there)
        weighed[at] = _shares(left, first)
    return weighed


def _is_plain(piece: Piece) -> bool:
    return len(piece.meaning.senses) == 1


def _is_beside_another(pieces: Sequence[Piece], at: int, lexicon: Lexicon) -> bool:
    """Whether a flavour called by its own name is joined to another by "and".

    "Plastic and plaster" are two flavours, though plastic alone may mean plaster; "sour and
    vinegary" are one, since sour is a name of none.
    """
    meaning = pieces[at].meaning
    by_name = lexicon.meanings.get(tuple(meaning.senses[0].split("_"))) == meaning
    pairs = ((at + step, at + 2 * step) for step in (-1, 1))
    return by_name and any(
        0 <= other < len(pieces)
        and pieces[joiner].role is Role.BOTH
        and pieces[other].role is Role.DESCRIPTOR
        for joiner, other in pairs
    )


def _left(senses: tuple[str, ...], there: set[str], not_there: set[str]) -> tuple[str, ...]:
    named = tuple(one for one in senses if one in there)
    return named[:1] or _without(senses, not_there)


def _without(senses: tuple[str, ...], out: set[str]) -> tuple[str, ...]:
    return tuple(one for one in senses if one not in out) or senses


def _shares(senses: tuple[str, ...], first: float) -> Shares:
    """Each sense takes `first` of what the ones before it left; the last takes the rest."""
    left = 1.0
    shares: list[Candidate] = []
    for sense in senses[:-1]:
        shares.append(Candidate(id=sense, score=round(left * first, 4)))
        left *= 1 - first
    return (*shares, Candidate(id=senses[-1], score=round(left, 4)))

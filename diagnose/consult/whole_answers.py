"""What an answer moves in all: what it says, less what it takes the place of.

What was typical of an open entry gives way to what it turns out to be, and of two things that say
the same the louder counts. So what a question is worth, and what each of its answers would lead
to, is what comes of the answer once it stands in the record.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

from diagnose.consult.echoes import Echoes, taken_back
from diagnose.evidence.pieces import Piece
from diagnose.inference.question import Answer, Question
from diagnose.knowledge import RuleBase

# What is ruled out is weighed down by so many decibans: one in 10^30 is left.
RULED_OUT_DECIBANS = -300.0


def in_whole(echoes: Echoes, questions: Iterable[Question]) -> list[Question]:
    """The questions with all that each of their answers moves."""
    beside = _beside(echoes)
    return [
        replace(one, answers=tuple(_whole(answer, beside) for answer in one.answers))
        for one in questions
    ]


def _whole(answer: Answer, beside: Callable[[Piece, str], tuple[Piece, ...]]) -> Answer:
    piece = answer.piece
    more = beside(piece, answer.label)
    if not more:
        return answer
    return replace(answer, piece=replace(summed([piece, *more]), kind=piece.kind, key=piece.key))


def _beside(echoes: Echoes) -> Callable[[Piece, str], tuple[Piece, ...]]:
    """What an answer moves as well: what stood for it while it was open, what says the same."""
    rules, pieces = echoes.rules, echoes.evidence.pieces
    unlogged = {one.key: (taken_back(one),) for one in pieces if one.kind == "unlogged"}
    deciding = deciding_measures(rules)

    def moved(piece: Piece, label: str) -> tuple[Piece, ...]:
        key = piece.key
        ruled_out = _ruling_out(rules, key, label) if key in deciding else ()
        return (*ruled_out, *unlogged.get(key, ()), *echoes.beside(key, piece))

    return moved


def deciding_measures(rules: RuleBase) -> set[str]:
    """The measures that decide whether a cause is possible."""
    return {one.measure for cause in rules.causes.values() for one in cause.possible_when}


def _ruling_out(rules: RuleBase, measure: str, label: str) -> tuple[Piece, ...]:
    """What an entry of this class makes impossible; nothing where it makes nothing so."""
    if not rules.measures[measure].classes:
        return ()
    ruled_out = {
        name: RULED_OUT_DECIBANS
        for name, cause in rules.causes.items()
        for one in cause.possible_when
        if one.measure == measure and label not in one.any_of
    }
    return (Piece("measure", measure, happened=ruled_out),) if ruled_out else ()


def summed(pieces: Sequence[Piece]) -> Piece:
    """What several pieces say, as one."""
    return Piece(
        kind="turned",
        key="turned",
        happened=_added([piece.happened for piece in pieces]),
        responsible=_added([piece.responsible for piece in pieces]),
        expected=sum(piece.expected for piece in pieces),
        present=_added([piece.present for piece in pieces]),
        words={word: said for piece in pieces for word, said in piece.words.items()},
    )


def _added(weights: Sequence[Mapping[str, float]]) -> dict[str, float]:
    total: dict[str, float] = {}
    for one in weights:
        for name, decibans in one.items():
            total[name] = total.get(name, 0.0) + decibans
    return total

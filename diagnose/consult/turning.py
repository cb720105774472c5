"""What may turn out otherwise: answers to what was not asked, and entries that are mistaken.

Each is a piece that is put beside the evidence: what it would add, less what it takes the place
of. So any few of them together are one more piece, and one more column of a solve.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.consult.answered import Answered
from diagnose.consult.echoes import Echoes, taken_back
from diagnose.consult.stepping import answer_text
from diagnose.consult.whole_answers import deciding_measures, summed
from diagnose.evidence.gathering import Known, check_piece, circumstance_piece
from diagnose.evidence.pieces import Piece
from diagnose.knowledge import RuleBase

# An answer less likely than this is no news worth waiting for. Judgement.
LIKELY_ENOUGH = 0.02
# A taster or a notebook is wrong about one thing as often as this. Judgement.
MISTAKEN = 0.02


@dataclass(frozen=True)
class Turn:
    """Something that may turn out: what it is about, what it moves, its chance and its words.

    `moved` is what its chances were solved with, `beside` what it moves as well.
    """

    about: tuple[str, str]
    moved: Piece
    chance: float
    text: str
    beside: tuple[Piece, ...] = ()

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """All that it moves."""
        return (self.moved, *self.beside)

    @property
    def solved(self) -> bool:
        """Whether the chances that it was looked at with are exact."""
        return not self.beside


def together(turns: Sequence[Turn]) -> Piece:
    """All that the turns move, as one piece."""
    return summed([piece for turn in turns for piece in turn.pieces])


def mistaken_entries(echoes: Echoes) -> list[Turn]:
    """Circumstances and results of checks that are known, each with every other value."""
    rules, known = echoes.rules, echoes.known
    pieces = {(piece.kind, piece.key): piece for piece in echoes.evidence.pieces}
    found = []
    for piece, chance, text in (*_other_values(rules, known), *_other_results(rules, known)):
        about = (piece.kind, piece.key)
        was = [taken_back(pieces[about])] if about in pieces else []
        moved = summed([piece, *was, *echoes.beside(piece.key, piece)])
        found.append(Turn(about, moved, MISTAKEN * chance, text))
    return found


def _other_values(rules: RuleBase, known: Known) -> Iterator[tuple[Piece, float, str]]:
    for key, told in known.circumstances.items():
        for value, other in rules.circumstances[key].values.items():
            if value != told:
                piece = circumstance_piece(rules, key, value)
                yield piece, other.share, f"the record should say: {other.says}"


def _other_results(rules: RuleBase, known: Known) -> Iterator[tuple[Piece, float, str]]:
    for key, found in known.checks.items():
        check = rules.checks[key]
        for result in check.results:
            if result.id != found:
                text = f"{check.name}, done again: {result.says}"
                yield check_piece(check, result.id), check.otherwise[result.id], text


def doubtful_readings(echoes: Echoes) -> list[tuple[int, Turn]]:
    """What the record measures, each found to be wrong, with its place among the pieces.

    A measure that decides whether a cause is possible, or from which an amount is predicted,
    moves more than what it weighs and is left aside.
    """
    aside = deciding_measures(echoes.rules) | _predicting(echoes.rules)
    return [
        (
            place,
            Turn(
                about=("measure", piece.key),
                moved=taken_back(piece),
                chance=MISTAKEN,
                text=f"the record is wrong in this: {echoes.known.findings[piece.key].says}",
                beside=echoes.beside(piece.key, None),
            ),
        )
        for place, piece in enumerate(echoes.evidence.pieces)
        if piece.kind == "measure" and piece.key not in aside
    ]


def answers_to(echoes: Echoes, told: Answered) -> list[tuple[int, Turn]]:
    """The likely answers to all questions, each with its place among all answers.

    An amount that a model predicts moves what the beer brings too, and a flavour that is found
    after all wants to be explained itself; such answers are left aside.
    """
    rules, predicting = echoes.rules, _predicting(echoes.rules)
    found = []
    for place in map(int, np.flatnonzero(told.chance >= LIKELY_ENOUGH)):
        gain = told.gains[told.question[place]]
        answer, key = gain.outcomes[told.number[place]].answer, gain.question.key
        if key not in predicting and not answer.piece.reported:
            turn = Turn(
                about=(answer.piece.kind, answer.piece.key),
                moved=answer.piece,
                chance=float(told.chance[place]),
                text=answer_text(rules, gain, answer.label),
            )
            found.append((place, turn))
    return found


def _predicting(rules: RuleBase) -> set[str]:
    return {compound.predicted_by or "" for compound in rules.compounds.values()}

"""What may turn out otherwise: answers to what was not asked, and entries that are mistaken.

Each is a piece that is put beside the evidence: what it would add, less what it takes the place
of. So any few of them together are one more piece, and one more column of a solve.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.consult.answered import Answered
from diagnose.consult.stepping import answer_text
from diagnose.evidence.gathering import Known, check_piece, circumstance_piece
from diagnose.evidence.pieces import Evidence, Piece
from diagnose.knowledge import RuleBase

# An answer less likely than this is no news worth waiting for. Judgement.
LIKELY_ENOUGH = 0.02
# A taster or a notebook is wrong about one thing as often as this. Judgement.
MISTAKEN = 0.02
# What is ruled out is weighed down by so many decibans: one in 10^30 is left.
RULED_OUT_DECIBANS = -300.0


@dataclass(frozen=True)
class Turn:
    """Something that may turn out: what it is about, what it moves, its chance and its words.

    What it moves are all of its pieces at once. `solved` says that what it leads to is known as
    it is: the question was asked of just that.
    """

    about: tuple[str, str]
    pieces: tuple[Piece, ...]
    chance: float
    text: str
    solved: bool = True


def together(turns: Sequence[Turn]) -> Piece:
    """All that the turns move, as one piece."""
    return _summed([piece for turn in turns for piece in turn.pieces])


def mistaken_entries(rules: RuleBase, known: Known, evidence: Evidence) -> list[Turn]:
    """Circumstances and results of checks that are known, each with every other value.

    What is also said by another finding counts once with it, and is left aside.
    """
    pieces = {(piece.kind, piece.key): piece for piece in evidence.pieces}
    twice = _said_otherwise(rules, known)
    found = []
    for piece, chance, text in (*_other_values(rules, known), *_other_results(rules, known)):
        about = (piece.kind, piece.key)
        if about in pieces and piece.key not in twice:
            instead = (piece, _negated(pieces[about]))
            found.append(Turn(about, instead, MISTAKEN * chance, text))
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


def doubtful_readings(
    rules: RuleBase, known: Known, pieces: Sequence[Piece]
) -> list[tuple[int, Turn]]:
    """What the record measures, each found to be wrong, with its place among the pieces.

    A measure that decides whether a cause is possible, from which an amount is predicted, or
    that something else says too, changes more than one piece and is left aside.
    """
    aside = _deciding(rules) | _predicting(rules) | _said_otherwise(rules, known)
    return [
        (
            place,
            Turn(
                about=("measure", piece.key),
                pieces=(_negated(piece),),
                chance=MISTAKEN,
                text=f"the record is wrong in this: {known.findings[piece.key].says}",
            ),
        )
        for place, piece in enumerate(pieces)
        if piece.kind == "measure" and piece.key not in aside
    ]


def answers_to(
    rules: RuleBase, known: Known, evidence: Evidence, told: Answered
) -> list[tuple[int, Turn]]:
    """The likely answers to all questions, each with its place among all answers.

    An amount that a model predicts moves what the beer brings too, what another finding says
    already counts once with it, and a flavour that is found after all wants to be explained
    itself; such answers are left aside.
    """
    unlogged = {piece.key: (_negated(piece),) for piece in evidence.pieces if _is_open(piece)}
    deciding, predicting = _deciding(rules), _predicting(rules)
    keys = {gain.question.key for gain in told.gains}
    keys -= predicting | _said_otherwise(rules, known)
    found = []
    for place in map(int, np.flatnonzero(told.chance >= LIKELY_ENOUGH)):
        gain = told.gains[told.question[place]]
        answer, key = gain.outcomes[told.number[place]].answer, gain.question.key
        if key in keys and not answer.piece.reported:
            ruled_out = _ruling_out(rules, key, answer.label) if key in deciding else ()
            also = (*ruled_out, *unlogged.get(key, ()))
            turn = Turn(
                about=(answer.piece.kind, answer.piece.key),
                pieces=(answer.piece, *also),
                chance=float(told.chance[place]),
                text=answer_text(rules, gain, answer.label),
                solved=not also,
            )
            found.append((place, turn))
    return found


def _is_open(piece: Piece) -> bool:
    return piece.kind == "unlogged"


def _deciding(rules: RuleBase) -> set[str]:
    """The measures that decide whether a cause is possible."""
    return {one.measure for cause in rules.causes.values() for one in cause.possible_when}


def _predicting(rules: RuleBase) -> set[str]:
    return {compound.predicted_by or "" for compound in rules.compounds.values()}


def twins_of(rules: RuleBase) -> dict[str, set[str]]:
    """For each key, itself and what says the same: of these one counts."""
    pairs = [(key, one) for key, card in rules.circumstances.items() for one in card.same_as]
    pairs += [(key, one) for key, check in rules.checks.items() for one in check.same_as]
    twins: dict[str, set[str]] = {}
    for key, one in pairs:
        twins.setdefault(key, {key}).add(one)
        twins.setdefault(one, {one}).add(key)
    return twins


def _said_otherwise(rules: RuleBase, known: Known) -> set[str]:
    """The keys of which something else that is known says the same."""
    keys = {*known.circumstances, *known.checks, *known.findings}
    return {key for key, twins in twins_of(rules).items() if (twins - {key}) & keys}


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


def _summed(pieces: Sequence[Piece]) -> Piece:
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


def _negated(piece: Piece) -> Piece:
    """What takes a piece back; words cannot be taken back so."""
    return Piece(
        kind=piece.kind,
        key=piece.key,
        happened={name: -decibans for name, decibans in piece.happened.items()},
        responsible={name: -decibans for name, decibans in piece.responsible.items()},
        expected=-piece.expected,
        present={name: -decibans for name, decibans in piece.present.items()},
    )

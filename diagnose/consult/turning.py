"""What may turn out otherwise: answers to what was not asked, and entries that are mistaken.

Each is a piece that is put beside the evidence: what it would add, less what it takes the place
of. So any few of them together are one more piece, and one more column of a solve.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from diagnose.consult.stepping import answer_text
from diagnose.evidence.gathering import Known, check_piece, circumstance_piece
from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.question import Gain
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

    `solved` says that what it leads to is known as it is: the question was asked of just that.
    """

    about: tuple[str, str]
    piece: Piece
    chance: float
    text: str
    solved: bool = True


def together(turns: Sequence[Turn]) -> Piece:
    """All that the turns move, as one piece."""
    return _summed([turn.piece for turn in turns])


def mistaken_entries(rules: RuleBase, known: Known, evidence: Evidence) -> list[Turn]:
    """Circumstances and results of checks that are known, each with every other value.

    What is also said by another finding counts once with it, and is left aside.
    """
    pieces = {(piece.kind, piece.key): piece for piece in evidence.pieces}
    found = []
    for piece, chance, text in (*_other_values(rules, known), *_other_results(rules, known)):
        about = (piece.kind, piece.key)
        if about in pieces and not _said_twice(rules, known, piece.key):
            instead = _summed([piece, _negated(pieces[about])])
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

    A measure that decides whether a cause is possible, or from which an amount is predicted,
    changes more than one piece and is left aside.
    """
    conditions = (one for cause in rules.causes.values() for one in cause.possible_when)
    deciding = {one.measure for one in conditions} | _predicting(rules)
    return [
        (
            place,
            Turn(
                about=("measure", piece.key),
                piece=_negated(piece),
                chance=MISTAKEN,
                text=f"the record is wrong in this: {known.findings[piece.key].says}",
            ),
        )
        for place, piece in enumerate(pieces)
        if piece.kind == "measure" and piece.key not in deciding
    ]


def answers_to(
    rules: RuleBase, known: Known, evidence: Evidence, gains: Sequence[Gain]
) -> list[tuple[int, int, Turn]]:
    """The likely answers to all questions, with the places of question and answer.

    An amount that a model predicts moves what the beer brings too, and what another finding
    says already counts once with it; such answers are left aside.
    """
    unlogged = {piece.key: piece for piece in evidence.pieces if piece.kind == "unlogged"}
    predicting = _predicting(rules)
    found = []
    for place, gain in enumerate(gains):
        key = gain.question.key
        if key in predicting or _said_twice(rules, known, key):
            continue
        gone = [_negated(unlogged[key])] if key in unlogged else []
        for number, outcome in enumerate(gain.outcomes):
            if outcome.chance >= LIKELY_ENOUGH:
                piece, label = outcome.answer.piece, outcome.answer.label
                also = [*_ruling_out(rules, piece, label), *gone]
                turn = Turn(
                    about=(piece.kind, piece.key),
                    piece=_summed([piece, *also]),
                    chance=outcome.chance,
                    text=answer_text(rules, gain, label),
                    solved=not also,
                )
                found.append((place, number, turn))
    return found


def _predicting(rules: RuleBase) -> set[str]:
    return {compound.predicted_by or "" for compound in rules.compounds.values()}


def _said_twice(rules: RuleBase, known: Known, key: str) -> bool:
    card = rules.circumstances.get(key) or rules.checks.get(key)
    said = (known.circumstances, known.checks, known.findings)
    return card is not None and any(twin in one for twin in card.same_as for one in said)


def _ruling_out(rules: RuleBase, piece: Piece, label: str) -> list[Piece]:
    """What an entry of this class makes impossible; nothing where it makes nothing so."""
    if piece.kind != "measure" or not rules.measures[piece.key].classes:
        return []
    ruled_out = {
        name: RULED_OUT_DECIBANS
        for name, cause in rules.causes.items()
        for one in cause.possible_when
        if one.measure == piece.key and label not in one.any_of
    }
    return [Piece(piece.kind, piece.key, happened=ruled_out)] if ruled_out else []


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

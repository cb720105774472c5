"""Everything known about one batch, gathered into pieces of evidence."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from diagnose.evidence.finding import Finding, OutsideFinding
from diagnose.evidence.pieces import UNNAMED, Evidence, Piece
from diagnose.evidence.said import word_pieces
from diagnose.evidence.weighing import (
    cause_is_possible,
    expected_by,
    happened_by,
    responsible_by,
)
from diagnose.flavour import Heard
from diagnose.knowledge import Check, RuleBase


@dataclass(frozen=True)
class Known:
    """What is known about a batch before it is weighed.

    `unread` says that something was written of the taste which no flavour word was read from.
    """

    findings: Mapping[str, Finding]
    circumstances: Mapping[str, str]
    checks: Mapping[str, str]
    heard: tuple[Heard, ...]
    unread: bool = False


def gather(rules: RuleBase, known: Known) -> Evidence:
    """The evidence: one piece for each finding, circumstance, check and word."""
    pieces = [
        *(measure_piece(rules, finding) for finding in known.findings.values()),
        *(circumstance_piece(rules, key, value) for key, value in known.circumstances.items()),
        *(check_piece(rules.checks[key], result) for key, result in known.checks.items()),
        *word_pieces(rules, known.heard),
        *unnamed_pieces(rules, known),
    ]
    pieces += unlogged_pieces(rules, known)
    pieces = counted_once(rules, pieces)
    findings = dict(known.findings)
    ruled_out = (
        key for key, cause in rules.causes.items() if not cause_is_possible(cause, findings)
    )
    return Evidence(tuple(piece for piece in pieces if _speaks(piece)), frozenset(ruled_out))


def _speaks(piece: Piece) -> bool:
    says = piece.happened or piece.responsible or piece.present or piece.words
    return bool(says) or piece.kind == UNNAMED


def unlogged_pieces(rules: RuleBase, known: Known) -> list[Piece]:
    """For causes that need something nobody logged, the share of home batches that have it.

    A base rate is conditional on the cause being possible; where the record does not say
    whether it is, the typical spread of the measure stands in.
    """
    pieces: dict[str, dict[str, float]] = {}
    for card_id, cause in rules.causes.items():
        for condition in cause.possible_when:
            if condition.measure in known.findings:
                continue
            typical = rules.measures[condition.measure].typical
            share = math.fsum(part for value, part in typical if value in condition.any_of)
            pieces.setdefault(condition.measure, {})[card_id] = 10.0 * math.log10(share)
    return [Piece("unlogged", key, happened=weights) for key, weights in pieces.items()]


def counted_once(rules: RuleBase, pieces: list[Piece]) -> list[Piece]:
    """The pieces with nothing said twice: of two that say the same, the louder one per cause."""
    by_key = {piece.key: piece for piece in pieces}
    for key in list(by_key):
        card = rules.circumstances.get(key) or rules.checks.get(key)
        if by_key[key].kind == "unlogged":
            continue
        for twin in card.same_as if card else ():
            if twin in by_key and by_key[twin].kind != "unlogged":
                by_key[key], by_key[twin] = _without_echo(by_key[key], by_key[twin])
    return [by_key[piece.key] for piece in pieces]


def _without_echo(one: Piece, other: Piece) -> tuple[Piece, Piece]:
    for cause in set(_weights(one)) & set(_weights(other)):
        if abs(_weights(one)[cause]) >= abs(_weights(other)[cause]):
            other = _silenced(other, cause)
        else:
            one = _silenced(one, cause)
    return one, other


def _weights(piece: Piece) -> dict[str, float]:
    return {**piece.happened, **piece.responsible}


def _silenced(piece: Piece, cause: str) -> Piece:
    return replace(
        piece,
        happened={key: weight for key, weight in piece.happened.items() if key != cause},
        responsible={key: weight for key, weight in piece.responsible.items() if key != cause},
    )


def measure_piece(rules: RuleBase, finding: Finding) -> Piece:
    """The piece of evidence that a measure's finding is."""
    if isinstance(finding, OutsideFinding):
        return Piece("measure", finding.measure)
    return Piece("measure", finding.measure, happened=happened_by(rules, finding))


def circumstance_piece(rules: RuleBase, key: str, value: str) -> Piece:
    """The piece of evidence that a circumstance of the fault is."""
    weights = responsible_by(rules, key, value)
    return Piece("circumstance", key, responsible=weights, expected=expected_by(rules, key, value))


def check_piece(check: Check, result: str) -> Piece:
    """The piece of evidence that the result of a check is."""
    causes, compounds = {}, {}
    for speaks in check.speaks_for:
        decibans = 10.0 * math.log10(speaks.shares[result] / check.otherwise[result])
        if speaks.cause is not None:
            causes[speaks.cause] = decibans
        elif speaks.compound is not None:
            compounds[speaks.compound] = decibans
    return Piece("check", check.id, happened=causes, present=compounds)


def unnamed_pieces(rules: RuleBase, known: Known) -> list[Piece]:
    """A piece that says "something is off" where no flavour was named."""
    vague = rules.lexicon.words.vague
    reported = [one for one in known.heard if one.state == "reported"]
    named = [one for one in reported if one.descriptor not in vague]
    told = known.findings or known.circumstances or known.checks
    if named or not (reported or (known.unread and told)):
        return []
    return [Piece(UNNAMED, vague[0])]

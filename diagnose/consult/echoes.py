"""What says the same as something else counts once: what moves where one of them turns out."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.evidence.gathering import (
    Known,
    check_piece,
    circumstance_piece,
    counted_once,
    measure_piece,
)
from diagnose.evidence.pieces import Evidence, Piece
from diagnose.knowledge import RuleBase


def alike_in(rules: RuleBase) -> Mapping[str, frozenset[str]]:
    """For each key that says the same as another, all that hang together so, itself too."""
    pairs = [(key, one) for key, card in rules.circumstances.items() for one in card.same_as]
    pairs += [(key, one) for key, check in rules.checks.items() for one in check.same_as]
    alike: dict[str, frozenset[str]] = {}
    for key, one in pairs:
        joined = alike.get(key, frozenset((key,))) | alike.get(one, frozenset((one,)))
        alike |= dict.fromkeys(joined, joined)
    return alike


@dataclass(frozen=True)
class Echoes:
    """What is known, and of all that hangs together: as each says it, and as it counts, by key."""

    rules: RuleBase
    known: Known
    evidence: Evidence
    alike: Mapping[str, frozenset[str]]
    raw: Mapping[str, Piece]
    counted: Mapping[str, Piece]

    def beside(self, key: str, piece: Piece | None) -> tuple[Piece, ...]:
        """What moves of the others where a key says something anew, or is taken back.

        Args:
            key: the key.
            piece: what it says now; None where it is taken back.

        Returns:
            Pieces to be put beside the new piece and the old one taken back.
        """
        others = sorted(self.alike.get(key, frozenset()) - {key})
        raw = [self.raw[one] for one in others if one in self.raw]
        if not raw:
            return ()
        anew = counted_once(self.rules, [*raw, *((piece,) if piece else ())])
        now = [self.counted[one] for one in others if one in self.counted]
        return (*anew, *map(taken_back, now), *((taken_back(piece),) if piece else ()))


def echoes_in(rules: RuleBase, known: Known, evidence: Evidence) -> Echoes:
    """What is known of all that hangs together.

    Args:
        rules: the rule base.
        known: what is known.
        evidence: the same, gathered.
    """
    alike = alike_in(rules)
    findings = sorted(alike.keys() & known.findings.keys())
    circumstances = sorted(alike.keys() & known.circumstances.keys())
    checks = sorted(alike.keys() & known.checks.keys())
    raw = [measure_piece(rules, known.findings[key]) for key in findings]
    raw += [circumstance_piece(rules, key, known.circumstances[key]) for key in circumstances]
    raw += [check_piece(rules.checks[key], known.checks[key]) for key in checks]
    counted = {one.key: one for one in evidence.pieces if one.kind != "unlogged"}
    return Echoes(rules, known, evidence, alike, {one.key: one for one in raw}, counted)


def taken_back(piece: Piece) -> Piece:
    """What takes a piece back; words cannot be taken back so."""
    return Piece(
        kind=piece.kind,
        key=piece.key,
        happened={name: -decibans for name, decibans in piece.happened.items()},
        responsible={name: -decibans for name, decibans in piece.responsible.items()},
        expected=-piece.expected,
        present={name: -decibans for name, decibans in piece.present.items()},
    )

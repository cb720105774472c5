"""What of the rule base can bear on one case, so that many redraws of it can be ranked quickly.

A compound that gives none of the words said, and of which no check tells, sums out of the exact
solve, and so does a cause that makes no other kind: left out they change no share. And what a
measured range weighs on a curve is worked out once: a curve that is moved up or down as a whole
moves its weight by as much, since the likelihood ratio is averaged over the range.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from diagnose.consult.gathering import Consultation
from diagnose.consult.networks import network_of_batch
from diagnose.consult.within import reachable
from diagnose.evidence.finding import ClassFinding, Finding, NumberFinding
from diagnose.evidence.gathering import Known, gather
from diagnose.evidence.pieces import Evidence
from diagnose.evidence.weighing import decibans_of
from diagnose.inference.ranking import Ranking, rank
from diagnose.inference.scenarios import structure_of
from diagnose.knowledge import Cause, Indicator, RuleBase

AS_MEASURED = "as measured"


@dataclass(frozen=True)
class Reach:
    """A case, and what can bear on it.

    `compounds` are ids. `causes` have, for the place of each of their indicators that listens to
    a measured number, what the number weighs above the first point of the curve [decibans].
    `known` is what is known of the case with every number as the class `AS_MEASURED`.
    """

    consultation: Consultation
    causes: Mapping[str, Mapping[int, float]]
    compounds: tuple[str, ...]
    known: Known


def reach_of(rules: RuleBase, consultation: Consultation) -> Reach:
    """What can bear on a case: the compounds its words and checks touch and what makes those.

    A fault that nobody could name may be any compound, so everything bears on it.
    """
    consultation = reachable(rules, consultation)
    known = consultation.known
    evidence = gather(rules, known)
    causes, compounds = set(rules.causes), set(rules.compounds)
    if evidence.reported:
        compounds = _touched(rules, consultation, evidence)
        causes = {cause for name in compounds for cause in rules.compounds[name].made_by}
        # A check weighs its causes by name, so they have to be there.
        speaking = (one for key in known.checks for one in rules.checks[key].speaks_for)
        causes.update(one.cause for one in speaking if one.cause)
    findings = {key: _as_class(finding) for key, finding in known.findings.items()}
    return Reach(
        consultation=consultation,
        causes={name: _weighed(rules.causes[name], known.findings) for name in sorted(causes)},
        compounds=tuple(sorted(compounds)),
        known=replace(known, findings=findings),
    )


def _touched(rules: RuleBase, consultation: Consultation, evidence: Evidence) -> set[str]:
    structure = structure_of(network_of_batch(rules, consultation), evidence)
    return {structure.network.compounds[index] for index in structure.compounds}


def _as_class(finding: Finding) -> Finding:
    if not isinstance(finding, NumberFinding):
        return finding
    return ClassFinding(finding.measure, AS_MEASURED, finding.says, finding.where)


def _weighed(card: Cause, findings: Mapping[str, Finding]) -> dict[int, float]:
    return {
        place: decibans_of(indicator, finding) - indicator.curve[0][1]
        for place, indicator in enumerate(card.indicators)
        if isinstance(finding := findings.get(indicator.measure), NumberFinding)
    }


def near_rules(rules: RuleBase, reach: Reach) -> RuleBase:
    """The rule base with only what can bear on the case, its curves read at what was measured."""
    known, cards = reach.known, rules.causes
    return replace(
        rules,
        causes={name: _settled(cards[name], above, known) for name, above in reach.causes.items()},
        compounds={name: rules.compounds[name] for name in reach.compounds},
    )


def ranking_near(near: RuleBase, reach: Reach) -> Ranking:
    """The ranking of a case over what can bear on it; no questions and no explanation.

    Args:
        near: from `near_rules`, or a redraw of it.
        reach: the case.
    """
    return rank(network_of_batch(near, reach.consultation), [gather(near, reach.known)])


def _settled(card: Cause, above: Mapping[int, float], known: Known) -> Cause:
    """The card with what is listened to alone, each curve as its weight at what was measured."""
    indicators = [
        _read(indicator, above[place]) if place in above else indicator
        for place, indicator in enumerate(card.indicators)
        if indicator.measure in known.findings
    ]
    told = {key: table for key, table in card.circumstances.items() if key in known.circumstances}
    return card.model_copy(update={"indicators": tuple(indicators), "circumstances": told})


def _read(indicator: Indicator, above: float) -> Indicator:
    read = {AS_MEASURED: indicator.curve[0][1] + above}
    return indicator.model_copy(update={"curve": (), "values": read})

"""One batch of the history as the model takes it: its measures, and the flaw or its absence."""

from collections.abc import Mapping, Set
from dataclasses import dataclass

from diagnose.evidence.finding import ClassFinding, Finding, NumberFinding
from diagnose.evidence.gathering import Known, gather
from diagnose.evidence.noticing import noticed_shares
from diagnose.evidence.pieces import Evidence
from diagnose.evidence.said import said_words
from diagnose.flavour import Heard
from diagnose.history.brews import Brew, Measured
from diagnose.inference.network import Network, network_of
from diagnose.knowledge import RuleBase
from diagnose.process import Band


@dataclass(frozen=True)
class Told:
    """The network of a batch and the evidence about it."""

    network: Network
    evidence: Evidence


def told_of(rules: RuleBase, brew: Brew, flaw: Set[str]) -> Told:
    """What is known of a batch as the model takes it.

    Args:
        rules: the rule base.
        brew: the batch.
        flaw: descriptor ids; other flavours are left out.
    """
    findings = _findings(rules, brew.measures)
    heard = _heard(brew, flaw)
    style = rules.styles.get(brew.style_id or "")
    yeast = rules.yeasts.get(brew.yeast_id or (style.yeast if style else ""))
    network = network_of(
        rules,
        yeast.id if yeast else None,
        style.id if style else None,
        noticed_shares(rules, findings),
        said_words(rules, heard),
    )
    return Told(network, gather(rules, Known(findings, {}, {}, heard)))


def _findings(rules: RuleBase, measures: Mapping[str, Measured]) -> dict[str, Finding]:
    found: dict[str, Finding] = {}
    for key, value in measures.items():
        card = rules.measures.get(key)
        if card is None:
            continue
        if isinstance(value, str):
            if value in card.classes:
                found[key] = ClassFinding(key, value, "", "")
        elif not card.classes:
            found[key] = NumberFinding(key, Band(*value), "", "")
    return found


def _heard(brew: Brew, flaw: Set[str]) -> tuple[Heard, ...]:
    """The flaw as the tasters gave it; where none of them did, its absence."""
    told = [
        Heard(said=one.words, descriptor=word, state="reported", intensity=how, certainty=1.0)
        for one in brew.tastings
        for word, how in one.reported.items()
        if word in flaw
    ]
    if told:
        return tuple(told)
    return tuple(
        Heard(said=word, descriptor=word, state="absent", intensity=None, certainty=1.0)
        for word in sorted(flaw)
    )

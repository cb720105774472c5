"""The model's own view across batches: one cause at work in the flawed ones and in no clean one.

For each cause c the hypothesis is: c acted in every flawed batch and in no clean one. Against
"no shared cause" a flawed batch speaks for it by P(told | c acted) / P(told), a clean one by
P(told | c did not act) / P(told). By Bayes' rule these are the posterior of the cause over its
prior, and the same of its not acting, which one exact solve of the batch's network gives.
"""

import math
from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass

import numpy as np

from diagnose.answers.history_looking import SharedCauseLine, SharedCauses
from diagnose.evidence.finding import ClassFinding, Finding, NumberFinding
from diagnose.evidence.gathering import Known, gather
from diagnose.evidence.noticing import noticed_shares
from diagnose.evidence.pieces import Evidence
from diagnose.evidence.said import said_words
from diagnose.flavour import Heard
from diagnose.history.brews import Brew, Measured
from diagnose.inference.network import Floats, Network, network_of
from diagnose.inference.posterior import solve
from diagnose.knowledge import RuleBase, paths_between
from diagnose.process import Band

# Before looking, one shared cause is as likely as none; causes share it by their base rates.
# Judgement.
SHARED_BEFORE = 0.5
# The latest batches of each kind that are solved; each takes a solve of its own.
MOST_OF_A_KIND = 25
_SHOWN = 5


@dataclass(frozen=True)
class CauseOverBatches:
    """Shares (n,) of the causes that can give the flaw, and what each kind of batch says.

    `flawed` and `clean` (n,) are log likelihood ratios against no shared cause; `none` is the
    share of no shared cause.
    """

    causes: tuple[str, ...]
    shares: Floats
    none: float
    flawed: Floats
    clean: Floats


def causes_that_give(rules: RuleBase, flaw: Set[str]) -> tuple[str, ...]:
    """The causes that can make any of these flavours."""
    return tuple(
        cause
        for cause in sorted(rules.causes)
        if any(paths_between(rules, cause, word) for word in flaw)
    )


def shared_causes(
    rules: RuleBase, flaw: Set[str], flawed: Sequence[Brew], clean: Sequence[Brew]
) -> SharedCauses | None:
    """The causes that the flawed batches may have in common; None where nothing can be said."""
    flawed, clean = flawed[-MOST_OF_A_KIND:], clean[-MOST_OF_A_KIND:]
    found = over_batches(rules, flaw, flawed, clean)
    if found is None:
        return None
    order = sorted(range(len(found.causes)), key=lambda i: (-found.shares[i], found.causes[i]))
    return SharedCauses(
        flawed=len(flawed),
        clean=len(clean),
        none=found.none,
        causes=tuple(_line(rules, found, i) for i in order[:_SHOWN] if found.shares[i] > 0.0),
    )


def _line(rules: RuleBase, found: CauseOverBatches, index: int) -> SharedCauseLine:
    cause = found.causes[index]
    return SharedCauseLine(
        id=cause,
        name=rules.causes[cause].name,
        share=float(found.shares[index]),
        flawed_decibans=_decibans(found.flawed[index]),
        clean_decibans=_decibans(found.clean[index]),
    )


def _decibans(log_ratio: float) -> float | None:
    return 10.0 * float(log_ratio) / math.log(10.0) if math.isfinite(log_ratio) else None


def over_batches(
    rules: RuleBase, flaw: Set[str], flawed: Sequence[Brew], clean: Sequence[Brew]
) -> CauseOverBatches | None:
    """The shares of every cause that can give the flaw.

    Args:
        rules: the rule base.
        flaw: descriptor ids.
        flawed: batches in which one of them was reported.
        clean: batches that were tasted and have none; they count as if it had been denied.
    """
    causes = causes_that_give(rules, flaw)
    if not causes or not flawed:
        return None
    for_it = np.array([said_by(rules, one, flaw, causes)[0] for one in flawed]).sum(axis=0)
    clear = np.zeros(len(causes))
    for one in clean:
        clear = clear + said_by(rules, one, flaw, causes)[1]
    rates = np.array([rules.causes[cause].base_rate.value for cause in causes])
    with np.errstate(divide="ignore"):
        before = np.log(np.append(SHARED_BEFORE * rates / rates.sum(), 1.0 - SHARED_BEFORE))
    weights = before + np.append(for_it + clear, 0.0)
    shares = np.exp(weights - weights.max())
    shares /= shares.sum()
    return CauseOverBatches(causes, shares[:-1], float(shares[-1]), for_it, clear)


def said_by(
    rules: RuleBase, brew: Brew, flaw: Set[str], causes: Sequence[str]
) -> tuple[Floats, Floats]:
    """What one batch says of each cause: log P(told | acted) / P(told), and the same for not."""
    network, evidence = told_of(rules, brew, flaw)
    at = [network.cause_index[cause] for cause in causes]
    after = solve(network, [evidence]).happened[0, at]
    before = _before(network, evidence)[at]
    with np.errstate(divide="ignore", invalid="ignore"):
        acted = np.where(before > 0.0, np.log(after) - np.log(before), -np.inf)
        quiet = np.log1p(-after) - np.log1p(-before)
    return acted, quiet


def _before(network: Network, evidence: Evidence) -> Floats:
    """Prior of each cause; what it needs and nobody logged belongs to the prior."""
    rate = network.base_rate.copy()
    for piece in evidence.pieces:
        if piece.kind == "unlogged":
            for cause, decibans in piece.happened.items():
                rate[network.cause_index[cause]] *= 10.0 ** (decibans / 10.0)
    for cause in evidence.impossible:
        rate[network.cause_index[cause]] = 0.0
    off = 1.0 - network.base_rate
    for cause in evidence.impossible:
        off[network.cause_index[cause]] = 1.0
    prior: Floats = rate / (rate + off)
    return prior


def told_of(rules: RuleBase, brew: Brew, flaw: Set[str]) -> tuple[Network, Evidence]:
    """The network of a batch and what is known of it: its measures, and the flaw or its absence."""
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
    return network, gather(rules, Known(findings, {}, {}, heard))


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

"""The two arms of a split compared: what differs that should not, and how far it spoils."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from diagnose.batch import Batch
from diagnose.errors import Fault, UnusableInput
from diagnose.evidence.finding import ClassFinding, Finding, NumberFinding
from diagnose.evidence.weighing import decibans_of
from diagnose.knowledge import RuleBase
from diagnose.trial.parity import SPOILED_BY_PARITY, Parity, other_entries, parity_of
from diagnose.trial.rivalry import (
    LEAST_SPOILT,
    Rival,
    Suspects,
    any_of,
    measures_of,
    reach_of,
    rivals_by,
    tells_of_factor,
)

Kind = Literal["factor", "confound", "harmless", "one_arm_only"]
Advice = Literal["go", "care", "stop"]
# A panel goes ahead below the first, with care below the second chance of a spoilt reading.
# Judgement.
CARE_FROM, STOP_FROM = 0.05, 0.20
# A smaller gap in evidence is no gap. Judgement.
_LEAST_DECIBANS = 1.0


@dataclass(frozen=True)
class ArmRecord:
    """One arm as it was logged, with its measures."""

    batch: Batch
    findings: Mapping[str, Finding]


@dataclass(frozen=True)
class Difference:
    """One measure that is not the same in both arms; texts are as the measure says them."""

    measure: str
    kind: Kind
    first: str
    second: str
    rivals: tuple[Rival, ...]
    spoils: float


@dataclass(frozen=True)
class Comparison:
    """Two arms compared.

    `factor_seen` is None where nothing in the records speaks of the factor. `harmless` is the
    chance of a difference that is not the suspect's doing, with everything found counted in.
    """

    differences: tuple[Difference, ...]
    parities: tuple[Parity, ...]
    also: tuple[str, ...]
    factor_seen: bool | None
    swapped: bool
    spoils: float
    harmless: float
    advice: Advice


def compare_arms(
    rules: RuleBase, first: ArmRecord, second: ArmRecord, suspects: Suspects
) -> Comparison:
    """Every difference between two arms, and whether the panel should go ahead.

    Args:
        rules: its links say which causes make the same compounds, its indicators which measures
            speak of them.
        first: the arm with the suspect setting.
        second: the other one.
        suspects: what is put to the split.

    Returns:
        The comparison.

    Raises:
        UnusableInput: both are one and the same record.
    """
    _require_two(first.batch, second.batch)
    reach = reach_of(rules, suspects)
    found = [
        _difference(rules, measure, (first.findings, second.findings), suspects, reach)
        for measure in rules.measures
    ]
    differences = tuple(one for one in found if one is not None)
    parities = parity_of(first.batch.record, second.batch.record)
    spoils = 1.0 - (1.0 - _spoilt(differences)) * (1.0 - SPOILED_BY_PARITY) ** len(parities)
    factor = {one.measure for one in differences if one.kind == "factor"}
    seen, swapped = _factor(rules, (first.findings, second.findings), suspects, factor)
    covered = {one.measure for one in differences}
    return Comparison(
        differences=tuple(sorted(differences, key=lambda one: (-one.spoils, one.measure))),
        parities=parities,
        also=other_entries(rules, first.batch.record, second.batch.record, covered),
        factor_seen=seen,
        swapped=swapped,
        spoils=spoils,
        harmless=1.0 - (1.0 - suspects.harmless) * (1.0 - spoils),
        advice=_advice(spoils, seen if suspects.causes else True, swapped),
    )


def _spoilt(differences: tuple[Difference, ...]) -> float:
    """The chance that some rival made a difference; each counts once, by its worst measure."""
    worst: dict[str, Rival] = {}
    for difference in differences:
        for rival in difference.rivals if difference.kind == "confound" else ():
            kept = worst.get(rival.cause, rival)
            worst[rival.cause] = max(kept, rival, key=lambda one: one.spoils)
    return any_of(tuple(worst.values()))


def _require_two(first: Batch, second: Batch) -> None:
    same_file = first.document.name == second.document.name
    if same_file or _told(first) == _told(second):
        found = f"{first.document.name} and {second.document.name}, which are the same record"
        raise UnusableInput(Fault("split check", 0, "", found, "the records of two arms"))


def _told(batch: Batch) -> dict[str, object]:
    """A record less its name and notes."""
    data = batch.document.data
    beside = ("batch", "notes")
    return {k: v for k, v in data.items() if k not in beside} if isinstance(data, dict) else {}


def _difference(
    rules: RuleBase,
    measure: str,
    arms: tuple[Mapping[str, Finding], Mapping[str, Finding]],
    suspects: Suspects,
    reach: Mapping[str, float],
) -> Difference | None:
    first, second = (arm.get(measure) for arm in arms)
    if first is None or second is None:
        return _one_sided(rules, measure, (first, second), reach)
    if not _unlike(first, second):
        return None
    is_factor = tells_of_factor(rules, measure, (first, second), suspects, reach)
    rivals = rivals_by(rules, measure, (first, second), suspects, reach)
    spoils = 0.0 if is_factor else any_of(rivals)
    kind: Kind = "factor" if is_factor else "confound" if spoils >= LEAST_SPOILT else "harmless"
    return Difference(measure, kind, first.says, second.says, rivals, spoils)


def _one_sided(
    rules: RuleBase,
    measure: str,
    found: tuple[Finding | None, Finding | None],
    reach: Mapping[str, float],
) -> Difference | None:
    heard_by = [one for one in reach if measure in measures_of(rules, one)]
    if (found[0] is None and found[1] is None) or not heard_by:
        return None
    first, second = ("not logged" if one is None else one.says for one in found)
    return Difference(measure, "one_arm_only", first, second, (), 0.0)


def _unlike(first: Finding, second: Finding) -> bool:
    if isinstance(first, ClassFinding) and isinstance(second, ClassFinding):
        return first.value != second.value
    if isinstance(first, NumberFinding) and isinstance(second, NumberFinding):
        size = max(abs(first.band.mid), abs(second.band.mid), 1e-9)
        return abs(first.band.mid - second.band.mid) > 0.01 * size
    return first.says != second.says


def _factor(
    rules: RuleBase,
    arms: tuple[Mapping[str, Finding], Mapping[str, Finding]],
    suspects: Suspects,
    factor: set[str],
) -> tuple[bool | None, bool]:
    """Whether the records show the factor to differ, and whether the wrong way round."""
    first, second = arms
    gaps = {
        indicator.measure: decibans_of(indicator, first[indicator.measure])
        - decibans_of(indicator, second[indicator.measure])
        for cause in suspects.causes
        for indicator in rules.causes[cause].indicators
        if indicator.measure in first and indicator.measure in second
    }
    if not gaps:
        return None, False
    told = [gap for measure, gap in gaps.items() if measure in factor]
    is_seen = any(abs(gap) >= _LEAST_DECIBANS for gap in told)
    return is_seen, sum(told) <= -_LEAST_DECIBANS


def _advice(spoils: float, factor_seen: bool | None, swapped: bool) -> Advice:
    if spoils >= STOP_FROM or factor_seen is False:
        return "stop"
    return "care" if spoils >= CARE_FROM or swapped or factor_seen is None else "go"

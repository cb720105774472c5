"""Two arms compared, in words."""

from collections.abc import Sequence

from diagnose.answers.caution import CautionLine
from diagnose.answers.chances import lower_first, percent
from diagnose.answers.splits import DifferenceLine, SplitChecked
from diagnose.consult.card_cautions import gravest_lines_first
from diagnose.consult.cautioning import cautions_for
from diagnose.consult.gathering import Consultation
from diagnose.consult.split_files import PlanAt
from diagnose.errors import Fault, UnusableInput
from diagnose.evidence.said import said_words
from diagnose.knowledge import RuleBase
from diagnose.trial.comparing import (
    ArmRecord,
    Comparison,
    Difference,
    compare_arms,
)
from diagnose.trial.fitting import is_directed
from diagnose.trial.likelihood import HARMLESS_DIRECTED
from diagnose.trial.parity import SPOILED_BY_PARITY
from diagnose.trial.rivalry import Suspects

_KINDS = {"confound": 0, "parity": 1, "factor": 2, "one_arm_only": 3, "harmless": 4}


def check(
    rules: RuleBase, first: Consultation, second: Consultation, plan: PlanAt | None
) -> SplitChecked:
    """What differs between two arms, and whether the panel should go ahead.

    Args:
        rules: the rule base.
        first: the arm with the suspect setting.
        second: the other one.
        plan: the plan, if there is one; without it every difference counts against the split.

    Raises:
        UnusableInput: both are one record, or nothing says which fault it is about.
    """
    suspects = _suspects(rules, (first, second), plan)
    arms = [ArmRecord(one.batch, one.known.findings) for one in (first, second)]
    found = compare_arms(rules, arms[0], arms[1], suspects)
    names = [rules.causes[one].name for one in suspects.causes]
    return SplitChecked(
        first=first.batch.name,
        second=second.batch.name,
        about=" and ".join(names) or "no plan: every difference is taken as unintended",
        advice=found.advice,
        says=_says(found, plan is not None),
        differences=tuple(_lines(rules, found)),
        also=found.also,
        spoils=found.spoils,
        harmless=found.harmless,
        written=None,
        remarks=tuple(_remarks(rules, found, suspects)),
        cautions=_cautions(rules, (first, second)),
    )


def _cautions(rules: RuleBase, arms: tuple[Consultation, Consultation]) -> tuple[CautionLine, ...]:
    """The cautions that the record of either arm brings, those that say stop first."""
    both = dict.fromkeys(one for arm in arms for one in cautions_for(rules, arm, ()))
    return gravest_lines_first(both)


def _suspects(rules: RuleBase, arms: Sequence[Consultation], plan: PlanAt | None) -> Suspects:
    if plan is not None:
        causes = tuple(factor.cause for factor in plan.plan.factors)
        strangers = [one for one in causes if one not in rules.causes]
        if strangers:
            wanted = "causes of this rule base"
            raise UnusableInput(Fault(str(plan.folder), 0, "cause", repr(strangers[0]), wanted))
        # A test that asks for no flavour by name answers to any difference there is.
        asked = plan.plan.compounds if is_directed(plan.plan.test) else tuple(rules.compounds)
        known = tuple(name for name in asked if name in rules.compounds)
        shares = {one.id: one.share for one in plan.plan.explanations}
        return Suspects(causes, known, plan.plan.harmless, shares)
    words = {
        sense
        for arm in arms
        for said in said_words(rules, arm.known.heard).values()
        for sense in said.senses
    }
    compounds = tuple(
        name for name, card in rules.compounds.items() if not words or words & set(card.gives)
    )
    return Suspects((), compounds, HARMLESS_DIRECTED)


def _says(found: Comparison, planned: bool) -> str:
    if found.factor_seen is False:
        return "Do not taste: the records show no difference in the factor itself."
    spoilt = percent(found.spoils)
    if found.advice == "stop":
        return (
            "Do not taste: a difference could well come from something else "
            f"(chance {spoilt}). Brew the pair again, or read it as a search."
        )
    if found.advice == "care":
        why = "the arms look swapped" if found.swapped else f"chance of a spoilt reading {spoilt}"
        if planned and found.factor_seen is None:
            why = "nothing in the records shows that the factor differed at all"
        return f"Go ahead with care: {why}. The reading takes it into account."
    return f"Go ahead: nothing found that spoils the reading (chance {spoilt})."


def _lines(rules: RuleBase, found: Comparison) -> list[DifferenceLine]:
    lines = [_line(rules, one) for one in found.differences]
    lines += [
        DifferenceLine(
            measure=one.what.replace(" ", "_"),
            name=one.what,
            kind="parity",
            first=one.first,
            second=one.second,
            spoils=SPOILED_BY_PARITY,
            says=f"should agree within {one.within}",
        )
        for one in found.parities
    ]
    return sorted(lines, key=lambda line: (_KINDS[line.kind], -line.spoils, line.measure))


def _line(rules: RuleBase, one: Difference) -> DifferenceLine:
    return DifferenceLine(
        measure=one.measure,
        name=rules.measures[one.measure].name,
        kind=one.kind,
        first=one.first,
        second=one.second,
        spoils=one.spoils,
        says=_difference_says(rules, one),
    )


def _difference_says(rules: RuleBase, one: Difference) -> str:
    rivals = ", ".join(
        f"{lower_first(rules.causes[rival.cause].name)} ({percent(rival.spoils)})"
        for rival in one.rivals[:3]
    )
    if one.kind == "confound":
        return f"not meant to differ; it may make the difference by itself through {rivals}"
    if one.kind == "factor":
        tied = f"; this split cannot part it from {rivals}" if rivals else ""
        return f"the factor itself{tied}"
    if one.kind == "one_arm_only":
        return "logged for one arm only: write it down for the other, or it stays a doubt"
    return "not meant to differ, but nothing that this panel would taste is known to listen to it"


def _remarks(rules: RuleBase, found: Comparison, suspects: Suspects) -> list[str]:
    remarks = []
    if found.swapped:
        remarks.append(
            "the factor differs the other way round: were the records given as A then B?"
        )
    if suspects.causes and found.factor_seen is None:
        wanted = dict.fromkeys(
            rules.measures[indicator.measure].name
            for cause in suspects.causes
            for indicator in rules.causes[cause].indicators
        )
        remarks.append(f"to show the factor, log for both arms: {', '.join(list(wanted)[:4])}")
    remarks.append(f"the reading will take {percent(found.harmless)} for a harmless difference")
    return remarks


def check_text(answer: SplitChecked) -> str:
    """What a later reading needs of a check, as text for a file."""
    return (
        "# What the check of the two arms found; the reading takes 'harmless' from here.\n"
        f"advice: {answer.advice}\nspoils: {answer.spoils:.6f}\nharmless: {answer.harmless:.6f}\n"
    )

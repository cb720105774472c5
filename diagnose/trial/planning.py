"""From a suspect to a plan: arms, vessels, what must be equal, steps, dates and cautions."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from random import Random
from typing import Any

from diagnose.errors import Fault, UnusableInput
from diagnose.inference.ranking import Ranking
from diagnose.knowledge import RuleBase, near_causes_said
from diagnose.knowledge.causes import SplitHint
from diagnose.trial.arms import settings_of
from diagnose.trial.controls import KEEP, controls_for
from diagnose.trial.dates import dates_of
from diagnose.trial.drawing import arms_of, draw_vessels
from diagnose.trial.equal import equal_in_all_arms
from diagnose.trial.fault import SuspectedFault, fault_of_cause, faults_in, loudest_word, names_of
from diagnose.trial.fitting import fitting_test, is_directed
from diagnose.trial.likelihood import harmless_by_test
from diagnose.trial.minding import STOP_RULES, remarks_on
from diagnose.trial.plan import Design, Equal, Explanation, Factor, Plan, Warned
from diagnose.trial.stages import SPLIT_POINTS
from diagnose.trial.steps import litres_needed, setting_words, steps_of
from diagnose.units import Field, show

_LEAST_SHOWN_SHARE = 0.0005
_USUAL_ALCOHOL = 5.0
_MOST_PAIRS, _MOST_FACTORS = 6, 4


@dataclass(frozen=True)
class PlanAsked:
    """What the brewer wants: suspects, volume, pairs of vessels, panel, seed and first day.

    `record` and `tastes` are the record and the words about the taste as they were typed.
    """

    causes: tuple[str, ...]
    litres: float
    start: date
    seed: int
    made: date
    design: Design = "isolating"
    pairs: int = 1
    tasters: int = 9
    test: str | None = None
    record: str = ""
    tastes: tuple[str, ...] = ()


@dataclass(frozen=True)
class BatchFacts:
    """What a plan takes from the batch: its name, ranking, circumstances and what is in it."""

    name: str
    ranking: Ranking
    circumstances: Mapping[str, str]
    alcohol_percent: float | None
    contains: tuple[str, ...]
    cautions: tuple[Warned, ...]
    taught: Mapping[str, float] = field(default_factory=dict)

    @property
    def served(self) -> bool:
        """Whether the beer may be tasted."""
        return not any(one.level == "stop" for one in self.cautions)


def plan_split(rules: RuleBase, facts: BatchFacts, asked: PlanAsked) -> Plan:
    """A plan that is written down before the brew.

    Args:
        rules: the rule base.
        facts: about the batch that the fault is in.
        asked: what the brewer wants.

    Raises:
        UnusableInput: a suspect that is unknown, cannot be split or is not behind the fault; two
            factors as an isolating split; a volume or a number of pairs that will not do.
    """
    hints = _hints(rules, asked)
    fault = fault_of_cause(faults_in(facts.ranking), asked.causes[0])
    factors = tuple(_factor(rules, fault, cause) for cause in asked.causes)
    arms = arms_of(factors, asked.design)
    vessels = draw_vessels(arms, asked.pairs, Random(asked.seed))
    test, why_test = _test(fault, facts, asked)
    hint = _earliest(hints)
    needed = max(hint.litres, litres_needed(test, asked.tasters))
    part = _litres_per_vessel(asked, needed, len(vessels))
    words = tuple((arm, setting_words(factors, arm)) for arm in arms)
    made_by = _compounds(rules, fault, asked.causes)
    return Plan(
        batch=facts.name,
        **_as_typed(asked),
        fault=fault.words,
        ask=_asked_for(rules, fault, asked),
        factors=factors,
        arms=arms,
        vessels=vessels,
        litres_per_arm=part,
        test=test,
        why_test=why_test,
        harmless=harmless_by_test(is_directed(test)),
        compounds=made_by,
        explanations=_explanations(rules, fault, asked.causes),
        **_kept_equal(rules, fault, dict(zip(asked.causes, hints, strict=True))),
        controls=controls_for(made_by, arms[-1].label),
        keep=KEEP,
        steps=steps_of(hint, words, vessels, (asked.litres, part), served=facts.served),
        dates=dates_of(hints, asked.start, served=facts.served),
        stop_rules=STOP_RULES,
        remarks=remarks_on(asked.design, asked.pairs, (needed, part)),
        **_of_the_batch(facts),
    )


def _as_typed(asked: PlanAsked) -> dict[str, Any]:
    """What a plan takes over from the brewer as it is."""
    taken = ("record", "tastes", "made", "seed", "design", "litres", "tasters")
    return {name: getattr(asked, name) for name in taken}


def _kept_equal(
    rules: RuleBase, fault: SuspectedFault, hints: Mapping[str, SplitHint]
) -> dict[str, tuple[Equal, ...]]:
    found = equal_in_all_arms(rules, fault, hints)
    return {"equal": found.equal, "tied": found.tied}


def _of_the_batch(facts: BatchFacts) -> dict[str, Any]:
    """What the plan says of the beer and its dangers."""
    return {
        "alcohol_percent": facts.alcohol_percent or _USUAL_ALCOHOL,
        "alcohol_known": facts.alcohol_percent is not None,
        "contains": facts.contains,
        "taught": dict(facts.taught),
        "cautions": facts.cautions,
        "not_served_because": tuple(one.text for one in facts.cautions if one.level == "stop"),
    }


def _earliest(hints: tuple[SplitHint, ...]) -> SplitHint:
    """The split that comes first in the brew, with the factors of all."""
    first = min(hints, key=lambda hint: SPLIT_POINTS[hint.stage].place)
    factors = "; ".join(hint.factor for hint in hints)
    return first.model_copy(update={"factor": factors})


def _test(fault: SuspectedFault, facts: BatchFacts, asked: PlanAsked) -> tuple[str, str]:
    fitting = fitting_test(fault.words, fault.named, facts.circumstances)
    return (asked.test, "as you asked") if asked.test else (fitting.test, fitting.why)


def _asked_for(rules: RuleBase, fault: SuspectedFault, asked: PlanAsked) -> str | None:
    """The flavour to ask for by name, if it has one."""
    if not fault.named:
        return None
    return rules.descriptors[loudest_word(rules, fault, asked.causes[0])].name


def _hints(rules: RuleBase, asked: PlanAsked) -> tuple[SplitHint, ...]:
    hints = []
    for cause in asked.causes:
        card = rules.causes.get(cause)
        if card is None:
            near = near_causes_said(rules, cause)
            wanted = f"the id of a cause, as `faultwort split choose` lists them{near}"
            raise UnusableInput(Fault("split plan", 0, "cause", repr(cause), wanted))
        if card.split is None:
            wanted = f"a cause that can be split; for this one: {card.now[0]}"
            raise UnusableInput(Fault("split plan", 0, "cause", repr(cause), wanted))
        hints.append(card.split)
    _require_design(asked)
    if not 1 <= asked.pairs <= _MOST_PAIRS:
        wanted = f"1 to {_MOST_PAIRS} pairs of vessels"
        raise UnusableInput(Fault("split plan", 0, "pairs", str(asked.pairs), wanted))
    return tuple(hints)


def _require_design(asked: PlanAsked) -> None:
    count = len(dict.fromkeys(asked.causes))
    if count != len(asked.causes):
        raise UnusableInput(Fault("split plan", 0, "cause", "one cause twice", "each cause once"))
    if asked.design == "isolating" and count > 1:
        found = f"{count} factors at once, which isolate none of them"
        wanted = (
            "one cause at a time (two splits, the likelier first); or `--design 2x2` with four "
            "vessels, which also shows whether they act together; or `--design search`, which "
            "tells only whether one of them is to blame: search, not proof"
        )
        raise UnusableInput(Fault("split plan", 0, "cause", found, wanted))
    fits = {"isolating": count == 1, "2x2": count == 2, "search": 2 <= count <= _MOST_FACTORS}
    if not fits[asked.design]:
        wanted = "one cause to isolate, two for a 2x2, two to four for a search"
        raise UnusableInput(Fault("split plan", 0, "design", f"{count} causes", wanted))


def _factor(rules: RuleBase, fault: SuspectedFault, cause: str) -> Factor:
    card = rules.causes[cause]
    if fault.share(cause) <= 0.0:
        wanted = "a cause that may be behind the fault; see `faultwort split choose`"
        raise UnusableInput(Fault("split plan", 0, "cause", repr(cause), wanted))
    assert card.split is not None
    suspect, other = settings_of(card.split)
    return Factor(
        cause=cause,
        name=card.name,
        stage=card.split.stage,
        what=card.split.factor,
        suspect=suspect,
        other=other,
        fires=fault.fires(cause),
    )


def _litres_per_vessel(asked: PlanAsked, needed: float, vessels: int) -> float:
    if not 0.0 < asked.litres <= 10_000.0:
        wanted = "the volume of your batch, such as 23 L"
        raise UnusableInput(Fault("split plan", 0, "volume", f"{asked.litres:g} L", wanted))
    part = min(needed, asked.litres / vessels)
    if part < _LEAST_LITRES:
        found = f"{show(asked.litres, Field.VOLUME)} for {vessels} vessels"
        wanted = f"at least {show(_LEAST_LITRES * vessels, Field.VOLUME)}, or fewer pairs"
        raise UnusableInput(Fault("split plan", 0, "volume", found, wanted))
    return part


# Less than this in a vessel is no beer to judge. Practice.
_LEAST_LITRES = 0.5


def _compounds(rules: RuleBase, fault: SuspectedFault, causes: tuple[str, ...]) -> tuple[str, ...]:
    """The fault's compounds that the suspects make, the strongest link first."""
    strength = {
        name: max(
            (
                rules.compounds[name].made_by[c].value
                for c in causes
                if c in rules.compounds[name].made_by
            ),
            default=0.0,
        )
        for name in fault.compounds
    }
    made = [name for name in strength if strength[name] > 0.0]
    return tuple(sorted(made, key=lambda name: (-strength[name], name)))


def _explanations(
    rules: RuleBase, fault: SuspectedFault, split: tuple[str, ...]
) -> tuple[Explanation, ...]:
    names = names_of(rules)
    order = sorted(fault.explanations, key=lambda one: (-fault.share(one), one))
    return tuple(
        Explanation(id=one, name=names[one], share=fault.share(one))
        for one in order
        if fault.share(one) >= _LEAST_SHOWN_SHARE or one in split
    )

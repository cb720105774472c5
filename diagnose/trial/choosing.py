"""Which suspect to put to a split first: information for its cost, and who could read it."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil

from diagnose.inference.ranking import Ranking
from diagnose.knowledge import Cause, RuleBase
from diagnose.sensory import METHODS, USUAL_ALPHA, critical, first_and_safe, power_by_dprime
from diagnose.sensory.psychometric import share_right
from diagnose.trial.bundling import Bundle, bundle_of
from diagnose.trial.costs import Cost, cost_of
from diagnose.trial.fault import SuspectedFault, fault_of_cause, faults_in
from diagnose.trial.fitting import counting_method, fitting_test, is_directed
from diagnose.trial.gains import Worth, expected_bits, shares_after, worth_of_more
from diagnose.trial.likelihood import Readout, harmless_by_test, readout_of_panel
from diagnose.trial.stages import SPLIT_POINTS

# Suspects below this are left out. Practice: a split is for a live suspicion.
LEAST_SHARE = 0.02
# A fault that a home panel should find: plain to taste, not glaring [standard deviations].
PLAIN_DPRIME, GLARING_DPRIME = 1.5, 2.5
# A panel that would miss a plain fault more often than not cannot read the split. Judgement.
READABLE_FROM, WANTED_POWER = 0.5, 0.8
# Options this close to the best are told apart by how late the brew is divided. Practice.
_NEARLY_AS_GOOD = 0.8


@dataclass(frozen=True)
class PanelAtHand:
    """Who would taste: how many people, how many rounds each, and the test if it is fixed."""

    tasters: int
    rounds: int = 1
    test: str | None = None

    @property
    def answers(self) -> int:
        """How many answers there will be."""
        return self.tasters * self.rounds


@dataclass(frozen=True)
class Prediction:
    """What the panel should show if the cause is responsible, and if it is not.

    The first two are mean counts of right answers, the other two chances that a difference is
    shown at the usual risk.
    """

    right_if_so: float
    right_if_not: float
    shown_if_so: float
    shown_if_not: float


@dataclass(frozen=True)
class Candidate:
    """One suspect that could be put to a split."""

    cause: str
    fault: SuspectedFault
    test: str
    why_test: str
    fires: float
    harmless: float
    prediction: Prediction
    bits: float
    cost: Cost
    power: float
    least_right: int | None
    decides: bool
    would_help: tuple[str, ...]
    worth: tuple[Worth, ...]

    @property
    def readable(self) -> bool:
        """Whether the panel at hand would find a plain fault more often than not."""
        return self.power >= READABLE_FROM

    @property
    def bits_per_unit(self) -> float:
        """What it teaches for its cost."""
        return self.bits / self.cost.units


@dataclass(frozen=True)
class Choice:
    """Splits in the order of worth, suspects that have none, and a bundle where nothing leads."""

    candidates: tuple[Candidate, ...]
    without_split: tuple[str, ...]
    bundle: Bundle | None


def choose_split(
    rules: RuleBase, ranking: Ranking, circumstances: Mapping[str, str], panel: PanelAtHand
) -> Choice:
    """Every suspect that could be split, the most information for its cost first.

    Args:
        rules: the rule base.
        ranking: the ranking of the batch; its first scenario counts.
        circumstances: what is told of the fault.
        panel: who would taste.

    Returns:
        The choice; unreadable splits come last.
    """
    faults = faults_in(ranking)
    suspects = _suspects(faults)
    with_split = [one for one in suspects if rules.causes[one].split is not None]
    found = [
        _candidate(rules.causes[one], fault_of_cause(faults, one), circumstances, panel)
        for one in with_split
    ]
    bundle = bundle_of(rules, faults[0], circumstances, panel.answers) if len(faults) == 1 else None
    without = tuple(one for one in suspects if one not in with_split)
    return Choice(_ordered(rules, found), without, bundle)


def _suspects(faults: tuple[SuspectedFault, ...]) -> list[str]:
    causes = faults[0].explanations[:-2] if faults else ()
    best = {one: max(fault.share(one) for fault in faults) for one in causes}
    return sorted((o for o in causes if best[o] >= LEAST_SHARE), key=lambda o: (-best[o], o))


def _ordered(rules: RuleBase, found: list[Candidate]) -> tuple[Candidate, ...]:
    """The best per cost first; of those nearly as good, the one divided latest leads."""

    def latest(one: Candidate) -> int:
        hint = rules.causes[one.cause].split
        return SPLIT_POINTS[hint.stage].place if hint else 0

    order = sorted(found, key=lambda one: (not one.readable, -one.bits_per_unit, one.cause))
    if order and order[0].readable:
        floor = _NEARLY_AS_GOOD * order[0].bits_per_unit
        near = [one for one in order if one.readable and one.bits_per_unit >= floor]
        lead = max(near, key=lambda one: (latest(one), one.bits_per_unit, one.cause))
        order = [lead, *(one for one in order if one is not lead)]
    return tuple(order)


def _candidate(
    cause: Cause, fault: SuspectedFault, circumstances: Mapping[str, str], panel: PanelAtHand
) -> Candidate:
    fitting = fitting_test(fault.words, fault.named, circumstances)
    test = panel.test or fitting.test
    method, place = counting_method(test), fault.place(cause.id)
    fires, harmless = fault.fires(cause.id), harmless_by_test(is_directed(test))
    readout = readout_of_panel(method, panel.answers, fires, harmless)
    limit = critical(method, panel.answers, USUAL_ALPHA).least_right
    assert cause.split is not None
    return Candidate(
        cause=cause.id,
        fault=fault,
        test=test,
        why_test="as you asked" if panel.test else fitting.why,
        fires=fires,
        harmless=harmless,
        prediction=_predicted(readout, limit),
        bits=expected_bits(fault.shares, {place: readout}),
        cost=cost_of(cause.split),
        power=power_by_dprime(method, panel.answers, USUAL_ALPHA, PLAIN_DPRIME),
        least_right=limit,
        decides=_decides(fault, place, readout),
        would_help=what_would_help(test, panel),
        worth=worth_of_more(fault.shares, place, method, panel.answers, (fires, harmless)),
    )


def _predicted(readout: Readout, limit: int | None) -> Prediction:
    counts = range(len(readout.if_so))
    from_ = len(readout.if_so) if limit is None else limit
    return Prediction(
        right_if_so=float(readout.if_so @ counts),
        right_if_not=float(readout.if_not @ counts),
        shown_if_so=float(readout.if_so[from_:].sum()),
        shown_if_not=float(readout.if_not[from_:].sum()),
    )


def _decides(fault: SuspectedFault, place: int, readout: Readout) -> bool:
    """Whether the best and the worst result would leave different explanations in front."""
    ends = (float(readout.ratio.min()), float(readout.ratio.max()))
    firsts = {int(shares_after(fault.shares, {place: ratio}).argmax()) for ratio in ends}
    return len(firsts) > 1


def what_would_help(test: str, panel: PanelAtHand) -> tuple[str, ...]:
    """What would make a split readable for the panel at hand; empty where it already is.

    A remedy after which the panel would still miss a fault more often than not is none.
    """
    method = counting_method(test)
    if power_by_dprime(method, panel.answers, USUAL_ALPHA, PLAIN_DPRIME) >= READABLE_FROM:
        return ()
    share = float(share_right(method, PLAIN_DPRIME))
    first, _ = first_and_safe(method, share, alpha=USUAL_ALPHA, power=WANTED_POWER)
    found = []
    if first is not None:
        rounds = ceil(first / panel.tasters)
        found.append(
            f"{first} answers instead of {panel.answers}: more tasters, or {rounds} rounds"
        )
    if not is_directed(test):
        paired = METHODS["2-afc"]
        with_name = power_by_dprime(paired, panel.answers, USUAL_ALPHA, PLAIN_DPRIME)
        text = "asking which of two glasses has more of the fault finds it in"
        found += [f"{text} {100 * with_name:.0f} %"] if with_name >= READABLE_FROM else []
    stronger = power_by_dprime(method, panel.answers, USUAL_ALPHA, GLARING_DPRIME)
    text = f"a stronger setting: a glaring fault is found in {100 * stronger:.0f} %"
    found += [text] if stronger >= READABLE_FROM else []
    found.append("a spiked glass as a control, to know whether these tasters can taste it at all")
    return tuple(found)

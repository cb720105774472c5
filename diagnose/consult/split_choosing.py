"""Which suspect to put to a split, in words."""

from dataclasses import replace

from diagnose.answers import NextStep
from diagnose.answers.chances import lower_first, percent
from diagnose.answers.splits import BundleLine, CandidateLine, FirstCheck, SplitChoice, WorthLine
from diagnose.consult.diagnosing import diagnose
from diagnose.consult.gathering import Consultation
from diagnose.consult.networks import network_of_batch
from diagnose.errors import Fault, UnusableInput
from diagnose.evidence.gathering import gather
from diagnose.inference.question import LEAST_MINUTES
from diagnose.inference.ranking import Ranking, rank
from diagnose.knowledge import RuleBase
from diagnose.sensory import name_of_test
from diagnose.sensory.refusing import require_answers
from diagnose.trial.arms import settings_of
from diagnose.trial.bundling import Bundle
from diagnose.trial.choosing import Candidate, Choice, PanelAtHand, choose_split
from diagnose.trial.fitting import TESTS_WITH_BALLOTS
from diagnose.trial.readings import NOTHING_TAUGHT, Taught, ranking_after
from diagnose.trial.stages import SPLIT_POINTS

# A check that teaches less than this does not come before anything. Practice.
_LEAST_BITS = 0.05
_EXTRA_DAY_HOURS = 6.0
_NOT_TASTED = (
    "the beer of this split is not to be tasted, so no panel reads it: compare the arms by eye and "
    "by what you can measure"
)


def ranking_of(
    rules: RuleBase, consultation: Consultation, taught: Taught = NOTHING_TAUGHT
) -> Ranking:
    """The ranking of a batch, which a split starts from.

    Args:
        rules: the rule base.
        consultation: the batch.
        taught: what splits of it taught before.

    Raises:
        UnusableInput: nothing is said of the taste, or those splits were about another flavour.
    """
    network = network_of_batch(rules, consultation)
    ranking = rank(network, [gather(rules, consultation.known)])
    if not ranking.structure.groups:
        wanted = 'a tasting, in the record or as --taste "hint of butter"'
        name = consultation.batch.document.name
        raise UnusableInput(Fault(name, 0, "tastings", "no word about the flavour", wanted))
    words = {word for group in ranking.structure.groups for word in group}
    if taught.words and not words & set(taught.words):
        names = {key: card.name for key, card in rules.descriptors.items()}
        found = f"a split about {', '.join(names.get(one, one) for one in taught.words)}"
        wanted = f"one about {', '.join(names.get(one, one) for one in sorted(words))}"
        raise UnusableInput(Fault("split", 0, "--after", found, wanted))
    return ranking_after(ranking, taught)


def choose(
    rules: RuleBase,
    consultation: Consultation,
    asked: PanelAtHand,
    taught: Taught = NOTHING_TAUGHT,
) -> SplitChoice:
    """Which suspect to put to a split.

    Args:
        rules: the rule base.
        consultation: the batch.
        asked: who would taste, and the test as it was typed.
        taught: what splits of it taught before.

    Raises:
        UnusableInput: a panel or a test that cannot be, or nothing said of the taste.
    """
    require_answers(asked.tasters)
    require_answers(asked.answers)
    panel = replace(asked, test=_known_test(asked.test))
    ranking = ranking_of(rules, consultation, taught)
    choice = choose_split(rules, ranking, consultation.known.circumstances, panel)
    diagnosis = diagnose(rules, consultation)
    first = _check_first(rules, diagnosis.next_, choice)
    stopped = any(one.level == "stop" for one in diagnosis.cautions)
    return SplitChoice(
        batch=consultation.batch.name,
        tasters=panel.tasters,
        rounds=panel.rounds,
        says=_says(rules, choice, first, stopped=stopped),
        check_first=first,
        candidates=tuple(
            _line(rules, one, panel, stopped or _stops(rules, one.cause))
            for one in choice.candidates
        ),
        bundle=_bundle(rules, choice.bundle),
        without_split=tuple(rules.causes[one].name for one in choice.without_split),
        cautions=diagnosis.cautions,
    )


def _known_test(typed: str | None) -> str | None:
    if typed is None:
        return None
    test = name_of_test(typed)
    if test not in TESTS_WITH_BALLOTS:
        wanted = f"one of {', '.join(TESTS_WITH_BALLOTS)}"
        raise UnusableInput(Fault("split", 0, "test", repr(typed), wanted))
    return test


def _tasted(rules: RuleBase, choice: Choice) -> list[Candidate]:
    """The splits that the panel can read and may taste."""
    return [one for one in choice.candidates if one.readable and not _stops(rules, one.cause)]


def _check_first(rules: RuleBase, steps: tuple[NextStep, ...], choice: Choice) -> FirstCheck | None:
    """The check, question or entry that teaches more for its hours than the best split."""
    useful = [step for step in steps if step.gain_bits >= _LEAST_BITS]
    if not useful:
        return None
    checks = [step for step in useful if step.kind == "check"]
    first = max(checks or useful, key=lambda step: (_per_hour(step), step.id))
    split = max(map(_bits_per_hour, _tasted(rules, choice)), default=0.0)
    if _per_hour(first) <= split:
        return None
    return FirstCheck(
        id=first.id,
        kind=first.kind,
        text=first.text,
        minutes=first.minutes,
        gain_bits=first.gain_bits,
    )


def _per_hour(step: NextStep) -> float:
    return 60.0 * step.gain_bits / max(step.minutes, LEAST_MINUTES)


def _bits_per_hour(one: Candidate) -> float:
    return one.bits / (one.cost.hours + _EXTRA_DAY_HOURS * one.cost.brew_days)


def _says(rules: RuleBase, choice: Choice, first: FirstCheck | None, *, stopped: bool) -> str:
    if first is not None:
        kind = {"check": "check", "question": "question", "entry": "look into the log"}[first.kind]
        lead = "do this" if first.kind == "check" else "settle this"
        return (
            f"Not worth a split yet: {lead} {first.minutes:.0f}-minute {kind} first. {first.text}"
        )
    if stopped:
        return "No split of this can be tasted: the beer is not to be served. See the caution."
    readable = _tasted(rules, choice)
    if not readable:
        return "No split that this panel could read; what would help is said with each."
    best = rules.causes[readable[0].cause]
    return f"Put this to a split: {lower_first(best.name)}, divided in {_in(readable[0], rules)}."


def _in(one: Candidate, rules: RuleBase) -> str:
    hint = rules.causes[one.cause].split
    return hint.stage.replace("_", " ") if hint else ""


def _line(rules: RuleBase, one: Candidate, panel: PanelAtHand, not_served: bool) -> CandidateLine:
    card = rules.causes[one.cause]
    assert card.split is not None
    suspect, other = settings_of(card.split)
    cost, told = one.cost, one.prediction
    return CandidateLine(
        cause=one.cause,
        name=card.name,
        responsible=one.fault.share(one.cause),
        fault=tuple(rules.descriptors[word].name for word in one.fault.words),
        stage=card.split.stage,
        factor=card.split.factor,
        suspect_setting=suspect,
        other_setting=other,
        test=one.test,
        why_test=one.why_test,
        fires=one.fires,
        harmless=one.harmless,
        answers=panel.answers,
        least_correct=one.least_right,
        right_if_so=told.right_if_so,
        right_if_not=told.right_if_not,
        shown_if_so=told.shown_if_so,
        shown_if_not=told.shown_if_not,
        gain_bits=one.bits,
        extra_brew_days=cost.brew_days,
        litres=cost.litres,
        weeks=cost.weeks,
        hours=cost.hours,
        cost_units=cost.units,
        bits_per_unit=one.bits_per_unit,
        power=one.power,
        readable=one.readable,
        decides=one.decides,
        not_served=not_served,
        kit=SPLIT_POINTS[card.split.stage].kit,
        would_help=one.would_help,
        worth=tuple(WorthLine(what=line.what, bits=line.bits) for line in one.worth),
        says=_NOT_TASTED if not_served else _candidate_says(one, panel),
    )


def _candidate_says(one: Candidate, panel: PanelAtHand) -> str:
    told, of = one.prediction, panel.answers
    text = (
        f"if responsible, about {told.right_if_so:.1f} of {of} right and a difference shown "
        f"in {percent(told.shown_if_so)}; if not, {told.right_if_not:.1f} and "
        f"{percent(told.shown_if_not)}"
    )
    return text if one.decides else f"{text}; whichever way it falls, the first suspect stays first"


def _stops(rules: RuleBase, cause: str) -> bool:
    """Whether a suspicion of this cause alone says that the beer is not to be tasted."""
    return any(
        card.level == "stop" and any(trigger.cause == cause for trigger in card.when)
        for card in rules.cautions.values()
    )


def _bundle(rules: RuleBase, bundle: Bundle | None) -> BundleLine | None:
    if bundle is None:
        return None
    names = tuple(rules.causes[one].name for one in bundle.causes)
    return BundleLine(
        causes=bundle.causes,
        names=names,
        share=bundle.share,
        gain_bits=bundle.bits,
        says="No suspect exceeds 30 %. Change these together in one arm to halve the field: "
        f"search, not proof, worth {bundle.bits:.2f} bits. Split the winner by itself afterwards.",
    )

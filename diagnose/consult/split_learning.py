"""What a split taught, what it did not, and what to do next."""

from typing import Literal

from diagnose.answers.chances import lower_first, percent
from diagnose.answers.panels import PanelRead
from diagnose.consult.panel_words import few_words, is_few
from diagnose.sensory import SHOWN, Method, fewest_answers
from diagnose.trial.fault import EXPECTED_HERE, NOT_IN_RULE_BASE
from diagnose.trial.plan import Plan
from diagnose.trial.readings import Lesson, Moved

# A tasting that moves the odds by less than this taught little; a suspect above the second is
# worth acting on, one below the third worth leaving. Judgement.
_LITTLE, _SURE_FROM, _DONE_BELOW = 1.25, 0.80, 0.05


def known_words(
    plan: Plan, reading: PanelRead, lesson: Lesson, pattern: str | None
) -> tuple[str, ...]:
    """What is now known.

    Args:
        plan: the plan.
        reading: the panel read.
        lesson: what it says of the suspects.
        pattern: which arm has the fault against a clean reference, if that was judged.
    """
    found = [f"{_sentence(reading.says)} ({reading.name}, {reading.given})."]
    for cause, ratio in zip(lesson.causes, lesson.ratios, strict=True):
        moved = lesson.of(cause)
        found.append(
            f"{moved.explanation.name}: odds {_times(ratio)}, from {percent(moved.before)} to "
            f"{percent(moved.after)}."
        )
    if pattern == "both":
        found.append("The fault is in both arms, so what differed between them did not make it.")
    if pattern == "neither":
        found.append(
            "The fault is in neither arm: this brew did not provoke it and taught nothing."
        )
    if plan.design == "search":
        found.append("This was a search: it speaks of the bundle, and of no single suspect.")
    return tuple(found)


def not_known_words(
    plan: Plan, reading: PanelRead, lesson: Lesson, counted: tuple[Method, int]
) -> tuple[str, ...]:
    """What is still not known.

    Args:
        plan: the plan.
        reading: the panel read.
        lesson: what it says of the suspects.
        counted: the test whose count was taken, and how many answers.
    """
    found = [_sentence(f"{words}.") for words in few_answers(plan, *counted)]
    if reading.verdict in SHOWN:
        found.append(
            "Whether the factor did it or the vessels: one pair is one trial, however many taste."
            if max(vessel.pair for vessel in plan.vessels) == 1
            else "Whether the other pair goes the same way; read it as a panel of its own."
        )
        if reading.test not in ("2-afc", "3-afc"):
            found.append(
                "Whether the difference is the fault: ask for it by name, or hold both "
                "arms against a clean reference."
            )
    if reading.verdict == "not_shown":
        found.append("Whether the beers are alike: not shown is not 'no difference'.")
    low, high = lesson.reach
    found.append(
        f"More than this pair can say: with a fault that fires in {percent(lesson.fires)} and a "
        f"harmless difference in {percent(lesson.harmless)}, no tasting of it moves the odds "
        f"beyond {_times(low)} or {_times(high)}."
    )
    return tuple(found)


# What a reading calls for: the same suspect once more, the pair of vessels still to be tasted, the
# change made for good, the labels looked at, or another suspect.
Step = Literal["again", "other_pair", "settled", "labels", "another"]
_BY_PATTERN: dict[str | None, tuple[str, Step]] = {
    "other": (
        "Check the key and the labels first: the fault is in the arm that should be clean.",
        "labels",
    ),
    "neither": (
        "Provoke it: push the suspect setting further, or wait longer, and split again.",
        "again",
    ),
}
_LITTLE_TAUGHT = (
    "This taught little. Ask for the flavour by name, serve more rounds, or push the suspect "
    "setting; two small pairs beat one large panel."
)
_LITTLE_TAUGHT_BY_NAME = (
    "This taught little. Serve more rounds, or push the suspect setting; two small pairs beat one "
    "large panel."
)


def few_answers(plan: Plan, method: Method, answers: int) -> tuple[str, ...]:
    """How little so few answers can show, and how many were planned; nothing where they do."""
    few = few_words(method, answers)
    planned = f"{answers} answers where {plan.tasters} were planned"
    return (*((few,) if few else ()), *((planned,) if answers < plan.tasters else ()))


def next_words(
    plan: Plan, lesson: Lesson, pattern: str | None, counted: tuple[Method, int, bool]
) -> tuple[str, Step]:
    """What to do next: confirm, turn to another suspect, or close.

    Args:
        plan: the plan.
        lesson: what the tasting says of the suspects.
        pattern: which arm has the fault against a clean reference, if that was judged.
        counted: the test whose count was taken, how many answers, whether a difference is shown.
    """
    ratio, (method, answers, shown) = lesson.ratios[0], counted
    if pattern in _BY_PATTERN:
        return _BY_PATTERN[pattern]
    if is_few(method, answers):
        return _too_few(method, plan), "again"
    if plan.design == "search":
        return _after_search(lesson, ratio), "another"
    if max(ratio, 1.0 / ratio) < _LITTLE:
        return _LITTLE_TAUGHT_BY_NAME if method.directed else _LITTLE_TAUGHT, "again"
    moved = lesson.of(lesson.causes[0])
    return _after_support(moved, shown=shown) if ratio > 1.0 else _after_doubt(lesson, moved)


def _too_few(method: Method, plan: Plan) -> str:
    wanted = max(plan.tasters, fewest_answers(method))
    return (
        "Too few answers to act on, whichever way they went: neither change nor drop anything "
        f"yet. Repeat with a second pair of vessels and {wanted} answers or more; rounds by the "
        "same tasters count."
    )


def _after_support(moved: Moved, *, shown: bool) -> tuple[str, Step]:
    if moved.after < _SURE_FROM or not shown:
        words = "Confirm by repeat: a second pair of vessels, the places of the arms swapped."
        return words, "again"
    name = lower_first(moved.explanation.name)
    return f"Change it for good: {name}. Confirm with one repeat pair, then close.", "settled"


def _after_doubt(lesson: Lesson, moved: Moved) -> tuple[str, Step]:
    first = _next_suspect(lesson)
    close = " Close this one." if moved.after < _DONE_BELOW else ""
    if first is None:
        return f"Look elsewhere: no known cause is left.{close}", "another"
    if first.after < moved.after:
        words = "It is weakened and still in front. Repeat with a second pair before you drop it."
        return words, "again"
    name = lower_first(first.explanation.name)
    return f"Turn to the next suspect: {name} ({percent(first.after)}).{close}", "another"


def _after_search(lesson: Lesson, ratio: float) -> str:
    if ratio > 1.0:
        first = max((lesson.of(cause) for cause in lesson.causes), key=lambda one: one.after)
        return (
            f"Split the bundle: the likeliest of it first, {lower_first(first.explanation.name)}."
        )
    return "Leave the bundle aside for now and look among the suspects that were not in it."


def _next_suspect(lesson: Lesson) -> Moved | None:
    own = (EXPECTED_HERE, NOT_IN_RULE_BASE, *lesson.causes)
    return next((one for one in lesson.moved if one.explanation.id not in own), None)


def _times(ratio: float) -> str:
    number = ratio if ratio >= 1.0 else 1.0 / ratio
    text = f"{number:.1f}" if number < 10 else f"{number:.0f}"
    return f"x{text}" if ratio >= 1.0 else f"/{text}"


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"

"""A panel read back: the key opened, the ballots counted, the cause weighed anew."""

import re
from dataclasses import dataclass
from pathlib import Path

from diagnose.answers.panels import PanelRead
from diagnose.answers.splits import MovedLine, RatioLine, SplitRead
from diagnose.consult.panel_reading import WRITTEN_DOWN, ReadAsked, read_panel
from diagnose.consult.split_files import BOX, CHECK, KEY, append_line, box_at, panel_at, plan_at
from diagnose.consult.split_kept import keep_reading, start_of
from diagnose.consult.split_learning import Step, known_words, next_words, not_known_words
from diagnose.consult.split_panels import waited_for
from diagnose.consult.split_planning import cautions_of
from diagnose.consult.type_next import after_read, to_keep
from diagnose.documents import parse_yaml, read_text
from diagnose.errors import Fault, UnusableInput
from diagnose.sensory import DIFFERENCE_FROM_CONTROL, METHODS, SHOWN, Method, bayes_reading
from diagnose.sensory.refusing import require_share
from diagnose.trial.ballots import Box, closing_line
from diagnose.trial.fitting import counting_method
from diagnose.trial.likelihood import PATTERNS, harmless_after_alike
from diagnose.trial.panel import Panel
from diagnose.trial.plan import Plan
from diagnose.trial.readings import Chances, Lesson, learn
from diagnose.trial.scoring import counts_by_taster, pairs_from_ratings, ratings_of
from diagnose.trial.sealing import Key, opened

_SHOWN = 6


@dataclass(frozen=True)
class ReadBack:
    """How a panel is to be read: a reason to close it early, and chances of the brewer's own."""

    at: str
    close: str | None = None
    fires: float | None = None
    harmless: float | None = None
    alike: str | None = None
    pattern: str | None = None


def read_back(folder: Path, asked: ReadBack) -> SplitRead:
    """Open the key and read the panel.

    Raises:
        UnusableInput: ballots are missing and no reason is given, no ballot is in, the key was
            tampered with, or a chance is none; nothing is changed then.
    """
    plan, started = start_of(plan_at(folder).plan, folder)
    panel, box = panel_at(folder), box_at(folder)
    reason = _reason(folder, panel, box, asked.close)
    chances = _chances(folder, plan, asked)
    key = opened(_key_text(folder), panel, str(folder / KEY))
    reading, method, right, answers = _count(panel, box, key)
    if box.closed is None:
        append_line(folder / BOX, closing_line(reason, asked.at))
    lesson = learn(plan, key.compared, (method, right, answers), chances)
    factor = bayes_reading(method, right, answers).factor if answers else 1.0
    words, step = next_words(
        plan, lesson, asked.pattern, (method, answers, reading.verdict in SHOWN)
    )
    step = _untasted_first(plan, step, key.pair, asked.pattern)
    answer = SplitRead(
        batch=plan.batch,
        panel=_of_the_plan(reading),
        fires=lesson.fires,
        harmless=lesson.harmless,
        bayes_factor=factor,
        ratios=_ratios(plan, lesson),
        ranking=_ranking(lesson),
        known=known_words(plan, reading, lesson, asked.pattern),
        not_known=not_known_words(plan, reading, lesson, (method, answers)),
        next_=(words,),
        keep=to_keep(plan, str(folder)),
        type_next=after_read(plan, str(folder), step, key.pair),
        closed=box.closed or reason,
        comments=tuple(f"{one.taster}: {one.comment}" for one in box.ballots if one.comment),
        remarks=(*started, *_remarks(panel, box, asked)),
        cautions=cautions_of(plan),
    )
    keep_reading(folder, answer)
    return answer


def _ratios(plan: Plan, lesson: Lesson) -> tuple[RatioLine, ...]:
    names = {one.id: one.name for one in plan.explanations}
    low, high = lesson.reach
    return tuple(
        RatioLine(cause=cause, name=names[cause], ratio=ratio, lowest=low, highest=high)
        for cause, ratio in zip(lesson.causes, lesson.ratios, strict=True)
    )


def _of_the_plan(reading: PanelRead) -> PanelRead:
    """A reading without what the plan has seen to: which arm has more of it stands there."""
    remarks = tuple(one for one in reading.remarks if one != WRITTEN_DOWN)
    return reading.model_copy(update={"type_next": "", "remarks": remarks})


def _untasted_first(plan: Plan, step: Step, pair: int, pattern: str | None) -> Step:
    """The pair that was brewed and not tasted comes before a new brew."""
    left = any(vessel.pair > pair for vessel in plan.vessels)
    return "other_pair" if step == "again" and left and pattern is None else step


def _reason(folder: Path, panel: Panel, box: Box, close: str | None) -> str:
    if box.closed is not None:
        return box.closed
    missing = [waited_for(panel, *one) for one in box.missing(panel)]
    if not missing:
        return "all ballots are in"
    if close is None or not close.strip():
        rest = f" and {len(missing) - 8} more" if len(missing) > 8 else ""
        found = f"ballots missing: {', '.join(missing[:8])}{rest}"
        wanted = 'all ballots, or --close "the reason"; the key stays sealed until then'
        raise UnusableInput(Fault(str(folder), 0, "ballots", found, wanted))
    if not box.ballots:
        wanted = "at least one ballot before a panel is closed"
        raise UnusableInput(Fault(str(folder), 0, "ballots", "none", wanted))
    return close.strip()


def _key_text(folder: Path) -> str:
    path = folder / KEY
    try:
        return read_text(path)
    except UnusableInput:
        wanted = "the sealed key; without it the panel cannot be read, so pour a new one"
        raise UnusableInput(Fault(str(path), 0, "", "no key", wanted)) from None


_ALIKE = re.compile(r"\s*(\d+)\s*(?:of|/)\s*(\d+)\s*", re.IGNORECASE)


def _chances(folder: Path, plan: Plan, asked: ReadBack) -> Chances:
    for key, value in (("m", asked.fires), ("s", asked.harmless)):
        if value is not None:
            require_share(key, value)
    if asked.pattern is not None and asked.pattern not in PATTERNS:
        wanted = f"one of {', '.join(PATTERNS)}"
        raise UnusableInput(Fault("split read", 0, "fired", repr(asked.pattern), wanted))
    harmless = asked.harmless
    if harmless is None:
        harmless = _checked(folder) or plan.harmless
        if asked.alike is not None:
            harmless = _after_alike(harmless, asked.alike)
    return Chances(asked.fires, harmless, asked.pattern)


def _checked(folder: Path) -> float | None:
    """What the check of the arms left as the chance of a harmless difference."""
    path = folder / CHECK
    if not path.is_file():
        return None
    document = parse_yaml(read_text(path), str(path))
    value = document.data.get("harmless") if isinstance(document.data, dict) else None
    if not isinstance(value, float) or not 0.0 < value < 1.0:
        raise UnusableInput(document.fault(("harmless",), repr(value), "a chance, 0 to 1"))
    return value


def _after_alike(harmless: float, typed: str) -> float:
    match = _ALIKE.fullmatch(typed)
    if match is None or int(match[1]) > int(match[2]):
        wanted = "how many A/A splits came out different, such as '0 of 2'"
        raise UnusableInput(Fault("split read", 0, "alike", repr(typed), wanted))
    return harmless_after_alike(harmless, int(match[1]), int(match[2]))


def _count(panel: Panel, box: Box, key: Key) -> tuple[PanelRead, Method, int, int]:
    method = counting_method(panel.test)
    if panel.test in METHODS:
        counts = tuple(counts_by_taster(panel, box, key).values())
        each = ", ".join(f"{right} of {answers}" for right, answers in counts)
        right, answers = (sum(column) for column in zip(*counts, strict=True))
        asked = ReadAsked(panel.test, right, answers, each=each if panel.rounds > 1 else None)
        return read_panel(asked), method, right, answers
    suspect, control = ratings_of(panel, box, key)
    listed = [", ".join(f"{one:g}" for one in ratings) for ratings in (suspect, control)]
    reading = read_panel(ReadAsked(panel.test, ratings=listed[0], control=listed[1]))
    return reading, method, *pairs_from_ratings(suspect, control)


def _ranking(lesson: Lesson) -> tuple[MovedLine, ...]:
    keep = {one.explanation.id for one in lesson.moved[:_SHOWN]} | set(lesson.causes)
    return tuple(
        MovedLine(
            id=one.explanation.id, name=one.explanation.name, before=one.before, after=one.after
        )
        for one in lesson.moved
        if one.explanation.id in keep
    )


def _remarks(panel: Panel, box: Box, asked: ReadBack) -> tuple[str, ...]:
    found = [f"line {number} of {BOX} is cut short and was not counted" for number in box.broken]
    if panel.test == DIFFERENCE_FROM_CONTROL:
        found.append(
            "the factor counts pairs (was the beer rated farther off than the control in "
            "disguise?); equal ratings are left out"
        )
    if asked.fires is None:
        found.append(
            "the chance that the fault fires is the rule base's; say --m if you know yours"
        )
    return tuple(found)

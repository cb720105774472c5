"""The next command to type after each step of a split, a panel or a supposition."""

import re
import shlex
from collections.abc import Sequence
from pathlib import Path

from diagnose.answers.panels import PanelCriticals, PanelRead, PanelSizes
from diagnose.answers.splits import BallotEntered, SplitChecked, SplitChoice
from diagnose.batch import Batch
from diagnose.consult.split_learning import Step
from diagnose.sensory import A_NOT_A, DIFFERENCE_FROM_CONTROL
from diagnose.trial.plan import Plan

_PLAIN = re.compile(r"[\w./,=:+@-]+")
_SPECIAL = frozenset('"$`!\\')
# What only the brewer knows stands in capitals.
BATCH = "BATCH.yaml"
# Tasters who rate a beer against a control. Practice.
_RATERS = 8


def command(*words: object, tastes: Sequence[str] = ()) -> str:
    """A command as it is typed, with the words about the taste that were typed before."""
    told = [word for taste in tastes for word in ("--taste", taste)]
    return " ".join(_quoted(str(word)) for word in ("faultwort", *words, *told))


def _quoted(word: str) -> str:
    """A word as a shell reads it whole; in double quotes, which all know, where those will do."""
    if _PLAIN.fullmatch(word):
        return word
    return shlex.quote(word) if _SPECIAL & set(word) else f'"{word}"'


def after_choice(
    answer: SplitChoice, file: str, tastes: Sequence[str], after: Path | None = None
) -> SplitChoice:
    """The choice with what to type: the check that comes first, the plan, or more tasters.

    Args:
        answer: what could be split.
        file: the record as it was typed.
        tastes: the words typed with it.
        after: the folder of a split that was read before.
    """
    started = () if after is None else ("--after", after)
    tasted = [one for one in answer.candidates if one.readable and not one.not_served]
    if any(one.level == "stop" for one in answer.cautions):
        words: tuple[object, ...] = ("diagnose", file)
    elif answer.check_first is not None:
        words = ("ask", file) if tastes else ("ask", file, "--answer")
    elif tasted:
        words = ("split", "plan", file, tasted[0].cause, "--tasters", answer.tasters, *started)
    else:
        wider = 2 * answer.tasters
        rounds = ("--replicates", answer.rounds, *started)
        words = ("split", "choose", file, "--tasters", wider, *rounds)
    return answer.model_copy(update={"type_next": command(*words, tastes=tastes)})


def after_check(answer: SplitChecked, files: tuple[str, str], folder: str, plan: Plan) -> str:
    """Serve, or compare again once the arms are what they should be.

    Args:
        answer: the arms compared.
        files: the records of the arms.
        folder: that of the plan.
        plan: the plan.
    """
    if plan.not_served_because:
        return command("diagnose", files[0])
    if answer.advice == "stop":
        return command("split", "check", *files, "--plan", folder)
    return command("split", "ballots", folder, "--tasters", "NAME,NAME,NAME")


def after_entry(answer: BallotEntered, folder: str) -> str:
    """The next ballot, or the reading once all are in."""
    if answer.missing:
        return command("split", "enter", folder, answer.missing[0].split(" ")[0], "CODE")
    return command("split", "read", folder)


def after_read(plan: Plan, folder: str, step: Step, pair: int) -> str:
    """A second pair, the store, the labels, or another suspect.

    Args:
        plan: the plan.
        folder: that of the panel.
        step: what the reading calls for.
        pair: the pair of vessels that was tasted.
    """
    record = plan.record or BATCH
    if step == "other_pair":
        base = folder.removesuffix(f"/{folder_of_pair(pair)}")
        return command("split", "ballots", base, "--tasters", "NAME,NAME,NAME", "--pair", pair + 1)
    if step == "again":
        causes = [factor.cause for factor in plan.factors]
        more = ("--design", plan.design, "--pairs", "2", "--tasters", plan.tasters)
        out = ("--out", f"{folder.rstrip('/')}-2", "--after", folder)
        return command("split", "plan", record, *causes, *more, *out, tastes=plan.tastes)
    if step == "settled":
        return to_keep(plan, folder)
    if step == "labels":
        return command("split", "read", folder)
    after = ("--tasters", plan.tasters, "--after", folder)
    return command("split", "choose", record, *after, tastes=plan.tastes)


def to_keep(plan: Plan, folder: str) -> str:
    """Puts the reading into the history, beside the batch that has the flaw."""
    return command("history", "split", plan.batch, folder)


def folder_of_pair(pair: int) -> str:
    """Where a further pair of vessels is tasted, inside the folder of the plan."""
    return f"pair-{pair}"


def after_sizes(answer: PanelSizes) -> str:
    """The limit of the number that was found, or of the most on offer where that is too few."""
    number = min(answer.safe or answer.first or answer.most, answer.most)
    return command("panel", "critical", "--test", answer.test, "--tasters", number)


def after_criticals(answer: PanelCriticals) -> str:
    """The reading, with the counts still to come in capitals."""
    first = answer.lines[0].answers if answer.lines else "N"
    counts: tuple[object, ...] = ("--correct", "RIGHT", "--of", first)
    if answer.test == A_NOT_A:
        counts = ("--correct", "HITS", "--of", first, "--false-alarms", f"COUNT of {first}")
    elif answer.test == DIFFERENCE_FROM_CONTROL:
        counts = ("--ratings", "RATINGS", "--control", "RATINGS")
    elif len(answer.lines) > 1:
        counts = ("--evenings", _evenings([line.answers for line in answer.lines], ()))
    return command("panel", "read", "--test", answer.test, *counts)


def _evenings(so_far: Sequence[int], right: Sequence[int | None]) -> str:
    """Evenings as they are typed: those tasted with their counts, the next one to be filled in."""
    tasted = [count for count in right if count is not None]
    sizes = [now - before for now, before in zip(so_far, (0, *so_far), strict=False)]
    counts = [now - before for now, before in zip(tasted, (0, *tasted), strict=False)]
    told = [*map(str, counts), "RIGHT", *("-" for _ in sizes)]
    return ", ".join(f"{count} of {size}" for count, size in zip(told, sizes, strict=False))


def after_panel(answer: PanelRead) -> str:
    """The next evening, a panel that can tell, or the cause behind a difference."""
    if answer.verdict == "going_on":
        so_far = [line.answers_so_far for line in answer.evenings]
        told = _evenings(so_far, [line.correct_so_far for line in answer.evenings])
        return command("panel", "read", "--test", answer.test, "--evenings", told)
    wants_more = answer.verdict == "not_shown" or answer.too_few
    if wants_more and answer.test == DIFFERENCE_FROM_CONTROL:
        return command("panel", "critical", "--test", answer.test, "--tasters", _RATERS)
    if wants_more:
        return command("panel", "size", "--test", answer.test)
    return command("split", "choose", BATCH)


def after_supposing(batch: Batch, tastes: Sequence[str]) -> str:
    """What would move the record itself: its best questions, or a record to begin with."""
    if not batch.document.data:
        return command("diagnose", tastes=tastes) if tastes else command("batch", "new")
    return command("ask", batch.document.name, tastes=tastes)

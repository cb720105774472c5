"""Whether the case of a confirmed cause is closed: by a repeat or a blind test, until it returns.

A later batch with the same flaw, which no other confirmed cause explains, opens a closed case
again and lowers what is left of the old conclusion: if the cause was right and put right, the
flaw would be told as rarely as of any beer; if it was wrong, as often as before. Clean batches
since then speak for the conclusion, but never raise it above what was said.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from diagnose.history.brews import Brew
from diagnose.history.learning_facts import Judged, Taught
from diagnose.history.learning_telling import Tellings

CaseState = Literal["closed", "not closed", "open again"]
# Chances on either side of the ratio keep off 0 and 1. Judgement.
_LEAST: Final = 0.01


@dataclass(frozen=True)
class Case:
    """A confirmed cause of a batch's flaw: its state, and how far it is believed then and now.

    `since` is the batch that opened it again; `same_cause` says that this batch was judged to
    have the same cause, so that the cure failed and not the conclusion. Of the `tasted_since`
    batches tasted since it was closed, `flawed_since` have the flaw anew.
    """

    batch: str
    cause: str
    basis: str
    state: CaseState
    said: float
    now: float
    since: str | None = None
    same_cause: bool = False
    flawed_since: int = 0
    tasted_since: int = 0


def cases_of(tellings: Tellings, taught: Taught) -> tuple[Case, ...]:
    """The case of every confirmed cause, by batch and cause."""
    return tuple(
        _case(tellings, taught, one)
        for one in taught.judged
        if one.confirmed and one.cause in tellings.rules.causes
    )


def judged_now(taught: Taught, cases: Sequence[Case]) -> tuple[Judged, ...]:
    """The judgements as far as they are still believed."""
    now = {(one.batch, one.cause): one.now for one in cases}
    return tuple(
        replace(one, acted=now.get((one.batch, one.cause), one.acted)) for one in taught.judged
    )


def _case(tellings: Tellings, taught: Taught, judged: Judged) -> Case:
    if judged.closed is None:
        return _as_said(judged, judged.basis, "not closed")
    day, basis = judged.closed
    brews = {one.key: one for one in taught.brews}
    flaw = _flaw(tellings, judged, brews[judged.batch])
    later = [one for one in taught.brews if (one.brewed_on or "") > day and one.tastings]
    back = [one for one in later if flaw & one.reported and not _other(taught, judged, one)]
    closed = replace(_as_said(judged, basis, "closed"), tasted_since=len(later))
    if not back:
        return closed
    first = min(back, key=lambda one: (one.brewed_on or "", one.key))
    same = {one.batch for one in taught.judged if one.confirmed and one.cause == judged.cause}
    lowered = [one for one in back if one.key not in same]
    now = _lowered(tellings, taught, judged, (flaw, len(lowered), _clean(later, flaw)))
    return replace(
        closed,
        state="open again",
        now=now,
        since=first.key,
        same_cause=first.key in same,
        flawed_since=len(back),
    )


def _as_said(judged: Judged, basis: str, state: CaseState) -> Case:
    said = judged.acted
    return Case(judged.batch, judged.cause, basis, state, said, said)


def _flaw(tellings: Tellings, judged: Judged, brew: Brew) -> frozenset[str]:
    named = frozenset(judged.flaw) or tellings.of(judged.cause).words & brew.reported
    return named & frozenset(tellings.rules.descriptors)


def _other(taught: Taught, judged: Judged, brew: Brew) -> bool:
    """Whether the batch has its own confirmed cause, and it is another one."""
    causes = {one.cause for one in taught.judged if one.batch == brew.key and one.confirmed}
    return bool(causes) and judged.cause not in causes


def _clean(later: Sequence[Brew], flaw: frozenset[str]) -> int:
    return sum(not flaw & one.reported for one in later)


def _lowered(
    tellings: Tellings, taught: Taught, judged: Judged, told: tuple[frozenset[str], int, int]
) -> float:
    flaw, flawed, clean = told
    if not flawed or judged.closed is None:
        return judged.acted
    day, _ = judged.closed
    until = [one for one in taught.brews if (one.brewed_on or "") <= day and one.tastings]
    before = sum(bool(flaw & one.reported) for one in until)
    if_wrong = (before + 1.0) / (len(until) + 2.0)
    if_right = min(max(tellings.anyway(flaw, judged.cause), _LEAST), 1.0 - _LEAST)
    weight = flawed * math.log(if_right / if_wrong)
    weight += clean * math.log((1.0 - if_right) / (1.0 - if_wrong))
    odds = judged.acted / (1.0 - judged.acted) * math.exp(min(weight, 0.0))
    return odds / (1.0 + odds)

"""What a store holds that batches can teach: verdicts, read splits, tastings and panels."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

from diagnose.history.brews import Brew, notes_of, read_brews
from diagnose.history.kinds import PanelNote, SplitNote, Verdict
from diagnose.history.noting import Noted
from diagnose.history.opening import Store

State = Literal["confirmed", "ruled out", "suspected"]
# Nobody is surer than this, nor less sure than its opposite. Judgement.
SUREST: Final = 0.99
# What closes a case: the beer brewed again, or glasses that nobody could tell by the label.
CLOSING: Final = frozenset({"split", "panel", "repeat"})
# A repeat or a blind test that leaves more doubt than this closes nothing. Judgement.
CLOSED_FROM: Final = 0.8


@dataclass(frozen=True)
class Judged:
    """How far one cause is believed to have acted in one batch (0 to 1), on what day and basis.

    `flaw` are the descriptors that were judged, empty where nobody named them. `closed` is the
    (day, basis) of the latest repeat or blind test that confirmed it and was not taken back
    since; what is said after it in words alone does not open the case again.
    """

    batch: str
    cause: str
    acted: float
    day: str
    basis: str
    state: State
    flaw: tuple[str, ...] = ()
    closed: tuple[str, str] | None = None

    @property
    def confirmed(self) -> bool:
        """Whether it was said that this cause was it."""
        return self.state == "confirmed"


@dataclass(frozen=True)
class Taught:
    """Everything that is learned from.

    `judged` holds one judgement a batch and cause: that of the latest day. `provoked` are the
    (batch, cause) of arms of splits, where the cause was set up on purpose. `suspected` counts
    the verdicts that claim nothing.
    """

    brews: tuple[Brew, ...]
    judged: tuple[Judged, ...]
    provoked: frozenset[tuple[str, str]]
    panels: tuple[PanelNote, ...]
    suspected: int


def taught_by(store: Store, apart_from: str | None = None) -> Taught:
    """What the batches of a store teach.

    Args:
        store: the history.
        apart_from: a batch whose own verdicts and words do not count, as it is to be diagnosed.

    Raises:
        StoreUnusable: the store cannot be read.
    """
    brews = [one for one in read_brews(store) if one.key != apart_from]
    splits = [one for one in notes_of(store, SplitNote) if one.batch != apart_from]
    return taught(brews, splits, [one.note for one in notes_of(store, PanelNote)])


def taught(
    brews: Sequence[Brew], splits: Sequence[Noted[SplitNote]], panels: Sequence[PanelNote]
) -> Taught:
    """What batches, splits and panels teach; their order does not matter."""
    said = [*_verdicts(brews), *_read_splits(splits, {one.key for one in brews})]
    arms = {
        (arm.batch, one.note.cause)
        for one in splits
        for arm in one.note.arms
        if one.note.cause is not None
    }
    return Taught(
        brews=tuple(sorted(brews, key=lambda one: one.key)),
        judged=tuple(_latest([one for one in said if one.state != "suspected"])),
        provoked=frozenset(arms),
        panels=tuple(sorted(panels, key=lambda one: one.model_dump_json())),
        suspected=sum(one.state == "suspected" for one in said),
    )


def _verdicts(brews: Iterable[Brew]) -> list[Judged]:
    return [_verdict(brew.key, one) for brew in brews for one in brew.verdicts]


def _verdict(batch: str, noted: Noted[Verdict]) -> Judged:
    note = noted.note
    acted = 1.0 - note.confidence if note.state == "ruled out" else note.confidence
    day = (note.at or noted.made_at)[:10]
    return Judged(batch, note.cause, _sure(acted), day, note.basis, note.state, note.flaw)


def _read_splits(splits: Iterable[Noted[SplitNote]], known: set[str]) -> list[Judged]:
    """A split that was read judges its suspects by what the reading left of them."""
    return [
        Judged(
            one.batch,
            str(line["id"]),
            _sure(float(line["after"])),
            (one.note.at or one.made_at)[:10],
            "split",
            "confirmed" if line["after"] >= CONFIRMED_FROM else "ruled out",
        )
        for one in splits
        if one.batch in known
        for line in _suspects(one.note.reading)
    ]


# What a split leaves at even chances or more counts as its cause confirmed. Judgement.
CONFIRMED_FROM: Final = 0.5


def _suspects(reading: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    tested = {line["cause"] for line in reading.get("ratios", ())}
    return [line for line in reading.get("ranking", ()) if line["id"] in tested]


def _sure(chance: float) -> float:
    return min(max(chance, 1.0 - SUREST), SUREST)


def _latest(said: Iterable[Judged]) -> list[Judged]:
    """One judgement a batch and cause; several on its last day are averaged."""
    found: dict[tuple[str, str], list[Judged]] = {}
    for one in said:
        found.setdefault((one.batch, one.cause), []).append(one)
    return [_agreed(found[key]) for key in sorted(found)]


def _agreed(several: Sequence[Judged]) -> Judged:
    last = max(one.day for one in several)
    standing = sorted(
        (one for one in several if one.day == last),
        key=lambda one: (one.acted, one.basis, one.state, one.flaw),
    )
    first, acted = standing[-1], sum(one.acted for one in standing) / len(standing)
    flaw = tuple(sorted({word for one in standing for word in one.flaw}))
    closed = _closed(several) if first.confirmed else None
    return Judged(first.batch, first.cause, acted, last, first.basis, first.state, flaw, closed)


def _closed(several: Sequence[Judged]) -> tuple[str, str] | None:
    open_until = max((one.day for one in several if not one.confirmed), default="")
    closing = [
        (one.day, one.basis)
        for one in several
        if one.confirmed and one.basis in CLOSING and one.acted >= CLOSED_FROM
    ]
    return max((one for one in closing if one[0] >= open_until), default=None)

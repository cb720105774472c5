"""Entries of a record that speak against each other; they are said, and used all the same."""

from collections.abc import Iterator
from datetime import timedelta

from diagnose.batch.entries import NOT_LOGGED, NotLogged, logged_entries
from diagnose.batch.moments import Moment
from diagnose.batch.record import BatchRecord
from diagnose.batch.sense import Doubt
from diagnose.batch.timeline import is_over_by, resolved, slack_of
from diagnose.documents import Document, Path
from diagnose.documents.document import dotted
from diagnose.units import Field, Reading, show

_BREWED: Path = ("brewed",)
# What happens to a beer comes after its brew day; what is stored has been packaged.
_COMES_AFTER: dict[Path, tuple[Path, str]] = {
    ("gravity", "readings"): (_BREWED, "it was brewed"),
    ("fermentation", "steps"): (_BREWED, "it was brewed"),
    ("fermentation", "off_yeast"): (_BREWED, "it was brewed"),
    ("events",): (_BREWED, "it was brewed"),
    ("tastings",): (_BREWED, "it was brewed"),
    ("storage",): (("packaging", "when"), "it was packaged"),
}
# A peak is that of the first five days, as the measure of it is.
_DAYS_OF_A_PEAK = timedelta(days=5)
# Two thermometers, or one read twice, differ by so much. Judgement.
_READ_TWICE_C = 0.5
# A clock and a hydrometer are read off so well. Judgement.
_READ_OFF_H, _READ_OFF_SG = 0.1, 0.002


def contradictions(record: BatchRecord, document: Document) -> list[Doubt]:
    """Entries of which two cannot both be true."""
    found = [
        *_too_early(record),
        *_above_the_peak(record),
        *_more_after_the_boil(record),
        *_hops_boiled_too_long(record),
        *_forced_above_the_batch(record),
    ]
    return [Doubt(document.line(path), dotted(path), text) for path, text in found]


def _too_early(record: BatchRecord) -> Iterator[tuple[Path, str]]:
    dated = {path: one for path, one in logged_entries(record) if isinstance(one, Moment)}
    for path, moment in dated.items():
        first_path, what = _COMES_AFTER.get(path[:1]) or _COMES_AFTER.get(path[:2]) or ((), "")
        first = dated.get(first_path)
        when, earlier = resolved(record, moment), resolved(record, first or NOT_LOGGED)
        if first is None or when is None or earlier is None:
            continue
        if is_over_by(when, slack_of(moment), earlier - slack_of(first)):
            yield path, f"{moment.typed} is before {what} ({earlier.date().isoformat()})"


def _above_the_peak(record: BatchRecord) -> Iterator[tuple[Path, str]]:
    peak = record.fermentation.peak
    if isinstance(peak, NotLogged):
        return
    for path, held in _held_early(record):
        if held.low > peak.high + _READ_TWICE_C:
            warmer = f"{dotted(path)} says {show(held, Field.TEMPERATURE)}"
            told = show(peak, Field.TEMPERATURE)
            yield ("fermentation", "peak"), f"{told} as the warmest, but {warmer}"


def _held_early(record: BatchRecord) -> Iterator[tuple[Path, Reading]]:
    """The temperatures that the beer is said to have been held at in its first five days."""
    noted, brewed = record.fermentation.temperature, resolved(record, record.brewed)
    if isinstance(noted, Reading):
        yield ("fermentation", "temperature"), noted
    for index, step in enumerate(record.fermentation.steps):
        since = resolved(record, step.since)
        early = since and brewed and since < brewed + _DAYS_OF_A_PEAK
        if early and isinstance(step.at, Reading):
            yield ("fermentation", "steps", index, "at"), step.at


def _more_after_the_boil(record: BatchRecord) -> Iterator[tuple[Path, str]]:
    before, after = record.boil.volume_before, record.boil.volume_after
    if isinstance(before, Reading) and isinstance(after, Reading) and after.low > before.high:
        told = f"{after.typed} after the boil, but boil.volume_before says {before.typed}"
        yield ("boil", "volume_after"), told


def _hops_boiled_too_long(record: BatchRecord) -> Iterator[tuple[Path, str]]:
    """Hops in the boil for longer than it lasted; those of the first wort go in before it."""
    boil = record.boil.time
    for index, hop in enumerate(record.recipe.hops):
        if hop.use != "boil" or isinstance(hop.boiled, NotLogged) or isinstance(boil, NotLogged):
            continue
        if hop.boiled.low > boil.high + _READ_OFF_H:
            told = f"{hop.boiled.typed} in the boil, but boil.time says {boil.typed}"
            yield ("recipe", "hops", index, "boiled"), told


def _forced_above_the_batch(record: BatchRecord) -> Iterator[tuple[Path, str]]:
    final, forced = record.gravity.final, record.gravity.forced_final
    if isinstance(final, NotLogged) or isinstance(forced, NotLogged):
        return
    if forced.low > final.high + _READ_OFF_SG:
        told = f"a forced sample at {forced.typed}, but gravity.final says {final.typed}"
        yield ("gravity", "forced_final"), told

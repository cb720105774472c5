"""A logger's export, described."""

from datetime import UTC, datetime

from diagnose.answers import ProbeAnswer, SeriesSummary, UnderstoodFact
from diagnose.batch.probe import ProbeLog, ProbeSummary, Understood, summarise
from diagnose.units import HOURS_PER_DAY, SECONDS_PER_HOUR


def describe_probe(log: ProbeLog, *, saved_as: str | None = None) -> ProbeAnswer:
    """What was understood of a log, why, and what is in it.

    Args:
        log: the log.
        saved_as: the name under which the answers it was read with were just kept.
    """
    summaries = {role: summarise(log, role) for role in log.series}
    found = [summary for summary in summaries.values() if summary is not None]
    times = log.times_utc_s
    gaps = [s.longest_gap_s for s in found if s.longest_gap_s is not None]
    steps = [s.interval_s for s in found if s.interval_s is not None]
    return ProbeAnswer(
        file=log.name,
        sha256=log.sha256,
        first=_clock(float(times[0])),
        last=_clock(float(times[-1])),
        days=float(times[-1] - times[0]) / SECONDS_PER_HOUR / HOURS_PER_DAY,
        every_minutes=min(steps, default=0.0) / 60.0,
        longest_gap_hours=max(gaps, default=0.0) / SECONDS_PER_HOUR,
        facts=tuple(_facts(log)),
        series=tuple(_series(log, summary) for summary in found),
        notes=tuple(_note(note.text, note.line) for note in log.notes),
        profile=log.profile or None,
        saved_as=saved_as,
    )


def _note(text: str, line: int) -> str:
    return f"line {line}: {text}" if line else text


def _facts(log: ProbeLog) -> list[UnderstoodFact]:
    named = {
        "delimiter": log.layout.delimiter,
        "decimal sign": log.layout.decimal_sign,
        "encoding": log.layout.encoding,
        "header line": log.layout.header_line,
        "lines before it": log.layout.preamble_lines,
        "order of dates": log.layout.date_order,
        "time zone": log.zone,
    }
    return [_fact(what, fact) for what, fact in named.items()]


def _fact(what: str, fact: Understood) -> UnderstoodFact:
    doubt = "" if fact.certain else " (not certain)"
    return UnderstoodFact(what=what, taken_as=fact.what + doubt, why=fact.why)


def _series(log: ProbeLog, summary: ProbeSummary) -> SeriesSummary:
    column = next(column for column in log.columns if column.role == summary.role)
    return SeriesSummary(
        role=summary.role.replace("_", " "),
        header=column.header,
        unit=summary.unit,
        why=column.why,
        readings=summary.count,
        usable=summary.usable,
        lowest=summary.lowest,
        mean=summary.mean,
        highest=summary.highest,
        flags={kind.replace("_", " "): count for kind, count in summary.flags.items() if count},
    )


def _clock(seconds: float) -> str:
    return datetime.fromtimestamp(seconds, tz=UTC).strftime("%Y-%m-%d %H:%M")

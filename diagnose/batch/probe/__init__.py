"""Any logger's CSV beside a batch record: read without configuration, understood out loud."""

from diagnose.batch.probe.log import (
    Column,
    Flag,
    Layout,
    Level,
    Note,
    ProbeLog,
    Role,
    Series,
    Understood,
    good,
)
from diagnose.batch.probe.reading import read_probe_log
from diagnose.batch.probe.spans import (
    Trace,
    coverage,
    mean_between,
    trace,
)
from diagnose.batch.probe.summary import ProbeSummary, summarise

__all__ = [
    "Column",
    "Flag",
    "Layout",
    "Level",
    "Note",
    "ProbeLog",
    "ProbeSummary",
    "Role",
    "Series",
    "Trace",
    "Understood",
    "coverage",
    "good",
    "mean_between",
    "read_probe_log",
    "summarise",
    "trace",
]

"""Batch records: one brew from recipe to glass, read from a file that people write by hand."""

from diagnose.batch.entries import NOT_LOGGED, NotLogged, Section, logged_entries
from diagnose.batch.moments import Moment
from diagnose.batch.reading import Batch, batch_from, empty_batch, read_batch
from diagnose.batch.record import BatchRecord
from diagnose.batch.sense import Doubt
from diagnose.batch.timeline import Timeline, hours_between, resolved, timeline_of

__all__ = [
    "NOT_LOGGED",
    "Batch",
    "BatchRecord",
    "Doubt",
    "Moment",
    "NotLogged",
    "Section",
    "Timeline",
    "batch_from",
    "empty_batch",
    "hours_between",
    "logged_entries",
    "read_batch",
    "resolved",
    "timeline_of",
]

"""Batch records: one brew from recipe to glass, read from a file that people write by hand.

A name is fetched from its module when it is asked for, so that a command waits only for what
it uses.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.batch.entries import NOT_LOGGED, NotLogged, Section, logged_entries
    from diagnose.batch.moments import Moment
    from diagnose.batch.reading import Batch, batch_from, empty_batch, read_batch
    from diagnose.batch.record import BatchRecord
    from diagnose.batch.sense import Doubt
    from diagnose.batch.timeline import Timeline, hours_between, resolved, timeline_of
else:
    from diagnose.fetching import fetched_from

    _HOMES = {
        "Batch": "reading",
        "BatchRecord": "record",
        "Doubt": "sense",
        "Moment": "moments",
        "NOT_LOGGED": "entries",
        "NotLogged": "entries",
        "Section": "entries",
        "Timeline": "timeline",
        "batch_from": "reading",
        "empty_batch": "reading",
        "hours_between": "timeline",
        "logged_entries": "entries",
        "read_batch": "reading",
        "resolved": "timeline",
        "timeline_of": "timeline",
    }
    __getattr__ = fetched_from(__name__, _HOMES)


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

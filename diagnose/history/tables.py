"""The tables of a store.

Nothing in them is changed once it is written, but for what is computed anew from the rest
(`measured`, and the columns of `contents` that the rule base decides). A correction is a row
with the next `number`.

JSON stands in text columns, written with sorted keys, so that a store is the same on every
database and two exports of one store are the same bytes.
"""

from typing import Final

from sqlalchemy import (
    Column,
    Float,
    ForeignKey,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
)

METADATA: Final = MetaData()
# Which revision of `migrations` a store is at; its own name, as a club's server may hold others.
VERSION_TABLE: Final = "faultwort_version"
HEAD: Final = "0003"
REVISIONS: Final = ("0001", "0002", "0003")


def _text(name: str, *, optional: bool = False) -> Column[str]:
    return Column(name, Text, nullable=optional)


def _id() -> Column[int]:
    return Column("id", Integer, primary_key=True)


def _of(name: str, table: str, *, optional: bool = False) -> Column[int]:
    return Column(name, Integer, ForeignKey(f"{table}.id"), nullable=optional, index=True)


batches: Final = Table(
    "batches",
    METADATA,
    _id(),
    Column("identity", Text, nullable=False, unique=True),
    Column("key", Text, nullable=False, unique=True),
    _text("added_at"),
)

probes: Final = Table(
    "probes",
    METADATA,
    _id(),
    Column("fingerprint", Text, nullable=False, unique=True),
    _text("file_name"),
    _text("file_sha256"),
    Column("readings", Integer, nullable=False),
    Column("first_s", Float, nullable=False),
    Column("last_s", Float, nullable=False),
    _text("understood"),
    Column("times", LargeBinary, nullable=False),
    Column("lines", LargeBinary, nullable=False),
)

probe_series: Final = Table(
    "probe_series",
    METADATA,
    _id(),
    _of("probe_id", "probes"),
    _text("role"),
    _text("unit"),
    Column("readings", Integer, nullable=False),
    Column("usable", Integer, nullable=False),
    Column("lowest", Float),
    Column("mean", Float),
    Column("highest", Float),
    Column("readings_packed", LargeBinary, nullable=False),
    Column("flags", LargeBinary, nullable=False),
    UniqueConstraint("probe_id", "role"),
)

# What a record says in short; the long text stands apart, so that a list reads few pages.
contents: Final = Table(
    "contents",
    METADATA,
    _id(),
    Column("fingerprint", Text, nullable=False, unique=True),
    _of("probe_id", "probes", optional=True),
    _text("name"),
    _text("brewer", optional=True),
    _text("brewed_on", optional=True),
    _text("style", optional=True),
    _text("style_id", optional=True),
    _text("yeast_id", optional=True),
    _text("method", optional=True),
    _text("tasted"),
)

records: Final = Table(
    "records",
    METADATA,
    Column("content_id", Integer, ForeignKey("contents.id"), primary_key=True),
    _text("file_name"),
    _text("text"),
    _text("entries"),
)

measured: Final = Table(
    "measured",
    METADATA,
    Column("content_id", Integer, ForeignKey("contents.id"), primary_key=True),
    _text("rules_version"),
    _text("findings"),
    _text("factors"),
    _text("said"),
)

versions: Final = Table(
    "versions",
    METADATA,
    _id(),
    _of("batch_id", "batches"),
    Column("number", Integer, nullable=False),
    _of("content_id", "contents", optional=True),
    _text("how"),
    Column("of_number", Integer),
    _text("made_at"),
    _text("file_path", optional=True),
    _text("reason", optional=True),
    UniqueConstraint("batch_id", "number"),
)


def _notes(name: str) -> Table:
    """A table of what is said about a batch, or about none, in versions of its own."""
    return Table(
        name,
        METADATA,
        _id(),
        _text("uid"),
        Column("number", Integer, nullable=False),
        _of("batch_id", "batches", optional=True),
        _text("at", optional=True),
        _text("who", optional=True),
        _text("how"),
        _text("made_at"),
        _text("typed"),
        _text("body"),
        _text("reason", optional=True),
        UniqueConstraint("uid", "number"),
    )


tastings: Final = _notes("tastings")
verdicts: Final = _notes("verdicts")
splits: Final = _notes("splits")
panels: Final = _notes("panels")
events: Final = _notes("events")
instrument_checks: Final = _notes("instrument_checks")
diagnoses: Final = _notes("diagnoses")
learning_switches: Final = _notes("learning_switches")

NOTES: Final = {
    table.name: table
    for table in (
        tastings,
        verdicts,
        splits,
        panels,
        events,
        instrument_checks,
        diagnoses,
        learning_switches,
    )
}

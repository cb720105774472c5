"""The first store."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

_NOTES = (
    "tastings",
    "verdicts",
    "splits",
    "panels",
    "events",
    "instrument_checks",
    "diagnoses",
)


def upgrade() -> None:
    """Make every table."""
    _batches_and_probes()
    _contents()
    for name in _NOTES:
        _notes(name)


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _text(name: str, *, optional: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.Text, nullable=optional)


def _number(name: str) -> sa.Column[int]:
    return sa.Column(name, sa.Integer, nullable=False)


def _blob(name: str) -> sa.Column[bytes]:
    return sa.Column(name, sa.LargeBinary, nullable=False)


def _of(name: str, table: str, *, optional: bool = False) -> sa.Column[int]:
    key = sa.ForeignKey(f"{table}.id")
    return sa.Column(name, sa.Integer, key, nullable=optional, index=True)


def _batches_and_probes() -> None:
    op.create_table(
        "batches",
        _id(),
        sa.Column("identity", sa.Text, nullable=False, unique=True),
        sa.Column("key", sa.Text, nullable=False, unique=True),
        _text("added_at"),
    )
    op.create_table(
        "probes",
        _id(),
        sa.Column("fingerprint", sa.Text, nullable=False, unique=True),
        _text("file_name"),
        _text("file_sha256"),
        _number("readings"),
        sa.Column("first_s", sa.Float, nullable=False),
        sa.Column("last_s", sa.Float, nullable=False),
        _text("understood"),
        _blob("times"),
        _blob("lines"),
    )
    op.create_table(
        "probe_series",
        _id(),
        _of("probe_id", "probes"),
        _text("role"),
        _text("unit"),
        _number("readings"),
        _number("usable"),
        *(sa.Column(name, sa.Float) for name in ("lowest", "mean", "highest")),
        _blob("readings_packed"),
        _blob("flags"),
        sa.UniqueConstraint("probe_id", "role"),
    )


def _contents() -> None:
    short = ("brewer", "brewed_on", "style", "style_id", "yeast_id", "method")
    op.create_table(
        "contents",
        _id(),
        sa.Column("fingerprint", sa.Text, nullable=False, unique=True),
        _of("probe_id", "probes", optional=True),
        _text("name"),
        *(_text(name, optional=True) for name in short),
        _text("tasted"),
    )
    for name, columns in (
        ("records", ("file_name", "text", "entries")),
        ("measured", ("rules_version", "findings", "factors", "said")),
    ):
        key = sa.ForeignKey("contents.id")
        one = sa.Column("content_id", sa.Integer, key, primary_key=True)
        op.create_table(name, one, *(_text(column) for column in columns))
    op.create_table(
        "versions",
        _id(),
        _of("batch_id", "batches"),
        _number("number"),
        _of("content_id", "contents", optional=True),
        _text("how"),
        sa.Column("of_number", sa.Integer),
        _text("made_at"),
        _text("file_path", optional=True),
        sa.UniqueConstraint("batch_id", "number"),
    )


def _notes(name: str) -> None:
    op.create_table(
        name,
        _id(),
        _text("uid"),
        _number("number"),
        _of("batch_id", "batches", optional=True),
        _text("at", optional=True),
        _text("who", optional=True),
        _text("how"),
        _text("made_at"),
        _text("typed"),
        _text("body"),
        sa.UniqueConstraint("uid", "number"),
    )

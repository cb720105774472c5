"""A version may say why it was made."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

_WITH_VERSIONS = (
    "versions",
    "tastings",
    "verdicts",
    "splits",
    "panels",
    "events",
    "instrument_checks",
    "diagnoses",
)


def upgrade() -> None:
    """Add the column; older versions give no reason."""
    for table in _WITH_VERSIONS:
        op.add_column(table, sa.Column("reason", sa.Text, nullable=True))

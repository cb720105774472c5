"""Whether what the batches taught is used stands in the store."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the table of the switch; nothing is switched on."""
    optional = [sa.Column(name, sa.Text, nullable=True) for name in ("at", "who")]
    said = [sa.Column(name, sa.Text, nullable=False) for name in _SAID]
    op.create_table(
        "learning_switches",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("uid", sa.Text, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("batch_id", sa.Integer, sa.ForeignKey("batches.id"), nullable=True, index=True),
        *optional,
        *said,
        sa.Column("reason", sa.Text, nullable=True),
        sa.UniqueConstraint("uid", "number"),
    )


_SAID = ("how", "made_at", "typed", "body")

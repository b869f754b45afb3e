"""The language in which a logbook is answered."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Logbooks that are there go on in English."""
    op.add_column(
        "logbooks", sa.Column("language", sa.String(), nullable=False, server_default="en")
    )


def downgrade() -> None:
    """Drop what was added."""
    op.drop_column("logbooks", "language")

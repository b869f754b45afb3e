"""Sharing and the week: names given by hand, the week's day and hour, the next summary."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Logbooks that are there get the defaults: Monday, seven o'clock."""
    # Columns go in and out in place: SQLite's way of copying the table would trip over the
    # rows that refer to it.
    op.add_column(
        "logbooks", sa.Column("week_day", sa.Integer(), nullable=False, server_default="0")
    )
    op.add_column(
        "logbooks", sa.Column("week_hour", sa.Integer(), nullable=False, server_default="7")
    )
    op.add_column(
        "people", sa.Column("named", sa.Boolean(), nullable=False, server_default=sa.false())
    )
    op.create_table(
        "weeklies",
        sa.Column("logbook_id", sa.Integer(), nullable=False),
        sa.Column("local_time", sa.String(), nullable=False),
        sa.Column("time_zone", sa.String(), nullable=False),
        sa.Column("due_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["logbook_id"], ["logbooks.id"], name=op.f("fk_weeklies_logbook_id")
        ),
        sa.PrimaryKeyConstraint("logbook_id", name=op.f("pk_weeklies")),
    )
    op.create_index(op.f("ix_weeklies_due_at"), "weeklies", ["due_at"])


def downgrade() -> None:
    """Drop what was added."""
    op.drop_table("weeklies")
    op.drop_column("people", "named")
    op.drop_column("logbooks", "week_hour")
    op.drop_column("logbooks", "week_day")

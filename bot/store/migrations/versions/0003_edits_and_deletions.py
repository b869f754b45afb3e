"""Edits: which message says anew what another said; and which parked answer a notice is about."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create `versions`, and the outbox's `about`."""
    op.create_table(
        "versions",
        sa.Column("message_id", sa.Integer(), nullable=False),
        sa.Column("of", sa.Integer(), nullable=False),
        sa.Column("act", sa.String(), nullable=False),
        sa.Column("said_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("reading", sa.JSON(), nullable=True),
        sa.Column("ask", sa.JSON(), nullable=True),
        sa.ForeignKeyConstraint(
            ["message_id"], ["messages.id"], name=op.f("fk_versions_message_id")
        ),
        sa.ForeignKeyConstraint(["of"], ["messages.id"], name=op.f("fk_versions_of")),
        sa.PrimaryKeyConstraint("message_id", name=op.f("pk_versions")),
    )
    op.create_index(op.f("ix_versions_of_said_at"), "versions", ["of", "said_at"])
    op.add_column("outbox", sa.Column("about", sa.Integer(), nullable=True))


def downgrade() -> None:
    """Forget both."""
    op.drop_column("outbox", "about")
    op.drop_index(op.f("ix_versions_of_said_at"), table_name="versions")
    op.drop_table("versions")

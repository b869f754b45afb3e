"""An index by which the few answers whose turn it is are found in a long queue."""

from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create the index."""
    op.create_index(op.f("ix_outbox_state_message_id_id"), "outbox", ["state", "message_id", "id"])


def downgrade() -> None:
    """Drop what was added."""
    op.drop_index(op.f("ix_outbox_state_message_id_id"), table_name="outbox")

"""Networks: replies, threads and photos; who is let in by a code; what an answer was sent as."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def of_a_message() -> list[sa.Column[Any]]:
    """The new columns of `messages`."""
    return [
        sa.Column("reply_to", sa.String(), nullable=True),
        sa.Column("thread", sa.String(), nullable=True),
        sa.Column("photo", sa.String(), nullable=True),
        sa.Column("sure", sa.Boolean(), nullable=False, server_default=sa.true()),
        sa.Column("private", sa.Boolean(), nullable=False, server_default=sa.false()),
    ]


def upgrade() -> None:
    """Create `codes` and `strangers`, and the new columns."""
    op.create_table(
        "codes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("digest", sa.String(), nullable=False),
        sa.Column("logbook_id", sa.Integer(), nullable=True),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("used_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["logbook_id"], ["logbooks.id"], name=op.f("fk_codes_logbook_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_codes")),
        sa.UniqueConstraint("digest", name=op.f("uq_codes_digest")),
    )
    op.create_index(op.f("ix_codes_logbook_id"), "codes", ["logbook_id"])
    op.create_table(
        "strangers",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("network", sa.String(), nullable=False),
        sa.Column("chat", sa.String(), nullable=False),
        sa.Column("heard_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("failures", sa.Integer(), nullable=False),
        sa.Column("waits_until", sa.DateTime(timezone=True), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_strangers")),
        sa.UniqueConstraint("network", "chat", name=op.f("uq_strangers_network_chat")),
    )
    op.create_index(op.f("ix_strangers_heard_at"), "strangers", ["heard_at"])
    op.add_column("chats", sa.Column("title", sa.String(), nullable=False, server_default=""))
    for column in of_a_message():
        op.add_column("messages", column)
    op.add_column(
        "open_questions", sa.Column("held", sa.Boolean(), nullable=False, server_default=sa.false())
    )
    op.add_column("outbox", sa.Column("doubtful", sa.Integer(), nullable=False, server_default="0"))
    op.add_column("outbox", sa.Column("reference", sa.String(), nullable=True))
    op.create_index(op.f("ix_outbox_chat_id_reference"), "outbox", ["chat_id", "reference"])


def downgrade() -> None:
    """Forget them."""
    op.drop_index(op.f("ix_outbox_chat_id_reference"), table_name="outbox")
    op.drop_column("outbox", "reference")
    op.drop_column("outbox", "doubtful")
    op.drop_column("open_questions", "held")
    for column in reversed(of_a_message()):
        op.drop_column("messages", column.name)
    op.drop_column("chats", "title")
    op.drop_table("strangers")
    op.drop_table("codes")

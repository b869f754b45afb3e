"""The first form: journal, entries with a table a kind, open questions, outbox."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create every table."""
    op.create_table(
        "logbooks",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("units", sa.String(), nullable=False),
        sa.Column("currency", sa.String(), nullable=False),
        sa.Column("time_zone", sa.String(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_logbooks")),
    )
    op.create_table(
        "people",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people")),
    )
    op.create_table(
        "chats",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("network", sa.String(), nullable=False),
        sa.Column("chat", sa.String(), nullable=False),
        sa.Column("logbook_id", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["logbook_id"], ["logbooks.id"], name=op.f("fk_chats_logbook_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_chats")),
        sa.UniqueConstraint("network", "chat", name=op.f("uq_chats_network_chat")),
    )
    op.create_index(op.f("ix_chats_logbook_id"), "chats", ["logbook_id"])

    op.create_table(
        "identities",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("network", sa.String(), nullable=False),
        sa.Column("identity", sa.String(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name=op.f("fk_identities_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_identities")),
        sa.UniqueConstraint("network", "identity", name=op.f("uq_identities_network_identity")),
    )
    op.create_index(op.f("ix_identities_person_id"), "identities", ["person_id"])

    op.create_table(
        "messages",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("message", sa.String(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("sent_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("failures", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["chat_id"], ["chats.id"], name=op.f("fk_messages_chat_id")),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name=op.f("fk_messages_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_messages")),
        sa.UniqueConstraint("chat_id", "message", name=op.f("uq_messages_chat_id_message")),
    )
    op.create_index(op.f("ix_messages_person_id"), "messages", ["person_id"])
    op.create_index(op.f("ix_messages_state_id"), "messages", ["state", "id"])

    op.create_table(
        "entries",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("logbook_id", sa.Integer(), nullable=False),
        sa.Column("message_id", sa.Integer(), nullable=False),
        sa.Column("ordinal", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("happened_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("stated_at", sa.String(), nullable=True),
        sa.Column("place", sa.String(), nullable=True),
        sa.Column("truck", sa.String(), nullable=True),
        sa.Column("trailer", sa.String(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.Column("words", sa.JSON(), nullable=False),
        sa.Column("replaces", sa.Integer(), nullable=True),
        sa.Column("withdrawn_by", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["logbook_id"], ["logbooks.id"], name=op.f("fk_entries_logbook_id")
        ),
        sa.ForeignKeyConstraint(
            ["message_id"], ["messages.id"], name=op.f("fk_entries_message_id")
        ),
        sa.ForeignKeyConstraint(["replaces"], ["entries.id"], name=op.f("fk_entries_replaces")),
        sa.ForeignKeyConstraint(
            ["withdrawn_by"], ["messages.id"], name=op.f("fk_entries_withdrawn_by")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_entries")),
    )
    op.create_index(
        op.f("ix_entries_logbook_id_kind_withdrawn_by_happened_at"),
        "entries",
        ["logbook_id", "kind", "withdrawn_by", "happened_at"],
    )
    op.create_index(
        op.f("ix_entries_logbook_id_withdrawn_by_message_id"),
        "entries",
        ["logbook_id", "withdrawn_by", "message_id"],
    )
    op.create_index(op.f("ix_entries_message_id_ordinal"), "entries", ["message_id", "ordinal"])
    op.create_index(op.f("ix_entries_replaces"), "entries", ["replaces"])
    op.create_index(op.f("ix_entries_withdrawn_by"), "entries", ["withdrawn_by"])

    op.create_table(
        "outbox",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("message_id", sa.Integer(), nullable=True),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("due_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("reason", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["chat_id"], ["chats.id"], name=op.f("fk_outbox_chat_id")),
        sa.ForeignKeyConstraint(["message_id"], ["messages.id"], name=op.f("fk_outbox_message_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_outbox")),
    )
    op.create_index(op.f("ix_outbox_message_id"), "outbox", ["message_id"])
    op.create_index(op.f("ix_outbox_state_chat_id_id"), "outbox", ["state", "chat_id", "id"])

    op.create_table(
        "cargo",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("value", sa.Double(), nullable=False),
        sa.Column("value_unit", sa.String(), nullable=False),
        sa.Column("value_low", sa.Double(), nullable=True),
        sa.Column("position", sa.String(), nullable=True),
        sa.Column("distance", sa.Double(), nullable=True),
        sa.Column("distance_unit", sa.String(), nullable=True),
        sa.Column("distance_low", sa.Double(), nullable=True),
        sa.ForeignKeyConstraint(["entry_id"], ["entries.id"], name=op.f("fk_cargo_entry_id")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_cargo")),
    )
    op.create_table(
        "changes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("message_id", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("act", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entries.id"], name=op.f("fk_changes_entry_id")),
        sa.ForeignKeyConstraint(
            ["message_id"], ["messages.id"], name=op.f("fk_changes_message_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_changes")),
    )
    op.create_index(op.f("ix_changes_entry_id"), "changes", ["entry_id"])
    op.create_index(op.f("ix_changes_message_id"), "changes", ["message_id"])

    op.create_table(
        "checks",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entries.id"], name=op.f("fk_checks_entry_id")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_checks")),
    )
    op.create_table(
        "fills",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("product", sa.String(), nullable=True),
        sa.Column("volume", sa.Double(), nullable=True),
        sa.Column("volume_unit", sa.String(), nullable=True),
        sa.Column("volume_low", sa.Double(), nullable=True),
        sa.Column("odometer", sa.Double(), nullable=True),
        sa.Column("odometer_unit", sa.String(), nullable=True),
        sa.Column("odometer_low", sa.Double(), nullable=True),
        sa.Column("distance", sa.Double(), nullable=True),
        sa.Column("distance_unit", sa.String(), nullable=True),
        sa.Column("distance_low", sa.Double(), nullable=True),
        sa.Column("unit_price", sa.Double(), nullable=True),
        sa.Column("unit_price_unit", sa.String(), nullable=True),
        sa.Column("unit_price_low", sa.Double(), nullable=True),
        sa.Column("cost", sa.Double(), nullable=True),
        sa.Column("cost_unit", sa.String(), nullable=True),
        sa.Column("cost_low", sa.Double(), nullable=True),
        sa.Column("full", sa.Boolean(), nullable=True),
        sa.Column("missed", sa.Boolean(), nullable=True),
        sa.Column("dash_economy", sa.Double(), nullable=True),
        sa.Column("dash_economy_unit", sa.String(), nullable=True),
        sa.Column("dash_economy_low", sa.Double(), nullable=True),
        sa.ForeignKeyConstraint(["entry_id"], ["entries.id"], name=op.f("fk_fills_entry_id")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_fills")),
    )
    op.create_table(
        "hitches",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("action", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entries.id"], name=op.f("fk_hitches_entry_id")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_hitches")),
    )
    op.create_table(
        "observations",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("subject", sa.String(), nullable=False),
        sa.Column("value", sa.Double(), nullable=False),
        sa.Column("value_unit", sa.String(), nullable=False),
        sa.Column("value_low", sa.Double(), nullable=True),
        sa.Column("position", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entries.id"], name=op.f("fk_observations_entry_id")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_observations")),
    )
    op.create_table(
        "odometers",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("odometer", sa.Double(), nullable=False),
        sa.Column("odometer_unit", sa.String(), nullable=False),
        sa.Column("odometer_low", sa.Double(), nullable=True),
        sa.Column("event", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["entry_id"], ["entries.id"], name=op.f("fk_odometers_entry_id")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_odometers")),
    )
    op.create_table(
        "open_questions",
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("message_id", sa.Integer(), nullable=False),
        sa.Column("ask", sa.JSON(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["chat_id"], ["chats.id"], name=op.f("fk_open_questions_chat_id")),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entries.id"], name=op.f("fk_open_questions_entry_id")
        ),
        sa.ForeignKeyConstraint(
            ["message_id"], ["messages.id"], name=op.f("fk_open_questions_message_id")
        ),
        sa.PrimaryKeyConstraint("chat_id", name=op.f("pk_open_questions")),
    )
    op.create_table(
        "ratings",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("subject", sa.String(), nullable=False),
        sa.Column("rating", sa.String(), nullable=False),
        sa.Column("value", sa.Double(), nullable=False),
        sa.Column("value_unit", sa.String(), nullable=True),
        sa.Column("value_low", sa.Double(), nullable=True),
        sa.ForeignKeyConstraint(["entry_id"], ["entries.id"], name=op.f("fk_ratings_entry_id")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_ratings")),
    )
    op.create_table(
        "weighings",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("rig", sa.String(), nullable=True),
        sa.Column("bars", sa.String(), nullable=True),
        sa.Column("aboard", sa.Integer(), nullable=True),
        sa.Column("fuel_level", sa.Double(), nullable=True),
        sa.Column("ticket", sa.String(), nullable=True),
        sa.Column("cost", sa.Double(), nullable=True),
        sa.Column("cost_unit", sa.String(), nullable=True),
        sa.Column("cost_low", sa.Double(), nullable=True),
        sa.ForeignKeyConstraint(["entry_id"], ["entries.id"], name=op.f("fk_weighings_entry_id")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_weighings")),
    )
    op.create_table(
        "weighing_loads",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.String(), nullable=False),
        sa.Column("ordinal", sa.Integer(), nullable=False),
        sa.Column("load", sa.Double(), nullable=False),
        sa.Column("load_unit", sa.String(), nullable=False),
        sa.Column("load_low", sa.Double(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["weighings.entry_id"], name=op.f("fk_weighing_loads_entry_id")
        ),
        sa.PrimaryKeyConstraint("entry_id", "position", name=op.f("pk_weighing_loads")),
    )


def downgrade() -> None:
    """Drop every table."""
    op.drop_table("weighing_loads")
    op.drop_table("weighings")
    op.drop_table("ratings")
    op.drop_table("open_questions")
    op.drop_table("odometers")
    op.drop_table("observations")
    op.drop_table("hitches")
    op.drop_table("fills")
    op.drop_table("checks")
    op.drop_table("changes")
    op.drop_table("cargo")
    op.drop_table("outbox")
    op.drop_table("entries")
    op.drop_table("messages")
    op.drop_table("identities")
    op.drop_table("chats")
    op.drop_table("people")
    op.drop_table("logbooks")

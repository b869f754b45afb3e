"""The database: what is kept, and how it is kept."""

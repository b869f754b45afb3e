"""The functional core of Drawbar: records, and functions from records to records.

Nothing in this package does I/O, reads a clock, or knows of a chat or a database.
What it needs from outside (the time, the time zone, the units meant, the vocabulary)
is an argument.
"""

"""The steps that bring a database to the form of the tables, oldest first.

An applied step is never edited; a change is a new step at the end of `KNOWN`.
"""

KNOWN = ("0001", "0002", "0003", "0004", "0005", "0006")
HEAD = KNOWN[-1]

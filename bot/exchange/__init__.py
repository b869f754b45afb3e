"""Logbooks out to files that others read, and old logbooks in from spreadsheets."""

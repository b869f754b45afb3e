"""Matrix: a homeserver's account, in encrypted rooms as the normal case.

Nothing is imported here, so that the settings can be read without nio.
"""

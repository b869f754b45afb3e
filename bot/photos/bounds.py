"""How much of a photo is taken at all; read where photos are fetched and where they are opened."""

MOST_BYTES = 8 * 1024 * 1024
"""A phone's photo has 2 to 6 MB, and networks shrink it on the way."""

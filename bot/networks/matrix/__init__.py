"""Matrix: a homeserver's account, in encrypted rooms as the normal case."""

from bot.networks.matrix.network import Matrix
from bot.networks.matrix.settings import MatrixSettings

__all__ = ["Matrix", "MatrixSettings"]

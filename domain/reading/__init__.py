"""Reading: from a message and what the chat knows to a verdict.

`read` is a function of the text, the chat's context and a phrasebook; it keeps nothing and
raises for no message. The steps, each in its own module: tokens, figures, labels, talk
(`scene`), then what the figures stand for, kind by kind; what is in doubt becomes a question
back, and what says nothing for the log is silence.
"""

from domain.reading.phrasebook import Phrasebook, compile_phrasebook
from domain.reading.reader import explain, read

__all__ = ["Phrasebook", "compile_phrasebook", "explain", "read"]

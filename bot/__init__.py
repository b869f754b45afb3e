"""The shell of Drawbar: networks, conversation, store, delivery, schedule, command line."""

import os

# The matrices of an answer are small: threads that share one would only wait for each other.
# numpy looks once, when it is imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

"""What an embedded worker does as it starts: dask loads this module in its process by name."""

from __future__ import annotations

import logging
import signal


def dask_setup(_worker: object) -> None:
    """Leave Ctrl-C, which the terminal sends to the workers as well, to the command; and say nothing of the end."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    logging.getLogger("distributed").setLevel(logging.CRITICAL)

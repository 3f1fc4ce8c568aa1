"""A build that no search for garbage interrupts: it is sought when nobody waits.

What one build leaves behind is soon taken back by counting references; the search for cycles walks
over all that is kept, which takes as long as half a build.
"""

import gc
import threading
from collections.abc import Iterator
from contextlib import contextmanager

_IDLE = 1.0  # seconds without a build
_MOST = 40  # builds, after which it is sought even if the next one waits


class Quiet:
    """Keeps the collector away from builds, and from the answers that are made of them. Only one
    at a time may be in ``building``."""

    def __init__(self) -> None:
        self._timer: threading.Timer | None = None
        self._builds = 0

    @contextmanager
    def building(self) -> Iterator[None]:
        """No garbage is sought inside; a second after the last build it is, and from then on."""
        if self._timer is not None:
            self._timer.cancel()
        gc.disable()
        self._builds += 1
        if self._builds > _MOST:
            self._seek()
        try:
            yield
        finally:
            self._timer = threading.Timer(_IDLE, self._rest)
            self._timer.daemon = True
            self._timer.start()

    def _seek(self) -> None:
        self._builds = 0
        gc.collect()

    def _rest(self) -> None:
        self._seek()
        gc.enable()

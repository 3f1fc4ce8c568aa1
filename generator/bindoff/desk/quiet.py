"""A build that no search for garbage interrupts: it is sought when nobody waits.

What one build leaves behind is soon taken back by counting references; the search for cycles walks
over all that is kept, which takes as long as half a build.
"""

import gc
import threading
from collections.abc import Iterator
from contextlib import contextmanager

_IDLE = 1.0  # seconds without a build


class Quiet:
    """Keeps the collector away from builds. Only one at a time may be in ``building``."""

    def __init__(self) -> None:
        self._timer: threading.Timer | None = None

    @contextmanager
    def building(self) -> Iterator[None]:
        """No garbage is sought inside; a second after the last build it is."""
        if self._timer is not None:
            self._timer.cancel()
        before = gc.isenabled()
        gc.disable()
        try:
            yield
        finally:
            if before:
                gc.enable()
            self._timer = threading.Timer(_IDLE, gc.collect)
            self._timer.daemon = True
            self._timer.start()

"""Stopping when asked to, but not in the middle of what cannot be stopped."""

from __future__ import annotations

import contextlib
import signal
from collections.abc import Iterator
from types import FrameType


class Interruption:
    """Whether the user or the system has asked to stop, whether that has to wait, and what is true if it comes."""

    asked = False
    waits = False
    so_far = "what was there before is as it was"


def listen() -> None:
    """Interrupt on Ctrl-C and, where the system has such a thing, on a polite end by it."""
    for name in ("SIGINT", "SIGTERM"):
        number = getattr(signal, name, None)
        if number is not None:
            with contextlib.suppress(OSError, ValueError):  # no such signal here, or not the main thread's to set
                signal.signal(number, _stop)


def _stop(_signal: int, _frame: FrameType | None) -> None:
    Interruption.asked = True
    if not Interruption.waits:
        raise KeyboardInterrupt


@contextlib.contextmanager
def not_now() -> Iterator[None]:
    """Put interruptions off to the end of the block: the CAD kernel crashes if its loading is cut short."""
    Interruption.waits = True
    try:
        yield
    finally:
        Interruption.waits = False
    if Interruption.asked:
        raise KeyboardInterrupt

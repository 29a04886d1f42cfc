"""Stopping when asked to, but not in the middle of what cannot be stopped."""

from __future__ import annotations

import contextlib
import signal
from collections.abc import Iterator
from types import FrameType


class Interruption:
    """Whether the user or the system has asked to stop, and whether that has to wait."""

    asked = False
    waits = False


def listen() -> None:
    """Interrupt on Ctrl-C and on a polite end by the system."""
    signal.signal(signal.SIGINT, _stop)
    signal.signal(signal.SIGTERM, _stop)


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

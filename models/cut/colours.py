"""Colours of the set-up at the saw."""

from __future__ import annotations

TABLE = "#8d969c"
FENCE = "#4f6d8f"
BLADE = "#d9dde0"
SLOT = "#474d52"  # what is seen through the table
KNIFE = "#5c6268"
SLED = "#c8a878"
WORK = "#b9783f"
OFFCUT = "#e3b877"
CLAMP = "#3e7d52"
NEXT = "#d39a1f"  # the clamp that would be the first in the way
IN_THE_WAY = "#a4371c"  # a clamp where it can't be: the sled must not get there
STOP_BLOCK = "#c4675a"
HAND_LINE = "#ad2f22"

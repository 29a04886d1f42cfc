"""A line of a list on paper: a text, with a label before it if it has one."""

from __future__ import annotations

from typing import NamedTuple


class Entry(NamedTuple):
    """`strong` lines are the ones to be read first."""

    text: str
    label: str = ""
    strong: bool = False

"""A figure of the book: what it is called, what it reads, and where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["formula", "source", "practice", "yours", "job", "chosen"]
KINDS: dict[Kind, str] = {
    "formula": "Worked out",
    "source": "Published",
    "practice": "Common practice, no source",
    "yours": "Assumed: measure yours",
    "job": "From your job",
    "chosen": "Chosen for you",
}


@dataclass(frozen=True)
class Origin:
    """Where a figure comes from, in a sentence or two."""

    kind: Kind
    text: str

    @property
    def heading(self) -> str:
        return KINDS[self.kind]


@dataclass(frozen=True)
class Figure:
    """`key`: its place in numbers.json, dots between the steps; empty for one that does not stand there alone.
    `main`: one of the few that are set or cut by."""

    key: str
    label: str
    value: str
    origin: Origin
    main: bool = False

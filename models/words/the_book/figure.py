"""A figure of the book: what it is called, what it reads, and where it comes from."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
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


_ONE = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"
_UNIT = r"(?:mm/min|m/min|ft/min|m/s|mm|m|in|ft|lb|kg|g|s|min|h|N|MPa|psi|°C|°F|%|°)(?![A-Za-z])|\""
_MEASURE = re.compile(
    rf"(?<![\d./])({_ONE}(?:(?: x | to |, | and |-){_ONE})*) ?({_UNIT})|(?<![\d./:])(\d+(?:\.\d+)?:1)(?!\d)"
)


def measures_in(text: str) -> tuple[str, ...]:
    """Every number of a text that has a unit, with it, in order: "560 mm", '3/4"', "4.0 s" of "4.0 to 10.3 s"."""
    found = []
    for numbers, unit, ratio in _MEASURE.findall(text):
        space = "" if unit in ('"', "°") else " "
        found += [ratio] if ratio else [f"{one}{space}{unit}" for one in re.findall(_ONE, numbers)]
    return tuple(dict.fromkeys(found))


def same(measure: str) -> str:
    """A measure as it is compared: 3/4" is 3/4 in."""
    return measure.replace('"', " in")


@dataclass(frozen=True)
class Told:
    """A figure that stands in a sentence, and what of it stands there."""

    measures: tuple[str, ...]
    figure: Figure


@lru_cache(maxsize=4096)
def _pairs(text: str) -> tuple[tuple[str, str], ...]:
    """The measures of a text, each as it stands there and as it is compared."""
    return tuple((one, same(one)) for one in measures_in(text))


def told_in(texts: Iterable[str], known: Iterable[Figure]) -> tuple[Told, ...]:
    """Those of the known figures that the texts tell, in the figures' order, each label once."""
    there = {alike for text in texts for _, alike in _pairs(text)}
    if not there:
        return ()
    found: dict[str, Told] = {}
    for one in known:
        seen = tuple(each for each, alike in _pairs(one.value) if alike in there)
        if seen:
            found.setdefault(one.label, Told(seen, one))
    return tuple(found.values())

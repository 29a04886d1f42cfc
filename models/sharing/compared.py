"""Numbers that were passed on against the same worked out again: the same, or which are others and by how much."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

ROUNDED = 2e-6  # numbers.json is rounded to 6 decimals: the last may fall either way on another machine
SHARE = 1e-9  # and large ones (areas, volumes) are alike to so much of themselves


@dataclass(frozen=True)
class Difference:
    """One number, text or choice that is another; `path` is where it stands, such as "sled.notches[0].web_mm"."""

    path: str
    there: Any
    here: Any


@dataclass(frozen=True)
class Compared:
    """How many figures were compared, those that are others, and the findings that came or went (their codes)."""

    figures: int
    others: tuple[Difference, ...]
    came: tuple[str, ...] = ()
    went: tuple[str, ...] = ()

    @property
    def same(self) -> bool:
        return not (self.others or self.came or self.went)


def compared(there: Mapping[str, Any], here: Mapping[str, Any]) -> Compared:
    """Both as the manifest keeps them (see kept_numbers)."""
    told, found = dict(_leaves("", _plain(there))), dict(_leaves("", _plain(here)))
    paths = [*found, *(path for path in told if path not in found)]
    others = [Difference(p, told.get(p), found.get(p)) for p in paths if not _alike(told.get(p), found.get(p))]
    before, now = _codes(there), _codes(here)
    return Compared(len(paths), tuple(others), tuple(sorted(now - before)), tuple(sorted(before - now)))


def _plain(numbers: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in numbers.items() if key != "findings"}


def _codes(numbers: Mapping[str, Any]) -> Counter[str]:
    found = numbers.get("findings")
    listed = found if isinstance(found, list) else []
    return Counter(str(one.get("code")) for one in listed if isinstance(one, dict))


def _leaves(path: str, value: Any) -> Iterator[tuple[str, Any]]:
    """Every value that is no table and no list, with its path; an empty one of these stands for itself."""
    if isinstance(value, Mapping) and value:
        for key, inner in value.items():
            yield from _leaves(f"{path}.{key}" if path else str(key), inner)
    elif isinstance(value, list | tuple) and value:
        for number, inner in enumerate(value):
            yield from _leaves(f"{path}[{number}]", inner)
    else:
        yield path, None if isinstance(value, Mapping | list | tuple) else value


def _alike(there: Any, here: Any) -> bool:
    if _number(there) and _number(here):
        try:
            return bool(abs(there - here) <= max(ROUNDED, SHARE * abs(here)))
        except OverflowError:  # an integer beyond any float
            return False
    return type(there) is type(here) and bool(there == here)


def _number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)

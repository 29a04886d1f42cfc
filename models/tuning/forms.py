"""The forms in which measurements are written, and turning them into data; nothing is read from files here."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from scarfwright.models.lengths.length import LengthError, Unit, parse_length, shown
from scarfwright.models.tuning.measured import Reading, Skew, Station, TestJoint, Twist

MOST_READINGS = 100

FORMS = {
    "board_thickness": '"22.0 mm", or [top, bottom] edge, or { value = ..., piece = 1 }, or several of these',
    "taper_run": '"259.4 mm" along the board, or [top, bottom] edge, or { value = ..., piece = 1 }, or several',
    "tip": '"0.5 mm", or [top, bottom] edge, or { value = ..., piece = 1 }, or several of these',
    "thickness_at": '[distance from the tip, thickness] such as [["60 mm", "5.4 mm"]], or [distance, top, bottom]',
    "gap_top": '"0.15 mm"',
    "gap_bottom": '"0 mm"',
    "twist": '[difference, length of the sticks] such as ["2 mm", "300 mm"], and as a third item "up" or "down"',
    "joint_thickness": '"22.1 mm"',
    "tip_to_tip": '"254 mm"',
    "line_skew": '"0.9 mm", or ["0.9 mm", "top"] (or "bottom": its end nearer the tip)',
}
KEYS = tuple(FORMS)


@dataclass(frozen=True)
class Found:
    """What was found, as words."""

    text: str


@dataclass(frozen=True)
class Wrong:
    """A value that can't be used: its key, what was found, what was expected."""

    key: str
    found: Found
    expected: str


class _BadError(ValueError):
    """What was found, and what was expected instead."""

    def __init__(self, found: str, expected: str) -> None:
        super().__init__(found)
        self.found, self.expected = found, expected


def joint_of(table: dict[str, Any], number: int, units: Unit, wrong: list[Wrong]) -> TestJoint:
    """The test joint in a table of known keys; values that can't be read are added to `wrong` and left out."""
    values: dict[str, Any] = {}
    for key, value in table.items():
        try:
            values[key] = _READ[key](key, value, units)
        except _BadError as bad:
            wrong.append(Wrong(key, Found(bad.found), bad.expected))
    return TestJoint(number, **values)


def _length(value: object, units: Unit, form: str) -> float:
    try:
        return float(parse_length(value, units))
    except LengthError as error:
        found = str(error).removeprefix("found ").split(", expected")[0]
        raise _BadError(found, form) from None


def _one(key: str, value: object, units: Unit) -> float:
    if not isinstance(value, str | int | float):
        raise _BadError(shown(value), FORMS[key])
    return _length(value, units, FORMS[key])


def _readings(key: str, value: object, units: Unit) -> tuple[Reading, ...]:
    return tuple(_reading(key, one, units) for one in _several(value))


def _several(value: object) -> Iterator[object]:
    """One value, or a list of tables and lists: each a value of its own."""
    if not isinstance(value, list) or not value or not all(isinstance(item, dict | list) for item in value):
        yield value
        return
    if len(value) > MOST_READINGS:
        raise _BadError(f"{len(value)} values", f"at most {MOST_READINGS}")
    yield from value


def _reading(key: str, value: object, units: Unit) -> Reading:
    form = FORMS[key]
    if isinstance(value, dict):
        piece = _piece(value, {"value", "top", "bottom", "piece"}, form)
        given = {name: _length(value[name], units, form) for name in ("value", "top", "bottom") if name in value}
        if set(given) not in ({"value"}, {"top", "bottom"}):
            raise _BadError(shown(value), form)
        return Reading(key, given.get("value"), given.get("top"), given.get("bottom"), piece)
    if isinstance(value, list):
        lengths = [_length(item, units, form) for item in value]
        if len(lengths) == 3 and lengths[0] == 0:  # at a distance of nothing from the tip: the tip itself
            lengths = lengths[1:]
        if len(lengths) != 2:
            raise _BadError(shown(value), form)
        return Reading(key, None, lengths[0], lengths[1])
    return Reading(key, _one(key, value, units))


def _piece(value: dict[str, Any], known: set[str], form: str) -> int | None:
    unknown = [name for name in value if name not in known]
    if unknown:
        raise _BadError(f'"{unknown[0]}" in {shown(value)}', form)
    piece = value.get("piece")
    if piece is not None and (isinstance(piece, bool) or piece not in (1, 2)):
        raise _BadError(f"piece = {shown(piece)}", "piece = 1 or 2")
    return None if piece is None else int(piece)


def _stations(key: str, value: object, units: Unit) -> tuple[Station, ...]:
    if not isinstance(value, list) or not value:
        raise _BadError(shown(value), FORMS[key])
    if len(value) > MOST_READINGS:
        raise _BadError(f"{len(value)} marks", f"at most {MOST_READINGS}")
    if not any(isinstance(item, dict | list) for item in value):
        value = [value]  # one mark, written without the outer brackets
    return tuple(_mark(key, item, units) for item in value)


def _mark(key: str, value: object, units: Unit) -> Station:
    form = FORMS[key]
    if isinstance(value, dict):
        piece = _piece(value, {"at", "thickness", "top", "bottom", "piece"}, form)
        given = {name: _length(item, units, form) for name, item in value.items() if name != "piece"}
        if set(given) == {"at", "thickness"}:
            return Station(key, given["at"], given["thickness"], piece=piece)
        if set(given) == {"at", "top", "bottom"}:
            return Station(key, given["at"], None, given["top"], given["bottom"], piece)
        raise _BadError(shown(value), form)
    if not isinstance(value, list) or len(value) not in (2, 3):
        raise _BadError(shown(value), form)
    lengths = [_length(item, units, form) for item in value]
    if len(lengths) == 2:
        return Station(key, lengths[0], lengths[1])
    return Station(key, lengths[0], None, lengths[1], lengths[2])


def _twist(key: str, value: object, units: Unit) -> Twist:
    form = FORMS[key]
    if not isinstance(value, list) or len(value) not in (2, 3):
        raise _BadError(shown(value), form)
    difference, length = (_length(item, units, form) for item in value[:2])
    hand = value[2] if len(value) == 3 else None
    if hand not in (None, "up", "down"):
        raise _BadError(shown(hand), 'a third item "up" or "down"')
    if length <= 0 or difference > length * math.sin(math.radians(45)):
        raise _BadError(shown(value), "a difference smaller than the sticks are long, the difference first")
    return Twist(difference, length, hand)


def _skews(key: str, value: object, units: Unit) -> tuple[Skew, ...]:
    return tuple(_skew(key, one, units) for one in _several(value))


def _skew(key: str, value: object, units: Unit) -> Skew:
    form, nearer, piece = FORMS[key], None, None
    if isinstance(value, dict):
        piece = _piece(value, {"value", "nearer", "piece"}, form)
        nearer = value.get("nearer")
        if "value" not in value:
            raise _BadError(shown(value), form)
        value = value["value"]
    elif isinstance(value, list):
        if len(value) != 2:
            raise _BadError(shown(value), form)
        value, nearer = value
    if nearer not in (None, "top", "bottom"):
        raise _BadError(shown(nearer), '"top" or "bottom"')
    return Skew(key, _one(key, value, units), nearer, piece)


_READ: dict[str, Any] = {
    "board_thickness": _readings,
    "taper_run": _readings,
    "tip": _readings,
    "thickness_at": _stations,
    "gap_top": _one,
    "gap_bottom": _one,
    "twist": _twist,
    "joint_thickness": _one,
    "tip_to_tip": _one,
    "line_skew": _skews,
}

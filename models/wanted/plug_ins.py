"""Parts of other packages as a job asks for them: what they do is looked at once, here, and never trusted after."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Protocol

from scarfwright.models.findings import Finding, finding
from scarfwright.models.part.part import Part
from scarfwright.models.part.values import Value
from scarfwright.models.parts import refused
from scarfwright.models.parts.kind import Origin, PartKind
from scarfwright.models.parts.plug_ins import reason

if TYPE_CHECKING:
    from scarfwright.models.wanted.wanted import Wanted

COLOUR = re.compile(r"#[0-9a-f]{6}")
MOST = 1000  # of one part


class _HasParts(Protocol):
    @property
    def wanted(self) -> tuple[Wanted, ...]: ...


def needed_plug_ins(work: _HasParts) -> tuple[tuple[str, str], ...]:
    """Name and version of every package whose parts are made for this job, in alphabetical order."""
    made = [one.kind.origin for one in work.wanted if one.kind.origin is not None and not one.left_out]
    return tuple(sorted({(origin.package, origin.version) for origin in made}))


def not_loaded() -> list[Finding]:
    """A finding for each part that an installed package wanted to add and could not; it stops nothing."""
    return [_told("plug_in.not_loaded", one.name, one.origin, one.why) for one in refused()]


def failed(kind: PartKind, error: BaseException) -> Finding:
    """The finding that another package's part did not come to one."""
    assert kind.origin is not None
    return _told("plug_in.failed", kind.name, kind.origin, reason(error))


def _told(code: str, name: str, origin: Origin, why: str) -> Finding:
    return replace(finding(code, package=origin.package, version=origin.version, part=name, why=why), part=name)


def looked_through(one: Wanted) -> None:
    """Do now all that would be done with another package's part later, so that nothing of it can fail then.

    Raises TypeError or ValueError for what no writer could write; whatever the package itself raises.
    """
    if one.left_out:
        return
    kind, values = one.kind, one.parameters
    if isinstance(one.count, bool) or not isinstance(one.count, int) or not 0 <= one.count <= MOST:
        raise ValueError(f"it is to be made {one.count!r} times, expected a whole number up to {MOST}")
    _plain_values(values.items())
    _plain_values(one.reads.items())
    for drawn_with in (values, values.plain(), values.uncompensated(), values.uncompensated().plain()):
        writable(kind.drawn(drawn_with), kind.name)
    _ = one.laid


def _plain_values(items: Iterable[tuple[str, Value]]) -> None:
    for name, value in items:
        numbers = [value] if isinstance(value, float | int) else _numbers(value)
        if not isinstance(name, str) or not name.isprintable() or not all(math.isfinite(n) for n in numbers):
            raise ValueError(f"it gives {name} = {value!r}")


def _numbers(value: object) -> Iterator[float]:
    """Every number in a text, of which there are none, or in rows in rows. Raises TypeError for anything else."""
    if isinstance(value, float | int):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from _numbers(item)
    elif not isinstance(value, str):
        raise TypeError(f"it gives {value!r}, expected numbers, a text or a tuple of numbers")


def writable(part: object, name: str) -> None:
    """Raises TypeError or ValueError for what is no part of this name that every writer could write."""
    if not isinstance(part, Part):
        raise TypeError(f"its builder gives {type(part).__name__}, no Part")
    if part.name != name:
        raise ValueError(f'its part is called "{part.name}", not {name}')
    texts = [part.title, part.use, *(m.text for m in part.marks), *(m.name for m in part.marks)]
    texts += [*(f.name for f in part.features), *(r.name for r in part.raised)]
    if not part.title.strip() or not all(text.isprintable() for text in texts):
        raise ValueError("it has no title, or a text that can't be printed")
    if COLOUR.fullmatch(part.colour) is None:
        raise ValueError(f'its colour is "{part.colour}", expected one such as "#c8a878"')
    points = [p for m in part.marks for p in m.points] + [p for guide in part.guides for p in guide]
    sizes = [n for m in part.marks for n in (m.height, m.angle)]
    if not all(math.isfinite(n) for n in (*(n for p in (*points, *part.sharp) for n in p), *sizes)):
        raise ValueError("it has a mark that lies nowhere")

"""Parts that other packages add, by entry points of the group "scarfwright.parts": name = "module:KIND".

Loaded with the registry and nowhere else. A package that can't be loaded costs its own part and nothing more: what it
did wrong is kept, and told as a finding that names it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, replace
from importlib import metadata

from scarfwright.models.findings import Finding, Level, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.shop import PART_GROUP
from scarfwright.models.part.values import Values
from scarfwright.models.parts.kind import GROUPS, Origin, PartKind, takes

NAME = re.compile(r"[a-z][a-z0-9_]{1,39}")
RESERVED = frozenset({"aux", "bed", "con", "half_1", "half_2", "nul", "plank", "prn", "sheets"})  # other files' names
SAYS = {Level.FAULT: "part.says_fault", Level.CAUTION: "part.says_caution", Level.NOTE: "part.says_note"}

Check = Callable[[Groundwork | None, Values], list[Finding]]


@dataclass(frozen=True)
class Refused:
    """An entry that gave no part: its name, whose it is, and what was found wrong, as half a sentence."""

    name: str
    origin: Origin
    why: str


def load(taken: Collection[str]) -> tuple[list[PartKind], list[Refused]]:
    """Every part that installed packages add, by name, and what could not be had. `taken`: the names of our own."""
    kinds: dict[str, PartKind] = {}
    refused: list[Refused] = []
    for entry, origin in _entries():
        try:
            if entry.name in taken:
                raise TypeError("the name is one of scarfwright's own parts")
            if entry.name in kinds:
                raise TypeError(f"the name is taken by {kinds[entry.name].origin}")
            kinds[entry.name] = _known(entry.load(), entry.name, origin)
        except (Exception, SystemExit) as error:  # another's code: whatever it does, the rest goes on
            refused.append(Refused(entry.name, origin, reason(error)))
    return list(kinds.values()), refused


def _entries() -> Iterator[tuple[metadata.EntryPoint, Origin]]:
    """In the same order on every machine."""
    found = []
    for entry in metadata.entry_points(group=PART_GROUP):
        dist = entry.dist
        found.append((entry, Origin("an unnamed package", "") if dist is None else Origin(dist.name, dist.version)))
    return iter(sorted(found, key=lambda pair: (pair[0].name, pair[1].package, pair[0].value)))


def reason(error: BaseException) -> str:
    """What went wrong, in one line that can be printed."""
    text = " ".join(str(error).split())
    own = isinstance(error, TypeError | ValueError) and text
    said = text if own else f"{type(error).__name__}: {text}".rstrip(": ")
    return "".join(c if c.isprintable() else "?" for c in said)[:300].rstrip(".")


def _known(found: object, name: str, origin: Origin) -> PartKind:
    """The kind as the registry takes it in. Raises TypeError for what is none."""
    if not isinstance(found, PartKind):
        raise TypeError(f"it gives {type(found).__name__}, no PartKind")
    if found.name != name:
        raise TypeError(f'its PartKind is called "{found.name}", not as its entry point')
    if NAME.fullmatch(name) is None or name in RESERVED:
        raise TypeError("its name is taken by other files, or is not of 2 to 40 small letters, digits and _")
    if not found.goes_to or not set(found.goes_to) <= GROUPS:
        raise TypeError(f"it goes to {sorted(found.goes_to)}, expected some of {sorted(GROUPS)}")
    if not isinstance(found.summary, str) or not found.summary.isprintable():
        raise TypeError("its summary is no line of text")
    unknown = {*found.ranges, *found.units, *found.defaults} - set(takes(found.build))
    if unknown:
        raise TypeError(f"its builder does not take {', '.join(sorted(unknown))}")
    check = None if found.check is None else _in_its_own_words(found.check)
    return replace(found, origin=origin, check=check)


def _in_its_own_words(check: Check) -> Check:
    """The check, held to findings that bring their sentence: the others' words are made from numbers it can't know."""

    def checked(work: Groundwork | None, values: Values) -> list[Finding]:
        found = list(check(work, values))
        for one in found:
            if not isinstance(one, Finding) or one.code not in SAYS.values() or not one.text.strip():
                raise TypeError("its check gives findings that were not made with said()")
        return found

    return checked


def said(level: Level, text: str, /, **numbers: float | str | None) -> Finding:
    """A finding of a plug-in's `check`: a sentence or two, and the numbers in it, each key with its unit.

    Raises TypeError for a text that is none, or has characters that can't be printed.
    """
    if not isinstance(text, str) or not text.strip() or not text.isprintable():
        raise TypeError(f"found {text!r}, expected a sentence")
    return finding(SAYS[Level(level)], text, **numbers)

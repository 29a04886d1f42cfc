"""A part's parameters as people read and write them: name, default, unit and meaning, and values from text."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from inspect import Parameter as Named
from inspect import getdoc

from scarfwright.models.lengths.length import LengthError, parse_length
from scarfwright.models.part.values import Value
from scarfwright.models.parts import registry
from scarfwright.models.parts.kind import LISTS, SORTS, PartKind, takes

_LINE = re.compile(r"^(?P<names>[a-z_]+(?:, [a-z_]+)*): (?P<about>.+)$")
_UNIT = re.compile(r"\[(?P<unit>[^\]]+)\]")
_YES_NO = {"yes": True, "true": True, "no": False, "false": False}


class WordError(Exception):
    """A name or value that can't be used; `str()` is one line that says what was found and what is expected."""


@dataclass(frozen=True)
class Word:
    """One parameter. `kind`: "length", "number", "text", "yes or no", or "list" of groups of `group` lengths; `unit` ""
    if none."""

    name: str
    kind: str
    default: Value
    unit: str
    about: str
    group: int = 1
    range: tuple[float, float] | None = None

    def shown(self) -> str:
        """The default as it could be typed."""
        return _typed(self.default)

    def as_json(self) -> dict[str, object]:
        return {
            "name": self.name,
            "kind": self.kind,
            "default": self.default,
            "unit": self.unit or None,
            "about": self.about,
            "range": None if self.range is None else list(self.range),
        }


def find_kind(name: str) -> PartKind:
    """The part of this name. Raises WordError naming the nearest one."""
    kinds = registry()
    if name not in kinds:
        raise WordError(f'there is no part "{name}"; {_nearest(name, kinds)}')
    return kinds[name]


def words(kind: PartKind) -> list[Word]:
    """The parameters of a part, in its builder's order. Raises TypeError for one that nobody could type in."""
    about = _about(getdoc(kind.build) or "")
    return [_word(kind, named, about.get(named.name, "")) for named in takes(kind.build).values()]


def read(kind: PartKind, given: Iterable[str]) -> dict[str, Value]:
    """Parameters from words "key=value". Lengths in every form a job takes, bare numbers are mm. Raises WordError."""
    known = {word.name: word for word in words(kind)}
    found: dict[str, Value] = {}
    for text in given:
        key, sign, value = text.partition("=")
        key = key.strip()
        if not sign:
            raise WordError(f'found "{text}", expected key=value such as {next(iter(known))}={_first(known)}')
        if key not in known:
            raise WordError(f'{kind.name}: unknown parameter "{key}"; {_nearest(key, known)}')
        if key in found:
            raise WordError(f"{kind.name}: {key} is given twice")
        found[key] = _value(kind, known[key], value.strip())
    return found


def _first(known: dict[str, Word]) -> str:
    return next(iter(known.values())).shown()


def _nearest(name: str, known: Iterable[str]) -> str:
    names = list(known)
    near = (difflib.get_close_matches(name, names, 1, 0.0) or names)[0]
    return f'the nearest known one is "{near}" (all: {", ".join(names)})'


def _about(text: str) -> dict[str, str]:
    """Meaning of each parameter from the docstring's lines "name, name: meaning [unit]"."""
    found: dict[str, str] = {}
    names: list[str] = []
    for line in text.split("\n\n", 1)[-1].splitlines():
        match = _LINE.match(line)
        if match is not None:
            names = match["names"].split(", ")
            found |= dict.fromkeys(names, match["about"])
        elif line.startswith(" "):  # goes on
            found |= {name: f"{found[name]} {line.strip()}" for name in names}
    return found


def _word(kind: PartKind, named: Named, about: str) -> Word:
    sort = SORTS[named.annotation]
    said = _UNIT.search(about)
    unit = "" if sort in ("text", "number", "yes or no") else "mm"
    if sort == "length":
        unit = kind.units.get(named.name, said["unit"] if said else "")
        sort = "length" if unit == "mm" else "number"
    plain = _UNIT.sub("", about).replace(" ,", ",").replace(" ;", ";").strip()
    return Word(
        named.name,
        sort,
        kind.defaults.get(named.name, named.default),
        unit,
        " ".join(plain.split()),
        LISTS.get(named.annotation, 1),
        kind.ranges.get(named.name),
    )


def _typed(value: Value) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:g}"
    if isinstance(value, tuple):
        sign = ";" if value and isinstance(value[0], tuple) else ","
        return sign.join(_typed(item) for item in value)
    return str(value)


def _value(kind: PartKind, word: Word, text: str) -> Value:
    where = f"{kind.name}: {word.name}"
    if word.kind == "text":
        return text
    if word.kind == "yes or no":
        if text.lower() not in _YES_NO:
            raise WordError(f'{where}: found "{text}", expected yes or no')
        return _YES_NO[text.lower()]
    if word.kind == "length":
        return _length(where, text)
    if word.kind == "number":
        return _number(where, text, whole=isinstance(word.default, int))
    groups = [group for group in (text.split(";") if word.group > 1 else text.split(",")) if group.strip()]
    if word.group == 1:
        return tuple(_length(where, group) for group in groups)
    return tuple(_group(where, word, group) for group in groups)


def _group(where: str, word: Word, text: str) -> tuple[float, ...]:
    parts = text.split(",")
    if len(parts) != word.group:
        shape = ",".join("xyd"[: word.group])
        raise WordError(
            f'{where}: found "{text.strip()}", expected groups of {word.group} lengths, {shape};{shape};...'
        )
    return tuple(_length(where, part, place=True) for part in parts)


def _length(where: str, text: str, *, place: bool = False) -> float:
    """Bare numbers are mm; those of places, measured from an edge, may be negative."""
    text = text.strip()
    try:
        bare = float(text)
    except ValueError:
        bare = None
    try:
        if place and bare is not None and bare < 0 and math.isfinite(bare):
            return -float(parse_length(-bare))
        return float(parse_length(text if bare is None else bare))
    except LengthError as error:
        raise WordError(f"{where}: {error}") from None


def _number(where: str, text: str, *, whole: bool) -> float:
    try:
        value = int(text) if whole else float(text)
    except ValueError:
        value = math.nan
    if not math.isfinite(value) or abs(value) > 1e6:
        raise WordError(f'{where}: found "{text}", expected a {"whole " if whole else ""}number')
    return value

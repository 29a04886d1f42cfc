"""The commented job to begin from, from the models' own descriptions and defaults."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from scarfwright.models.job.by_name import is_list
from scarfwright.models.job.file import toml_value
from scarfwright.models.job.shop import Machine
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Unit

# what a key without a default might be: in mm and in inches, or the same in both
_FORMS: Mapping[str, tuple[object, object]] = {
    "stock.finished_thickness": ("20 mm", "3/4 in"),
    "stock.length": ("2.4 m", "8 ft"),
    "saw.teeth": (24, 24),
    "saw.rpm": (4000, 4000),
    "saw.max_rpm": (6000, 6000),
    "saw.feed_time": (8, 8),
    "saw.guard_height": ("150 mm", "6 in"),
    "saw.guard_front": ("300 mm", "12 in"),
    "saw.hand_kerf": ("2 mm", "5/64 in"),
    "stock.modulus": ("12 GPa", "12 GPa"),
    "stock.rupture": ("100 MPa", "100 MPa"),
    "clamp.force": ("800 N", "180 lbf"),
    "clamp.count": (14, 14),
    "adhesive.kind": ("PVA", "PVA"),
    "adhesive.spread": ("200 g/m2", "200 g/m2"),
    "adhesive.pressure": ("0.7 MPa", "100 psi"),
    "adhesive.open_time": ("10 min", "10 min"),
    "adhesive.clamp_time": ("24 h", "24 h"),
    "limits.twist": (2, 2),
    "sled.heel_as_made": ("124.2 mm", "4 7/8 in"),
    "sled.nose_as_made": ("58.5 mm", "2 5/16 in"),
    "sled.length_as_made": ("800 mm", "32 in"),
    "board.width": ("150 mm", "6 in"),
    "board.thickness": ("22 mm", "7/8 in"),
    "buy.width": ("150 mm", "6 in"),
    "buy.thickness": ("22 mm", "7/8 in"),
}
_FIRST = ("stock.thickness", "stock.height", "stock.length", "joint.ratio", "sled.plank")
_AS_MADE = "_as_made"  # measured from a sled there is not yet: no example could fit
_WIDTH = 42  # of what stands before a line's description


@dataclass(frozen=True)
class Start:
    """What is known of the job to begin: its units, and values of keys (TOML's plain ones)."""

    units: Unit = "mm"
    values: Mapping[str, object] = field(default_factory=dict)
    shop_has: Sequence[Machine] = ()

    @property
    def given(self) -> dict[str, object]:
        sample = {"mm": ("22 mm", "60 mm"), "in": ("7/8 in", "1 3/4 in")}[self.units]
        return {"stock.thickness": sample[0], "stock.height": sample[1], "joint.ratio": "12:1", **self.values}


def starting_text(start: Start) -> str:
    """A job in the order one thinks of it: board, slope, plank; then what to measure; the rest below a line.

    Every key stands whole on its line, so that any one alone can be put to use.
    """
    keys = dict(_keys())
    guesses = [name for name, found in keys.items() if _extra(found).get("guess") and name.startswith(("saw", "clamp"))]
    rest = [name for name in keys if name not in (*_FIRST, *guesses) and not name.endswith(_AS_MADE)]
    lines = [
        '# A scarfwright job. Lengths: "22 mm", "0.9 m", "3/4 in", "5 ft 6 1/2 in", or bare numbers in `units`.',
        "# Keys behind a # are not in use. Most show their default; those marked (no default) show the form.",
        _line("title", "My first scarf", ""),
        _line("units", start.units, "mm or in: of bare numbers, and of all that is shown"),
        _line("shop_has", list(start.shop_has), 'machines besides the saw: "printer", "router", "laser"'),
        "",
        "# -- The board, the slope, the plank the sled is made from ------------------------------------------",
        *(_key(name, keys[name], start) for name in _FIRST),
        "",
        "# -- Your saw and clamps: measure these (paper/measure-me.pdf shows where) ---------------------------",
        *(_key(name, keys[name], start) for name in guesses),
        "",
        "# -- The rest: leave it until you need it -----------------------------------------------------------",
        *(_key(name, keys[name], start) for name in rest),
        "# Once the sled is made, measure it: sled.heel_as_made and nose_as_made (the plank sheet says how).",
        '# Saw, clamps and machines can stand in one file for all jobs of a shop: include = "my-shop.toml" at the top.',
        "# Below all this, one table for each board, blank to glue up, wood to buy. Their keys: scarfwright schema.",
        *(line for table in Job.model_fields if is_list(table) for line in _listed(table, start.units)),
    ]
    return "\n".join(lines) + "\n"


_LISTED: Mapping[str, Mapping[str, tuple[object, object]]] = {
    "board": {"length": ("2.4 m", "8 ft"), "count": (6, 6)},
    "blank": {
        "name": ("gunwale", "gunwale"),
        "length": ("5.06 m", "16 ft 2 15/32 in"),
        "curve": (
            [["0 m", "0 mm"], ["1.7 m", "310 mm"], ["3.4 m", "325 mm"], ["5 m", "40 mm"]],
            [["0 ft", "0 in"], ["5 ft", "12 in"], ["11 ft", "13 in"], ["16 ft", "2 in"]],
        ),
    },
    "buy": {"length": ("3 m", "10 ft")},
}


def _listed(table: str, units: Unit) -> list[str]:
    """One of a list of tables behind marks, with the keys one begins with."""
    keys = _LISTED[table]
    return [f"# [[{table}]]", *(f"# {key} = {toml_value(forms[units == 'in'])}" for key, forms in keys.items())]


def _keys() -> Iterator[tuple[str, FieldInfo]]:
    """Every key of every table by its dotted name, in the order of the tables."""
    for table, found in Job.model_fields.items():
        model = found.annotation
        if isinstance(model, type) and issubclass(model, BaseModel):
            for key, one in model.model_fields.items():
                yield f"{table}.{key}", one


def _extra(found: FieldInfo) -> dict[str, Any]:
    return found.json_schema_extra if isinstance(found.json_schema_extra, dict) else {}


def _key(name: str, found: FieldInfo, start: Start) -> str:
    about = (found.description or "").removesuffix(" Measure yours.")
    if name in start.given:
        return _line(name, start.given[name], about)
    if found.default is None:
        return "# " + _line(name, _form(name, found, start.units), f"(no default) {about}")
    extra = _extra(found)
    shown = extra["inch"] if start.units == "in" and "inch" in extra else found.default
    return "# " + _line(name, shown, about)


def _line(name: str, value: object, about: str) -> str:
    line = f"{name} = {toml_value(value)}"
    return f"{line:<{_WIDTH}} # {about}" if about else line


def example(name: str, units: Unit) -> object:
    """What a key without a default might be; None where nothing is known."""
    table, _, key = name.partition(".")
    forms = _FORMS.get(name) or _LISTED.get(table, {}).get(key)
    return Start(units).given.get(name) if forms is None else forms[units == "in"]


def _form(name: str, found: FieldInfo, units: Unit) -> object:
    """Something of the right form for a key that has no default."""
    if name in _FORMS:
        return _FORMS[name][units == "in"]
    if "Length" in str(found.annotation):
        return {"mm": "150 mm", "in": "6 in"}[units]
    return 4 if "int" in str(found.annotation) or "float" in str(found.annotation) else ""

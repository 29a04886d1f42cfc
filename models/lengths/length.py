"""Lengths: reading what people write, keeping it exact, showing it in the job's units.

Everything is mm inside. A length is read once, as an exact fraction, and converted once
(1 in = 25.4 mm exactly, ISO 80000-3 and the 1959 yard-and-pound agreement).
"""

from __future__ import annotations

import math
import re
from decimal import Decimal, localcontext
from fractions import Fraction
from typing import Any, Literal

Unit = Literal["mm", "in"]

MM_PER_INCH = Fraction(254, 10)
LONGEST_MM = 100_000  # nothing in a boat shop is longer than 100 m; more is a slip of the key
SHORTEST_MM = Fraction(1, 1000)  # nothing in a shop is measured finer; less (and not 0) is a slip too
LONGEST_TEXT = 80  # characters, as read and as written back; keeps exact fractions within reason

UNIT_MM: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": MM_PER_INCH,
    "ft": 12 * MM_PER_INCH,
}
UNIT_NAMES = {
    "mm": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "cm": "cm",
    "m": "m",
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "in": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "ft": "ft",
    "foot": "ft",
    "feet": "ft",
    "'": "ft",
}
NUMBER = r"\d+\s*-\s*\d+\s*/\s*\d+|\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+[.,]\d+|\d+\.|\.\d+|\d+"
_TERM = re.compile(rf"\s*(?P<number>{NUMBER})\s*(?P<unit>[a-zA-Z]+|'|\")?\.?", re.ASCII)
# 1,500 is a thousand and a half, or one and a half; no thousands are written 0,400 or 1200,500
_THOUSANDS = re.compile(r"(?<!\d)[1-9]\d{0,2},\d{3}(?!\d)", re.ASCII)
_NOTHING = re.compile(r"0+([.,]0*)?", re.ASCII)
VULGAR = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_FORMS = 'a length with a unit such as "22 mm", "0.9 m", "3/4 in" or "5 ft 6 1/2 in"'
# why a text is no length; the joint's form on a page says the same
REFUSED = {
    "form": f"found {{found}}, expected {_FORMS}",
    "finite": "found {found}, expected a finite number",
    "negative": "found {found}, expected a length that is not negative",
    "unit_missing": f"found {{found}}, where the unit is missing; expected {_FORMS}, or a bare number",
    "unit_unknown": f'found {{found}}, where "{{name}}" is no unit known here; expected {_FORMS}',
    "mixed": f"found {{found}}, which mixes units; expected {_FORMS}",
    "thousands": "found {found}, which may mean {many} or {few}; expected one of them, written without the comma",
    "zero": f"found {{found}}, a fraction with a zero under the line; expected {_FORMS}",
    "short": "found {found}, which is under a thousandth of a millimetre; expected a length from a shop",
    "long": "found {found}, which is over 100 m; expected a length from a boat shop",
    "fine": f"found {{found}}, which is finer than any rule; expected {_FORMS}",
}


class LengthError(ValueError):
    """A text or number that is no length; the message says what was found and what is expected."""


def _refused(why: str, found: str, **parts: str) -> LengthError:
    return LengthError(REFUSED[why].format(found=found, **parts))


class Length(float):
    """A length in mm that remembers how it was written, exactly.

    `text` is the canonical writing: "22 mm" or "1 1/2 in". Arithmetic gives plain floats.
    """

    text: str

    def __new__(cls, mm: Fraction, text: str) -> Length:
        self = super().__new__(cls, mm.numerator / mm.denominator)
        self.text = text
        return self

    def __reduce__(self) -> tuple[Any, tuple[str]]:
        return parse_length, (self.text,)

    @classmethod
    def __get_pydantic_core_schema__(cls, _source: Any, _handler: Any) -> Any:
        from pydantic_core import core_schema

        return core_schema.with_info_plain_validator_function(
            _from_field,
            serialization=core_schema.plain_serializer_function_ser_schema(lambda v: v.text),
        )

    @classmethod
    def __get_pydantic_json_schema__(cls, _schema: Any, _handler: Any) -> dict[str, Any]:
        return {
            "anyOf": [{"type": "string"}, {"type": "number"}],
            "description": 'a length: text with a unit ("22 mm", "1 1/2 in") or a number in the job\'s units',
        }


def _from_field(value: Any, info: Any) -> Length:
    units = (info.context or {}).get("units", "mm")
    return value if isinstance(value, Length) else parse_length(value, units)


def parse_length(value: object, units: Unit = "mm", *, bare: bool = False) -> Length:
    """Read a length.

    Parameters: value, text with a unit or a bare number in `units`; units, "mm" or "in"; bare, whether a text without
    a unit is in `units`, as where something is typed beside its unit.
    Returns the length [mm]. Raises LengthError with one sentence.
    """
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise _refused("form", shown(value))
    if isinstance(value, float):
        if not math.isfinite(value):
            raise _refused("finite", str(value))
        return _checked(Fraction(repr(value)) * UNIT_MM[units], units, shown(value))
    if isinstance(value, int):
        return _checked(value * UNIT_MM[units], units, shown(value))
    if len(value) > LONGEST_TEXT:
        raise _refused("form", shown(value))
    return _checked(*_parse_text(value, units, bare), shown(value))


def _parse_text(value: str, units: Unit, bare: bool) -> tuple[Fraction, Unit]:
    if _NOTHING.fullmatch(value.strip()):
        return Fraction(0), units  # nothing is nothing in any unit
    text = value.strip().replace("″", '"').replace("”", '"').replace("′", "'").replace("’", "'")
    text = text.replace("''", '"')
    for sign, plain in VULGAR.items():
        text = text.replace(sign, f" {plain}")
    text = text.strip()
    if text.endswith(("-", ",")):
        raise _refused("form", shown(value))
    if text.startswith("-"):
        raise _refused("negative", shown(value))
    refuse_thousands(text, value)
    total = Fraction(0)
    seen: list[str] = []
    at = 0
    while at < len(text):
        match = _TERM.match(text, at)
        if match is None or not match["number"]:
            raise _refused("form", shown(value))
        name = match["unit"]
        if name is None:
            if not bare or seen or match.end() < len(text):
                raise _refused("unit_missing", shown(value))
            name = units
        unit = UNIT_NAMES.get(name.lower())
        if unit is None:
            raise _refused("unit_unknown", shown(value), name=name)
        if unit in seen or (seen and (seen[-1], unit) != ("ft", "in")):
            raise _refused("mixed", shown(value))
        total += _number(match["number"], value) * UNIT_MM[unit]
        seen.append(unit)
        at = match.end()
        while at < len(text) and text[at] in " -,":
            at += 1
    if not seen:
        raise _refused("form", shown(value))
    return total, "in" if seen[0] in ("in", "ft") else "mm"


def refuse_thousands(text: str, value: str) -> None:
    """A comma before exactly three digits is read both ways by people. Raises LengthError with both readings."""
    match = _THOUSANDS.search(text)
    if match is not None:
        many, few = match[0].replace(",", ""), match[0].replace(",", ".")
        raise _refused("thousands", shown(value), many=many, few=few)


def _number(text: str, whole_text: str) -> Fraction:
    parts = re.split(r"\s*-\s*|\s+(?=\d+\s*/)", text.strip())
    total = Fraction(0)
    for part in parts:
        piece = re.sub(r"\s", "", part).replace(",", ".")
        if "/" in piece and piece.split("/")[1].strip("0") == "":
            raise _refused("zero", shown(whole_text))
        total += Fraction(piece)
    return total


def _checked(mm: Fraction, units: Unit, found: str) -> Length:
    if mm < 0:
        raise _refused("negative", found)
    if 0 < mm < SHORTEST_MM:
        raise _refused("short", found)
    if mm > LONGEST_MM:
        raise _refused("long", found)
    text = canonical(mm, units)
    if len(text) > LONGEST_TEXT:
        raise _refused("fine", found)
    return Length(mm, text)


def canonical(mm: Fraction, units: Unit) -> str:
    """The one way a length is written back to a job file: "22 mm" or "1 1/2 in", exactly."""
    if units == "in":
        inches = mm / MM_PER_INCH
        return f"{_mixed(inches)} in"
    return f"{_decimal(mm)} mm"


def _mixed(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    if rest == 0:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def _decimal(value: Fraction) -> str:
    """Exact: what is read in metric, or in 64ths of an inch, ends in decimals."""
    with localcontext() as context:
        context.prec = 60
        text = format(Decimal(value.numerator) / Decimal(value.denominator), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def show(mm: float, units: Unit, *, places: int = 1, sixtyfourths: bool = True) -> str:
    """A length for people: mm with `places` decimals, or inches to the nearest 1/64.

    Inches that are not on a 64th are marked "about" only by the caller; a rule has no finer mark.
    """
    if units == "mm":
        text = f"{mm:.{places}f}"
        if "." in text:
            text = text.rstrip("0").rstrip(".")
        return f"{'0' if text == '-0' else text} mm"
    if not sixtyfourths:
        text = f"{mm / 25.4:.3f}"
        return f"{text.removeprefix('-') if float(text) == 0 else text} in"
    sign = "-" if mm < 0 else ""
    steps = round(abs(mm) / 25.4 * 64)
    return f"{sign if steps else ''}{_mixed(Fraction(steps, 64))} in"


def rule_step(units: Unit) -> float:
    """The finest mark shown in `units` [mm]: 0.1 mm, or 1/64 in."""
    return 0.1 if units == "mm" else 25.4 / 64


def shop_step(units: Unit) -> float:
    """What people set with a rule against a fence or a table [mm]: 1 mm, or 1/16 in; common practice, no source."""
    return 1.0 if units == "mm" else 25.4 / 16


def common(units: Unit, mm: float, inches: float) -> float:
    """A round figure of the trade in the job's own units [mm]: so many mm, or so many inches."""
    return mm if units == "mm" else inches * 25.4


def round_up(value: float, step: float) -> float:
    """The next multiple of step [mm] at or above value; value itself where step is 0."""
    if step <= 0:
        return value
    return math.ceil(value / step - 1e-9) * step


def round_to(value: float, step: float) -> float:
    """The nearest multiple of step [mm]; value itself where step is 0."""
    if step <= 0:
        return value
    return math.floor(value / step + 0.5) * step


def shown(value: object) -> str:
    """What was found, as a job file would write it, on one line and cut to 60 characters."""
    try:
        text = _as_written(value)
    except ValueError:  # an integer of more digits than Python prints
        text = "a number of thousands of digits"
    return text if len(text) <= 60 else text[:57] + "..."


def _as_written(value: object) -> str:
    if isinstance(value, str):
        return f'"{value}"'
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(_as_written(item) for item in value) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key} = {_as_written(item)}" for key, item in value.items()) + "}"
    return str(value)

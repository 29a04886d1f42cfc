"""The kinds of field a job's tables are made of: lengths, "auto", slopes, planks, each with what it says when it is
given something else.

A default is given twice, in mm and as the nearest sensible rule fraction; which one a job gets is decided by its
`units` (see file.fill_defaults).
"""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    PlainSerializer,
    PlainValidator,
    ValidationInfo,
    WithJsonSchema,
)
from scarfwright.models.lengths.length import Length, LengthError, Unit, parse_length, refuse_thousands, shown
from scarfwright.models.lengths.lumber import hardwood_thickness, nominal_plank

Auto = Literal["auto"]
_LENGTH_SCHEMA: dict[str, Any] = {"anyOf": [{"type": "string"}, {"type": "number"}]}


def _positive(value: Length) -> Length:
    if value <= 0:
        raise LengthError(f"found {value.text}, expected more than zero")
    return value


def units_of(info: ValidationInfo) -> Unit:
    return (info.context or {}).get("units", "mm")  # type: ignore[no-any-return]


def _auto_or_size(value: object, info: ValidationInfo) -> Length | Auto:
    found = _auto_or_length(value, info)
    return found if found == "auto" else _positive(found)


def _auto_or_length(value: object, info: ValidationInfo) -> Length | Auto:
    if value == "auto":
        return "auto"
    if isinstance(value, Length):
        return value
    try:
        return parse_length(value, units_of(info))
    except LengthError as error:
        raise LengthError(f'{error}, or "auto"') from None


def _thickness(value: object, info: ValidationInfo) -> Length:
    if isinstance(value, str):
        named = hardwood_thickness(value)
        if named is not None:
            return named
    return _positive(value if isinstance(value, Length) else parse_length(value, units_of(info)))


_SLOPES = (  # 12:1, 12 to 1; 1:12, 1 in 12, 1 to 12; 12
    re.compile(r"(?P<n>[\d.,]+)\s*(?::|to)\s*1", re.ASCII | re.IGNORECASE),
    re.compile(r"1\s*(?::|in|to)\s*(?P<n>[\d.,]+)", re.ASCII | re.IGNORECASE),
    re.compile(r"(?P<n>[\d.,]+)", re.ASCII),
)
_NUMBER = re.compile(r"\d+([.,]\d+)?", re.ASCII)


def _ratio(value: object) -> float:
    expected = 'a slope from 1 to 100, such as "12:1" or 12 (12 long for 1 across)'
    if isinstance(value, str):
        found = next((m["n"] for form in _SLOPES if (m := form.fullmatch(value.strip()))), "")
        refuse_thousands(found, value)
        if not _NUMBER.fullmatch(found):
            hint = "; degrees are not a ratio: 10:1 is 5.71 degrees" if "deg" in value or "°" in value else ""
            raise LengthError(f"found {shown(value)}, expected {expected}{hint}")
        number = float(found.replace(",", "."))
    else:
        number = float(value) if isinstance(value, int | float) and not isinstance(value, bool) and value < 1e9 else 0.0
    if not 1 <= number <= 100:  # NaN fails the range
        raise LengthError(f"found {shown(value)}, expected {expected}")
    return number


def span(value: tuple[Length, Length]) -> tuple[Length, Length]:
    if value[0] >= value[1]:
        raise LengthError(f"found {value[0].text} to {value[1].text}, expected the least first, then the most")
    return value


def _plank(value: object, info: ValidationInfo) -> Plank:
    if isinstance(value, Plank):
        return value
    if isinstance(value, str):
        thickness, width = nominal_plank(value)
        return Plank(thickness, width, value.strip())
    if isinstance(value, list | tuple) and len(value) == 2:
        thickness = _thickness(value[0], info)
        return Plank(thickness, _positive(parse_length(value[1], units_of(info))), None)
    raise LengthError(
        f'found {shown(value)}, expected a nominal size such as "2x8", '
        'or two lengths ["38 mm", "184 mm"] (thickness, width)'
    )


class Plank(tuple[Length, Length]):
    """Thickness and width of the plank [mm], and its nominal name if it was given by one."""

    name: str | None

    def __new__(cls, thickness: Length, width: Length, name: str | None) -> Plank:
        self = super().__new__(cls, (thickness, width))
        self.name = name
        return self

    def __reduce__(self) -> tuple[Any, tuple[Length, Length, str | None]]:
        return Plank, (self[0], self[1], self.name)

    @property
    def thickness(self) -> Length:
        return self[0]

    @property
    def width(self) -> Length:
        return self[1]

    def written(self) -> str | list[str]:
        return self.name or [self.thickness.text, self.width.text]


Size = Annotated[Length, AfterValidator(_positive)]
SizeOrZero = Length
AutoSize = Annotated[
    Length | Auto,
    PlainValidator(_auto_or_length),
    PlainSerializer(lambda v: v if v == "auto" else v.text),
    WithJsonSchema(_LENGTH_SCHEMA),
]
AutoLength = Annotated[
    Length | Auto,
    PlainValidator(_auto_or_size),
    PlainSerializer(lambda v: v if v == "auto" else v.text),
    WithJsonSchema(_LENGTH_SCHEMA),
]
Thickness = Annotated[
    Length, PlainValidator(_thickness), PlainSerializer(lambda v: v.text), WithJsonSchema(_LENGTH_SCHEMA)
]
Ratio = Annotated[
    float,
    PlainValidator(_ratio),
    WithJsonSchema({"anyOf": [{"type": "number", "minimum": 1, "maximum": 100}, {"type": "string"}]}),
]
PlankSize = Annotated[
    Plank,
    PlainValidator(_plank),
    PlainSerializer(lambda v: v.written()),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string"},
                {"type": "array", "items": _LENGTH_SCHEMA, "minItems": 2, "maxItems": 2},
            ]
        }
    ),
]


def dim(mm: str, inch: str, about: str, *, guess: bool = False) -> Any:
    """A length field with its default in both systems. `guess`: about the user's own machine, to be measured."""
    extra: dict[str, Any] = {"inch": inch, "default": mm, "guess": guess}
    note = " Measure yours." if guess else ""
    return Field(default=parse_length(mm), description=about + note, json_schema_extra=extra)


def auto(about: str) -> Any:
    """A length field that the tool works out unless told."""
    return Field(default="auto", description=about)


class Table(BaseModel):
    """Base of all tables: unknown keys are errors, values are frozen."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True, defer_build=True)

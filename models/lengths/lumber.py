"""Sizes of sawn lumber as sold, and how they are named.

Sources: American Softwood Lumber Standard PS 20, dry dressed sizes; for 6/4 a value from memory.
Hardwood surfaced two sides (S2S): rules of the hardwood trade as listed in the project's sources.
"""

from __future__ import annotations

import re
from fractions import Fraction

from scarfwright.models.lengths.length import MM_PER_INCH, Length, LengthError, canonical, shown

# nominal inches -> dressed inches, dry (PS 20); 6/4 from memory
PS20_THICKNESS: dict[str, Fraction] = {
    "1": Fraction(3, 4),
    "5/4": Fraction(1),
    "6/4": Fraction(5, 4),
    "2": Fraction(3, 2),
}
PS20_WIDTH: dict[str, Fraction] = {
    "2": Fraction(3, 2),
    "3": Fraction(5, 2),
    "4": Fraction(7, 2),
    "6": Fraction(11, 2),
    "8": Fraction(29, 4),
    "10": Fraction(37, 4),
    "12": Fraction(45, 4),
}
HARDWOOD_S2S: dict[str, Fraction] = {
    "4/4": Fraction(13, 16),
    "5/4": Fraction(17, 16),
    "6/4": Fraction(21, 16),
    "8/4": Fraction(7, 4),
    "12/4": Fraction(11, 4),
    "16/4": Fraction(15, 4),
}

_NOMINAL = re.compile(r"^\s*(?P<thick>\d+(?:/4)?)\s*[xX×]\s*(?P<wide>\d+)\s*$", re.ASCII)
_QUARTERS = re.compile(r"^\s*(?P<size>\d+/4)\s*[sS]2[sS]\s*$")


def inch_length(inches: Fraction) -> Length:
    """A Length from exact inches."""
    mm = inches * MM_PER_INCH
    return Length(mm, canonical(mm, "in"))


def nominal_plank(name: str) -> tuple[Length, Length]:
    """Thickness and width of a dry dressed softwood plank from its nominal size.

    Parameters: name such as "2x8" or "5/4x6". Raises LengthError naming the sizes known.
    """
    match = _NOMINAL.match(name)
    if match is None or match["thick"] not in PS20_THICKNESS or match["wide"] not in PS20_WIDTH:
        raise LengthError(
            f"found {shown(name)}, expected a nominal size (thickness {', '.join(PS20_THICKNESS)}; "
            f'width {", ".join(PS20_WIDTH)}) such as "2x8", or ["38 mm", "184 mm"]'
        )
    return inch_length(PS20_THICKNESS[match["thick"]]), inch_length(PS20_WIDTH[match["wide"]])


def hardwood_thickness(name: str) -> Length | None:
    """Thickness of hardwood named in quarters, "8/4 S2S"; None if the text is not of that form.

    Raises LengthError if the form is right but the size unknown.
    """
    match = _QUARTERS.match(name)
    if match is None:
        return None
    size = match["size"]
    if size not in HARDWOOD_S2S:
        raise LengthError(f"found {shown(name)}, expected one of {', '.join(f'{s} S2S' for s in HARDWOOD_S2S)}")
    return inch_length(HARDWOOD_S2S[size])

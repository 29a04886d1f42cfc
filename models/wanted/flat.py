"""The wanted parts that are cut flat from sheet, by whatever machine is at hand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from scarfwright.models.part.lettering import scored_letters
from scarfwright.models.sheets.pieces import FlatPart
from scarfwright.models.wanted.wanted import Wanted, sided


def flat_pieces(wanted: Iterable[Wanted]) -> list[FlatPart]:
    """The flat parts in nominal size, as they are on the user's side of the blade."""
    return list(_pieces(wanted, plain=False))


def plain_pieces(wanted: Iterable[Wanted]) -> list[FlatPart]:
    """The same without their labels, which no cutter's width concerns and which take time to draw."""
    return list(_pieces(wanted, plain=True))


def _pieces(wanted: Iterable[Wanted], *, plain: bool) -> Iterator[FlatPart]:
    for one in wanted:
        kind = one.kind
        if "flat" in kind.goes_to and not one.left_out:
            parameters = (one.parameters.plain() if plain else one.parameters).uncompensated()
            part = scored_letters(sided(kind, parameters, one.work))
            yield FlatPart(part, one.count, kind.along_grain, kind.name == "sheet_layer")

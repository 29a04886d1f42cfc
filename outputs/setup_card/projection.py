"""The set-up's blocks as seen from above and from the side: outlines for drawings to scale.

From above the page's x is the feed and y as in the saw's frame; from the side x is the feed and y the height.
"""

from __future__ import annotations

from scarfwright.models.cut.scene import Block, Piece
from scarfwright.models.flat.loop import Loop, rectangle
from scarfwright.models.part.part import Part


def from_above(piece: Piece) -> Loop:
    """The outline of a piece in x and y [mm]. What a block has taken away is not seen from above."""
    if isinstance(piece.shape, Part):
        return piece.shape.outline.moved(piece.along, 0.0)
    block = piece.shape
    x0, y0, x1, y1 = _footprint(block)
    loop = block.loop if block.axis == "z" else rectangle(x0, y0, x1 - x0, y1 - y0)
    return loop.turned(block.turn).moved(block.move[0] + piece.along, block.move[1])


def from_the_side(piece: Piece) -> Loop:
    """The outline of a piece in x and z [mm]; of what does not run across the feed the box round it."""
    if isinstance(piece.shape, Part):
        low, _, high, _ = piece.shape.outline.bounds
        return rectangle(low + piece.along, 0.0, high - low, piece.shape.thickness)
    block = piece.shape
    dx, _, dz = block.move
    if block.axis == "y" and block.turn == 0:
        return block.loop.moved(dx + piece.along, dz)
    left, _, right, _ = from_above(piece).bounds
    low, high = (block.start, block.end) if block.axis == "z" else (block.loop.bounds[1], block.loop.bounds[3])
    return rectangle(left, low + dz, right - left, high - low)


def _footprint(block: Block) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y before turning and moving [mm]."""
    low_a, _, high_a, _ = block.loop.bounds
    if block.axis == "y":
        return (low_a, block.start, high_a, block.end)
    if block.axis == "x":
        return (block.start, low_a, block.end, high_a)
    return block.loop.bounds

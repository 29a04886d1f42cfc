"""Where the views of a sheet stand: over one another or side by side, whichever lets them be drawn larger."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scarfwright.models.flat.loop import Point
from scarfwright.models.words.the_joint.entry import Entry
from scarfwright.outputs.drawing.display import Text, View, fitting_scale
from scarfwright.outputs.drawing.panels import Row

HEADING = 8.0  # height of a view's heading
HEADING_SIZE = 3.4
Area = tuple[float, float, float, float]


@dataclass(frozen=True)
class Block:
    """What a view shows, from `low` to `high` [model mm], and the room its dimensions take on every side [page mm]:
    left and right on the page, at the side of the fence and at the side of the blade."""

    low: Point
    high: Point
    left: float
    right: float
    fence_side: float
    blade_side: float

    @property
    def long(self) -> float:
        return self.high[0] - self.low[0]

    @property
    def tall(self) -> float:
        return self.high[1] - self.low[1]


@dataclass(frozen=True)
class Stand:
    """A view, and the lower left corner of its heading."""

    view: View
    heading: Point


def stand(area: Area, blocks: Sequence[Block], mirrored: bool) -> list[Stand]:
    """The views at one scale; `mirrored` for a fence on the left."""
    over, beside = _scale_over(area, blocks), _scale_beside(area, blocks)
    return _beside(area, blocks, mirrored, beside) if beside < over else _over(area, blocks, mirrored, over)


def _fixed(block: Block) -> float:
    return HEADING + block.fence_side + block.blade_side


def _scale_over(area: Area, blocks: Sequence[Block]) -> float:
    _, _, width, height = area
    room = height - sum(_fixed(b) for b in blocks)
    least = max(fitting_scale(b.long, 1e-6, width - b.left - b.right, 1.0, 1.0) for b in blocks)
    return max(least, fitting_scale(1e-6, sum(b.tall for b in blocks), 1.0, room, 1.0))


def _scale_beside(area: Area, blocks: Sequence[Block]) -> float:
    _, _, width, height = area
    share = width / len(blocks)
    return max(fitting_scale(b.long, b.tall, share - b.left - b.right, height - _fixed(b), 1.0) for b in blocks)


def _over(area: Area, blocks: Sequence[Block], mirrored: bool, scale: float) -> list[Stand]:
    x, y, width, height = area
    left = max(b.left for b in blocks)
    used = sum(_fixed(b) + b.tall / scale for b in blocks)
    spare = max(height - used, 0.0) / len(blocks)
    found, top = [], y + height
    for block in blocks:
        cell = _fixed(block) + block.tall / scale + spare
        room = width - block.right - left
        at = x + left + (room - block.long / scale) / 2
        found.append(_placed(block, scale, at, top, spare / 2, x + 2, mirrored))
        top -= cell
    return found


def _beside(area: Area, blocks: Sequence[Block], mirrored: bool, scale: float) -> list[Stand]:
    x, y, width, height = area
    share = width / len(blocks)
    found = []
    for number, block in enumerate(blocks):
        low = x + number * share
        at = low + block.left + (share - block.left - block.right - block.long / scale) / 2
        spare = max(height - _fixed(block) - block.tall / scale, 0.0)
        found.append(_placed(block, scale, at, y + height, spare / 2, low + 2, mirrored))
    return found


def _placed(block: Block, scale: float, left: float, top: float, spare: float, heading: float, mirrored: bool) -> Stand:
    upper = top - HEADING - spare - (block.fence_side if mirrored else block.blade_side)
    corner = (left, upper if mirrored else upper - block.tall / scale)
    return Stand(View(scale, corner, block.low, mirrored=mirrored), (heading, top - 5.5))


def heading(at: Stand, text: str) -> Text:
    return Text(*at.heading, text, HEADING_SIZE, bold=True)


def rows(entries: Sequence[Entry]) -> list[Row]:
    """A list's lines as the rows of a panel. A line without a label hangs under the one before it that has one."""
    found: list[Row] = []
    for entry in entries:
        found.append(Row(entry.text, entry.label, entry.strong))
    return found

"""Paper for templates at full size: its sizes, the window of each page, and how pages overlap. All lengths mm.

A page is landscape. Round the window stand the margin a printer can't reach, a strip at the head and one at the foot
with names and check scales.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.job.tables import Files
from scarfwright.models.lengths.length import Unit, common

A4 = (297.0, 210.0)  # ISO 216
LETTER = (279.4, 215.9)  # 11 x 8 1/2 in, ANSI/ASME Y14.1 size A
MARGIN = 8.0  # what most office printers leave white, and a little more; common practice, no source
HEAD, FOOT = 6.0, 17.0
OVERLAP = 10.0  # of neighbouring pages; common practice, no source
LEAST_ROLL = A4[1]  # the drawing pages are that high
MOST = 5000.0  # a PDF page may be 14400 points long, 5080 mm (ISO 32000-1, annex C)


@dataclass(frozen=True)
class Paper:
    """A kind of paper. Of a roll, `width` is the longest page that is made, `height` the roll's width. Pages lie on
    multiples of `grid`, the finest a place of theirs is told to in the job's unit."""

    name: str
    width: float
    height: float
    roll: bool = False
    grid: float = 0.1

    @property
    def window(self) -> tuple[float, float]:
        """Width and height of what a page shows."""
        return (self.width - 2 * MARGIN, self.height - 2 * MARGIN - HEAD - FOOT)

    @property
    def step(self) -> tuple[float, float]:
        """From one page's window to the next."""
        across, up = (int((one - OVERLAP) / self.grid + 1e-6) * self.grid for one in self.window)
        return across, up

    def page_width(self, shown: float) -> float:
        """Width of a page with a window `shown` wide: all of a sheet; of a roll as much as that takes, not less than
        the scales take."""
        return min(max(shown + 2 * MARGIN, A4[0]), self.width) if self.roll else self.width

    def pages(self, length: float, axis: int) -> int:
        """Windows it takes, one step apart, to show a length along x (axis 0) or y (axis 1)."""
        return max(1, math.ceil((length - OVERLAP) / self.step[axis] - 1e-9))


def paper_of(files: Files, units: Unit = "mm") -> Paper:
    """The paper a job asks for."""
    grid = common(units, 0.1, 1 / 64)
    if files.paper == "roll":
        return Paper("roll", MOST, float(files.roll_width), True, grid)
    return Paper(files.paper, *(A4 if files.paper == "A4" else LETTER), grid=grid)


def drawing_size(files: Files) -> tuple[float, float]:
    """Of the drawings to scale: Letter where that is the paper, else A4."""
    return LETTER if files.paper == "Letter" else A4


def prints(files: Files) -> bool:
    """Whether pages can be made on it at all."""
    return LEAST_ROLL <= paper_of(files).height <= MOST

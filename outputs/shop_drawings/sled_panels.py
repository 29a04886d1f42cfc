"""Round the sled's plan: what to write on the sled and the cautions below it; details, places and material beside."""

from __future__ import annotations

from scarfwright.models.lengths.drawn import drawn_in, slope_mark
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.part import Part
from scarfwright.models.words.at_the_saw.at_every_cut import at_every_cut
from scarfwright.models.words.the_sled.material import sled_list
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import EDGE, Item, box
from scarfwright.outputs.drawing.job_cells import DEFER
from scarfwright.outputs.drawing.panels import Row, panel, table
from scarfwright.outputs.shop_drawings.sled_details import PANEL_SIZE, WARN, nose_detail, notch_detail
from scarfwright.outputs.shop_drawings.stand import Area, rows

TABLE_SIZE = 3.0


def told(work: Workup, area: Area) -> list[Item]:
    """Below the plan: what to write on the sled, and what can hurt."""
    x, y, width, height = area
    wide = 0.33 * width
    items = panel((x, y, wide, height), "Write on the sled", _to_write(work), PANEL_SIZE)
    return items + panel((x + wide, y, width - wide, height), "CAUTIONS", _cautions(work), PANEL_SIZE, fill=WARN)


def details(work: Workup, part: Part, area: Area) -> list[Item]:
    """A sheet of its own: nose and notch drawn large, every place as a figure, the list of material."""
    x, y, width, height = area
    low, wide = 0.46 * height, 0.42 * width
    items: list[Item] = []
    for left, draw in ((x, nose_detail), (x + width / 2, notch_detail)):
        cell = (left, y + low, width / 2, height - low)
        items += [box(*cell, EDGE), *draw(work, part, cell)]
    items += [box(x, y, wide, low, EDGE), *_tables(work, (x, y, wide, low))]
    return items + panel((x + wide, y, width - wide, low), "Material", rows(sled_list(work)), PANEL_SIZE)


def _to_write(work: Workup) -> list[Row]:
    say, real = drawn_in(work.job.units), work.way.sled
    heel = next(c for c in work.way.layout.clamps if c.where == "heel")
    return [
        Row(slope_mark(real.ratio), "Slope", True),
        Row(f"heel as measured + {say(work.way.blade.gap)}", "Fence", True),
        Row(f"to a tooth set towards it ({say(work.way.fence)})", " "),
        Row(f"{say(work.way.blade.height)} above the table", "Blade", True),
        Row(f"{say(work.joint.overlap)} per joint", "Overlap", True),
        Row(f"{say(heel.station)} along the work edge", "Heel notch", True),
    ]


def _cautions(work: Workup) -> list[Row]:
    layout, real = work.way.layout, work.way.sled
    hands = "Hands only on the nose side of the hand line. " if 0 < layout.hand_line < real.length else ""
    return [
        Row(
            f"{hands}Eyes and ears protected. Never reach over or beyond a turning blade. Unplug the saw for every "
            "change."
        ),
        *(Row(text) for text in at_every_cut(work.cut.knife, say_in(work.job.units))),
        Row(DEFER, bold=True),
    ]


WHERE = {"heel": "Heel notch", "extra": "Notch", "nose": "Nose notch", "nose_flat": "Nose flat"}


def _tables(work: Workup, area: Area) -> list[Item]:
    """Clamp places and holes, every number of the plan once more in words."""
    say, real, layout = drawn_in(work.job.units), work.way.sled, work.way.layout
    x, y, width, height = area
    clamps = [(WHERE[c.where], say(c.station), say(c.opening)) for c in layout.clamps]
    holes = [("Handle", say(2 * layout.handle_radius), p) for p in sorted(layout.handle_holes, reverse=True)]
    holes += [("Dowel", say(2 * layout.dowel_radius), p) for p in sorted(layout.dowels, reverse=True)]
    half = -(-len(clamps) // 2) if len(clamps) > 5 else len(clamps)  # a long table stands in two columns
    share = (half + 3) / (half + 3 + (len(holes) + 2 if holes else 0))
    room = height - 1.5
    names = ("Clamp", "From heel", "Closes on")
    title = "Clamps, along the work edge"
    items: list[Item] = []
    columns = [clamps[:half], clamps[half:]] if clamps[half:] else [clamps]
    wide = (width - 3.0) / len(columns) - 1.0
    for number, lines in enumerate(columns):
        at = (x + 2 + number * (wide + 1.0), y + height - 0.5)
        items += table(at, wide, title if number == 0 else "and further", names, lines, room * share, TABLE_SIZE)
    if holes:
        bores = [(name, d, say(real.from_heel(px)), say(py)) for name, d, (px, py) in holes]
        top = (x + 2, y + height - 0.5 - room * share)
        names4 = ("Hole", "Bore", "From heel", "From fence edge")
        items += table(top, width - 4, "", names4, bores, room * (1 - share), TABLE_SIZE)
    return items

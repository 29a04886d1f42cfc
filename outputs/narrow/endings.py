"""The heel's travel as a scale that stands upright: start, offcut, taper complete, end, limit."""

from __future__ import annotations

from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.words.at_the_saw.endings import NAMES
from scarfwright.models.words.at_the_saw.place import in_a_table, limit_in_a_table
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import arrow
from scarfwright.outputs.drawing.display import OUTLINE, Item, Pen, View, line
from scarfwright.outputs.narrow.colours import GOOD, GROUND, LOSS, RED, STEEL
from scarfwright.outputs.narrow.scene import Scene, Thing, filled, scene, things_beside, upright

TALL = 105.0
BAR = 7.0  # page mm: width of the scale
AT = 47.0  # its right edge
STOP = Pen(0.8, RED)


def ending_scenes(work: Workup) -> list[Scene]:
    """One scale with every station of the cut."""
    way = work.way
    travel, limit = way.travel, way.travel_limit
    last = max(travel.clear, travel.done, way.travel_end, 0.0 if limit is None else limit)
    low, high = travel.start, last + 0.04 * (last - travel.start)
    scale = (high - low) / TALL
    view = upright(scale, (AT, 8.0 - low / scale))
    things = {1.0: _stations(work), -1.0: _blade(work, scale)}
    names, top = things_beside(things, view, 8.0, 8.0 + TALL, column=COLUMNS)
    items = [*_scale(work, view, scale, high), *names]
    caption = (
        "How far the heel has gone past the blade's centre. Wood is being cut in the grey stretch; "
        "in the green one the "
        "taper is complete and nothing is in the way."
    )
    return [scene("travel", caption, top + 3.0, items)]


COLUMNS = 27.0


def _scale(work: Workup, view: View, scale: float, high: float) -> list[Item]:
    way = work.way
    travel, limit = way.travel, way.travel_limit
    wide = BAR * scale

    def stretch(low: float, top: float, fill: str) -> Item:
        return filled([view.point(p) for p in ((low, 0.0), (top, 0.0), (top, wide), (low, wide))], fill)

    touch = -way.blade.reach(0.0)
    items = [stretch(travel.start, high, GROUND)]
    if travel.done > touch:
        items.append(stretch(touch, travel.done, LOSS))
    free = high if limit is None else min(limit, high)
    if free > travel.done:
        items.append(stretch(travel.done, free, GOOD))
    if limit is not None and limit <= high:
        items.append(line([view.point((limit, -0.25 * wide)), view.point((limit, 1.25 * wide))], STOP, "limit"))
    reach = way.blade.reach(0.0)
    blade = [view.point(p) for p in ((-reach, 1.5 * wide), (reach, 1.5 * wide))]
    items.append(line(blade, Pen(1.4, STEEL), "blade"))
    middle = view.point((travel.start, wide / 2))
    items += [line([(middle[0], middle[1] + 3.0), (middle[0], middle[1] + 9.0)], OUTLINE)]
    return [*items, arrow((middle[0], middle[1] + 11.5), (0.0, 1.0), 3.4)]


def _stations(work: Workup) -> list[Thing]:
    say, way, asked = drawn_in(work.job.units), work.way, work.cut.advice.asked
    travel, limit = way.travel, way.travel_limit
    found = [
        Thing((travel.start, 0.0), f"start, {say(-travel.start)} short"),
        Thing((0.0, 0.0), "blade's centre"),
        Thing((travel.offcut_free, 0.0), f"offcut drops {in_a_table(travel.offcut_free, say)}"),
        Thing((travel.done, 0.0), f"taper complete {in_a_table(travel.done, say)}", True),
        Thing((travel.clear, 0.0), f"blade clear {in_a_table(travel.clear, say)}", asked.name == "run_on"),
        Thing((asked.travel, 0.0), f"end of this cut: {NAMES[asked.name]}"),
    ]
    if limit is not None:
        found.append(Thing((limit, 0.0), f"LIMIT {limit_in_a_table(limit, say)}", True, RED))
    return found


def _blade(work: Workup, scale: float) -> list[Thing]:
    say, way = drawn_in(work.job.units), work.way
    return [
        Thing(
            (0.3 * way.blade.reach(0.0), 1.5 * BAR * scale),
            f"blade, {say(way.blade.reach(0.0))} to each side at the table",
        )
    ]

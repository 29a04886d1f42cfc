"""What to measure on a saw and its clamps, not to scale: each size with the name that the form gives it."""

from __future__ import annotations

from scarfwright.models.flat.loop import Point, circle, rectangle
from scarfwright.models.job.forms.schema import title
from scarfwright.outputs.drawing.dimension import arrow
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, PHANTOM, Item, Pen, Text, line, shape
from scarfwright.outputs.narrow.colours import GROUND, METAL, OTHER_WOOD, PAPER, RED, STEEL
from scarfwright.outputs.narrow.scene import SIZE, WIDTH, Scene, centred, measure, scene

TEETH = Pen(0.4, RED)
MARK = 3.4  # how far the line of a dimension runs past the thing measured [page mm]


def measuring_scenes() -> list[Scene]:
    """The saw from the side and from above, the blade, a clamp, a hand-held saw."""
    return [_side(), _above(), _blade(), _clamp(), _hand_saw()]


def _rect(x: float, y: float, wide: float, high: float, fill: str | None, pen: Pen = EDGE) -> Item:
    return shape(rectangle(x, y, wide, high), pen, fill)


def _upright(x: float, low: float, high: float) -> list[Item]:
    """An upright dimension without its name."""
    ends = [arrow((x, low), (0.0, -1.0)), arrow((x, high), (0.0, 1.0))] if high - low > 5.0 else []
    return [line([(x, low), (x, high)]), *ends]


def _pinched(x: float, low: float, high: float, level: float) -> list[Item]:
    """Two arrows that take a thin thing between them, the upper one's shaft up to `level`."""
    shafts: list[Item] = [line([(x, high), (x, level)]), line([(x, low), (x, low - 5.0)])]
    return [*shafts, arrow((x, high), (0.0, -1.0)), arrow((x, low), (0.0, 1.0))]


def _beside(at: Point, text: str, *, left: bool = False) -> Text:
    return Text(at[0], at[1] - 0.27 * SIZE, text, SIZE, "end" if left else "start")


def _side() -> Scene:
    """Blade, table and fence; you stand on the left."""
    table, middle, deep, radius = 41.0, 44.0, 9.0, 19.0
    items: list[Item] = [
        _rect(22.0, table, 60.0, 7.0, METAL),
        shape(circle(middle, table - deep, radius), TEETH, STEEL, "blade"),
        _rect(8.0, table - 3.0, 74.0, 3.0, GROUND),
        line([(8.0, table), (82.0, table)], OUTLINE),
        line([(middle - 2.0, table + radius - deep), (14.0, table + radius - deep)]),
        *_upright(15.5, table, table + radius - deep),
        Text(2.0, table + radius - deep + 3.0, f"{title('max_depth')}: as high as it goes", SIZE),
        line([(70.0, table + 7.0), (77.0, table + 7.0)]),
        *_upright(76.0, table, table + 7.0),
        Text(WIDTH - 2.0, table + 8.6, title("fence_height"), SIZE, "end"),
        *(line([(x, table - deep), (x, 7.0)]) for x in (middle - radius, middle + radius)),
    ]
    ends = ((middle - radius, 8.0), (middle + radius, 8.0))
    items += measure(*ends, 8.0, title("blade_diameter"), above=False)
    caption = "The saw from the side: your side is on the left. Unplug it before you measure."
    return scene("measure-side", caption, table + radius - deep + 9.0, items)


def _above() -> Scene:
    """Table and fence, the same way round."""
    left, near, middle, right, low, high = 6.0, 20.0, 43.0, 80.0, 16.0, 40.0
    items: list[Item] = [
        _rect(left, low, right - left, high - low, GROUND, OUTLINE),
        _rect(near, low + 3.0, right - near, 4.0, METAL),
        _rect(middle - 14.0, 29.0, 28.0, 1.2, RED, TEETH),
        line([(middle, 9.0), (middle, 47.0)], PHANTOM),
        *(line([(x, high), (x, 47.0)]) for x in (left, right)),
        line([(near, low + 3.0), (near, 10.5)]),
        *measure((left, 46.0), (middle, 46.0), 46.0, title("table_front")),
        *measure((middle, 46.0), (right, 46.0), 46.0, title("table_back")),
        *measure((near, 11.5), (middle, 11.5), 11.5, title("fence_front"), above=False),
        centred((middle + 19.0, low + 5.0), "fence"),
        centred((middle + 8.0, 33.5), "blade"),
    ]
    caption = "The saw from above: your side is on the left; lengths from the blade's centre."
    return scene("measure-above", caption, 53.0, items)


def _blade() -> Scene:
    """Teeth, plate and riving knife, much enlarged."""
    middle, level = 16.0, 26.0
    items: list[Item] = [
        _rect(4.0, middle - 7.0, 8.0, 14.0, STEEL, TEETH),
        _rect(12.0, middle - 4.0, 38.0, 8.0, STEEL),
        _rect(56.0, middle - 5.0, 24.0, 10.0, METAL),
    ]
    for x, half, key in ((8.0, 7.0, "kerf"), (34.0, 4.0, "plate"), (67.0, 5.0, "riving_knife")):
        items += _pinched(x, middle - half, middle + half, level)
        items.append(centred((x, level + 2.6), title(key)))
    caption = "The blade from above, much enlarged: kerf across the set of the teeth."
    return scene("measure-blade", caption, level + 6.0, items)


def _clamp() -> Scene:
    """A clamp from the side, its pads from the front."""
    left, top, low = 14.0, 60.0, 26.0
    right = left + 56.0
    items: list[Item] = [
        _rect(left - 2.0, top, 60.0, 4.0, METAL),
        *(_rect(x, low, 7.0, top - low, STEEL) for x in (left, right - 7.0)),
        *(_rect(x, low, 3.0, 11.0, PAPER) for x in (left + 7.0, right - 10.0)),
        _rect(left + 10.0, low, 36.0, 20.0, OTHER_WOOD, PHANTOM),
        *_upright(left + 13.0, low, top),
        _beside((left + 15.0, 52.0), title("throat")),
        *(line([(x, low), (x, 18.0)]) for x in (left + 10.0, right - 10.0)),
        *measure((left + 10.0, 19.0), (right - 10.0, 19.0), 19.0, title("opening")),
        *(line([(x, low), (x, 9.0)]) for x in (left, right)),
        *(line([(x, 18.0), (x, 9.0)]) for x in (left + 10.0, right - 10.0)),
        *measure((left, 10.0), (left + 10.0, 10.0), 10.0, title("jaw_inner"), above=False),
        *measure((right - 10.0, 10.0), (right, 10.0), 10.0, title("jaw_outer"), above=False),
        centred((left + 5.0, 2.4), "sled's side"),
        centred((right - 5.0, 2.4), "board's side"),
        line([(right - 7.0, low), (right + MARK, low)]),
        line([(right - 7.0, low + 11.0), (right + MARK, low + 11.0)]),
        *_upright(right + 2.0, low, low + 11.0),
        Text(WIDTH - 1.5, low + 16.0, "Pad", SIZE, "end"),
        Text(WIDTH - 1.5, low + 12.2, "height", SIZE, "end"),
    ]
    pad = (48.0, 76.0)
    items += [
        _rect(*pad, 16.0, 9.0, PAPER),
        *(line([(x, pad[1]), (x, pad[1] - 4.0)]) for x in (pad[0], pad[0] + 16.0)),
        *measure((pad[0], pad[1] - 3.0), (pad[0] + 16.0, pad[1] - 3.0), pad[1] - 3.0, title("pad_width"), above=False),
        Text(pad[0] - 2.0, pad[1] + 3.4, "a pad from the front", SIZE, "end"),
    ]
    return scene("measure-clamp", "A clamp from the side, sled and board between its pads.", 87.0, items)


def _hand_saw() -> Scene:
    """The base of a hand-held saw."""
    items: list[Item] = [
        _rect(4.0, 6.0, 38.0, 22.0, METAL),
        _rect(10.0, 12.0, 24.0, 2.4, STEEL, TEETH),
        line([(34.0, 14.4), (49.0, 14.4)]),
        line([(42.0, 28.0), (49.0, 28.0)]),
        *_upright(46.5, 14.4, 28.0),
        _beside((50.0, 22.0), title("base_to_blade")),
        line([(34.0, 12.0), (49.0, 12.0)]),
        line([(46.5, 12.0), (46.5, 6.5)]),
        arrow((46.5, 12.0), (0.0, 1.0)),
        _beside((50.0, 9.0), title("hand_kerf")),
    ]
    caption = "A hand-held saw from above, for dividing a plank along a guide rail."
    return scene("measure-hand-saw", caption, 32.0, items)

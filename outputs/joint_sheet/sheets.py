"""The joint's sheets: one of the joint, one of the marks and turns. Pure functions of data and unit."""

from __future__ import annotations

from scarfwright.models.flat.loop import Point, polygon
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.say import Say
from scarfwright.models.pair.marks import most_slide
from scarfwright.models.pair.turns import Face, stick_of
from scarfwright.outputs.drawing.dimension import SIZE, leader, linear
from scarfwright.outputs.drawing.display import (
    CENTRE,
    EDGE,
    PHANTOM,
    Item,
    Pen,
    Sheet,
    Text,
    View,
    fitting_scale,
    line,
    scale_text,
    shape,
)
from scarfwright.outputs.drawing.lettering import width as width_of
from scarfwright.outputs.drawing.panels import inner, panel, title_block
from scarfwright.outputs.joint_sheet.data import JointData
from scarfwright.outputs.joint_sheet.marks_page import marks_page
from scarfwright.outputs.joint_sheet.shapes import OTHER_WOOD, WOOD, far_board, near_board, planed_boards
from scarfwright.outputs.joint_sheet.texts import TALL, closing_rows, tale

WITNESS = Pen(0.35, "#1f4e79")
NAME = 24.0  # page mm that a board's name takes
GLUE = Pen(0.35, "#8a3324")
SHOWN = 0.22  # of the overlap, how much of each board shows beyond the joint
NOTES = 40.0
ABOVE, BELOW, BESIDE = 11.0, 9.0, 26.0  # room for words round each picture
Area = tuple[float, float, float, float]


def joint_sheets(data: JointData) -> list[Sheet]:
    """All sheets of the joint, in order."""
    makers = (_joint_page, marks_page)
    return [maker(data, number, len(makers)) for number, maker in enumerate(makers, 1)]


def _joint_page(data: JointData, number: int, count: int) -> Sheet:
    sheet = Sheet(f"{data.title or 'Joint'}: the joint", *data.paper)
    x, y, width, height = inner(sheet)
    joint = data.joint
    reach = SHOWN * joint.overlap
    long = joint.overlap + 2 * reach
    talls = (joint.thickness, TALL * joint.thickness, TALL * data.planed)
    # three pictures one over the other, all at one scale along the stick, each with room for its words
    room = height - NOTES - len(talls) * (ABOVE + BELOW)
    scale = fitting_scale(long, sum(talls), width - 2 * BESIDE, room, 1.0)
    # more of the boards than that shows where their names need the room
    reach = max(reach, min(NAME * scale, ((width - 2 * BESIDE) * scale - joint.overlap) / 2))
    long = joint.overlap + 2 * reach
    spare = (room - sum(talls) / scale) / len(talls)
    left = x + (width - long / scale) / 2 + reach / scale
    top = y + height
    say = drawn_in(data.units)
    for make, tall in zip((_to_scale, _steep, _planed), talls, strict=True):
        base = top - ABOVE - spare / 2 - tall / scale
        heading, items = make(data, say, View(scale, (left, base)), reach)
        sheet.add(items, Text(x + 2, top - 4.6, heading, 3.2, bold=True))
        top = base - spare / 2 - BELOW
        sheet.add(line([(x, top), (x + width, top)]))
    groove, most, slide = joint.tip * joint.ratio, joint.thickest_finish, most_slide(joint, data.planed)
    rows = closing_rows(say, joint.overlap, joint.tip, groove, data.finished, most, slide)
    sheet.add(panel((x, y, width, NOTES), "Bringing the pair together", rows, 3.0))
    sheet.add(title_block(sheet, data.cells("The joint", scale_text(scale), number, count)))
    return sheet


def _boards(near: list[Point], far: list[Point], view: View) -> list[Item]:
    return [
        shape(view.loop(polygon(near)), EDGE, WOOD, "near board"),
        shape(view.loop(polygon(far)), EDGE, OTHER_WOOD, "far board"),
    ]


Picture = tuple[str, list[Item]]


def _to_scale(data: JointData, say: Say, view: View, reach: float) -> Picture:
    joint = data.joint
    t = joint.thickness
    items = _boards(near_board(joint, reach), far_board(joint, reach), view)
    low, high = view.point((0.0, t)), view.point((joint.overlap, 0.0))
    y = view.point((0.0, 0.0))[1] - 6.0
    names = (f"overlap, tip to tip {say(joint.overlap)}", f"overlap {say(joint.overlap)}")
    name = names[0] if width_of(names[0], SIZE) + 1.0 <= high[0] - low[0] else names[1]
    items += linear(low, high, (low[0], y), name, "horizontal")
    end = view.point((joint.overlap + reach, 0.0))
    items += linear(end, view.point((joint.overlap + reach, t)), (end[0] + 5.0, 0), say(t), "vertical", beside="right")
    return f"Mated, seen from above, true to scale: slope {tale(joint.ratio)}", items


def _steep(data: JointData, _say: Say, view: View, reach: float) -> Picture:
    """The joint with thickness drawn TALL times too large, so that tips, grooves and marks can be seen."""
    joint = data.joint
    t = TALL * joint.thickness
    items = _boards(near_board(joint, reach, TALL), far_board(joint, reach, TALL), view)
    off = TALL * (joint.thickness - data.planed) / 2
    for y in (off, t - off):
        ends = [view.point((-reach, y)), view.point((joint.overlap + reach, y))]
        items.append(line(ends, PHANTOM, "planed face"))
    end = view.point((joint.overlap + reach, off))
    items.append(Text(end[0] + 1.2, end[1] - 0.7, "planed to here", 2.4))
    near, far = _faces(data)
    for place, face, edge in ((0.0, far, t), (joint.overlap, near, 0.0)):
        at = view.point((place, edge))
        up = 1.0 if edge else -1.0
        items.append(line([view.point((place, 0.0)), view.point((place, t))], CENTRE, "overlap mark"))
        words = f"tip, on the {face}: lies to the other board's overlap mark"
        items += leader(at, (at[0] + 4.0 * up, at[1] + 4.0 * up), words, size=2.6)
    for share in (0.35, 0.65):
        x = share * joint.overlap
        items.append(line([view.point((x, 0.1 * t)), view.point((x, 0.9 * t))], WITNESS, "witness mark"))
    mark, name = view.point((0.65 * joint.overlap, 0.8 * t)), "witness mark"
    if view.length(0.35 * joint.overlap) > width_of(name, 2.6) + 6.0 and view.length(0.2 * t - off) > 2.2:
        items += leader(mark, (mark[0] + 3.5, mark[1]), name, size=2.6)  # a small joint's are named in the text alone
    for name, at in (("left board", (-0.5 * reach, 0.5 * t)), ("right board", (joint.overlap + 0.5 * reach, 0.5 * t))):
        px, py = view.point(at)
        items.append(Text(px, py - 1.0, name, 2.6, "middle"))
    return f"The same, drawn {TALL} times too steep", items


def _faces(data: JointData) -> tuple[Face, Face]:
    """The faces the near and the far board's tips lie on."""
    near, far = stick_of(2, data.fence_side)
    assert near.right is not None
    assert far.left is not None
    return near.right, far.left


def _planed(data: JointData, say: Say, view: View, reach: float) -> Picture:
    joint, planed = data.joint, data.planed
    near, far = planed_boards(joint, planed, reach, TALL)
    items = _boards(near, far, view)
    t = TALL * planed
    low, high = far[1][0], far[0][0]
    items.append(line([view.point((high, t)), view.point((low, 0.0))], GLUE, "glue line"))
    y = view.point((0.0, 0.0))[1] - 6.0
    run = f"glue line from face to face {say(joint.finished_run(planed))}"
    items += linear(view.point((high, t)), view.point((low, 0.0)), (0, y), run, "horizontal")
    if data.finished is None:
        return f"Planed to {say.down(planed)}, the most that takes the tips away; {TALL} times too steep", items
    return f"Planed to {say(planed)}; {TALL} times too steep", items

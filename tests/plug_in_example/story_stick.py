r"""A story stick: the stations of a job as nicks in a flat stick, so that a second sled is marked out without a rule.

           H                       upper edge: the hand line, along the sled's fence edge
 _________\/____________________
|  heel                      o  |  x from the heel end; o to hang it by
|____/\________/\_______________|  lower edge: a nick for every clamp, along the sled's work edge
      1         2
"""

from __future__ import annotations

from itertools import pairwise

from scarfwright.models.for_plug_ins import (
    VERSION,
    Feature,
    Finding,
    Given,
    Groundwork,
    Level,
    Mark,
    Operation,
    Part,
    PartKind,
    Place,
    Point,
    Values,
    circle,
    engraved,
    job_label,
    polygon,
    said,
)

if VERSION != 1:
    raise ImportError(f"it was made for version 1 of what plug-ins may use, and this is version {VERSION}")

NICK = 3.0  # half as wide as it is deep, so that a pencil's point finds the middle [mm]
LAND = 2.0  # of straight edge between two nicks, and to either end [mm]
END = 40.0  # of stick beyond the last nick, with the hole to hang it by [mm]
LETTER = 8.0  # room for a nick's name [mm]


def story_stick(
    length: float = 460.0,
    width: float = 34.0,
    thickness: float = 4.0,
    stations: tuple[float, ...] = (400.0,),
    hand_line: float = 300.0,
    hole: float = 5.0,
    label: str = "",
) -> Part:
    """Build the stick.

    length, width, thickness: outer sizes [mm]
    stations: middles of the clamps along the work edge from the heel [mm]
    hand_line: from the heel along the fence edge [mm], 0 for none
    hole: to hang it by, diameter [mm]
    label: text cut into its middle
    """
    clamps, hands = sorted(stations), [hand_line] if hand_line > 0 else []
    low = [p for x in clamps for p in _nick(x, 0.0, NICK)]
    high = [p for x in reversed(hands) for p in reversed(_nick(x, width, -NICK))]
    outline: list[Point] = [(0.0, 0.0), *low, (length, 0.0), (length, width), *high, (0.0, width)]
    part = Part(
        name="story_stick",
        title="Story stick",
        outline=polygon(outline),
        thickness=thickness,
        features=(Feature(Operation.DRILL, circle(length - END / 2, width / 2, hole / 2), "hole to hang it by"),),
        marks=tuple(Mark(((x, NICK), (x, width / 3)), name=f"clamp {n}", scored=True) for n, x in enumerate(clamps, 1)),
        colour="#b5a27a",
        guides=(((0.0, 0.0), (length, 0.0)), ((0.0, width), (length, width))),
        use="Heel end flush with the heel. Numbered nicks along the work edge: the clamps. H along the fence edge: the "
        "hand line.",
    )
    for number, x in enumerate(clamps, 1):
        part = engraved(part, str(number), Place(x + 1.5, NICK, LETTER, LETTER))
    for x in hands:
        part = engraved(part, "H", Place(x + 1.5, width - NICK - LETTER, LETTER, LETTER))
    return engraved(part, label, _label_place(length, width))


def _nick(x: float, edge: float, deep: float) -> list[Point]:
    return [(x - NICK / 2, edge), (x, edge + deep), (x + NICK / 2, edge)]


def _label_place(length: float, width: float) -> Place:
    low = NICK + LETTER + 1.0
    return Place(5.0, low, length - END - 10.0, width - 2 * low)


def _from_job(work: Groundwork) -> Given:
    layout = work.way.layout
    stations = tuple(sorted({round(clamp.station, 2) for clamp in layout.clamps}))
    length = max(*stations, layout.hand_line) + END
    return {
        "length": length,
        "stations": stations,
        "hand_line": round(layout.hand_line, 2),
        "label": job_label(work.job, work.planned, _label_place(length, 34.0)),
    }


def _check(_work: Groundwork | None, values: Values) -> list[Finding]:
    ends = (-NICK / 2, values["length"] + NICK / 2)
    for nicks in (sorted(values.many("stations")), [values["hand_line"]] if values["hand_line"] > 0 else []):
        gap = min(b - a - NICK for a, b in pairwise((ends[0], *nicks, ends[1])))
        if gap < LAND:
            text = f"Two nicks, or a nick and an end, lie {gap:.1f} mm apart, and {LAND:g} mm are needed between them."
            return [said(Level.FAULT, text, gap_mm=gap, needed_mm=LAND)]
    return []


KIND = PartKind(
    name="story_stick",
    summary="stick with a nick for every clamp and for the hand line",
    build=story_stick,
    from_job=_from_job,
    goes_to=frozenset({"cad", "cut", "print"}),
    check=_check,
    any_shop=True,
    way="sled",
    ranges={
        "length": (450.0, 3000.0),
        "width": (32.0, 80.0),
        "thickness": (2.0, 20.0),
        "hand_line": (10.0, 440.0),
        "hole": (2.0, 12.0),
    },
    label_place=lambda values: _label_place(values["length"], values["width"]),
)

"""The words and numbers below the plank drawing: marking, the carrier, the guide rail, and the cautions."""

from __future__ import annotations

from scarfwright.models.lengths.say import say_in, slope
from scarfwright.models.sled.dividing import Dividing
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import EDGE, Item, box
from scarfwright.outputs.drawing.job_cells import DEFER
from scarfwright.outputs.drawing.panels import Row, panel, table

Area = tuple[float, float, float, float]
SCREW_TABLE = 20.0
WARN = "#fdf1ee"


def dividing_notes(work: Workup, cut: Dividing, area: Area) -> list[Item]:
    """The row of panels below the plank: marking, carrier, rail, cautions."""
    x, y, width, height = area
    wides = (58.0, 80.0, 58.0)
    items: list[Item] = []
    items += panel((x, y, wides[0], height), "Marking the plank", _marking(work))
    left = x + wides[0]
    items += [box(left, y, wides[1], height, EDGE), *_carrier_numbers(work, cut, (left, y, wides[1], height))]
    left += wides[1]
    items += panel((left, y, wides[2], height), "Instead: guide rail", _rail(work, cut))
    left += wides[2]
    items += panel((left, y, x + width - left, height), "Cautions: the riskiest cut of all", _cautions(), fill=WARN)
    return items


def _marking(work: Workup) -> list[Row]:
    say, nominal = say_in(work.job.units), work.way.nominal
    return [
        Row(f"The mark M = {say(float(nominal.mark or 0))}, one number for both ends.", bold=True),
        Row("1. Joint both edges of the plank straight and parallel; cut both ends square."),
        Row("2. At one end mark M from one edge; at the other end mark M from the opposite edge."),
        Row("3. Join the marks. The middle of the cut runs along this line; the halves come out equal."),
        Row(f"Slope {slope(nominal.ratio)}.", bold=True),
        Row(f"Each half: heel {say(nominal.heel)}, nose {say(nominal.nose)}, with a kerf of {say(work.job.saw.kerf)}."),
        Row("Measure heel and nose once it is cut, and enter them in the job as heel_as_made and nose_as_made."),
    ]


def _carrier_numbers(work: Workup, cut: Dividing, area: Area) -> list[Item]:
    say = say_in(work.job.units)
    x, y, width, height = area
    rows = [
        Row(f"carrier as measured + {say(work.way.blade.gap)}", "Rip fence", True),
        Row(f"({say(cut.fence)} by the nominal carrier)", " "),
        Row(f"{say(cut.blade_height)} above the table", "Blade height", True),
        Row(f"{say(cut.carrier_length)} x {say(cut.carrier_width)} x {say(cut.carrier_thickness)}", "Carrier"),
        Row(f"{slope(work.way.nominal.ratio)} to the fence edge", "Batten"),
        Row(f"{say.down(cut.screw_to_kerf)} or more, axis to blade", "Screws"),
    ]
    split = 0.5 * height
    items = panel((x, y + split, width, height - split), "On the carrier at the table saw", rows)[1:]
    heading = "Screws, up through the carrier into the plank"
    names = ("Screw", "Plank: heel", "its edge", "Carrier: left end", "fence edge")
    lines = [
        (str(i), say(s), say(d), say(px), say(py))
        for i, ((s, d), (px, py)) in enumerate(zip(cut.screws_on_plank, cut.screws, strict=True), 1)
    ]
    items += table((x + 2, y + split), width - 4, heading, names, lines, SCREW_TABLE)
    note = (
        f"Plank edge against the batten; the dividing line {say(cut.line_beyond)} beyond the carrier's blade edge, at "
        "both ends alike. Screws must not come through the plank."
    )
    items += panel((x, y, width, split - SCREW_TABLE), "", [Row(note)], 2.6)[1:]
    return items


def _rail(work: Workup, cut: Dividing) -> list[Row]:
    say = say_in(work.job.units)
    return [
        Row(f"Rail's edge {say(cut.rail_offset)} from the line", bold=True),
        Row(
            f"That is the saw's base edge to the near side of its blade ({say(work.job.saw.base_to_blade)}: measure "
            "yours) and half the kerf."
        ),
        Row("Set it off square to the line at both ends. Clamp the rail at both ends, clear of the saw."),
        Row(
            "Support the plank on both sides of the cut along its whole length, so that it can neither drop nor pinch."
        ),
        Row("Set the blade just deeper than the plank; try it on waste first. Stop, wait, then lift the saw."),
    ]


def _cautions() -> list[Row]:
    texts = (
        "Never freehand, and never the bare plank along the fence: on the carrier or along a rail, or not at all.",
        "Eyes and ears protected; no gloves, no loose sleeves.",
        "Screws outside the kerf and the blade clear of every one; check before the saw is switched on.",
        "Hands clear of the line, never behind or over the blade. A narrowing piece that closes on the blade is thrown "
        "back: riving knife fitted, stand out of its line.",
        "Support the work in front and behind: carrier and plank are long and heavy.",
        "Wait until the blade stands before anything is moved. Unplug the saw for every blade change.",
        DEFER,
    )
    last = len(texts) - 1
    return [Row(text, bold=i in (0, last)) for i, text in enumerate(texts)]

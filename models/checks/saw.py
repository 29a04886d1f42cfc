"""Findings about the blade, its height and the fence."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say
from scarfwright.models.sled.dividing import Dividing

THINNEST_CARRIER = 6.0  # a thinner board bends under the plank; common practice, no source


def check_saw(work: Groundwork, say: Say) -> Iterator[Finding]:
    saw, blade = work.job.saw, work.way.blade
    if blade.diameter <= blade.height:
        yield finding(
            "blade.smaller_than_work",
            f"The whole blade ({say(blade.diameter)}) is smaller than it must stand above the table "
            f"({say(blade.height)}, the work and {say(saw.blade_above_work)}). Take {_lower(blade.radius, work, say)}a "
            f"blade of {say.up(2 * blade.height)} or more.",
            diameter_mm=blade.diameter,
            blade_height_mm=blade.height,
        )
    elif blade.axis_depth < 0:
        yield finding(
            "blade.axis_above_table",
            f"A blade of {say(blade.diameter)} raised {say(blade.height)} would have its axis "
            f"{say(-blade.axis_depth)} above the table, which no saw does. Take {_lower(blade.radius, work, say)}a "
            f"blade of {say.up(2 * blade.height)} or more.",
            blade_height_mm=blade.height,
            radius_mm=blade.radius,
        )
    if blade.height > saw.max_depth:
        yield finding(
            "blade.too_low",
            f"The blade must stand {say(blade.height)} above the table to clear the work by "
            f"{say(saw.blade_above_work)}, and rises only {say(saw.max_depth)}. Take {_lower(saw.max_depth, work, say)}"
            f"a saw whose blade rises {say.up(blade.height)}.",
            blade_height_mm=blade.height,
            max_depth_mm=saw.max_depth,
        )
    if saw.max_depth > blade.radius:
        yield finding(
            "blade.max_depth_beyond",
            f"max_depth ({say(saw.max_depth)}) is more than half the blade's diameter ({say(blade.diameter)}): no saw "
            f"raises a blade past its axis. Measure how far yours rises, less than {say.down(blade.radius)}.",
            max_depth_mm=saw.max_depth,
            radius_mm=blade.radius,
        )
    if saw.fence_gap <= 0:
        yield finding(
            "fence.cuts_sled",
            "With no fence gap the blade rubs along the sled's heel and cuts it. Set fence_gap to 0.4 mm or 1/64 in.",
            fence_gap_mm=saw.fence_gap,
        )
    cut = work.way.dividing
    if cut is not None and cut.blade_height > saw.max_depth:
        yield finding(
            "dividing.blade_too_low",
            f"The dividing cut through carrier and plank needs the blade {say(cut.blade_height)} up, and it rises "
            f"only {say(saw.max_depth)}. Divide the plank along a guide rail {say(cut.rail_offset)} from the line"
            f"{_thinner_carrier(cut, saw.max_depth, say)}.",
            blade_height_mm=cut.blade_height,
            max_depth_mm=saw.max_depth,
        )


def _lower(most: float, work: Groundwork, say: Say) -> str:
    """Ways to bring the blade down to `most` above the table, ready to stand before another way."""
    above = work.job.saw.blade_above_work
    ways = ""
    if most - above > 0:
        ways += f"work {say.down(most - above)} high or less (ripped, or lying on its other side), "
    if most - work.joint.height >= 0:
        ways += f"blade_above_work = {say.down(most - work.joint.height)} or less, "
    return ways + "or " if ways else ""


def _thinner_carrier(cut: Dividing, most: float, say: Say) -> str:
    room = most - cut.blade_height + cut.carrier_thickness
    return f", or use a carrier {say.down(room)} thick or less (sheet_thickness)" if room >= THINNEST_CARRIER else ""

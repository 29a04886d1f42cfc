"""Findings about the blade, its height and the fence."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, Level, finding, register
from scarfwright.models.say import Say
from scarfwright.models.workup import Workup

register(
    {
        "blade.axis_above_table": Level.FAULT,
        "blade.too_low": Level.FAULT,
        "fence.cuts_sled": Level.FAULT,
        "dividing.blade_too_low": Level.CAUTION,
    }
)


def check_saw(work: Workup, say: Say) -> Iterator[Finding]:
    saw, blade = work.job.saw, work.blade
    if blade.axis_depth < 0:
        yield finding(
            "blade.axis_above_table",
            f"A blade of {say(blade.diameter)} raised {say(blade.height)} would have its axis "
            f"{say(-blade.axis_depth)} above the table, which no saw does. Work up to "
            f"{say(blade.radius - saw.blade_above_work)} high at most, lying on its other side, or a larger blade.",
            blade_height_mm=blade.height,
            radius_mm=blade.radius,
        )
    if blade.height > saw.max_depth:
        yield finding(
            "blade.too_low",
            f"The blade must stand {say(blade.height)} above the table to clear the work by "
            f"{say(saw.blade_above_work)}, and rises only {say(saw.max_depth)}. Rip the stock to "
            f"{say(max(saw.max_depth - saw.blade_above_work, 0.0))} or less, or lower blade_above_work.",
            blade_height_mm=blade.height,
            max_depth_mm=saw.max_depth,
        )
    if saw.fence_gap <= 0:
        yield finding(
            "fence.cuts_sled",
            "With no fence gap the blade rubs along the sled's heel and cuts it. Set fence_gap to 0.4 mm or 1/64 in.",
            fence_gap_mm=saw.fence_gap,
        )
    cut = work.dividing
    if cut is not None and cut.blade_height > saw.max_depth:
        yield finding(
            "dividing.blade_too_low",
            f"The dividing cut through carrier and plank needs the blade {say(cut.blade_height)} up, and it rises "
            f"only {say(saw.max_depth)}. Use a thinner carrier, or divide the plank along a guide rail "
            f"{say(cut.rail_offset)} from the line.",
            blade_height_mm=cut.blade_height,
            max_depth_mm=saw.max_depth,
        )

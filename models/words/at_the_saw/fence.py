"""How the fence is set: to a tooth or to the plate, and parallel."""

from __future__ import annotations

from scarfwright.models.cut.fence import FenceSetting
from scarfwright.models.lengths.say import Say


def fence(one: FenceSetting, say: Say) -> str:
    """Measure the heel, add the gap; to a tooth, or to the plate. The gap is finer than any rule reads."""
    return (
        f"Measure the heel with callipers, add {say(one.gap)}, and set the fence to that, on the {one.side} "
        f"({say(one.to_tooth)} if the heel came out at {say(one.heel)}). Measure to a tooth that is set towards the "
        f"fence. To the blade's plate instead, add {say.fine(one.plate_gap)} to the heel."
    )


def parallel(one: FenceSetting, say: Say) -> str:
    """The same tooth at the front and at the back of the blade."""
    return (
        f"Mark one tooth. Measure from the fence to it at the front of the blade, turn it to the back "
        f"({say(one.tooth_turn)} further on), measure again. Equal, or a hair more at the back; never less."
    )

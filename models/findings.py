"""Findings: what is wrong or worth knowing, as data with numbers and a way out.

Every code is entered once in CODES with its level; `finding()` refuses a code that is not there, and a
test asks that every code is raised by some test.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class Level(StrEnum):
    """How serious: a fault must not be built or cut so; a caution wants a decision; a note informs."""

    FAULT = "fault"
    CAUTION = "caution"
    NOTE = "note"


CODES: dict[str, Level] = {
    "bending.blank_short": Level.CAUTION,
    "bending.curve_short": Level.CAUTION,
    "bending.ends_loose": Level.NOTE,
    "bending.joint_places": Level.NOTE,
    "bending.joint_unknown": Level.CAUTION,
    "bending.no_joint": Level.CAUTION,
    "bending.offsets_coarse": Level.NOTE,
    "bending.overstrained": Level.CAUTION,
    "accuracy.few_inside": Level.NOTE,
    "backing.low": Level.CAUTION,
    "backing.partial": Level.NOTE,
    "blade.axis_above_table": Level.FAULT,
    "blade.max_depth_beyond": Level.CAUTION,
    "blade.not_for_ripping": Level.CAUTION,
    "blade.over_marked_speed": Level.FAULT,
    "blade.plate_too_thick": Level.FAULT,
    "blade.rim_fast": Level.CAUTION,
    "blade.rim_too_fast": Level.FAULT,
    "blade.smaller_than_work": Level.FAULT,
    "blade.too_low": Level.FAULT,
    "board.meets_fence": Level.FAULT,
    "clamp.deep_meets_blade": Level.FAULT,
    "clamp.deep_meets_fence": Level.FAULT,
    "clamp.grips_air": Level.FAULT,
    "clamp.meets_blade": Level.FAULT,
    "clamp.meets_fence": Level.FAULT,
    "clamp.no_grip": Level.FAULT,
    "clamp.pad_overhangs": Level.FAULT,
    "clamp.past_board": Level.NOTE,
    "clamp.throat_short": Level.FAULT,
    "dividing.blade_too_low": Level.CAUTION,
    "dividing.no_screws": Level.CAUTION,
    "dowel.no_room": Level.CAUTION,
    "feed.faster_than_hand": Level.CAUTION,
    "feed.too_fast": Level.CAUTION,
    "feed.too_slow": Level.CAUTION,
    "fence.behind_blade": Level.FAULT,
    "fence.cuts_sled": Level.FAULT,
    "fence.short_lead": Level.CAUTION,
    "gap_shim.coarse": Level.CAUTION,
    "gap_shim.layer_thick": Level.FAULT,
    "gap_shim.off": Level.NOTE,
    "gluing.clamps_too_small": Level.NOTE,
    "gluing.open_time_short": Level.CAUTION,
    "gluing.pressure_high": Level.CAUTION,
    "gluing.pressure_low": Level.CAUTION,
    "gluing.too_few_clamps": Level.CAUTION,
    "gauges.left_out": Level.NOTE,
    "guard.cannot_pass": Level.CAUTION,
    "hand_stop.sticks_out": Level.FAULT,
    "hands.clear_short": Level.FAULT,
    "hands.line_near": Level.CAUTION,
    "hands.line_too_near": Level.FAULT,
    "handle.breaks_out": Level.FAULT,
    "handle.no_room": Level.NOTE,
    "handle.overlap": Level.FAULT,
    "height_step.coarse": Level.CAUTION,
    "joint.finish_too_thick": Level.FAULT,
    "joint.gap_eats_joint": Level.FAULT,
    "joint.slope_degrees": Level.CAUTION,
    "joint.slope_flat": Level.CAUTION,
    "joint.slope_off": Level.CAUTION,
    "joint.slope_steep": Level.CAUTION,
    "joint.tips_stay": Level.CAUTION,
    "knife.none": Level.CAUTION,
    "knife.thicker_than_kerf": Level.FAULT,
    "knife.too_thin": Level.CAUTION,
    "label.replaced": Level.NOTE,
    "label.too_long": Level.NOTE,
    "label.too_small": Level.CAUTION,
    "margin.blade_small": Level.CAUTION,
    "margin.gap_small": Level.CAUTION,
    "margin.side_small": Level.CAUTION,
    "margin.stop_beyond": Level.FAULT,
    "margin.travel_small": Level.CAUTION,
    "nose.flat_short": Level.CAUTION,
    "nose.flat_too_long": Level.FAULT,
    "nose.no_clamp": Level.FAULT,
    "nose.pad_off_flat": Level.CAUTION,
    "nose_wedge.meets_fence": Level.FAULT,
    "nose_wedge.no_grip": Level.FAULT,
    "notch.breaks_fence_edge": Level.FAULT,
    "notch.jaw_wont_enter": Level.FAULT,
    "notch.longer_than_sled": Level.FAULT,
    "notch.off_sled": Level.FAULT,
    "notch.overlap": Level.FAULT,
    "notch.pad_bears_partly": Level.CAUTION,
    "notch.pad_wont_enter": Level.FAULT,
    "notch.thin_left": Level.CAUTION,
    "notch_guide.coarse": Level.CAUTION,
    "notch_guide.drill_wide": Level.FAULT,
    "notch_guide.one_hole": Level.NOTE,
    "paper.roll_narrow": Level.CAUTION,
    "paper.roll_wide": Level.CAUTION,
    "part.impossible": Level.FAULT,
    "part.says_caution": Level.CAUTION,
    "part.says_fault": Level.FAULT,
    "part.says_note": Level.NOTE,
    "plan.blank_short": Level.FAULT,
    "plan.defect_outside": Level.FAULT,
    "plan.defects_overlap": Level.FAULT,
    "plan.does_not_fit": Level.CAUTION,
    "plan.mark_fine": Level.FAULT,
    "plan.members": Level.FAULT,
    "plan.mirrored_odd": Level.CAUTION,
    "plan.no_blanks": Level.NOTE,
    "plan.no_board": Level.FAULT,
    "plan.too_many_blanks": Level.FAULT,
    "plan.too_many_boards": Level.FAULT,
    "plan.zone_outside": Level.FAULT,
    "plank.kerf_too_wide": Level.FAULT,
    "plank.too_narrow": Level.FAULT,
    "plug_in.failed": Level.FAULT,
    "plug_in.not_loaded": Level.FAULT,
    "print.overhang": Level.CAUTION,
    "print.too_tall": Level.FAULT,
    "riser.long_span": Level.NOTE,
    "riser.top_too_small": Level.FAULT,
    "riser.uneven": Level.NOTE,
    "router.few_tabs": Level.NOTE,
    "router.part_too_large": Level.CAUTION,
    "router.part_too_tight": Level.NOTE,
    "router.sled_too_large": Level.FAULT,
    "router.sled_too_tight": Level.FAULT,
    "router.spacing_small": Level.FAULT,
    "sled.as_made_needs_length": Level.FAULT,
    "sled.as_made_reversed": Level.FAULT,
    "sled.hands_have_no_room": Level.FAULT,
    "sled.nose_thin": Level.FAULT,
    "sled.too_short": Level.FAULT,
    "slope_gauge.coarse": Level.CAUTION,
    "slope_gauge.no_room": Level.FAULT,
    "slope_gauge.rule_better": Level.NOTE,
    "split.no_place": Level.FAULT,
    "split.too_loose": Level.FAULT,
    "square_block.angle_lost": Level.FAULT,
    "square_block.coarse": Level.CAUTION,
    "square_block.leans_too_far": Level.FAULT,
    "stock.above_reach": Level.FAULT,
    "stock.not_upright": Level.FAULT,
    "stop.off_table": Level.CAUTION,
    "support.infeed_needed": Level.CAUTION,
    "support.outfeed_needed": Level.CAUTION,
    "table.no_room_to_start": Level.FAULT,
    "taper_fork.coarse": Level.CAUTION,
    "taper_fork.slots_alike": Level.FAULT,
    "taper_fork.tip_too_thick": Level.FAULT,
    "taper_scale.marks_crowd": Level.FAULT,
    "taper_scale.too_many": Level.FAULT,
    "template.bed_small": Level.CAUTION,
    "template.kerf_closes": Level.CAUTION,
    "template.web_burns": Level.CAUTION,
    "thickness_fork.coarse": Level.CAUTION,
    "thickness_fork.slots_alike": Level.FAULT,
    "wood.unknown": Level.NOTE,
}


ABOVE_REACH = "stock.above_reach"  # where it is, it alone is said
Numbers = dict[str, float | str | None]
Written = str | int | float | list[str]  # a value as a job file writes it
Remedy = tuple[tuple[str, Written], ...]  # (("sled.length", "950 mm"), ...): all of them together mend the finding


@dataclass(frozen=True)
class Finding:
    """One finding. `numbers` keys carry their unit (`needed_mm`); the sentence `text` is made last, in words/.

    `part` names the optional part it is about: a fault of that stops the part, not the job. `remedies`: ways out, each
    tried on the job: done as written, the finding is gone and no new fault has come.
    """

    code: str
    level: Level
    text: str
    numbers: Numbers
    part: str = ""
    remedies: tuple[Remedy, ...] = ()

    @property
    def stops(self) -> bool:
        """Whether it stops the job: a fault, and not one of an optional part, which is left out instead."""
        return self.level is Level.FAULT and not self.part

    def as_json(self) -> dict[str, Any]:
        return {
            "code": self.code,
            "level": self.level.value,
            "stops": self.stops,
            "part": self.part or None,
            "text": self.text,
            "numbers": {k: round(v, 6) if isinstance(v, float) else v for k, v in self.numbers.items()},
            **({"remedies": [dict(remedy) for remedy in self.remedies]} if self.remedies else {}),
        }


def finding(code: str, text: str = "", /, **numbers: float | str | None) -> Finding:
    """Make a finding of a registered code; its sentence is made later from the numbers."""
    return Finding(code, CODES[code], text, {k: _plain(v) for k, v in numbers.items()})


def _plain(value: float | str | None) -> float | str | None:
    """Lengths that remember their text become ordinary numbers."""
    return float(value) if isinstance(value, float) else value


def faults(found: list[Finding]) -> list[Finding]:
    """The findings that stop a build; those about an optional part that is left out don't."""
    return [f for f in found if f.stops]


def worst_first(found: list[Finding]) -> list[Finding]:
    """Faults, then cautions, then notes; the order within a level is kept."""
    order = [Level.FAULT, Level.CAUTION, Level.NOTE]
    return sorted(found, key=lambda f: order.index(f.level))

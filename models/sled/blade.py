"""The blade, the travels of the cut, and how far each clamp lets the sled go.

Frame: X from the heel along the fence, Y from the fence; the sled's travel T is how far the heel has gone past
the blade's axis, so the axis stands at X = T. z is up from the table. All lengths mm.

Source: plane geometry, the project's own derivation, checked by cutting solids with the blade as a body.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.joint.joint import Joint

LEAST_ABOVE_WORK = (3.0, 1 / 8)  # mm, inches: less may leave a lip; common practice, no source
START_CLEARANCE = 25.0  # heel stands this far before the blade when it starts; common practice, no source


@dataclass(frozen=True)
class Blade:
    """A blade of `diameter` and `kerf`, raised `height` above the table; its fence-side face runs a fence `gap` c
    beyond the heel [mm]."""

    diameter: float
    kerf: float
    height: float
    gap: float

    @property
    def radius(self) -> float:
        return self.diameter / 2

    @property
    def axis_depth(self) -> float:
        """How far the axis lies below the table, R - height [mm]; negative above it."""
        return self.radius - self.height

    def reach(self, z: float) -> float:
        """How far ahead of its axis the blade stands at height z, sqrt(R^2 - (z + d)^2) [mm]; 0 where it is not."""
        return math.sqrt(max(0.0, self.radius**2 - (z + self.axis_depth) ** 2))


@dataclass(frozen=True)
class Travels:
    """The stations of one cut, as travel T of the heel past the blade's axis [mm]."""

    start: float
    exit_x: float
    offcut_free: float
    done: float
    clear: float

    def end(self, end_of_cut: str) -> float:
        """Travel at which the cut has ended as asked."""
        return self.clear if end_of_cut == "run_on" else self.done


def travels(joint: Joint, blade: Blade, clear_gap: float) -> Travels:
    """All stations of the cut.

    The blade plane leaves the board's outer face at X_exit = t / sin(theta) - c N. The offcut drops one kerf
    (k N of travel) before the taper is complete.
    """
    exit_x = joint.thickness / math.sin(joint.angle) - blade.gap * joint.ratio
    at_top = blade.reach(joint.height)
    at_table = blade.reach(0.0)
    return Travels(
        start=-(at_table + START_CLEARANCE),
        exit_x=exit_x,
        offcut_free=exit_x - blade.kerf * joint.ratio - at_top,
        done=exit_x - at_top,
        clear=exit_x + at_table + clear_gap * joint.ratio,
    )


@dataclass(frozen=True)
class Jaw:
    """What of a clamp may come into the blade's way, and how far from the blade plane it must stay [mm].

    `lower_edge` is z_p, the pads' lower edge above the table; `reach_along` half the stretch of the work edge in
    which the jaw may lie because the clamp slides in its slot; `stand_off` how far the outer jaw stands off the
    work; `bar_edge` the lower edge of the bar that crosses over the work.

    The blade's front falls back the higher it is measured (f falls with z from the table up, as the axis lies below
    it), so of each body its lowest edge counts.
    """

    lower_edge: float
    reach_along: float
    stand_off: float
    side_clearance: float
    bar_edge: float = math.inf

    def limit(self, station: float, joint: Joint, blade: Blade) -> float | None:
        """Travel [mm] at which a clamp at `station` (along the work edge from the heel) meets the blade, or None.

        T = X_front - f(z), where X_front is the least X of the part of the jaw (z = z_p), or of the bar (z =
        bar_edge), that lies beyond the blade plane less the side clearance; the lesser of the two counts. None if
        nothing lies there, or if it all rides above the blade.
        """
        u = station - self.reach_along
        found = [
            front - blade.reach(z)
            for z, front in (
                (self.lower_edge, self._front_x(u, joint, blade.gap)),
                (self.bar_edge, self._bar_x(u, joint, blade.gap)),
            )
            if front is not None and z < blade.height
        ]
        return min(found, default=None)

    def _front_x(self, u: float, joint: Joint, gap: float) -> float | None:
        """Least X of the jaw's part beyond F - side, for a jaw that begins at u along the work edge."""
        sin, cos = math.sin(joint.angle), math.cos(joint.angle)
        edge = gap - self.side_clearance
        out = max(joint.thickness, (edge + u * sin) / cos)
        if out > joint.thickness + self.stand_off - 1e-9:
            return None
        return u * cos + out * sin

    def _bar_x(self, u: float, joint: Joint, gap: float) -> float | None:
        """The same for the bar, which lies over board and sled: it comes beyond F - side before the jaw does."""
        sin, cos = math.sin(joint.angle), math.cos(joint.angle)
        out = (gap - self.side_clearance + u * sin) / cos
        return None if out > joint.thickness + self.stand_off - 1e-9 else u * cos + out * sin

    def least_station(self, travel: float, joint: Joint, blade: Blade) -> float:
        """The least station whose limit is at least `travel` (or that has no limit) [mm]."""
        sin, cos = math.sin(joint.angle), math.cos(joint.angle)
        edge = blade.gap - self.side_clearance
        wholly_clear = ((joint.thickness + self.stand_off) * cos - edge) / sin
        least = 0.0
        if self.lower_edge < blade.height:
            least = min(self._least_by_jaw(travel + blade.reach(self.lower_edge), joint, blade.gap), wholly_clear)
        if self.bar_edge < blade.height:
            along_bar = (travel + blade.reach(self.bar_edge) - edge * sin / cos) * cos
            least = max(least, min(along_bar, wholly_clear))
        return max(least, 0.0) + self.reach_along

    def _least_by_jaw(self, front: float, joint: Joint, gap: float) -> float:
        """The station at which the jaw's first point beyond F - side has this X."""
        sin, cos = math.sin(joint.angle), math.cos(joint.angle)
        edge = gap - self.side_clearance
        on_face = (front - joint.thickness * sin) / cos
        if on_face * sin + edge <= joint.thickness * cos:  # the jaw's corner at the work's face governs
            return on_face
        return (front - edge * sin / cos) * cos

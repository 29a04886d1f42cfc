"""Where things go on the sled: clamp notches, nose clamp, hand line, handle holes, dowels.

All stations in the result count from the heel along the work edge; x counts from the nose along the fence edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from scarfwright.models.flat.loop import Point
from scarfwright.models.flat.room import Capsule
from scarfwright.models.job.tables import Job
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.length import common, round_up
from scarfwright.models.lengths.steps import fine_step
from scarfwright.models.sled.blade import Blade, Jaw, Travels
from scarfwright.models.sled.holes import dowel_holes, handle_holes
from scarfwright.models.sled.sled import Notch, Sled, station_with_left


@dataclass(frozen=True)
class ClampPlace:
    """One clamp: `station` from the heel along the work edge, `opening` it must close on, `swallowed` depth it
    must reach over, `limit` travel at which it meets blade or fence (None: it never does), and which of the two.

    `at_fence` is the travel at which its fence-side jaw meets the fence's front end, `pushed_down` the limit at the
    blade if it is pushed down until its bar lies on the work or its jaws on the table, `low_at_fence` the travel at
    which it then meets the fence, `least_board` the shortest board its pad bears on wholly, wherever it slides.
    """

    where: str
    station: float
    opening: float
    swallowed: float
    limit: float | None
    meets: str | None
    at_fence: float | None
    pushed_down: float | None
    low_at_fence: float | None
    least_board: float


@dataclass(frozen=True)
class Layout:
    """Everything that sits on the sled. Holes are (x, y) in the exported frame."""

    notches: tuple[Notch, ...]
    clamps: tuple[ClampPlace, ...]
    least_station: float
    hand_line: float
    handle_holes: tuple[Point, ...]
    handle_radius: float
    dowels: tuple[Point, ...]
    dowel_radius: float

    def capsules(self, sled: Sled) -> list[tuple[str, Capsule]]:
        """Every opening through the sled, with its name."""
        found = [(f"{n.where} notch", n.capsule(sled)) for n in self.notches]
        found += [("handle hole", Capsule(p, p, self.handle_radius)) for p in self.handle_holes]
        found += [("dowel hole", Capsule(p, p, self.dowel_radius)) for p in self.dowels]
        return found


def lay_out(job: Job, joint: Joint, blade: Blade, travel: Travels, sled: Sled) -> Layout:
    """Place everything on a sled whose size is known."""
    jaw = slot_jaw(job, sled)
    least = least_station(job, joint, blade, sled, travel.end(job.saw.end_of_cut))
    notches = [_notch(job, "heel", _heel_station(job, sled, least))]
    notches += [_notch(job, "extra", float(s)) for s in job.sled.extra_stations]
    nose = _nose_station(job, sled)
    on_flat = nose is not None and sled.nose_flat > 0 and _on_flat(job, sled)
    if nose is not None and not on_flat:
        notches.append(_notch(job, "nose", nose))
    clamps = [_slot_clamp(job, joint, blade, sled, notch, jaw) for notch in notches]
    if nose is not None and on_flat:
        clamps.append(_flat_clamp(job, joint, blade, sled, nose))
    hand_line = _hand_line(job, blade, travel)
    taken = [n.capsule(sled) for n in notches]
    layout = Layout(
        notches=tuple(sorted(notches, key=lambda n: n.station)),
        clamps=tuple(sorted(clamps, key=lambda c: c.station)),
        least_station=least,
        hand_line=hand_line,
        handle_holes=handle_holes(job, sled, hand_line, taken),
        handle_radius=job.sled.handle_hole / 2,
        dowels=(),
        dowel_radius=job.sled.dowel / 2,
    )
    if job.sled.made_from == "sheet" and job.sled.dowel > 0 and job.sled.layers > 1:
        taken = [shape for _, shape in layout.capsules(sled)]
        return replace(layout, dowels=dowel_holes(sled, layout.dowel_radius, taken))
    return layout


def stop_mark(job: Job) -> float:
    """The stop block is set to this [mm], so it stands up to so much past the end of the cut: 1 mm, or 1/16 in."""
    return common(job.units, 1.0, 1 / 16)


def stop_spare(job: Job) -> float:
    """Free past the stop block, and past the end of the cut for a clamp pushed down [mm]: 10 mm, or 7/16 in (common
    practice, no source)."""
    return common(job.units, 10.0, 7 / 16)


def hand_room(job: Job) -> float:
    """Sled left behind the hand line for a hand or a handle [mm]: 100 mm, or 4 in (common practice, no source)."""
    return common(job.units, 100.0, 4.0)


def free_travel(job: Job, end: float) -> float:
    """The travel [mm] that must be free for a cut that ends at `end`: its margin, and never less than the stop block's
    rounding and `stop_spare` more."""
    return end + max(float(job.saw.travel_margin), stop_mark(job) + stop_spare(job))


def least_station(job: Job, joint: Joint, blade: Blade, sled: Sled, end: float) -> float:
    """Least station [mm] of a clamp in a slot for a cut that ends at `end`: with its pads where they belong it is
    clear with the whole margin, pushed down as far as it goes still `stop_spare` past the end."""
    as_set = slot_jaw(job, sled).least_station(free_travel(job, end), joint, blade)
    pushed = slot_jaw(job, sled, pushed_down=True).least_station(end + stop_spare(job), joint, blade)
    return max(as_set, pushed)


def as_measured(planned: Layout, job: Job, joint: Joint, blade: Blade, travel: Travels, sled: Sled) -> Layout:
    """The layout of a sled that is made already: what is cut stays where it was planned, from heel and fence edge;
    only what follows from the measured slope is worked out again."""
    jaw = slot_jaw(job, sled)
    clamps = [_slot_clamp(job, joint, blade, sled, notch, jaw) for notch in planned.notches]
    if any(c.where == "nose_flat" for c in planned.clamps):
        nose = _nose_station(job, sled)
        assert nose is not None
        clamps.append(_flat_clamp(job, joint, blade, sled, nose))
    return replace(
        planned,
        clamps=tuple(sorted(clamps, key=lambda c: c.station)),
        least_station=least_station(job, joint, blade, sled, travel.end(job.saw.end_of_cut)),
    )


def moved(layout: Layout, by: float) -> Layout:
    """The same holes on a sled that is longer by this [mm]: x counts from the nose, the holes from the heel."""
    holes, dowels = (tuple((x + by, y) for x, y in found) for found in (layout.handle_holes, layout.dowels))
    return replace(layout, handle_holes=holes, dowels=dowels)


def slot_jaw(job: Job, sled: Sled, *, pushed_down: bool = False) -> Jaw:
    """The outer jaw of a clamp in a slot: it may slide, so it lies within s -+ max(pad, notch) / 2."""
    return _jaw(job, sled, max(job.clamp.pad_width, job.sled.notch_length) / 2, pushed_down)


def jaw_between(job: Job, sled: Sled, first: float, station: float) -> Jaw:
    """The outer jaw of a clamp at `station` that may lie as near to the heel as the station `first` [mm]."""
    return _jaw(job, sled, station - first, pushed_down=False)


def flat_jaw(job: Job, sled: Sled, station: float, *, pushed_down: bool = False) -> Jaw:
    """The outer jaw of the clamp across the nose: it may slide towards the heel up to the flat's step."""
    step = sled.station_of_x(sled.nose_flat, sled.across_nose)
    return _jaw(job, sled, max(station - step, job.clamp.pad_width / 2), pushed_down)


def _jaw(job: Job, sled: Sled, reach_along: float, pushed_down: bool) -> Jaw:
    low = deepest_lower_edge(job, sled) if pushed_down else pad_lower_edge(job, sled)
    return Jaw(
        lower_edge=low,
        reach_along=reach_along,
        stand_off=job.clamp.jaw_outer,
        side_clearance=job.saw.side_clearance,
        bar_edge=low + job.clamp.throat,
    )


def pad_lower_edge(job: Job, sled: Sled) -> float:
    """z_p: the pads bear wholly on work and sled, so their lower edge is min(h, sled) - pad_height [mm]."""
    return min(job.stock.height, sled.thickness) - job.clamp.pad_height


def deepest_lower_edge(job: Job, sled: Sled) -> float:
    """The pads' lower edge above the table if the clamp is pushed down as far as it goes [mm]."""
    return max(max(job.stock.height, sled.thickness) - job.clamp.throat, 0.0)


def swallowed(job: Job, sled: Sled) -> float:
    """How deep the clamp reaches over the higher of work and sled [mm]."""
    return max(job.stock.height, sled.thickness) - pad_lower_edge(job, sled)


def _notch(job: Job, where: str, station: float) -> Notch:
    return Notch(where, station, job.sled.web, job.sled.notch_length, job.sled.notch_width)


def _heel_station(job: Job, sled: Sled, least: float) -> float:
    asked = job.sled.heel_station
    return safe_station(job, sled, least) if asked == "auto" else float(asked)


def safe_station(job: Job, sled: Sled, least: float) -> float:
    """The least station of a notch that is at least `least` and off the heel's end, rounded up to a mark."""
    off_heel_end, _ = _notch(job, "heel", 0.0).stations_within(sled)
    return round_up(max(least, off_heel_end), job.sled.round_marks)


def _on_flat(job: Job, sled: Sled) -> bool:
    return job.sled.nose_station == "auto" or job.sled.nose_station <= sled.nose_flat


def _nose_station(job: Job, sled: Sled) -> float | None:
    """Station of the nose clamp from the heel, or None where "auto" finds no room for a nose notch.

    Asked for from the nose end: on the flat along the fence edge, for a notch along the work edge. "auto" is the
    middle of the nose flat, or without one the notch nearest the nose that leaves a web's width of wood to the
    fence edge.
    """
    asked = job.sled.nose_station
    across = sled.nose * math.cos(sled.angle)
    if asked != "auto":
        return sled.station_of_x(asked, across) if _on_flat(job, sled) else sled.work_edge - asked
    if sled.nose_flat > 0:
        return sled.station_of_x(sled.nose_flat / 2, across)
    furthest = station_with_left(sled, job.sled.web, job.sled.notch_length, job.sled.notch_width, float(job.sled.web))
    room = sled.work_edge - job.sled.notch_length
    station = min(furthest, room)
    return station if station > job.sled.notch_length else None


def _slot_clamp(job: Job, joint: Joint, blade: Blade, sled: Sled, notch: Notch, jaw: Jaw) -> ClampPlace:
    limit = jaw.limit(notch.station, joint, blade)
    return ClampPlace(
        where=notch.where,
        station=notch.station,
        opening=notch.web + joint.thickness,
        swallowed=swallowed(job, sled),
        limit=limit,
        meets=None if limit is None else "blade",
        at_fence=None,
        pushed_down=slot_jaw(job, sled, pushed_down=True).limit(notch.station, joint, blade),
        low_at_fence=None,
        least_board=notch.station + jaw.reach_along,
    )


def _flat_clamp(job: Job, joint: Joint, blade: Blade, sled: Sled, station: float) -> ClampPlace:
    """The clamp across the nose: its fence-side jaw must also stay before the front end of the fence."""
    jaw = flat_jaw(job, sled, station)
    at_blade = jaw.limit(station, joint, blade)
    at_fence = _jaw_at_fence(job, sled, station - jaw.reach_along, pad_lower_edge(job, sled))
    limit = min((t for t in (at_blade, at_fence) if t is not None), default=None)
    return ClampPlace(
        where="nose_flat",
        station=station,
        opening=sled.nose * math.cos(sled.angle) + joint.thickness,
        swallowed=swallowed(job, sled),
        limit=limit,
        meets=None if limit is None else "fence" if limit == at_fence else "blade",
        at_fence=at_fence,
        pushed_down=flat_jaw(job, sled, station, pushed_down=True).limit(station, joint, blade),
        low_at_fence=_jaw_at_fence(job, sled, station - jaw.reach_along, deepest_lower_edge(job, sled)),
        least_board=station + job.clamp.pad_width / 2,
    )


def _jaw_at_fence(job: Job, sled: Sled, u: float, low: float) -> float | None:
    """Travel [mm] at which the fence-side jaw on the nose flat, which begins at u and whose lower edge is `low` above
    the table, meets the fence's front end.

    The jaw stands off the flat square to the work edge, so its corner away from the flat leads by its stand-off
    times sin(theta): X_front = u cos - (nose cos + jaw_inner) sin, or where that corner lies within the fence edge
    (Y > 0), the X at which its outer side crosses it. None for pads that ride over the fence.
    """
    if low >= job.saw.fence_height:
        return None
    sin, cos = math.sin(sled.angle), math.cos(sled.angle)
    depth = sled.across_nose + job.clamp.jaw_inner
    crosses = (sled.heel - depth * cos) / sin
    return max(u, crosses) * cos - depth * sin - job.saw.fence_front


def _hand_line(job: Job, blade: Blade, travel: Travels) -> float:
    """From the heel along the fence edge, on a mark: at the end of the cut and its margin the hands are still clear."""
    asked = job.sled.hand_line
    if asked != "auto":
        return float(asked)
    return round_up(hands_at(job, blade, travel, float(job.saw.hands_clear)), fine_step(job.units))


def hands_at(job: Job, blade: Blade, travel: Travels, clear: float) -> float:
    """From the heel along the fence edge [mm]: at the end of the cut and its margin still `clear` of the blade."""
    end = max(travel.end(job.saw.end_of_cut), 0.0) + job.saw.travel_margin
    return end + blade.reach(0.0) + clear

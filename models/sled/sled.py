"""The sled: two equal halves of one plank, or glued layers of sheet; and the notches in it.

Exported frame: x along the feed with the nose at 0 and the heel at L, y from the fence edge towards the blade,
z up. X = L - x counts from the heel. All lengths mm.

Source: plane geometry, the project's own derivation, checked by cutting solids. Marking a plank with one number
from opposite edges is common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from scarfwright.models.flat.loop import Point
from scarfwright.models.flat.room import Capsule
from scarfwright.models.lengths.length import round_to

LEAST_LEFT = 10.0  # wood round a notch below which it is likely to break; common practice, no source


@dataclass(frozen=True)
class Sled:
    """One sled as it runs.

    `ratio` is the N it really has. `mark` (M), `plank_width` and `kerf` belong to a sled cut from a plank and are
    None for sheet. `nose_flat` is the length f of the nose cut parallel to the work edge (0: none).
    """

    ratio: float
    length: float
    thickness: float
    heel: float
    nose: float
    nose_flat: float = 0.0
    mark: float | None = None
    plank_width: float | None = None
    kerf: float | None = None

    @property
    def angle(self) -> float:
        """theta [rad]."""
        return math.atan(1 / self.ratio)

    @property
    def work_edge(self) -> float:
        """Length of the work edge [mm]."""
        return self.length / math.cos(self.angle)

    @property
    def flat_step(self) -> float:
        """Depth of the step at the inner end of the nose flat, f / N [mm]."""
        return self.nose_flat / self.ratio

    @property
    def across_nose(self) -> float:
        """From the nose flat square to the work edge, nose cos(theta) [mm]: what a clamp closes on there."""
        return self.nose * math.cos(self.angle)

    def from_heel(self, x: float) -> float:
        """Along the fence edge from the heel, for an x counted from the nose [mm]."""
        return self.length - x

    def corners(self) -> list[Point]:
        """Outline in the exported frame, counter-clockwise, the nose flat included."""
        start: list[Point] = [(0.0, 0.0)]
        if self.nose_flat > 0:
            start += [(self.nose_flat, self.flat_step), (self.nose_flat, 0.0)]
        return [*start, (self.length, 0.0), (self.length, self.heel), (0.0, self.nose)]

    @property
    def area(self) -> float:
        """Area of the outline without notches and holes, closed form [mm2]."""
        return (self.heel + self.nose) * self.length / 2 - self.nose_flat * self.flat_step / 2

    def width_at(self, x: float) -> float:
        """Width square to the fence edge, x from the nose [mm], the nose flat left out."""
        return self.nose + (self.heel - self.nose) * x / self.length

    def at_work_edge(self, station: float, depth: float) -> Point:
        """A point `station` from the heel along the work edge and `depth` square into the wood, in x and y."""
        sin, cos = math.sin(self.angle), math.cos(self.angle)
        return (self.length - station * cos + depth * sin, self.heel - station * sin - depth * cos)

    def station_of_x(self, x: float, depth: float = 0.0) -> float:
        """The station whose point at `depth` has this x."""
        return (self.length - x + depth * math.sin(self.angle)) / math.cos(self.angle)


def plank_mark(plank_width: float, length: float, ratio: float, round_marks: float) -> float:
    """The one mark M = (P + L / N) / 2 [mm], rounded to the rule's marks.

    Where rounding would leave no taper at all the exact mark is kept.
    """
    exact = (plank_width + length / ratio) / 2
    rounded = round_to(exact, round_marks)
    return rounded if rounded > plank_width / 2 else exact


def from_plank(
    plank_width: float, thickness: float, length: float, ratio: float, kerf: float, round_marks: float
) -> Sled:
    """One half of a plank cut from mark to mark; N is what the rounded mark really gives.

    heel = M - k / (2 cos theta), nose = P - M - k / (2 cos theta), both square to the fence edge [mm].
    """
    mark = plank_mark(plank_width, length, ratio, round_marks)
    real = length / (2 * mark - plank_width)
    half_kerf = kerf / 2 / math.cos(math.atan(1 / real))
    return Sled(
        ratio=real,
        length=length,
        thickness=thickness,
        heel=mark - half_kerf,
        nose=plank_width - mark - half_kerf,
        mark=mark,
        plank_width=plank_width,
        kerf=kerf,
    )


def from_sheet(nose: float, thickness: float, length: float, ratio: float) -> Sled:
    """Layers cut by a machine: nose as given, heel = nose + L / N, exact."""
    return Sled(ratio=ratio, length=length, thickness=thickness, heel=nose + length / ratio, nose=nose)


def as_made(nominal: Sled, heel: float | None, nose: float | None, length: float | None = None) -> Sled:
    """The sled as measured: N = L / (heel - nose). Raises ValueError unless the heel is the wider end."""
    measured_heel = nominal.heel if heel is None else heel
    measured_nose = nominal.nose if nose is None else nose
    measured_length = nominal.length if length is None else length
    if measured_heel <= measured_nose:
        raise ValueError("the heel must be wider than the nose")
    ratio = measured_length / (measured_heel - measured_nose)
    return replace(nominal, ratio=ratio, heel=measured_heel, nose=measured_nose, length=measured_length)


def rounding_slack(ratio: float, length: float, round_marks: float) -> float:
    """Factor by which rounding M can at most flatten the slope of a sled of this length, 1 / (1 - r N / L).

    M is off by up to r / 2, so L / N by up to r. Never more than 2: past that the rounding eats half the taper.
    """
    return 1 / (1 - min(round_marks * ratio / length, 0.5))


def longest_from_plank(plank_width: float, ratio: float, kerf: float, nose_min: float) -> float:
    """The longest sled a plank allows, N (P - k / cos theta - 2 nose_min) [mm]; may be negative."""
    return ratio * (plank_width - kerf / math.cos(math.atan(1 / ratio)) - 2 * nose_min)


def plank_width_for(length: float, ratio: float, kerf: float, nose_min: float) -> float:
    """The plank width [mm] at which a sled of this length has a nose of nose_min."""
    return length / ratio + kerf / math.cos(math.atan(1 / ratio)) + 2 * nose_min


def auto_nose_flat(pad_width: float, each_side: float) -> float:
    """Room for the pad and `each_side` of it, at most 60 mm and at least one pad [mm]: it is sawn by hand."""
    return max(min(60.0, pad_width + 2 * each_side), pad_width)


@dataclass(frozen=True)
class Notch:
    """A clamp slot parallel to the work edge with round ends, drilled and sawn.

    `station` is its middle, along the work edge from the heel; `web` the wood between it and the work edge.
    """

    where: str
    station: float
    web: float
    length: float
    width: float

    def capsule(self, sled: Sled) -> Capsule:
        """The slot in the exported frame. A slot shorter than wide is a hole."""
        half = self.half_straight
        depth = self.web + self.width / 2
        return Capsule(
            sled.at_work_edge(self.station - half, depth),
            sled.at_work_edge(self.station + half, depth),
            self.width / 2,
        )

    @property
    def half_straight(self) -> float:
        """Half the straight part of the slot, middle to end hole [mm]."""
        return max(self.length - self.width, 0.0) / 2

    def stations_within(self, sled: Sled) -> tuple[float, float]:
        """Least and greatest station at which the slot stays off the heel end and the nose end [mm].

        The ends are square to the fence edge, the slot is not: its hole at depth web + width / 2 stands
        depth sin(theta) nearer the heel end. Heel: (s - half) cos - depth sin - r >= 0.
        """
        depth, r = self.web + self.width / 2, self.width / 2
        sin, cos = math.sin(sled.angle), math.cos(sled.angle)
        least = (depth * sin + r) / cos + self.half_straight
        most = (sled.length + depth * sin - r) / cos - self.half_straight
        return least, most

    def left(self, sled: Sled) -> float:
        """Wood left between the slot and the fence edge [mm]; negative where it breaks out."""
        shape = self.capsule(sled)
        return min(shape.start[1], shape.end[1]) - shape.radius

    def bearing(self) -> float:
        """Straight part of the slot, on which a pad bears [mm]."""
        return 2 * self.half_straight


def station_off_flat(sled: Sled, web: float, length: float, width: float, left: float) -> float:
    """The station furthest from the heel at which a notch still keeps `left` from the nose flat's step [mm].

    The nose-side hole's least x: L - (s + half) cos + (web + width / 2) sin - width / 2 = f + left.
    """
    half = max(length - width, 0.0) / 2
    reach = sled.length + (web + width / 2) * math.sin(sled.angle) - width / 2 - sled.nose_flat - left
    return reach / math.cos(sled.angle) - half


def station_with_left(sled: Sled, web: float, length: float, width: float, left: float) -> float:
    """The station furthest from the heel at which a notch still leaves `left` of wood to the fence edge [mm].

    The slot's nose-side end is its lowest point: heel - (s + half) sin - (web + width / 2) cos - width / 2 = left.
    """
    half = max(length - width, 0.0) / 2
    drop = sled.heel - (web + width / 2) * math.cos(sled.angle) - width / 2 - left
    return drop / math.sin(sled.angle) - half

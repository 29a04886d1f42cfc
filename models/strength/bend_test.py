"""The bend test of a sample joint: a stick on two supports, one load between them [mm, N, MPa].

The load stands over the tip that lies on the lower face: there, and nowhere else in the joint, the glue line meets the
fibre with the greatest pull. Under the joint's middle the glue line would lie in the neutral axis and the wood would
break first, whatever the joint is worth. The scale stands under one support and carries half the load.

Sources: beam formulas of any handbook, stress 3 P L / (2 b d^2), sag P L^3 / (48 E I); a span of 14 depths or more is
that of ASTM D143 (from memory, high). Standard gravity and pound: exact by definition.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.lengths.length import Unit, round_up
from scarfwright.models.strength.wood import SCATTER_MODULUS, SCATTER_RUPTURE, Wood

GRAVITY = 9.80665  # m/s2
POUND = 0.45359237  # kg
SCALE_CARRIES = 120.0  # kg: what most bathroom scales read; common practice, no source
SPAN_IN_DEPTHS = 14.0
LEAST_WIDTH = 10.0  # a narrower strip rolls over; common practice, no source
SIGMAS = 2.0  # the range told: mean less and plus two standard deviations


@dataclass(frozen=True)
class Beam:
    """A stick `width` wide and `depth` deep (up and down) on two supports `span` apart, loaded in the middle [mm]."""

    span: float
    width: float
    depth: float

    @property
    def second_moment(self) -> float:
        """I = b d^3 / 12 [mm4]."""
        return self.width * self.depth**3 / 12

    def load(self, stress: float) -> float:
        """The load [N] at which the outermost fibre under it has this stress [MPa]."""
        return 2 * self.width * self.depth**2 * stress / (3 * self.span)

    def sag(self, load: float, modulus: float) -> float:
        """How far the middle goes down [mm] under a load [N]; straight line, shear left out."""
        return load * self.span**3 / (48 * modulus * self.second_moment)


@dataclass(frozen=True)
class Spread:
    """A figure to expect: its mean, and the range of nearly all well made samples."""

    low: float
    mean: float
    high: float


@dataclass(frozen=True)
class BendTest:
    """The test of a sample joint. Loads [N] are at the middle; a scale under one support reads half.

    `beam`: the sample; `ripped`: it is narrower than the job's stock so that a bathroom scale can read it;
    `reach`: how far the joint goes from the load towards one support [mm]; `breaks`: load at which the joint breaks;
    `proof`: load that nearly every well made joint holds; `sag`: of the middle at the proof load [mm];
    `length`: the least length of the sample [mm].
    """

    beam: Beam
    ripped: bool
    share: float
    reach: float
    length: float
    breaks: Spread
    proof: float
    sag: Spread

    @property
    def scale_reads(self) -> Spread:
        """On a scale under one support, where it breaks [kg]."""
        return Spread(*(kilograms(p / 2) for p in (self.breaks.low, self.breaks.mean, self.breaks.high)))

    @property
    def proof_reads(self) -> float:
        """On a scale under one support, at the proof load [kg]."""
        return kilograms(self.proof / 2)


def kilograms(newtons: float) -> float:
    """What a scale shows under a force."""
    return newtons / GRAVITY


def pounds(kg: float) -> float:
    """Kilograms as pounds."""
    return kg / POUND


def bend_test(wood: Wood, share: float, run: float, width: float, depth: float, units: Unit) -> BendTest | None:
    """The test for a joint whose glue line runs `run` along the stick, in a section width x depth [mm].

    The stick lies with the face the scarf comes out on downwards, so that `depth` is its thickness. The span is
    rounded up to 50 mm or 2 in; the width down to 5 mm or 1/4 in where the full one is too strong for a scale.
    None where even a narrow strip is too strong.
    """
    step = 50.0 if units == "mm" else 50.8
    span = round_up(max(SPAN_IN_DEPTHS * depth, 2 * (run + 2 * depth)), step)
    most = 1 + SIGMAS * SCATTER_RUPTURE
    at_most = Beam(span, 1.0, depth).load(wood.rupture * share * most)  # per mm of width
    ripped = kilograms(at_most * width / 2) > SCALE_CARRIES
    if ripped:
        grid = 5.0 if units == "mm" else 6.35
        width = math.floor(2 * SCALE_CARRIES * GRAVITY / at_most / grid) * grid
        if width < LEAST_WIDTH:
            return None
    beam = Beam(span, width, depth)
    mean = beam.load(wood.rupture * share)
    less = 1 - SIGMAS * SCATTER_RUPTURE
    proof = less * mean
    stiff = 1 + SIGMAS * SCATTER_MODULUS
    soft = 1 - SIGMAS * SCATTER_MODULUS
    sag = Spread(*(beam.sag(proof, wood.modulus * by) for by in (stiff, 1.0, soft)))
    return BendTest(beam, ripped, share, run, span + 4 * depth, Spread(proof, mean, most * mean), proof, sag)

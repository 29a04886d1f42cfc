"""Planing from t to t_f: how much a face, where the feather lines come out, which way to plane [mm].

s runs along the stick from the tip of the upper board. There the glue line lies b + s / N below the upper face, so with
`a` off each face it comes out on the upper one at s = (a - b) N and on the lower one at (t - a - b) N.
On the upper face the upper board's feather points back, to smaller s: planing that way runs off it, the other way
under it. On the lower face it is the reverse. A thickness planer cuts against its feed: there the feather trails.

Source: plane geometry (the project's own derivation); planing off feather edges raised bending strength
(Longworth & Stieda, ASTM STP 383, 1960, abstract).
"""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.joint.joint import Joint


@dataclass(frozen=True)
class Planing:
    """`each`: off each face; `thickness`: after it; `run`: of the glue line from face to face;
    `upper_feather`, `lower_feather`: where it comes out, from the first tip along the stick; `tips_gone`: both tips
    and the grooves beside them are planed away; `stiffness`: of the stick to that before, as the cube of the thickness.
    """

    each: float
    thickness: float
    run: float
    upper_feather: float
    lower_feather: float
    tips_gone: bool
    stiffness: float


def planing(joint: Joint, finished: float) -> Planing:
    """Planing the joint's stock to `finished` [mm], alike from both faces."""
    each = (joint.thickness - finished) / 2
    return Planing(
        each=each,
        thickness=finished,
        run=joint.finished_run(finished),
        upper_feather=(each - joint.tip) * joint.ratio,
        lower_feather=(joint.thickness - each - joint.tip) * joint.ratio,
        tips_gone=each >= joint.tip,
        stiffness=(finished / joint.thickness) ** 3,
    )

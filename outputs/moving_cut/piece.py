"""The piece of a web page: a picture in 3D where the browser draws one, plan and side view, a slider, what is seen.

All that is told and every number is made here; the script draws it, moves it and picks the sentence by the travel.
Without the script, and in print, the moments of the cut stand one below another.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from html import escape

from scarfwright.models.cut.bodies import Moving, hinge, mesh_of, moving_setup
from scarfwright.models.cut.colours import IN_THE_WAY, WORK
from scarfwright.models.cut.moments import TOLERANCE, Moment, Passage, passage
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.at_the_saw import moments as words
from scarfwright.models.workup import Workup
from scarfwright.outputs.moving_cut.flat import FALLS_OUT, Flat, flat_views
from scarfwright.outputs.moving_cut.packaged import packaged
from scarfwright.outputs.moving_cut.views import cameras
from scarfwright.outputs.web.piece import Piece

KEY = "moving_cut"
UNITS_A_MM = 10  # corners are sent as whole tenths of a millimetre
SAGITTA = 0.1  # chords this close to arcs [mm]
AT_REST = 1e-9


def piece(work: Workup) -> Piece:
    """The moving cut of a job that is `drawable`, as every one without faults is; ValueError for another."""
    cut = passage(work.way)
    flat = flat_views(work.way, cut)
    moving = _moving(work, cut, flat)
    return Piece(KEY, _html(moving), packaged("cut.js"), packaged("cut.css"), _data(work, cut, flat, moving))


# -- markup --------------------------------------------------------------------------------------------------


def _html(moving: str) -> str:
    """What the script fills, and the moments that stand there without it."""
    return (
        '<div class="live" hidden>'
        f'<canvas id="moving_cut-picture" tabindex="0" role="img" aria-label="{escape(words.PICTURE)}"></canvas>'
        f'<p class="no-3d" hidden>{escape(words.NO_3D)}</p>'
        f'<div class="views" role="group" aria-label="{escape(words.SEEN_FROM)}"></div>'
        '<p class="seen" id="moving_cut-seen"></p>'
        f'<p class="at"><label for="moving_cut-travel">{escape(words.SLIDER)}:</label> '
        '<output id="moving_cut-at" for="moving_cut-travel"></output></p>'
        '<input type="range" id="moving_cut-travel" step="any" aria-describedby="moving_cut-colours">'
        f'<div class="moments" role="group" aria-label="{escape(words.MOVE_TO)}"></div>'
        '<div class="flat"></div>'
        "</div>"
        f'<div class="still">{moving}</div>'
    )


def _moving(work: Workup, cut: Passage, flat: Flat) -> str:
    """Shapes, what the colours mean, and a picture of each moment with its sentence."""
    defs = f'<svg width="0" height="0" aria-hidden="true" focusable="false"><defs>{flat.defs}</defs></svg>'
    colours = f'{_ends(flat)}<p id="moving_cut-colours">{escape(words.colours(work, cut))}</p>'
    shown = "".join(_moment(work, cut, flat, moment) for moment in cut.moments)
    return f'{defs}{colours}<ol class="stills">{shown}</ol>'


def _ends(flat: Flat) -> str:
    """Which way is which, under the pictures."""
    ends = [f"\N{LEFTWARDS ARROW} {words.RUNS}", words.YOU]
    if flat.sense > 0:
        ends = [words.YOU, f"{words.RUNS} \N{RIGHTWARDS ARROW}"]
    return f'<p class="ends"><span>{escape(ends[0])}</span> <span>{escape(ends[1])}</span></p>'


def _moment(work: Workup, cut: Passage, flat: Flat, moment: Moment) -> str:
    name = words.MOMENTS[moment.name]
    text = words.told(work, cut, cut.stretch_at(moment.travel))
    where = words.where(moment.travel, say_in(work.job.units))
    told = f"<p><strong>{escape(name)}</strong> ({escape(where)}). {escape(text)}</p>"
    return f"<li>{told}{_plan(work, cut, flat, moment.travel)}{_side(work, cut, flat, moment.travel)}</li>"


def _use(name: str, by: float = 0.0) -> str:
    moved = f' transform="translate({by:.2f},0)"' if abs(by) > AT_REST else ""
    return f'<use href="#moving_cut-{name}"{moved}/>'


def _svg(title: str, window: tuple[float, float, float, float], inside: str) -> str:
    box = " ".join(f"{v:.0f}" for v in window)
    return f'<svg viewBox="{box}" role="img" aria-label="{escape(title)}">{inside}</svg>'


def _plan(work: Workup, cut: Passage, flat: Flat, travel: float) -> str:
    at, free = flat.sense * travel, _free(work)
    parts = [_use("plan-saw"), *([_use("plan-block")] if _blocked(cut, travel) else []), _use("plan-sled", at)]
    parts.append(f'<g clip-path="url(#moving_cut-plan-uncut)">{_use("plan-kerf", at)}</g>')
    if free is not None:
        fallen = travel >= free - TOLERANCE
        parts.append(_use("plan-fallen", flat.sense * free) if fallen else _use("plan-offcut", at))
    return _svg(words.PLAN, flat.plan, "".join(parts))


def _side(work: Workup, cut: Passage, flat: Flat, travel: float) -> str:
    at, free = flat.sense * travel, _free(work)
    parts = [_use("side-fence"), *([_use("side-block")] if _blocked(cut, travel) else []), _use("side-sled", at)]
    parts.append(f'<g clip-path="url(#moving_cut-side-swept)">{_use("side-taper", at)}</g>{_use("side-saw")}')
    if free is not None:
        fallen = travel >= free - TOLERANCE
        parts.append(_use("side-fallen", flat.sense * free) if fallen else _use("side-offcut", at))
    return _svg(words.SIDE, flat.side, "".join([*parts, _use("side-blade")]))


def _free(work: Workup) -> float | None:
    """The travel at which the offcut falls; None where there is none."""
    return None if hinge(work.way) is None else work.way.travel.offcut_free


def _blocked(cut: Passage, travel: float) -> bool:
    return travel <= cut.block + TOLERANCE


# -- data ----------------------------------------------------------------------------------------------------


def _data(work: Workup, cut: Passage, flat: Flat, moving: str) -> Mapping[str, object]:
    """All the script needs; travels, lengths and places in mm."""
    way, fall = work.way, hinge(work.way)
    things = moving_setup(way)
    return {
        "units": work.job.units,
        "tolerance_mm": TOLERANCE,
        "start_mm": _fine(cut.start),
        "last_mm": _fine(cut.last),
        "block_mm": _fine(cut.block),
        "free_mm": None if fall is None else _fine(way.travel.offcut_free),
        "limit_mm": _fine(cut.last) if cut.first is not None else None,
        "side": -1 if way.job.saw.fence_side == "left" else 1,
        "blade": {
            "near_mm": _fine(way.fence),
            "kerf_mm": _fine(way.blade.kerf),
            "radius_mm": _fine(way.blade.radius),
            "depth_mm": _fine(way.blade.axis_depth),
            "height_mm": _fine(way.blade.height),
        },
        "hand_line_mm": _fine(way.layout.hand_line),
        "fall": None if fall is None else {"at": fall.start, "out": fall.out, "by_mm": FALLS_OUT},
        "words": {"short": words.SHORT, "past": words.PAST},
        "moments": [{"label": words.MOMENTS[m.name], "travel_mm": _fine(m.travel)} for m in cut.moments],
        "sentences": [
            {"from_mm": _fine(s.start), "to_mm": _fine(s.end), "text": words.told(work, cut, s), "level": str(s.level)}
            for s in cut.stretches
        ],
        "views": [{**asdict(c), "label": words.VIEWS[c.name]} for c in cameras(way)],
        "colours": {"board": WORK, "in_the_way": IN_THE_WAY},
        "units_a_mm": UNITS_A_MM,
        "bodies": [_body(thing) for thing in things],
        "moving": moving,
        "flat": {"plan": _plan(work, cut, flat, cut.start), "side": _side(work, cut, flat, cut.start)},
        "sense": flat.sense,
    }


def _fine(value: float) -> float:
    return round(float(value), 6) + 0.0


def _body(thing: Moving) -> dict[str, object]:
    mesh = mesh_of(thing.piece, SAGITTA)
    return {
        "role": thing.role,
        "goes_with": thing.goes_with,
        "colour": thing.piece.colour,
        "corners": [round(v * UNITS_A_MM) for corner in mesh.corners for v in corner],
        "triangles": [i for triangle in mesh.triangles for i in triangle],
    }

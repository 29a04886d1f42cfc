"""The gap shim: as thick as the fence gap, in whole printed layers; the fence number follows the shim that results.

   ______
  |      |__________________   grip, and a tongue layers x layer thick
  |______|__________________|

A tooth that touches the tongue x from the heel's corner puts the fence x / N too near, at 5 mm and 1 in 12 by the whole
usual gap: so it is held to the corner within TOUCH. A tongue of whole layers is out by the first layer's squeeze, at
most half a layer (common practice, no source) and not more than `tolerance`:
± 2 sqrt((min(tolerance, layer / 2)^2 + (TOUCH / N)^2) / 3).
"""

from __future__ import annotations

import math
from dataclasses import replace

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import rectangle
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import round_to
from scarfwright.models.part import label as labels
from scarfwright.models.part.part import Part, Place, Raised
from scarfwright.models.part.reading import FEELER, expanded
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind

GRIP, GRIP_THICK = 40.0, 4.0
TOUCH = 1.0  # how near the heel's corner the tooth touches, by eye [mm]; common practice, no source


def gap_shim(gap: float = 0.4, layer: float = 0.2, length: float = 60.0, width: float = 20.0, label: str = "") -> Part:
    """Build the shim, lying flat: a grip with a tongue.

    gap: thickness asked for [mm]
    layer: the printer's layer height; the tongue is a whole number of them [mm]
    length: of the tongue [mm]
    width: of grip and tongue [mm]
    label: text cut into the grip
    """
    thick = shim_thickness(gap, layer)
    part = Part(
        name="gap_shim",
        title=f"Gap shim, {thick:.2f} mm",
        outline=rectangle(0.0, 0.0, GRIP, width),
        thickness=thick + GRIP_THICK,
        raised=(Raised(rectangle(GRIP, 0.0, length, width), 0.0, thick, "tongue"),),
        colour="#c77f6b",
        use="Saw unplugged: hold the tongue on the sled's work edge exactly at the heel's corner. Move the fence until "
        "a tooth set towards it just touches the tongue at that corner: the fence then stands at the heel plus the "
        "shim. Check by callipers on the heel.",
    )
    return labels.engraved(part, label, _place(width))


def shim_layers(gap: float, layer: float) -> int:
    """The whole number of layers nearest to the gap, at least one."""
    return max(1, round(round_to(gap / layer, 1.0)))


def shim_thickness(gap: float, layer: float) -> float:
    """Thickness of the shim that results [mm]."""
    return shim_layers(gap, layer) * layer


def _place(width: float) -> Place:
    return Place(2.0, 2.0, GRIP - 4.0, width - 4.0)


def _from_job(work: Groundwork) -> Given | None:
    if work.way.blade.gap <= 0:
        return None
    layer = float(work.job.printer.layer)
    text = f"{shim_thickness(work.way.blade.gap, layer):.2f}".rstrip("0").rstrip(".") + " mm"
    return {"gap": work.way.blade.gap, "layer": layer, "label": text}


def _resolution(work: Groundwork, p: Values) -> dict[str, float]:
    thick = shim_thickness(p["gap"], p["layer"])
    squeeze = min(float(work.job.printer.tolerance), p["layer"] / 2)
    place = (1 / work.joint.ratio, TOUCH)
    joint = replace(work.joint, tip=thick / math.cos(work.joint.angle))
    return {
        "layers": shim_layers(p["gap"], p["layer"]),
        "thickness_mm": thick,
        "fence_mm": work.way.sled.heel + thick,
        "tip_mm": joint.tip,
        "overlap_mm": joint.overlap,
        "resolution_mm": expanded((1.0, squeeze), place),
        "needed_mm": thick / 2,
        "by_feeler_mm": expanded((1.0, FEELER), place),
    }


def _check(work: Groundwork | None, p: Values) -> list[Finding]:
    gap, layer = p["gap"], p["layer"]
    if layer <= 0 or math.floor(gap / layer + 0.5) < 1:
        return [finding("gap_shim.layer_thick", layer_mm=layer, gap_mm=gap, needed_layer_mm=2 * gap)]
    return [] if work is None else [*_off(work, p), *_coarse(work, p)]


def _off(work: Groundwork, p: Values) -> list[Finding]:
    r = _resolution(work, p)
    if abs(r["thickness_mm"] - p["gap"]) < 0.005:
        return []
    return [
        finding(
            "gap_shim.off",
            thickness_mm=r["thickness_mm"],
            gap_mm=p["gap"],
            layers=r["layers"],
            layer_mm=p["layer"],
            fence_mm=r["fence_mm"],
            overlap_mm=r["overlap_mm"],
        )
    ]


def _coarse(work: Groundwork, p: Values) -> list[Finding]:
    r = _resolution(work, p)
    reads = r["resolution_mm"]
    if reads <= r["needed_mm"]:
        return []
    return [
        finding(
            "gap_shim.coarse",
            thickness_mm=r["thickness_mm"],
            resolution_mm=reads,
            needed_mm=r["needed_mm"],
            by_feeler_mm=r["by_feeler_mm"],
        )
    ]


KIND = PartKind(
    name="gap_shim",
    summary="tongue of whole printed layers that sets the fence gap",
    build=gap_shim,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    check=_check,
    ranges={
        "gap": (0.3, 5),
        "layer": (0.05, 0.6),
        "length": (10, 150),
        "width": (8, 60),
    },
    resolution=_resolution,
    label_place=lambda p: _place(p["width"]),
)

"""Reading cut files back with another reader, measured with shapely. Lengths in mm."""

from __future__ import annotations

from pathlib import Path
from typing import Any, NamedTuple

from ezdxf import recover
from ezdxf.path import make_path
from shapely import LineString, Polygon

ALLOWED = {"CUT_OUTSIDE", "CUT_INSIDE", "DRILL", "SCORE", "NOTES", "SHEET"}


class Drawn(NamedTuple):
    """One entity: layer, kind, whether closed, its vertices with bulges, and its shape."""

    layer: str
    kind: str
    closed: bool
    vertices: list[tuple[float, float, float]]
    shape: Any


class Cut(NamedTuple):
    version: str
    header: Any
    drawn: list[Drawn]
    texts: list[tuple[float, float, float, str]]

    def on(self, layer: str) -> list[Drawn]:
        return [d for d in self.drawn if d.layer == layer]

    def polygons(self, layer: str) -> list[Polygon]:
        return [d.shape for d in self.on(layer) if d.closed]


def read_cut(path: Path, scale: float = 1.0, sagitta: float = 0.0005) -> Cut:
    """The file's entities, sizes times `scale`; any error or fix of the audit fails."""
    document, auditor = recover.readfile(path)
    assert not auditor.errors, auditor.errors
    assert not auditor.fixes, auditor.fixes
    drawn, texts = [], []
    for entity in document.modelspace():
        kind, layer = entity.dxftype(), entity.dxf.layer
        assert layer in ALLOWED or layer.startswith("POCKET_"), layer
        assert layer in document.layers
        if kind == "TEXT":
            insert = entity.dxf.insert
            texts.append((insert.x * scale, insert.y * scale, entity.dxf.height * scale, entity.dxf.text))
            continue
        assert kind in ("LWPOLYLINE", "POLYLINE", "CIRCLE"), kind
        points = [(p.x * scale, p.y * scale) for p in make_path(entity).flattening(sagitta / scale)]
        closed = kind == "CIRCLE" or bool(getattr(entity, "closed", False) or getattr(entity, "is_closed", False))
        shape = Polygon(points) if closed else LineString(points)
        drawn.append(Drawn(layer, kind, closed, _vertices(entity, kind, scale), shape))
    return Cut(document.dxfversion, document.header, drawn, texts)


def _vertices(entity: Any, kind: str, scale: float) -> list[tuple[float, float, float]]:
    if kind == "LWPOLYLINE":
        return [(x * scale, y * scale, b) for x, y, b in entity.get_points("xyb")]
    if kind == "POLYLINE":
        return [(v.dxf.location.x * scale, v.dxf.location.y * scale, v.dxf.get("bulge", 0.0)) for v in entity.vertices]
    return []

"""Triangle meshes of solids, and the two mesh formats: STL (binary) and 3MF (core specification).

Both are written here rather than by a mesh library because the same job must give the same bytes, each part needs
its own name, and a mesh library would more than double the start-up time.
"""

from __future__ import annotations

import struct
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any
from xml.sax.saxutils import quoteattr

import numpy as np
import numpy.typing as npt
from scarfwright.models.solids.solids import Body

SAGITTA = 0.01  # chords this close to arcs [mm]: a twentieth of what a good printer holds
ANGLE = 0.4  # and no coarser than this [rad]; finer would only multiply the triangles of small letters
MERGE = 1e-5  # corners nearer than this are one [mm]; the kernel repeats them face by face

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Mesh:
    """Corners (n, 3) [mm] and triangles (m, 3), counter-clockwise seen from outside."""

    name: str
    colour: str
    corners: Floats
    triangles: npt.NDArray[np.int64]


def mesh_of(body: Body, sagitta: float = SAGITTA) -> Mesh:
    """Mesh a body, chords within `sagitta` of arcs [mm]; shared corners are merged so that the mesh is closed."""
    import cadquery as cq

    corners, triangles = _meshed(body.shape.located(cq.Location()), sagitta)
    turn, shift = _placed(body.shape.wrapped.Location().Transformation())
    return Mesh(body.name, body.colour, np.round(corners @ turn.T + shift, 5) + 0.0, triangles)


@lru_cache(maxsize=64)
def _meshed(shape: Any, sagitta: float) -> tuple[Floats, npt.NDArray[np.int64]]:
    """Corners and triangles of a shape where it was made: one that lies in several files is meshed once.

    The kernel is asked itself: its wrapper takes the sagitta as a share of each edge's size. A mesh from before
    would be taken as it is, so the shape is cleaned of it, and of this one too, which would widen its bounding box.
    """
    from OCP.BRepMesh import BRepMesh_IncrementalMesh
    from OCP.BRepTools import BRepTools

    BRepTools.Clean_s(shape.wrapped)
    BRepMesh_IncrementalMesh(shape.wrapped, sagitta, False, ANGLE)
    found = [_face(face) for face in shape.Faces()]
    BRepTools.Clean_s(shape.wrapped)
    offsets = np.cumsum([0, *(len(points) for points, _ in found)])
    raw = np.concatenate([points for points, _ in found])
    faces = np.concatenate([corners + offset for (_, corners), offset in zip(found, offsets, strict=False)])
    keys = np.round(raw / MERGE).astype(np.int64)
    _, first, inverse = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    faces = inverse.reshape(-1)[faces]
    distinct = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    return raw[first], faces[distinct]


def _face(face: Any) -> tuple[Floats, npt.NDArray[np.int64]]:
    """Points and triangles of one face, read straight from the kernel: its own wrappers take four times as long."""
    from OCP.BRep import BRep_Tool
    from OCP.TopAbs import TopAbs_Orientation
    from OCP.TopLoc import TopLoc_Location

    location = TopLoc_Location()
    mesh = BRep_Tool.Triangulation_s(face.wrapped, location)
    nodes = [mesh.Node(i) for i in range(1, mesh.NbNodes() + 1)]
    points = np.array([(p.X(), p.Y(), p.Z()) for p in nodes], dtype=np.float64)
    corners = np.array([mesh.Triangle(i).Get() for i in range(1, mesh.NbTriangles() + 1)], dtype=np.int64) - 1
    if not location.IsIdentity():
        turn, shift = _placed(location.Transformation())
        points = points @ turn.T + shift
    inside_out = face.wrapped.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    return points, corners[:, ::-1] if inside_out else corners


def _placed(transformation: Any) -> tuple[Floats, Floats]:
    """Turn and shift of a placement."""
    table = np.array([[transformation.Value(row, column) for column in (1, 2, 3, 4)] for row in (1, 2, 3)])
    return table[:, :3], table[:, 3]


def write_stl(bodies: Sequence[Body], path: Path) -> None:
    """Binary STL, all bodies in one file; units are not part of the format, so mm as everywhere."""
    header = b"scarfwright, millimetres".ljust(80, b" ")
    records: list[bytes] = []
    count = 0
    for mesh in map(mesh_of, bodies):
        corners = mesh.corners[mesh.triangles]
        normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        lengths = np.linalg.norm(normals, axis=1, keepdims=True)
        normals = np.divide(normals, lengths, out=np.zeros_like(normals), where=lengths > 0)
        table: Any = np.zeros(len(corners), dtype=[("v", "<f4", (12,)), ("a", "<u2")])
        table["v"] = np.round(np.concatenate([normals, corners.reshape(-1, 9)], axis=1), 6) + 0.0
        records.append(table.tobytes())
        count += len(corners)
    path.write_bytes(header + struct.pack("<I", count) + b"".join(records))


_TYPES = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>\n'
)
_RELATIONS = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    '<Relationship Target="/3D/3dmodel.model" Id="rel0" '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>\n'
)


def write_3mf(bodies: Sequence[Body], path: Path) -> None:
    """3MF with unit millimetre and one named object a body. Stored, not packed: no compressor's version shows."""
    model = _model([mesh_of(body) for body in bodies])
    with zipfile.ZipFile(path, "w", zipfile.ZIP_STORED) as archive:
        for name, text in (
            ("[Content_Types].xml", _TYPES),
            ("_rels/.rels", _RELATIONS),
            ("3D/3dmodel.model", model),
        ):
            entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            entry.create_system = 0
            archive.writestr(entry, text.encode("utf-8"))


def _model(meshes: list[Mesh]) -> str:
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<model unit="millimeter" xml:lang="en-US" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">',
        "<resources>",
        '<basematerials id="1">',
        *(f"<base name={quoteattr(m.name)} displaycolor={quoteattr(m.colour.upper() + 'FF')}/>" for m in meshes),
        "</basematerials>",
    ]
    for index, mesh in enumerate(meshes):
        lines.append(
            f'<object id="{index + 2}" type="model" name={quoteattr(mesh.name)} pid="1" pindex="{index}"><mesh>'
        )
        lines.append("<vertices>")
        lines += [f'<vertex x="{_text(x)}" y="{_text(y)}" z="{_text(z)}"/>' for x, y, z in mesh.corners.tolist()]
        lines.append("</vertices><triangles>")
        lines += [f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in mesh.triangles.tolist()]
        lines.append("</triangles></mesh></object>")
    lines.append("</resources><build>")
    lines += [f'<item objectid="{index + 2}"/>' for index in range(len(meshes))]
    lines.append("</build></model>")
    return "\n".join(lines) + "\n"


def _text(value: float) -> str:
    return f"{value:.5f}".rstrip("0").rstrip(".") or "0"

"""3D model for viewing: binary glTF 2.0 (Khronos Group, ISO/IEC 12113): metres, y up, named nodes, coloured materials.

Written here rather than by a mesh library because the same job must give the same bytes and because a mesh library
takes longer to load than the whole model takes to make. No normals are stored: the specification then asks the viewer
to shade every triangle flat, which is what sawn wood and steel look like.
"""

from __future__ import annotations

import json
import struct
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
from scarfwright.models.solids.solids import Assembly, Body, Group
from scarfwright.outputs.formats.mesh import Mesh, mesh_of

SAGITTA = 0.05  # chords this close to arcs [mm]: no corner shows at arm's length
_FLOAT, _UINT = 5126, 5125  # component types
_VERTICES, _INDICES = 34962, 34963  # buffer view targets
_CAUTION = (
    "For looking at only. Sawing can maim: the saw maker's manual, local rules and competent instruction come first."
)


def write_glb(assembly: Assembly, path: Path) -> None:
    """Write an assembly: one node a group, below it one node a body; bodies that share a shape share its mesh."""
    scene = _Scene(assembly)
    text = json.dumps(scene.data, separators=(",", ":"), ensure_ascii=False, allow_nan=False).encode()
    text += b" " * (-len(text) % 4)
    binary = bytes(scene.binary)
    binary += b"\0" * (-len(binary) % 4)
    whole = 12 + 8 + len(text) + 8 + len(binary)
    path.write_bytes(
        struct.pack("<4sII", b"glTF", 2, whole)
        + struct.pack("<I4s", len(text), b"JSON")
        + text
        + struct.pack("<I4s", len(binary), b"BIN\0")
        + binary
    )


class _Scene:
    """The JSON and the binary chunk, filled as the assembly is walked."""

    def __init__(self, assembly: Assembly) -> None:
        self.binary = bytearray()
        self.nodes: list[dict[str, Any]] = []
        self.meshes: list[dict[str, Any]] = []
        self.materials: list[dict[str, Any]] = []
        self.accessors: list[dict[str, Any]] = []
        self.views: list[dict[str, Any]] = []
        self.known: dict[tuple[int, str], int] = {}  # (shape, colour) -> mesh
        self.colours: dict[str, int] = {}
        root: dict[str, Any] = {"name": assembly.name}
        self.nodes.append(root)
        root["children"] = [self._group(group) for group in assembly.groups]
        self.data = {
            "asset": {"version": "2.0", "generator": "scarfwright"},
            "scene": 0,
            "scenes": [{"name": assembly.name, "nodes": [0], "extras": {"caution": _CAUTION}}],
            "nodes": self.nodes,
            "meshes": self.meshes,
            "materials": self.materials,
            "accessors": self.accessors,
            "bufferViews": self.views,
            "buffers": [{"byteLength": len(self.binary) + -len(self.binary) % 4}],
        }

    def _group(self, group: Group) -> int:
        node: dict[str, Any] = {
            "name": group.name,
            "translation": _metres(group.at),
            "extras": {key: round(value, 6) + 0.0 for key, value in group.numbers.items()},
        }
        self.nodes.append(node)
        index = len(self.nodes) - 1
        children = []
        for placed in group.placed:
            self.nodes.append(
                {"name": placed.body.name, "mesh": self._mesh(placed.body), "translation": _metres(placed.at)}
            )
            children.append(len(self.nodes) - 1)
        node["children"] = children
        return index

    def _mesh(self, body: Body) -> int:
        key = (id(body.shape), body.colour)  # the assembly holds the shapes, so ids stay theirs
        if key not in self.known:
            mesh = mesh_of(body, SAGITTA)
            primitive = {
                "attributes": {"POSITION": self._corners(mesh)},
                "indices": self._triangles(mesh),
                "material": self._material(body.colour),
                "mode": 4,
            }
            self.meshes.append({"name": body.name, "primitives": [primitive]})
            self.known[key] = len(self.meshes) - 1
        return self.known[key]

    def _corners(self, mesh: Mesh) -> int:
        x, y, z = mesh.corners.T
        corners = np.stack([x, z, -y], axis=1) / 1000 + 0.0
        data = corners.astype("<f4")
        return self._accessor(
            data,
            _VERTICES,
            {
                "componentType": _FLOAT,
                "count": len(data),
                "type": "VEC3",
                "min": [float(v) for v in data.min(axis=0)],
                "max": [float(v) for v in data.max(axis=0)],
            },
        )

    def _triangles(self, mesh: Mesh) -> int:
        data = mesh.triangles.astype("<u4").reshape(-1)
        return self._accessor(data, _INDICES, {"componentType": _UINT, "count": len(data), "type": "SCALAR"})

    def _accessor(self, data: npt.NDArray[Any], target: int, about: dict[str, Any]) -> int:
        packed = data.tobytes()
        self.views.append({"buffer": 0, "byteOffset": len(self.binary), "byteLength": len(packed), "target": target})
        self.binary += packed
        self.accessors.append({"bufferView": len(self.views) - 1, **about})
        return len(self.accessors) - 1

    def _material(self, colour: str) -> int:
        if colour not in self.colours:
            red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
            self.materials.append(
                {
                    "name": colour,
                    "pbrMetallicRoughness": {
                        "baseColorFactor": [red, green, blue, 1.0],
                        "metallicFactor": 0.0,
                        "roughnessFactor": 0.8,
                    },
                }
            )
            self.colours[colour] = len(self.materials) - 1
        return self.colours[colour]


def _metres(at: tuple[float, float, float]) -> list[float]:
    """Millimetres with z up to metres with y up."""
    x, y, z = at
    return [round(v / 1000, 9) + 0.0 for v in (x, z, -y)]


def _linear(value: float) -> float:
    """A colour value as screens take it (sRGB, IEC 61966-2-1) to linear light, which glTF wants."""
    light = value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
    return round(light, 6)

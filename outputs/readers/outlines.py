"""DXF read by the mesh library's own reader of flat drawings, its loops closed by the library of flat shapes."""

from __future__ import annotations

import io
from typing import Any

from scarfwright.outputs.readers.reading import ReadError

MM_OF = {"millimeters": 1.0, "inches": 25.4}
NOT_CUT = ("SHEET", "NOTES", "SCORE")


def outline_area(data: bytes, suffix: str) -> float | None:
    """Area inside the largest closed loop that is cut [mm2]; None where none is (a drawing to mark out by).

    Raises ReadError.
    """
    import trimesh

    try:
        found: Any = trimesh.load_path(io.BytesIO(data), file_type=suffix.removeprefix("."))
        scale = MM_OF.get(str(found.units))
        loops = [
            (polygon, {str(found.entities[one].layer) for one in path})
            for path, polygon in zip(found.paths, found.polygons_closed, strict=True)
            if polygon is not None
        ]
        areas = [float(polygon.area) for polygon, layers in loops if not layers & set(NOT_CUT)]
    except (MemoryError, RecursionError) as error:
        raise ReadError(f"too much for its reader ({type(error).__name__})") from None
    except Exception as error:  # the library has no error of its own: whatever a broken file brings about
        raise ReadError(f"its reader makes no sense of it ({type(error).__name__})") from None
    if not loops:
        raise ReadError("has no closed outline")
    if scale is None:
        return None  # R12 names no unit
    return max(areas) * scale**2 if areas else None

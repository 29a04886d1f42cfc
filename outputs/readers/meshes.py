"""STL, 3MF and GLB read by the mesh library."""

from __future__ import annotations

import io
from typing import Any

from scarfwright.outputs.readers.reading import ReadError
from scarfwright.outputs.share.zip_directory import ZipError, read_directory

LARGEST_UNPACKED = 400_000_000  # bytes of a 3MF, which is a zip


def volume_of(data: bytes, suffix: str) -> float | None:
    """Volume of all bodies [mm3]; None for a scene to look at (GLB, in metres). Raises ReadError."""
    import trimesh

    if suffix == ".3mf":
        _bounded(data)
    try:
        # from memory, so that nothing the file names is looked for beside it
        found: Any = trimesh.load(io.BytesIO(data), file_type=suffix.removeprefix("."))
        bodies: list[Any] = list(found.dump()) if isinstance(found, trimesh.Scene) else [found]
        volume = float(sum(body.volume for body in bodies))
        closed = bool(bodies) and all(body.is_watertight for body in bodies)
    except (MemoryError, RecursionError) as error:
        raise ReadError(f"too much for its reader ({type(error).__name__})") from None
    except Exception as error:  # the library has no error of its own: whatever a broken file brings about
        raise ReadError(f"its reader makes no sense of it ({type(error).__name__})") from None
    if not closed:
        raise ReadError("has no body, or one that is not closed")
    if not 0 < volume < 1e12:
        raise ReadError(f"has a volume of {volume:.6g}")
    return None if suffix == ".glb" else volume


def _bounded(data: bytes) -> None:
    try:
        entries = read_directory(io.BytesIO(data))
    except ZipError as error:
        raise ReadError(str(error)) from None
    if sum(entry.size for entry in entries.values()) > LARGEST_UNPACKED:
        raise ReadError("unpacks to more than any part needs")

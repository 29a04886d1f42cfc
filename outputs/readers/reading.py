"""What reading a file back gives, and the table of readers by suffix."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, version
from importlib.util import find_spec
from pathlib import Path

LARGEST_BYTES = 200_000_000  # of one file that is read back; the tool's own are a hundredth of it


class ReadError(Exception):
    """A file that its reader can't make sense of; `str()` is what is wrong, in a few words."""


@dataclass(frozen=True)
class Reader:
    """Who reads a kind of file: `libraries`, with the `helpers` they need for it; `read(data, suffix)` gives the size
    that can be compared with the job's (volume [mm3] of a mesh, area [mm2] of a flat outline; None for none).

    Raises ReadError.
    """

    libraries: tuple[str, ...]
    read: Callable[[bytes, str], float | None]
    helpers: tuple[str, ...] = ()

    @property
    def missing(self) -> bool:
        return any(find_spec(module) is None for module in (*self.libraries, *self.helpers))

    @property
    def name(self) -> str:
        return " and ".join(f"{name} {_version(name)}".strip() for name in self.libraries) or "Python's XML reader"


@dataclass(frozen=True)
class Group:
    """Files of one kind: how many were read and by whom ("" for by nobody), and what was wrong with some."""

    suffix: str
    count: int
    reader: str
    faults: tuple[str, ...] = ()


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return ""


def _mesh(data: bytes, suffix: str) -> float | None:
    from scarfwright.outputs.readers.meshes import volume_of

    return volume_of(data, suffix)


def _outline(data: bytes, suffix: str) -> float | None:
    from scarfwright.outputs.readers.outlines import outline_area

    return outline_area(data, suffix)


def _pages(data: bytes, _suffix: str) -> None:
    from scarfwright.outputs.readers.pages import read_pdf

    read_pdf(data)


def _drawing(data: bytes, _suffix: str) -> None:
    from scarfwright.outputs.readers.pages import read_svg

    read_svg(data)


READERS: Mapping[str, Reader] = {
    ".stl": Reader(("trimesh",), _mesh),
    ".3mf": Reader(("trimesh",), _mesh, ("networkx", "lxml")),
    ".glb": Reader(("trimesh",), _mesh),
    ".dxf": Reader(("trimesh", "shapely"), _outline, ("networkx",)),
    ".pdf": Reader(("pypdfium2",), _pages),
    ".svg": Reader((), _drawing),
}
UNREAD = (".step",)  # no reader here but the kernel that wrote them


def read_back(folder: Path, names: Iterable[str], expected: Mapping[str, float]) -> list[Group]:
    """Read the named files of a folder back, kind by kind.

    `expected`: for files that have one, the size they must have: volume [mm3] or area of the outline [mm2].
    """
    by_suffix: dict[str, list[str]] = {}
    for name in names:
        by_suffix.setdefault(Path(name).suffix, []).append(name)
    groups = []
    for suffix in (*READERS, *UNREAD):
        mine = by_suffix.get(suffix, [])
        reader = READERS.get(suffix)
        if not mine:
            continue
        if reader is None or reader.missing:
            groups.append(Group(suffix, len(mine), ""))
            continue
        faults = [fault for name in mine if (fault := _fault(folder / name, name, reader, expected.get(name)))]
        groups.append(Group(suffix, len(mine), reader.name, tuple(faults)))
    return groups


SAME = 0.002  # of the volume or area: chords instead of arcs change less than a tenth of that


def _fault(path: Path, name: str, reader: Reader, expected: float | None) -> str:
    """What is wrong with a file, or nothing."""
    try:
        if path.stat().st_size > LARGEST_BYTES:
            return f"{name}: larger than {LARGEST_BYTES} bytes"
        size = reader.read(path.read_bytes(), path.suffix)
    except (ReadError, OSError) as error:
        return f"{name}: {error}"
    if expected is None or size is None:
        return ""
    if abs(size - expected) > SAME * expected:
        what = "area" if path.suffix == ".dxf" else "volume"
        return f"{name}: {what} {size:.0f}, {expected:.0f} by the job's numbers"
    return ""

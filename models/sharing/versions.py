"""Versions of what shapes the files, read from the installed packages' records without importing one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.metadata import PackageNotFoundError, version

from scarfwright.models.sharing.manifest import PlugIn

# by the names they are installed under: what makes solids, drawings, sheets and plans. The kernel has two builds.
LIBRARIES: tuple[tuple[str, ...], ...] = (
    ("cadquery",),
    ("cadquery-ocp", "cadquery-ocp-novtk"),
    ("ezdxf",),
    ("jinja2",),
    ("matplotlib",),
    ("numpy",),
    ("ortools",),
    ("rectangle-packer",),
    ("reportlab",),
    ("scipy",),
)


@dataclass(frozen=True)
class Other:
    """Something that is of another version here than there; None where it is missing."""

    name: str
    there: str | None
    here: str | None


@cache
def tool_version() -> str:
    """The version of this tool."""
    return version("scarfwright")


@cache
def library_versions() -> dict[str, str]:
    """Version of every library that shapes the files, by its name; one that is not here is left out."""
    found = {}
    for builds in LIBRARIES:
        for name in builds:
            here = installed(name)
            if here is not None:
                found[name] = here
                break
    return found


def installed(name: str) -> str | None:
    """Version of an installed package; None if there is none."""
    try:
        return version(name)
    except PackageNotFoundError:
        return None


def others(tool: str, libraries: Mapping[str, str], plug_ins: Iterable[PlugIn]) -> tuple[Other, ...]:
    """What is of another version here, in the order of its name; the tool first, plug-ins last."""
    here = library_versions()
    found = [Other("scarfwright", tool, tool_version())]
    found += [Other(name, libraries.get(name), here.get(name)) for name in sorted({*libraries, *here})]
    found += [Other(one.name, one.version, installed(one.name)) for one in plug_ins]
    return tuple(one for one in found if one.there != one.here)

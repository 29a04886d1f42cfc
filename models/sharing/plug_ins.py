"""The packages a job's parts come from, besides this one."""

from __future__ import annotations

from scarfwright.models.sharing.manifest import PlugIn
from scarfwright.models.workup import Workup


def needed_plug_ins(work: Workup) -> tuple[PlugIn, ...]:
    """Packages of the parts that are made, in the order of their names: those whose kind says it comes from one."""
    made = [one.kind for one in work.wanted if not one.left_out]
    found = {(kind.package, kind.package_version) for kind in made if getattr(kind, "package", "")}  # type: ignore[attr-defined]
    return tuple(PlugIn(name, version) for name, version in sorted(found))

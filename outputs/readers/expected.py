"""What the files of a job must measure by its numbers: worked out from the parts' flat shapes, in closed form."""

from __future__ import annotations

from scarfwright.models.workup import Workup
from scarfwright.outputs.make import parts_for


def expected(work: Workup) -> dict[str, float]:
    """Volume [mm3] of meshes and area inside the outline [mm2] of cutting files, by path; parts alone, no sheets."""
    found = {f"cad/{part.name}.stl": part.volume for part in parts_for(work, "cad")}
    found |= {f"cut/{part.name}.dxf": abs(part.outline.area) for part in parts_for(work, "cut")}
    for one in work.wanted:
        for laid in one.laid:
            found |= {f"print/{laid.name}{suffix}": laid.part.volume for suffix in (".stl", ".3mf")}
    return found

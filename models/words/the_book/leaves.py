"""What lies in which file of a job's folder, in a line each."""

from __future__ import annotations

import re
from collections.abc import Iterable

TOLD: tuple[tuple[str, str], ...] = (  # the first pattern that fits tells
    (r"numbers\.json", "Every number, in mm, for other programs."),
    (r"job\.toml", "The job as understood, every default spelled out. Making it again gives the same files."),
    (r"manifest\.json", "Version and check sum of every file."),
    (r"plan\.csv", "Which piece comes from which board, as a table."),
    (r"paper/sled\.pdf", "The sled, the plank it comes from, how to divide it: sheets to work from."),
    (r"paper/setup-card\.pdf", "The card that hangs at the saw."),
    (r"paper/measure-me\.pdf", "Where to measure your saw."),
    (r"paper/joint\.pdf", "Which end and face of each board to taper, and how the pair goes together."),
    (r"paper/test-joint\.pdf", "A sheet to measure the test joint on."),
    (r"paper/glue-up\.pdf", "Where clamps and risers stand, and the order of gluing."),
    (r"paper/wood\.pdf", "Choosing boards, planing, the bend test."),
    (r"paper/bending\.pdf", "Bent members: where a joint may stand."),
    (r"paper/plan\.pdf", "Which board goes where: sheets to cut by."),
    (r"paper/gauges\.pdf", "What the printed gauges are for."),
    (r"paper/templates\.pdf", "Templates at full size. Print at 100 %."),
    (r"paper/sheets\.pdf", "What the router cuts from each sheet."),
    (r"paper/.*\.svg", "Sheets as drawings, one a file."),
    (r"cut/plank\.dxf", "The plank to mark out by."),
    (r"cut/sled\.dxf", "The sled at its finished size."),
    (r"cut/sheet-\d+\.dxf", "Sheets for the router."),
    (r"cut/sheet-.*\.dxf", "The cutter's path, already offset."),
    (r"cut/template-.*\.dxf", "Marking templates for the laser."),
    (r"cut/README\.txt", "What each cutting file is, and how to cut it."),
    (r"cut/.*\.dxf", "Parts at their finished size."),
    (r"cad/saw-setup\.(step|glb)", "Saw, sled, board and clamps at the moments of the cut."),
    (r"cad/.*\.step", "Parts as solids."),
    (r"cad/.*\.stl", "Parts as meshes, to look at."),
    (r"print/README\.txt", "How to print what is here."),
    (r"print/.*\.(stl|3mf)", "For the printer."),
)  # fmt: skip
FOLDERS = {"": "The folder itself", "paper": "Paper", "cut": "Cutting", "cad": "Solids", "print": "Printing"}


def told_of(path: str) -> str:
    """What a file is for; empty for one that nothing is known of."""
    return next((told for pattern, told in TOLD if re.fullmatch(pattern, path)), "")


def by_folder(paths: Iterable[str]) -> list[tuple[str, list[tuple[str, list[str]]]]]:
    """Folders by name, each with what lies in it: what files are for, and the files that are for that. In the order
    they come."""
    found: dict[str, dict[str, list[str]]] = {}
    for path in paths:
        folder = path.rpartition("/")[0]
        found.setdefault(folder, {}).setdefault(told_of(path), []).append(path)
    return [(FOLDERS.get(folder, folder), list(those.items())) for folder, those in found.items()]

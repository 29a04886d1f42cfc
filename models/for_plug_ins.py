"""What a package that adds a part may use: these names, and nothing else of this project, keep their meaning.

VERSION goes up by one when a name goes or changes its meaning; names are added without that. A package that needs
another one raises ImportError, which is told with its name, and costs its part alone.

`Groundwork` promises `job`, `joint`, `glue`, `way` and `cut`; lengths in mm, angles in radians. Nothing of it may be
changed, and nothing slow imported: `check` loads every part.
"""

from __future__ import annotations

from scarfwright.models.findings import Finding, Level
from scarfwright.models.flat.loop import (
    Loop,
    Point,
    Vertex,
    circle,
    polygon,
    rectangle,
    rounded,
    rounded_each,
    slot,
)
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.label import engraved, job_label
from scarfwright.models.part.part import Feature, Mark, Operation, Part, Place, Raised
from scarfwright.models.part.reading import expanded
from scarfwright.models.part.values import Given, Value, Values
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.parts.plug_ins import said

VERSION = 1

__all__ = [
    "VERSION",
    "Feature",
    "Finding",
    "Given",
    "Groundwork",
    "Level",
    "Loop",
    "Mark",
    "Operation",
    "Part",
    "PartKind",
    "Place",
    "Point",
    "Raised",
    "Value",
    "Values",
    "Vertex",
    "circle",
    "engraved",
    "expanded",
    "job_label",
    "polygon",
    "rectangle",
    "rounded",
    "rounded_each",
    "said",
    "say_in",
    "slot",
]

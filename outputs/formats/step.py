"""STEP (ISO 10303-21, AP242): named, coloured solids in millimetres, the same bytes for the same bodies."""

from __future__ import annotations

import errno
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from scarfwright.models.solids.solids import Assembly, Body
from scarfwright.outputs.formats.step_text import pinned


def write_step(things: Sequence[Body] | Assembly, path: Path) -> None:
    """Write bodies as one assembly named after the file, or groups of them as its sub-assemblies.

    Raises OSError if the file did not come out whole.
    """
    root = _grouped(things) if isinstance(things, Assembly) else _flat(things, path.stem)
    _export(root, path)
    text = path.read_text(encoding="ascii")
    if not text.rstrip().endswith("END-ISO-10303-21;"):
        raise OSError(errno.EIO, "the file was cut short, is the disk full?", str(path))
    path.write_text(pinned(text, path.stem), encoding="ascii", newline="\n")


def _flat(bodies: Sequence[Body], name: str) -> Any:
    import cadquery as cq

    if len(bodies) == 1:
        return cq.Assembly(bodies[0].shape, name=bodies[0].name, color=_colour(bodies[0].colour))
    root = cq.Assembly(name=name)
    for body in bodies:
        root.add(body.shape, name=body.name, color=_colour(body.colour))
    return root


def _grouped(assembly: Assembly) -> Any:
    """One sub-assembly a group. A shape that comes back in the same colour is written once and placed again."""
    import cadquery as cq

    root = cq.Assembly(name=assembly.name)
    for group in assembly.groups:
        branch = cq.Assembly(name=group.name)
        for placed in group.placed:
            body, at = placed.body, cq.Location(cq.Vector(*placed.at))
            branch.add(body.shape, loc=at, name=body.name, color=_colour(body.colour))
        root.add(branch, loc=cq.Location(cq.Vector(*group.at)))
    return root


def _export(root: Any, path: Path) -> None:
    """The kernel reports on its standard output; that is not for users, so it is turned down first."""
    import cadquery as cq
    from OCP.Interface import Interface_Static
    from OCP.Message import Message, Message_Gravity
    from OCP.STEPControl import STEPControl_Controller

    for printer in Message.DefaultMessenger_s().Printers():
        printer.SetTraceLevel(Message_Gravity.Message_Alarm)
    STEPControl_Controller.Init_s()  # before it the settings are not there, and the first file would be of another kind
    Interface_Static.SetIVal_s("write.step.schema", 5)
    # every edge once, in space, and not again on its faces: half the file, nothing lost
    if not cq.exporters.assembly.exportAssembly(root, str(path), write_pcurves=False) or not path.exists():
        raise OSError(errno.EIO, "the file could not be written, is the disk full?", str(path))


def _colour(text: str) -> Any:
    import cadquery as cq

    red, green, blue = (int(text[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return cq.Color(red, green, blue, 1.0)

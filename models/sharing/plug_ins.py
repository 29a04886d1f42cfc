"""The packages a job's parts come from, besides this one, as a manifest names them."""

from __future__ import annotations

from scarfwright.models.sharing.manifest import PlugIn
from scarfwright.models.wanted.plug_ins import needed_plug_ins
from scarfwright.models.workup import Workup


def plug_ins_of(work: Workup) -> tuple[PlugIn, ...]:
    """Name and version of every package whose parts are made, in the order of their names."""
    return tuple(PlugIn(*one) for one in needed_plug_ins(work))

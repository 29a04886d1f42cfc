"""One glue-up put together: the joint, where everything stands, and the amounts [mm]."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.gluing.amounts import Amounts, Asked
from scarfwright.models.gluing.stations import Lay
from scarfwright.models.joint.joint import Joint


@dataclass(frozen=True)
class Rest:
    """A riser: its middle, counted from the first tip, and its width along the board; `lip`: it lines the boards up."""

    place: float
    width: float
    lip: bool


@dataclass(frozen=True)
class GluePlan:
    """`stations`: clamps on each long edge, from the first tip; `pad`, `pad_height`, `jaw`: of the clamps;
    `rests`: risers, `rest_height`: theirs; `board_length`: of each board; `wood`: its name, for the sheet."""

    joint: Joint
    stations: tuple[float, ...]
    pad: float
    pad_height: float
    jaw: float
    throat: float
    opening: float
    rests: tuple[Rest, ...]
    rest_height: float
    board_length: float
    lay: Lay
    asked: Asked
    amounts: Amounts

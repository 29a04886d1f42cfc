"""The list of material for a sled, in words."""

from __future__ import annotations

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.drawn import Drawn, drawn_in
from scarfwright.models.sled.material import Bolts, SledMaterial, sled_material
from scarfwright.models.sled.screws import DIAMETER, ScrewLength
from scarfwright.models.words.the_joint.entry import Entry

_BOTH = "makes two sleds"


def size(say: Drawn, sides: tuple[float, ...], *, by_rule: bool = False) -> str:
    """Length x width x thickness: "1520 x 184 x 38 mm", or each with its inch mark. `by_rule`: to what a rule shows,
    for sizes that need be no nearer."""
    told = [say.rule(side) if by_rule else say(side) for side in sides]
    if say.units == "in":
        return " x ".join(told)
    return " x ".join(text.removesuffix(" mm") for text in told) + " mm"


def screws(say: Drawn, count: int, length: ScrewLength) -> str:
    """ "3 countersunk 4.5 mm, 25 to 43 mm long"."""
    return f"{count} countersunk {say(DIAMETER)}, {say.between(length.least, length.most)} long"


def screw_range(say: Drawn, length: ScrewLength) -> str:
    """ "25 to 43 mm long"."""
    return f"{say.between(length.least, length.most)} long"


def sled_list(work: Groundwork) -> tuple[Entry, ...]:
    """What to have at hand before the sled is begun."""
    say, need = drawn_in(work.job.units), sled_material(work.way)
    return (*_wood(work, say, need), *_handle(say, need), *_stops(say, need), _clamps(say, work, need))


def _wood(work: Groundwork, say: Drawn, need: SledMaterial) -> list[Entry]:
    if work.job.sled.made_from == "sheet":
        found = [Entry(f"{need.pieces} of {size(say, need.wood)}, flat", "Sheet", True)]
        if need.dowels:
            diameter, long = need.dowel
            found.append(Entry(f"{need.dowels} of {say(diameter)}, {say.down(long)} long", "Dowels"))
        return found
    return [Entry(f"{size(say, need.wood)}, straight, dry ({_BOTH})", "Plank", True)]


def _handle(say: Drawn, need: SledMaterial) -> list[Entry]:
    if need.handle is None or need.handle_bolts is None:
        return []
    return [Entry(f"{size(say, need.handle, by_rule=True)}; {_bolts(say, need.handle_bolts)}", "Handle")]


def _bolts(say: Drawn, bolts: Bolts) -> str:
    return f"{bolts.count} bolts {say(bolts.diameter)}, {say.rule(bolts.length)} long, from below, heads let in"


def _stops(say: Drawn, need: SledMaterial) -> list[Entry]:
    found = []
    if need.hand_stop is not None:
        how = (
            f"; 2 screws {screw_range(say, need.hand_stop_screw)}" if need.hand_stop_screw is not None else ", glued on"
        )
        found.append(Entry(size(say, need.hand_stop, by_rule=True) + how, "Hand stop"))
    return [*found, Entry(f"{size(say, need.stop_block, by_rule=True)}, with a clamp", "Stop block")]


def _clamps(say: Drawn, work: Groundwork, need: SledMaterial) -> Entry:
    widest = max((c.opening for c in work.way.layout.clamps), default=0.0)
    return Entry(f"{need.clamps}, opening {say.rule_up(widest)} or more", "Clamps")

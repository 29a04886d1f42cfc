"""What holds at every cut of this job, the sled's own cuts too: guard, riving knife, dust, wait until it has stopped.

Sources: push stick EN 1870-19 (400 mm or more; followed by EN ISO 19085-9) and HSE (450 mm or more); run-down HSE
WIS16, WIS38. Dust: common practice, no source.
"""

from __future__ import annotations

from scarfwright.models.cut.knife_and_guard import Knife
from scarfwright.models.lengths.length import Unit
from scarfwright.models.lengths.say import Say
from scarfwright.models.words.at_the_saw import knife_and_guard

DUST = "Run the dust extraction and wear a dust mask: wood dust harms the lungs."
STOPPED = "Switch off and wait until the blade has STOPPED before you reach for anything."
RUN_DOWN = "It runs down in 10 s or less with a brake (HSE WIS38), longer without."
GUARD = (
    "Keep the crown guard (US blade guard) on wherever it passes; where it can't, do first what the saw maker's manual "
    "and local rules say."
)


def push_stick(units: Unit) -> str:
    """How long the push stick is: the longer of two published figures."""
    return "450 mm" if units == "mm" else "18 in"


def at_every_cut(knife: Knife, say: Say) -> tuple[str, ...]:
    """Whole sentences for any sheet that has somebody cut: guard, riving knife, dust, and to wait."""
    return (GUARD, f"Riving knife: {knife_and_guard.knife(knife, say)}", DUST, f"{STOPPED} {RUN_DOWN}")

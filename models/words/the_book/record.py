"""What to write down while the joints are cut, so that the next set-up needs no guessing."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import say_in


@dataclass(frozen=True)
class Blank:
    """One thing to fill in: its own short name for ids, what it is, and what was planned (empty: nothing)."""

    name: str
    what: str
    planned: str = ""


def record(work: Groundwork) -> tuple[tuple[str, tuple[Blank, ...]], ...]:
    """Headings, each with its blanks, in the order they come to hand."""
    say, way, joint = say_in(work.job.units), work.way, work.joint
    return (
        (
            "The sled as made",
            (
                Blank("heel", "Heel", say(way.sled.heel)),
                Blank("nose", "Nose", say(way.sled.nose)),
                Blank("length", "Length", say(way.sled.length)),
            ),
        ),
        (
            "The saw as set",
            (
                Blank("date", "Date"),
                Blank("blade", "Blade in the saw"),
                Blank("fence", "Fence, to a tooth", say(way.fence)),
                Blank("height", "Blade height", say(way.blade.height)),
            ),
        ),
        (
            "The test joint",
            (
                Blank("tip", "Tip", say(joint.tip)),
                Blank("run", "Taper run", say(joint.taper_run)),
                Blank("gap", "Widest gap, held flat", "0"),
                Blank("change", "What was changed after it"),
            ),
        ),
        (
            "Gluing",
            (
                Blank("glue", "Glue and batch"),
                Blank("warmth", "Warmth, and moisture of the wood"),
                Blank("clamped", "In clamps from, until"),
                Blank("sample", "Bend test: load held, sag, how it broke"),
            ),
        ),
    )

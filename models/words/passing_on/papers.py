"""The two texts that go with a job that is passed on: what to read first, and the licence."""

from __future__ import annotations

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.at_the_saw.procedure import cautions

ALL_RIGHTS = "all rights stay with its maker"


def whose_saw(job: Job) -> str:
    """The saw and the clamps a job is for, by the sizes that decide about hands and blade."""
    say, saw, clamp = say_in(job.units), job.saw, job.clamp
    return (
        f"blade {say(saw.blade_diameter)}, kerf {say.fine(saw.kerf)}, plate {say.fine(saw.plate)}, riving knife "
        f"{say.fine(saw.riving_knife)}, deepest cut {say(saw.max_depth)}, fence on the {saw.fence_side}; clamps that "
        f"open {say(clamp.opening)}, throat {say(clamp.throat)}, pads {say(clamp.pad_width)} x {say(clamp.pad_height)}"
    )


def read_first(work: Groundwork, licence: str | None) -> str:
    """READ-FIRST.txt: the cautions, whose saw it is for, how to check it, whose it is."""
    name = work.job.title or "A sled for long scarf joints"
    lines = [
        f"{name}: a scarf-joint sled, passed on as files",
        "",
        "SAWING CAN MAIM",
        *(f"- {text}" for text in cautions(work)),
        "",
        "WHOSE SAW",
        f"Worked out for this saw and these clamps, and for no others: {whose_saw(work.job)}.",
        "At another saw these figures may bring a clamp or a hand to the blade. Make the job your own first: saw,",
        "clamps and machines then come from your own file, the rest from here.",
        "    scarfwright start mine.toml --from NAME.zip --shop my-shop.toml",
        "",
        "CHECK IT",
        "    scarfwright check NAME.zip    works the numbers out again",
        "    scarfwright make NAME.zip     makes every file anew and compares the bytes",
        "    scarfwright check FOLDER      once unpacked: whether every file is whole",
        "",
        "WHOSE IT IS",
        licence_line(licence) + " See LICENCE.txt.",
    ]
    return "\n".join(lines) + "\n"


def licence_line(licence: str | None) -> str:
    """The licence in a sentence."""
    if licence is None:
        return f"No licence was chosen: {ALL_RIGHTS}."
    return f"Passed on by its maker under {licence} (names of the SPDX License List)."


def licence_text(title: str, licence: str | None) -> str:
    """LICENCE.txt."""
    name = f'"{title}"' if title else "this job"
    head = f"Licence of {name}: the job file and all files made from it\n\n"
    if licence is None:
        return head + (
            "All rights stay with the person who made this job. It was passed on without a licence: to copy, change\n"
            "or pass on what is in it needs that person's leave. Ask who gave it to you.\n"
        )
    return head + (
        f"SPDX-License-Identifier: {licence}\n\n"
        "The maker of this job passes it on under the terms of that name in the SPDX License List (ISO/IEC 5962),\n"
        "where their text is found: https://spdx.org/licenses/\n"
    )

"""Findings about the paper of the full-size templates."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.paper import FOOT, HEAD, LEAST_ROLL, MARGIN, MOST, OVERLAP, paper_of
from scarfwright.models.lengths.say import Say


def check_paper(work: Groundwork, say: Say) -> Iterator[Finding]:
    """Sheets of a standard always do; a roll may not. Without paper the templates are not made."""
    width = paper_of(work.job.files).height
    taken = 2 * MARGIN + HEAD + FOOT + OVERLAP
    if width < LEAST_ROLL:
        yield finding(
            "paper.roll_narrow",
            f"paper/templates.pdf is not made: of a roll {say(width)} wide, margins, scales and overlap take "
            f"{say(taken)}, and the drawing pages need {say(LEAST_ROLL)}. Set [files] roll_width to "
            f'{say.up(LEAST_ROLL)} or more, or paper = "A4".',
            roll_width_mm=width,
            taken_mm=taken,
            needed_mm=LEAST_ROLL,
        )
    if width > MOST:
        yield finding(
            "paper.roll_wide",
            f"paper/templates.pdf is not made: a roll {say(width)} wide is more than the {say(MOST)} a PDF page may "
            f"measure. Set [files] roll_width to {say.down(MOST)} or less.",
            roll_width_mm=width,
            most_mm=MOST,
        )

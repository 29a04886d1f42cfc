"""What is said while the sled is moved through the cut on a screen: one sentence a stretch, names of moments, views.

What is said of risks is common practice, no source, and never replaces the saw maker's manual.
"""

from __future__ import annotations

from scarfwright.models.cut.moments import Passage, Stretch
from scarfwright.models.cut.sides import sides
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.words.at_the_saw.endings import bound, meeting

MOMENTS = {
    "start": "Start",
    "offcut_free": "Offcut free",
    "done": "Taper complete",
    "clear": "Blade clear",
    "limit": "Travel limit",
}
VIEWS = {"stand": "Where you stand", "above": "From above", "side": "From the side", "near": "Near the blade"}
NO_3D = "This browser shows no 3D picture. The plan and the side view below show the same."
SLIDER = "Travel: how far the sled's heel is past the blade's centre"
PICTURE = "The cut in 3D. Drag it, or use the left and right arrow keys, to turn it."
SEEN_FROM, MOVE_TO = "Seen from", "Move the sled to"
RUNS, YOU = "the sled runs this way", "you stand at this end"
PLAN, SIDE = "Plan, from above", "Side view, from the free side"


def told(work: Groundwork, cut: Passage, stretch: Stretch) -> str:
    """What can be said from one travel to another, in the job's units."""
    say = say_in(work.job.units)
    return {
        "before": _before,
        "cutting": _cutting,
        "lip": _lip,
        "blade_in_taper": _blade_in_taper,
        "at_block": _at_block,
        "past_block": _past_block,
        "at_limit": _at_limit,
    }[stretch.kind](work, cut, stretch, say)


SHORT, PAST = "short of the blade's centre", "past the blade's centre"


def where(travel: float, say: Say) -> str:
    """A travel in words: before the blade's centre, or past it."""
    return f"{say(abs(travel))} {SHORT if travel < 0 else PAST}"


def colours(work: Groundwork, cut: Passage) -> str:
    """What the colours stand for, and from where plan and side view are seen."""
    free, fence = sides(work.job).free, sides(work.job).fence
    feed = "left" if fence == "right" else "right"
    you = "right" if fence == "right" else "left"
    text = (
        f"Plan and side view are seen from the free side, your {free}: you stand at the {you} edge of them and push to "
        f"the {feed}; the fence lies at the top. Red line on the sled: hands stay on your side of it."
    )
    if cut.first is not None and cut.first.station is not None:
        say = say_in(work.job.units)
        text += f" Yellow: {bound(cut.first, say)}, the first thing in the way."
    return text


def _before(_work: Groundwork, cut: Passage, stretch: Stretch, say: Say) -> str:
    return (
        f"Start with the heel {say(-cut.start)} short of the blade's centre, the blade at full speed, touching "
        f"nothing. It meets the board {say(stretch.end - stretch.start)} further on."
    )


def _cutting(_work: Groundwork, cut: Passage, _stretch: Stretch, say: Say) -> str:
    free = [m.travel for m in cut.moments if m.name == "offcut_free"]
    steady = "The blade is in the board. Feed steadily, the sled against the fence and down on the table"
    if not free:
        return f"{steady}. There is no offcut: the kerf is as wide as the board is thick."
    return f"{steady}. The offcut comes free with the heel {where(free[0], say)}."


def _lip(work: Groundwork, _cut: Passage, stretch: Stretch, say: Say) -> str:
    lip = say(work.cut.advice.lip)
    return (
        f"The offcut is free, the taper is not complete: keep pushing {say.up(stretch.left)}. A lip up to {lip} thick "
        f"still stands on the board. Leave the offcut where it fell, on the {sides(work.job).free}."
    )


def _blade_in_taper(_work: Groundwork, cut: Passage, _stretch: Stretch, say: Say) -> str:
    return (
        "The taper is complete, the blade still runs beside it. Push on in one go to the stop block, "
        f"{where(cut.block, say)}; never stop or draw back here."
    )


def _at_block(work: Groundwork, cut: Passage, _stretch: Stretch, say: Say) -> str:
    at, ending = where(cut.block, say), work.job.saw.end_of_cut
    if ending == "run_on":
        return (
            f"The blade is clear of the taper. Hold the sled down and against the stop block, {at}, switch off by knee "
            "or helper, and wait until the blade has STOPPED."
        )
    if ending == "draw_back":
        return (
            f"The taper is complete. Stop at the stop block, {at}, then draw straight back along the fence until the "
            "blade is free of the work. KICKBACK: if anything is not as it should be, hold and switch off instead."
        )
    return (
        f"The taper is complete. Hold the sled down and against the stop block, {at}, switch off by knee or helper, "
        "and wait until the blade has STOPPED."
    )


def _past_block(_work: Groundwork, cut: Passage, _stretch: Stretch, say: Say) -> str:
    assert cut.first is not None
    return (
        "Past the end of the cut: only a sled that the stop block does not hold gets here. "
        f"{_capital(bound(cut.first, say))} meets the {cut.first.meets} {meeting(cut.first.travel, say)}."
    )


def _at_limit(work: Groundwork, cut: Passage, _stretch: Stretch, say: Say) -> str:
    assert cut.first is not None
    meets, clear = f"meets the {cut.first.meets}", float(work.job.saw.side_clearance)
    if cut.first.meets == "blade" and clear > 0:
        meets = f"comes within {say(clear)} of the blade"
    return f"The travel limit. Never push so far: here {bound(cut.first, say)} {meets}."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]

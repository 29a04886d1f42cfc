"""The sentences of the cut as they must read, for three jobs: cautions, check list, order of work.

They stand here and nowhere else in the tests: who words one better renews it here, on purpose. The figures in them are
worked out by hand in test_words_of_the_procedure.py.
"""

from __future__ import annotations

from functools import cache

from scarfwright.models.workup import Workup

from tests.cut_jobs import worked

# 22 x 60 at 1 in 12, blade 254 with kerf 2.5 raised 66, plank 184: see cut_jobs. Held against the block; pushed on
# until the blade is clear, a board of unknown length; drawn back, fence on the left, no riving knife, a board of 2.4 m.
JOBS = ("hold", "run_on", "draw_back")

MANUAL = "The saw maker's manual, local rules and competent instruction come first."
EYES = "Eyes and ears protected; no gloves, loose sleeves or loose hair at a turning blade."
HANDS = "Hands never past the line {hand} from the heel, never over or behind a turning blade."
KICKBACK = (
    "Kickback: stand out of the line of the blade and nobody else in it; riving knife on; never lift, twist or let go "
    "of the sled in the cut."
)
STANDS = "Switch off and wait until the blade STANDS before reaching for anything, the offcut on the {free} above all."
UNPLUG = "Unplug the saw to change or set the blade, the knife or the stop block."
INFEED = "INFEED SUPPORT FIRST: without it sled and board tip off the table, blade running."
DRAWN = (
    "Risk: KICKBACK. The rising teeth at the back of the blade run towards the operator along the finished face; the "
    "least twist or a dropped offcut in the way lets them throw sled and work. Last choice."
)
CAUTIONS = {
    "hold": (MANUAL, EYES, HANDS, KICKBACK, STANDS, UNPLUG),
    "run_on": (INFEED, MANUAL, EYES, HANDS, KICKBACK, STANDS, UNPLUG),
    "draw_back": (DRAWN, INFEED, MANUAL, EYES, HANDS, KICKBACK, STANDS, UNPLUG),
}

END_STEP = {
    "hold": "Taper complete at {done} past the axis, where the heel meets the stop block: hold the sled down and "
    "against it, switch off by knee or helper, and wait until the blade STANDS.",
    "run_on": "Push on in one go, taper complete at {done} past the axis, until the blade is clear at {clear}, where "
    "the heel meets the stop block; hold there, switch off, wait until the blade stands.",
    "draw_back": "Taper complete at {done} past the axis, where the heel meets the stop block: stop, and draw straight "
    "back along the fence until the blade is free of the work, then switch off and wait until it stands. KICKBACK: if "
    "anything is not as it should be, hold and switch off instead.",
}
STEPS = (
    "Saw unplugged: set fence, blade height, riving knife, stop block and infeed support; walk through the check list; "
    "push once through dry.",
    "Plug in. Board's end flush with the heel, clamps tight, no light at the heel.",
    "Start with the heel {start} inside the table's front edge, {before} before the blade's axis, the blade at full "
    "speed and touching nothing.",
    "Sled against the fence and down on the table, both hands behind the line; feed steadily, heel first.",
    "When the offcut drops the cut is not done: go on by {go_on}. Until then a lip up to 2.5 mm thick stands on the "
    "work, and the joint cannot close on it. The offcut falls on the {free} and stays there.",
    "",  # the end, each its own
    "Only when the blade stands: take off the offcut, draw the sled back, loosen the clamps.",
    "Look at the face: no lip at the thick end, no step, no burn. A burnt face does not glue: cut it again.",
)

KNIFE_RULE = "between 2 mm (plate + 0.2 mm) and under 2.5 mm (kerf)"
KNIFE_PLACE = "3 mm to 8 mm behind the teeth, its top 64 mm above the table or less (EN 1870 series)."
KNIFE = f"The riving knife stays on, this is a through cut: 2.2 mm thick, {KNIFE_RULE}; {KNIFE_PLACE}"
NO_KNIFE = f"A through cut wants a riving knife: {KNIFE_RULE}, {KNIFE_PLACE}"
STOP = (
    "Stop block clamped to the fence, on its blade side and clear of the blade, its near face {stop} from the table's "
    "front edge ({stop_past} past the blade's axis): the sled's heel end runs against it. Make it narrower than the "
    "heel ({heel}) and chamfer its lower edge: sawdust must not hold the sled off."
)
OFF_TABLE = " That is {off} past the table's back edge: it needs an outfeed table and a fence that reaches so far."
ON_TABLE = "At the end of the cut the sled's heel still lies on the table."
PAST_TABLE = (
    "At the end of the cut the heel runs {past} past the table's back edge: keep that room free. The table still "
    "carries sled and board."
)
BALANCED = (
    "With a board 900 mm long sled and board balance on the table from the start: about {balance} inside its front "
    "edge. No infeed support needed."
)
TIPS = (
    "With a board 2400 mm long{assumed} sled and board have their centre of mass about {balance} before the table's "
    "front edge at the start: without infeed support everything tips off. Set a roller or trestle level with the "
    "table, {nearest} to {furthest} before the front edge (best {best}), under the board: from {beyond} beyond the "
    "fence's line to {beside} on the blade's side of it. Sled and board taken as equally dense, clamps left out."
)
CHECKS = {
    "Saw": "unplugged; a sharp rip blade, clean; the switch within reach of a knee, or a helper at it.",
    "Riving knife": KNIFE,
    "Fence": "to the blade's near face: heel as measured + 0.4 mm, {fence} by the heel of {heel}; on the {side}.",
    "Fence parallel": "the same distance to one tooth turned to the blade's front and to its back, 222.8 mm apart on "
    "the table; never less at the back.",
    "Blade height": "66 mm above the table: work 60 mm and 6 mm.",
    "Blade square": "to the table, by a square over its whole 66 mm.",
    "Stop block": STOP,
    "Board's end": "square, and flush with the heel; no loose knot or metal in the taper.",
    "Work square": "to the table, by a square over its whole 60 mm, at the heel and at each clamp.",
    "Light": "none between board and work edge on the unclamped {loose} from the heel to its clamp: a gap there comes "
    "out up to twice in the glue line.",
    "Clamps": "tight, at {clamps} from the heel along the work edge; pads' lower edge 18 mm above the table, not the "
    "18 mm lower they could go: the blade would come sooner; outer jaws 12 mm off the work at most, no screw, bar end "
    "or handle past them towards the blade; only a clamp on the nose past the fence edge.",
    "Infeed": BALANCED,
    "Outfeed": ON_TABLE,
    "Hands": "behind the line {hand} from the heel, to the end of the cut.",
    "Dry run": "saw unplugged: push from the start to the stop block; nothing meets blade, guard or fence, and the "
    "sled lies against the fence and down on the table all the way.",
}
OTHER_CHECKS: dict[str, dict[str, str]] = {
    "hold": {},
    "run_on": {"Stop block": STOP + OFF_TABLE, "Infeed": TIPS, "Outfeed": PAST_TABLE},
    "draw_back": {"Riving knife": NO_KNIFE, "Infeed": TIPS},
}

# the figures as they are told; test_words_of_the_procedure.py finds them again from the job's measures
FIGURES = {
    "hold": {
        "hand": "690 mm", "free": "left", "side": "right", "done": "220.9 mm", "start": "563.6 mm",
        "before": "136.4 mm", "go_on": "30 mm", "stop": "921 mm", "stop_past": "221 mm", "heel": "126.2 mm",
        "fence": "126.6 mm", "loose": "380 mm", "clamps": "395 mm, 837.5 mm", "balance": "170 mm",
    },
    "run_on": {
        "hand": "900 mm", "free": "left", "side": "right", "done": "222.6 mm", "clear": "432.8 mm",
        "start": "563.6 mm", "before": "136.4 mm", "go_on": "30.2 mm", "stop": "1132.8 mm", "stop_past": "432.8 mm",
        "off": "52.8 mm", "past": "52.8 mm", "heel": "132.2 mm", "fence": "132.6 mm", "loose": "536 mm",
        "clamps": "551 mm, 987.4 mm", "balance": "230 mm", "assumed": " (assumed: the job gives no length)",
        "nearest": "290 mm", "furthest": "1520 mm", "best": "910 mm", "beyond": "10 mm", "beside": "30 mm",
    },
    "draw_back": {
        "hand": "690 mm", "free": "right", "side": "left", "done": "220.9 mm", "start": "563.6 mm",
        "before": "136.4 mm", "go_on": "30 mm", "stop": "921 mm", "stop_past": "221 mm", "heel": "126.2 mm",
        "fence": "126.6 mm", "loose": "380 mm", "clamps": "395 mm, 837.5 mm", "balance": "240 mm", "assumed": "",
        "nearest": "290 mm", "furthest": "1520 mm", "best": "910 mm", "beyond": "20 mm", "beside": "30 mm",
    },
}  # fmt: skip


@cache
def work_of(name: str) -> Workup:
    if name == "hold":
        return worked()
    if name == "run_on":
        return worked(saw={"end_of_cut": name}, sled={"length": "1000 mm"}, stock={"length": None})
    return worked(
        saw={"end_of_cut": name, "fence_side": "left", "riving_knife": 0},
        stock={"length": "2.4 m"},
    )


def told(name: str, text: str) -> str:
    return text.format(**FIGURES[name])


def expected_cautions(name: str) -> tuple[str, ...]:
    return tuple(told(name, text) for text in CAUTIONS[name])


def expected_steps(name: str) -> tuple[str, ...]:
    return tuple(told(name, text or END_STEP[name]) for text in STEPS)


def expected_checks(name: str) -> dict[str, str]:
    return {what: told(name, text) for what, text in (CHECKS | OTHER_CHECKS[name]).items()}

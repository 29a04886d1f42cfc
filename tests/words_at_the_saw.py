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
EYES = "Protect eyes, ears and lungs. No gloves, loose sleeves or loose hair near a turning blade."
HANDS = "HANDS: keep both on your side of the line {hand} from the heel. Never reach over or past a turning blade."
KICKBACK = (
    "KICKBACK throws the work at you: stand on the {free}, the free side, out of the line of the blade, nobody else in "
    "it. Never lift, twist or let go of the sled in the cut."
)
STOPPED = (
    "Switch off and wait until the blade has STOPPED before you reach for anything, the offcut on the {free} above all."
)
UNPLUG = "Unplug the saw to change or set blade, riving knife, guard or stop block."
INFEED = "INFEED SUPPORT FIRST. Without it sled and board tip off the table while the blade is running."
DRAWN = (
    "Risk: KICKBACK. The teeth at the far side of the blade rise and run towards you along the finished face; the "
    "least "
    "twist, or an offcut in the way, lets them throw sled and board at you. Last choice."
)
CAUTIONS = {
    "hold": (MANUAL, EYES, HANDS, KICKBACK, STOPPED, UNPLUG),
    "run_on": (INFEED, MANUAL, EYES, HANDS, KICKBACK, STOPPED, UNPLUG),
    "draw_back": (DRAWN, INFEED, MANUAL, EYES, HANDS, KICKBACK, STOPPED, UNPLUG),
}

AT_STOP = "Stop at the stop block, {stop_past} beyond the blade's centre: the taper is complete."
END_STEP = {
    "hold": AT_STOP + " Hold the sled down and against it, switch off by knee or helper, and wait until the blade has "
    "STOPPED.",
    "run_on": "Push on in one go until the heel meets the stop block, {stop_past} beyond the blade's centre: the "
    "blade is "
    "clear of the taper. Hold there, switch off, and wait until the blade has STOPPED.",
    "draw_back": AT_STOP
    + " Draw straight back along the fence until the blade is free of the work, then switch off and "
    "wait until it has STOPPED. KICKBACK: if anything is not as it should be, hold and switch off instead.",
}
STEPS = (
    "Unplug the saw. Set riving knife, fence, blade height, stop block and supports by the check list.",
    "Cut a test joint first, in scrap of the same thickness and height.",
    "Stand the board on the sled, the end to be tapered flush with the heel. The face that lies on the sled keeps the "
    "feather end: pick it so that the grain runs out along the cut, not across it. Both boards the same edge down.",
    "Close the clamps. Look for light at the heel. Push once through dry. Tighten every clamp again.",
    "Plug in. Stand on the {free}, beside the line of the blade, with knee or helper at the switch.",
    "Start with the heel {start} inside the table's front edge, {before} short of the blade's centre. Let the blade "
    "reach "
    "full speed, touching nothing.",
    "Press the sled against the fence and down on the table, both hands on your side of the line. Feed steadily, heel "
    "first.",
    "Keep pushing {go_on} after the offcut drops. Until then a lip up to 2.5 mm thick is left on the board and holds "
    "the "
    "joint open. The offcut falls on the {free}: leave it there.",
    "",  # the end, each its own
    "Stay, both hands on the sled, until the blade has stopped; never let go. It runs down in 10 s or less with a "
    "brake "
    "(HSE WIS38), longer without.",
    "Now take the offcut off with a push stick 450 mm or longer. Draw the sled back. Loosen the clamps.",
    "Look at the face: no lip at the thick end, no step, no burn. A burnt face does not glue: cut it again.",
)

KNIFE_PLACE = "Set it 3 mm to 8 mm from the teeth, its top 64 mm above the table or lower (EN 1870-19)."
KNIFE = (
    "Keep it fitted, the cut goes right through: 2.2 mm thick (2 mm or more, less than the 2.5 mm kerf). " + KNIFE_PLACE
)
NO_KNIFE = "Fit one, the cut goes right through: 2 mm thick or more, less than the 2.5 mm kerf. " + KNIFE_PLACE
STOP = (
    "Clamp it to the fence, on its blade side and clear of the blade, its near face {stop} from the table's front edge "
    "({stop_past} beyond the blade's centre). The sled's heel end runs against it. Make it narrower than the heel "
    "({heel}). Chamfer its lower edge, so that sawdust can't hold the sled off."
)
OFF_TABLE = " It would hang {past} past the table's far edge: add an outfeed table and a longer fence."
RECEIVES = (
    " The table ends less than 1200 mm beyond the blade's centre (HSE, circular saw bench): add an outfeed table, or "
    "have "
    "a helper who only receives and never pulls."
)
ON_TABLE = "At the end of the cut the sled's heel still lies on the table." + RECEIVES
PAST_TABLE = (
    "Keep {past} free beyond the table's far edge: the heel runs out there at the end of the cut. The table still "
    "carries "
    "sled and board." + RECEIVES
)
BALANCED = (
    "No infeed support needed. Sled and a board 900 mm long balance {balance} inside the table's front edge from the "
    "start, with a hand on the far handle (100 N; common practice, no source) too."
)
TIPS = (
    "Set a roller or trestle in front of the table, on your side: {nearest} to {furthest} out from its edge (best "
    "{best}), under the board, from {beyond} beyond the fence's face to {beside} on the blade's side of it. Level "
    "with the "
    "table or a hair high, never low; a roller's axis square to the fence. Without it everything tips off: sled and a "
    "board 2400 mm long{assumed} balance {balance} outside the table's front edge at the start."
)
CHECKS = {
    "Saw": "Unplug it. Sharp, clean rip blade without cracks. Switch within reach of your knee from where you stand, "
    "or a "
    "helper who touches only the switch.",
    "Insert": "Fit a zero-clearance insert (throat plate): the offcut must not drop beside the blade.",
    "Riving knife": KNIFE,
    "Guard": "Keep the crown guard (US blade guard) on where it passes: it must lift 60 mm (board and sled) and reach "
    "no "
    "further than {ahead} from the blade's centre towards you (the nearest clamp). It rides on the work, or "
    "within 6 mm of it. Where it can't: riving knife on, "
    "hands "
    "on your side of the line, a guard on an arm of its own above the clamps, and first what the saw maker's manual "
    "and "
    "local rules say of jigs. Pawls must not catch when the sled comes back. Put the guard back after the cut.",
    "Dust": "Run the dust extraction and wear a dust mask: wood dust harms the lungs.",
    "Fence": "Measure the heel with callipers, add 0.4 mm, and set the fence to that, on the {side} ({fence} if the "
    "heel "
    "came out at {heel}). Measure to a tooth that is set towards the fence. To the blade's plate instead, add 0.75 mm "
    "to "
    "the heel.",
    "Fence parallel": "Mark one tooth. Measure from the fence to it at the front of the blade, turn it to the back "
    "(222.8 "
    "mm further on), measure again. Equal, or a hair more at the back; never less.",
    "Blade height": "Raise it 66 mm above the table: the board's 60 mm and 6 mm.",
    "Blade square": "Set it at 90 degrees to the table: try square against the plate, full height.",
    "Stop block": STOP,
    "Board": "End square and flush with the heel; no loose knot and no metal in the taper.",
    "Board upright": "Try square from the table, full 60 mm, at the heel and at each clamp.",
    "Board tight": "Look for light between board and work edge along the {loose} from the heel to the first clamp. "
    "Any gap "
    "there doubles in the glue line.",
    "Feather": "Loose over the {loose} from the heel to the first clamp: hold it there with thin double-sided tape, "
    "the same tape at the nose end too (common practice, no source). Never by hand.",
    "Clamps": "Look at each before every cut: tight, at {clamps} from the heel along the work edge. Set the lower "
    "edge of "
    "each pad 18 mm above the table. Do not push a clamp down until it bottoms: the blade would reach it sooner. Outer "
    "jaws 12 mm off the board at most; no screw, bar end or handle past them towards the blade. In a notch: only "
    "clamps slim on both sides, a screw on neither. Only the nose clamp stands past the fence edge. A bar past the "
    "fence edge must pass over the fence (65 mm): it is 78 mm up.",
    "Infeed": BALANCED,
    "Outfeed": ON_TABLE,
    "Hands": "Keep both on your side of the line {hand} from the heel, to the end of the cut.",
    "Push stick": "Lay one 450 mm or longer within reach, for the offcut.",
    "Dry run": "Saw unplugged, push from the start to the stop block. Nothing meets blade, guard or fence, and the "
    "sled "
    "lies against the fence and down on the table all the way.",
}
OTHER_CHECKS: dict[str, dict[str, str]] = {
    "hold": {},
    "run_on": {"Stop block": STOP + OFF_TABLE, "Infeed": TIPS, "Outfeed": PAST_TABLE},
    "draw_back": {"Riving knife": NO_KNIFE, "Infeed": TIPS},
}

# the figures as they are told; test_words_of_the_procedure.py finds them again from the job's measures
FIGURES = {
    "hold": {
        "hand": "540 mm", "free": "left", "side": "right", "start": "663 mm", "before": "137 mm", "go_on": "30 mm",
        "stop": "1021 mm", "stop_past": "221 mm", "heel": "126.2 mm", "fence": "126.6 mm", "loose": "380 mm",
        "clamps": "395 mm, 837.5 mm", "balance": "270 mm", "ahead": "144.7 mm",
    },
    "run_on": {
        "hand": "750 mm", "free": "left", "side": "right", "start": "663 mm", "before": "137 mm", "go_on": "30.2 mm",
        "stop": "1233 mm", "stop_past": "433 mm", "past": "53 mm", "heel": "132.2 mm", "fence": "132.6 mm",
        "loose": "536 mm", "clamps": "551 mm, 987.4 mm", "balance": "130 mm",
        "assumed": " (assumed: the job gives no length)", "nearest": "200 mm", "furthest": "1520 mm", "best": "860 mm",
        "beyond": "10 mm", "beside": "30 mm", "ahead": "88.3 mm",
    },
    "draw_back": {
        "hand": "540 mm", "free": "right", "side": "left", "start": "663 mm", "before": "137 mm", "go_on": "30 mm",
        "stop": "1021 mm", "stop_past": "221 mm", "heel": "126.2 mm", "fence": "126.6 mm", "loose": "380 mm",
        "clamps": "395 mm, 837.5 mm", "balance": "140 mm", "assumed": "", "nearest": "190 mm", "furthest": "1520 mm",
        "best": "860 mm", "beyond": "20 mm", "beside": "20 mm", "ahead": "144.7 mm",
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

"""What is said of blade, knife, guard, feed and fence when something is wrong: whole sentences, mm and inches."""

from __future__ import annotations

from typing import Any

from scarfwright.models.cut.feed import Feed
from scarfwright.models.cut.fence import FenceSetting
from scarfwright.models.cut.knife_and_guard import Guard, Knife
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.words.at_the_saw import feed, fence, knife_and_guard, saw

MM, IN = say_in("mm"), say_in("in")
SAID = {**feed.SENTENCES, **knife_and_guard.SENTENCES, **saw.SENTENCES}

RISES: dict[str, float] = {"blade_height_mm": 66, "work_height_mm": 60, "blade_above_work_mm": 6}
HOOD = (
    "Keep the crown guard (US blade guard) on where it passes: it must lift 60 mm (board and sled) and reach no "
    "further than 102.3 mm from the blade's centre towards you (the nearest clamp). It rides on the work, or "
    "within 6 mm of it. Where it can't: riving knife on, "
    "hands on your side of the line, a guard on an arm of its own above the clamps, and first what the saw maker's "
    "manual and local rules say of jigs. Pawls must not catch when the sled comes back. Put the guard back after "
    "the cut."
)
OTHER_BLADE = "change the blade for one whose kerf is more than 0.2 mm wider than its plate."
OTHER_BLADE_IN = OTHER_BLADE.replace("0.2 mm", "0.008 in")

FOUND: list[tuple[str, Say, dict[str, Any], str]] = [
    (
        "blade.over_marked_speed", MM, {"speed_per_min": 6000, "marked_per_min": 5500},
        "The saw turns the blade at 6000 a minute, and 5500 is marked on it: it can burst. Run it at 5500 or "
        "slower, or "
        "fit a blade that is marked for 6000 or more.",
    ),
    (
        "blade.rim_too_fast", MM, {"rim_m_s": 106.4, "most_m_s": 100, "usual_m_s": 80, "usual_per_min": 6015.9},
        "The teeth would run at 106.4 m/s, more than the 100.0 m/s that makers of carbide blades give for wood at "
        "most: "
        "the blade can burst. Measure rpm again. Run this blade at 6015 a minute or slower (80.0 m/s).",
    ),
    (
        "blade.rim_fast", IN, {"rim_m_s": 90, "usual_m_s": 80, "usual_per_min": 6015.9},
        "The teeth run at 17717 ft/min (90.0 m/s), more than the 15748 ft/min (80.0 m/s) that makers of carbide blades "
        "call usual (advice, no standard). Read the speed marked on the blade and never exceed it; 6015 a minute or "
        "slower keeps to the usual.",
    ),
    (
        "blade.not_for_ripping", MM, {"teeth": 60, "most": 30},
        "A blade of 60 teeth is made for cross cuts: along the grain its gullets clog, it burns, and a burnt face does "
        "not glue. Use a rip blade of 30 teeth or fewer (common practice, no source).",
    ),
    (
        "feed.faster_than_hand", MM, {"feed_time_s": 3, "shortest_s": 3.91},
        "In 3 s the sled runs faster than 5 m/min, and a hand that pushes so fast can't stop (common practice, no "
        "source). Take 4.0 s or more.",
    ),
    (
        "feed.faster_than_hand", IN, {"feed_time_s": 3, "shortest_s": 3.91},
        "In 3 s the sled runs faster than 16 ft/min, and a hand that pushes so fast can't stop (common practice, no "
        "source). Take 4.0 s or more.",
    ),
    (
        "feed.too_slow", MM, {"tooth_feed_mm": 0.0125, "least_mm": 0.02, "feed_time_s": 16.5, "longest_s": 10.39},
        "In 16.5 s each tooth cuts only 0.013 mm, less than 0.02 mm: it rubs and burns, and a burnt face does not "
        "glue. "
        "Take 10.3 s or less, or use fewer teeth.",
    ),
    (
        "feed.too_slow", MM, {"tooth_feed_mm": 0.0125, "least_mm": 0.02, "feed_time_s": 16.5, "longest_s": None},
        "In 16.5 s each tooth cuts only 0.013 mm, less than 0.02 mm: it rubs and burns, and a burnt face does not "
        "glue. "
        "Use fewer teeth, or a slower blade.",
    ),
    (
        "feed.too_fast", MM, {"tooth_feed_mm": 0.15, "most_mm": 0.1, "feed_time_s": 4, "shortest_s": 6.01},
        "In 4 s each tooth cuts 0.15 mm, more than 0.1 mm: the saw bogs down or throws the work. Take 6.1 s or more.",
    ),
    (
        "blade.plate_too_thick", MM, {"plate_mm": 2.5, "kerf_mm": 2.5},
        "The blade's plate (2.5 mm) is as thick as its kerf (2.5 mm) or thicker: it would rub and burn, and no riving "
        "knife can fit. Measure both again ([saw] kerf, plate).",
    ),
    (
        "knife.none", MM, {"least_mm": 2.0, "under_mm": 2.5, "top_mm": 64.07},
        "A saw without riving knife (riving_knife = 0) can throw the work. Fit one, the cut goes right through: 2 mm "
        "thick or more, less than the 2.5 mm kerf. Set it 3 mm to 8 mm from the teeth, its top 64 mm above the table "
        "or lower (EN 1870-19). Where the saw has no place for a riving knife fit a splitter.",
    ),
    (
        "knife.none", IN, {"least_mm": 2.5, "under_mm": 2.5, "top_mm": 64},
        f"A saw without riving knife (riving_knife = 0) can throw the work. Fit one: {OTHER_BLADE_IN} Where the saw "
        "has no place for a riving knife fit a splitter.",
    ),
    (
        "knife.thicker_than_kerf", MM, {"knife_mm": 2.6, "kerf_mm": 2.5, "least_mm": 2.0},
        "The riving knife (2.6 mm) does not go into the 2.5 mm kerf: the work jams on it, and a through cut must "
        "not be "
        "made without it. Fit a knife 2 mm thick or more, less than the 2.5 mm kerf. Measure yours: the figures may be "
        "defaults.",
    ),
    (
        "knife.too_thin", MM, {"knife_mm": 2.3, "plate_mm": 2.3, "kerf_mm": 2.5, "least_mm": 2.5},
        "The riving knife (2.3 mm) is less than 0.2 mm thicker than the blade's plate (2.3 mm; EN 1870-19): a kerf "
        "that "
        f"closes would pinch the blade. No knife fits this blade: {OTHER_BLADE} Measure yours: the figures may be "
        "defaults.",
    ),
    (
        "guard.cannot_pass", MM,
        {"guard_height_mm": 50, "guard_front_mm": 160, "over_mm": 59.93, "free_ahead_mm": 102.37},
        f"The crown guard can't pass: it lifts 50 mm and reaches 160 mm from the blade's centre towards you. {HOOD}",
    ),
    (
        "stock.above_reach", MM, {"tall_mm": 200, "rise_mm": 125, "reach_mm": 73.04},
        "The board's larger side, 200 mm, must stand up at the saw, and no common table saw raises its blade over 125 "
        "mm (common practice, no source). This sled is for sticks up to the saw's reach, 73 mm high on this one, and "
        "for no panel or sheet. Rip the board into sticks.",
    ),
    (
        "stock.above_reach", IN, {"tall_mm": 203.2, "rise_mm": 127, "reach_mm": None},
        "The board's larger side, 8 in, must stand up at the saw, and no common table saw raises its blade over 5 in "
        "(common practice, no source). This sled is for sticks up to the saw's reach, and for no panel or sheet. Rip "
        "the board into sticks.",
    ),
    (
        "blade.smaller_than_work", MM, {"diameter_mm": 60, **RISES},
        "The whole blade (60 mm) is smaller than it must rise above the table (66 mm: the board and 6 mm).",
    ),
    (
        "blade.axis_above_table", MM, {"radius_mm": 65, **RISES},
        "A blade of 130 mm raised 66 mm would have its centre 1 mm above the table, which no saw does.",
    ),
    (
        "blade.too_low", MM, {"max_depth_mm": 60, **RISES},
        "The blade must rise 66 mm above the table to clear the board by 6 mm, and rises only 60 mm.",
    ),
    (
        "blade.too_low", MM, {"max_depth_mm": 65.97, **RISES},
        "The blade must rise 66 mm above the table to clear the board by 6 mm, and rises only 65.97 mm.",
    ),
    (
        "blade.max_depth_beyond", MM, {"max_depth_mm": 130, "radius_mm": 127.06},
        "max_depth (130 mm) is more than half the blade's diameter (254.1 mm): no saw raises a blade past its centre. "
        "Measure how far yours rises, less than 127 mm.",
    ),
    (
        "fence.cuts_sled", MM, {},
        "With no fence gap the blade rubs along the sled's heel and cuts it. Set fence_gap to 0.4 mm (common practice, "
        "no source).",
    ),
    (
        "fence.cuts_sled", IN, {},
        "With no fence gap the blade rubs along the sled's heel and cuts it. Set fence_gap to 1/64 in (common "
        "practice, "
        "no source).",
    ),
    (
        "dividing.blade_too_low", MM,
        {"blade_height_mm": 62, "max_depth_mm": 60, "rail_mm": 131.1, "carrier_most_mm": 16.08},
        "The dividing cut through carrier and plank needs the blade 62 mm up, and it rises only 60 mm. Divide the "
        "plank "
        "along a guide rail 131.1 mm from the line, or use a carrier 16 mm thick or less (sheet_thickness).",
    ),
    (
        "dividing.blade_too_low", MM,
        {"blade_height_mm": 62, "max_depth_mm": 40, "rail_mm": 131.1, "carrier_most_mm": None},
        "The dividing cut through carrier and plank needs the blade 62 mm up, and it rises only 40 mm. Divide the "
        "plank "
        "along a guide rail 131.1 mm from the line.",
    ),
]  # fmt: skip


# -- what stands on the card and in the procedure ----------------------------------------------------------------

KNIFE = Knife(2.2, 1.8, 2.5, 2.0, 2.5, 64.07)


def test_the_knife() -> None:
    place = "Set it 3 mm to 8 mm from the teeth, its top 64 mm above the table or lower (EN 1870-19)."
    assert knife_and_guard.knife(KNIFE, MM) == (
        f"Keep it fitted, the cut goes right through: 2.2 mm thick (2 mm or more, less than the 2.5 mm kerf). {place}"
    )
    bare = Knife(0, 1.8, 2.5, 2.0, 2.5, 64.07)
    assert knife_and_guard.knife(bare, MM) == (
        f"Fit one, the cut goes right through: 2 mm thick or more, less than the 2.5 mm kerf. {place}"
    )
    assert "1/8 in to 5/16 in from the teeth, its top 2 33/64 in above" in knife_and_guard.knife(KNIFE, IN)


def test_the_hood() -> None:
    assert knife_and_guard.guard(Guard(59.93, 78, 102.37, None), MM) == HOOD
    free = HOOD.replace(
        " and reach no further than 102.3 mm from the blade's centre towards you (the nearest clamp)", ""
    )
    assert knife_and_guard.guard(Guard(59.93, 78, None, None), MM) == free
    near = HOOD.replace("102.3 mm", "0.5 mm")
    assert knife_and_guard.guard(Guard(59.93, 78, 0.57, None), MM) == near
    for ahead, past in ((0.0, "0 mm"), (-8.02, "8.1 mm")):  # the nearest clamp has run past the blade's centre
        assert knife_and_guard.guard(Guard(59.93, 78, ahead, None), MM) == free.replace(
            "(board and sled)",
            "(board and sled), and nothing of it may reach down where the clamps run: at the end of the cut the "
            f"nearest is {past} past the blade's centre, beside the blade",
        )


def one(**changes: Any) -> Feed:
    """A feed of 24 teeth at 4000, over 333 mm."""
    known: dict[str, Any] = {
        "path": 332.93, "kerf": 2.5, "rim_speed": 53.198, "time": 8.5, "feed": 39.2, "tooth_feed": 0.0245,
        "tooth_range": (0.02, 0.1), "usual_range": True, "time_range": (3.91, 10.39), "shortest": 3.91, "rubs": False,
    }  # fmt: skip
    return Feed(**{**known, **changes})


SPAN = "Push the 332.9 mm from first touch to taper complete in 4.0 to 10.3 s: 0.02 mm to 0.1 mm per tooth"
BY_HAND = "and no faster than 5 m/min by hand (common practice, no source)."


def test_the_feed() -> None:
    whole = (
        f"The teeth run at 53.2 m/s. {SPAN} (common practice, no source), {BY_HAND} Your 8.5 s give 0.025 mm per tooth."
    )
    assert feed.feed(one(tooth_feed=0.0246), MM) == whole
    assert feed.feed(one(time=None, tooth_feed=None, usual_range=False, rim_speed=None), MM) == f"{SPAN}, {BY_HAND}"
    assert feed.feed(one(rim_speed=None, time_range=None), MM) == (
        "Give [saw] teeth and rpm to learn how much each tooth cuts."
    )
    assert feed.feed(one(rim_speed=98.3, time_range=None), IN) == (  # 98.3 m/s are 19350.4 ft/min
        "The teeth run at 19350 ft/min (98.3 m/s). Give [saw] teeth and rpm to learn how much each tooth cuts."
    )
    assert feed.feed(one(rim_speed=None, tooth_feed=None), MM) == (f"{SPAN} (common practice, no source), {BY_HAND}")
    assert feed.feed(one(time_range=None, rubs=True), MM) == (
        "The teeth run at 53.2 m/s. Even at 5 m/min, as fast as a hand should push (common practice, no source), each "
        "tooth cuts less than 0.02 mm and rubs: use fewer teeth, or a slower blade."
    )
    assert feed.seconds(one(time_range=(4.0, 10.3))) == "4.0 to 10.3 s"


def test_about_burning() -> None:
    rest = (
        "Feed steadily, without stopping: a blade that rubs burns. Ease off before the motor bogs down. Where it still "
        "burns, the blade is dull or not parallel to the fence.",
        "A burnt face does not glue: cut it again.",
    )
    thin = "A thin kerf (2.5 mm) suits a weak saw: use a rip blade, and a sharp one."
    assert feed.advice(one(), MM) == (thin, *rest)
    full = (
        "A full kerf (3 mm) is for a strong saw only: a thin one (2.4 mm) cuts away 20 % less wood. On a weak saw "
        "use a "
        "sharp thin-kerf rip blade."
    )
    assert feed.advice(one(kerf=3.0), MM) == (full, *rest)
    assert "a thin one (0.094 in) cuts away 24 % less wood" in feed.advice(one(kerf=3.175), IN)[0]  # 24.41 %


def test_the_fence() -> None:
    setting = FenceSetting("right", 126.25, 0.4, 0.75, 222.78)
    assert fence.fence(setting, MM) == (
        "Measure the heel with callipers, add 0.4 mm, and set the fence to that, on the right (126.7 mm if the heel "
        "came "
        "out at 126.2 mm). Measure to a tooth that is set towards the fence. To the blade's plate instead, add 0.75 "
        "mm to "
        "the heel."
    )
    assert fence.parallel(setting, MM) == (
        "Mark one tooth. Measure from the fence to it at the front of the blade, turn it to the back (222.8 mm further "
        "on), measure again. Equal, or a hair more at the back; never less."
    )

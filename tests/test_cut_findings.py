"""Each finding of the cut: a job that raises it, one that just doesn't, and whether the way out it names holds."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from scarfwright.models.findings import CODES, Level
from scarfwright.models.job.file import job_from_dict, job_to_toml
from scarfwright.models.job.problems import JobError
from scarfwright.models.solve import advised

from tests.cli_runs import run
from tests.cut_jobs import job, of_code, raw, worked

Tables = dict[str, dict[str, Any]]

THICK: Tables = {"stock": {"thickness": "50 mm", "length": "1400 mm"}, "sled": {"length": "1400 mm"}}


def run_on(table_back: str) -> Tables:
    return {"saw": {"end_of_cut": "run_on", "table_back": table_back}}


# code: (raises it, just doesn't)
CASES: dict[str, tuple[Tables, Tables]] = {
    # the blade must stand 66 mm: a blade of 66 is no blade, one of 131.9 has its axis above the table
    "blade.smaller_than_work": ({"saw": {"blade_diameter": "66 mm"}}, {"saw": {"blade_diameter": "66.1 mm"}}),
    "blade.axis_above_table": ({"saw": {"blade_diameter": "131.9 mm"}}, {"saw": {"blade_diameter": "132 mm"}}),
    "blade.max_depth_beyond": (
        {"saw": {"blade_diameter": "254 mm", "max_depth": "127.1 mm"}},
        {"saw": {"blade_diameter": "254 mm", "max_depth": "127 mm"}},
    ),
    "blade.plate_too_thick": ({"saw": {"plate": "2.5 mm"}}, {"saw": {"plate": "2.4 mm"}}),
    "blade.not_for_ripping": ({"saw": {"teeth": 31}}, {"saw": {"teeth": 30}}),
    # 254 mm: 80 m/s at 6015.3 a minute, 100 m/s at 7519.1
    "blade.rim_fast": ({"saw": {"rpm": 6016}}, {"saw": {"rpm": 6015}}),
    "blade.rim_too_fast": ({"saw": {"rpm": 7520}}, {"saw": {"rpm": 7519}}),
    "blade.over_marked_speed": ({"saw": {"rpm": 4001, "max_rpm": 4000}}, {"saw": {"rpm": 4000, "max_rpm": 4000}}),
    # 332.3 mm at 5 m/min are 3.988 s
    "feed.faster_than_hand": ({"saw": {"feed_time": 3.98}}, {"saw": {"feed_time": 3.99}}),
    "knife.thicker_than_kerf": ({"saw": {"riving_knife": "2.5 mm"}}, {"saw": {"riving_knife": "2.4 mm"}}),
    "knife.too_thin": ({"saw": {"riving_knife": "1.9 mm"}}, {"saw": {"riving_knife": "2 mm"}}),
    "knife.none": ({"saw": {"riving_knife": 0}}, {}),
    # the hood must lift over the work, 60 mm, and stay before the heel clamp
    "guard.cannot_pass": (
        {"saw": {"guard_height": "59 mm", "guard_front": "100 mm"}},
        {"saw": {"guard_height": "60 mm", "guard_front": "100 mm"}},
    ),
    # heel clamp at 394.5, nose clamp at 837.5 with half a pad: a board of 853 reaches both
    "clamp.grips_air": (
        {"stock": {"length": "852 mm"}},
        {"stock": {"length": "853 mm"}},
    ),
    "clamp.past_board": (
        {"stock": {"length": "852 mm"}, "sled": {"extra_stations": ["500 mm"]}},
        {"stock": {"length": "853 mm"}, "sled": {"extra_stations": ["500 mm"]}},
    ),
    "clamp.deep_meets_blade": (
        {"saw": {"travel_margin": "15 mm"}, "sled": {"heel_station": "363 mm"}},
        {"saw": {"travel_margin": "15 mm"}, "sled": {"heel_station": "372 mm"}},
    ),
    # the heel starts 111.4 + 25 before the axis and is 126.2 wide
    "table.no_room_to_start": ({"saw": {"table_front": "136.3 mm"}}, {"saw": {"table_front": "136.4 mm"}}),
    "fence.behind_blade": ({"saw": {"fence_front": "136.3 mm"}}, {"saw": {"fence_front": "136.4 mm"}}),
    "fence.short_lead": ({"saw": {"fence_front": "262.6 mm"}}, {"saw": {"fence_front": "262.7 mm"}}),
    # taper complete at 220.93, the block on the next mark
    "stop.off_table": ({"saw": {"table_back": "220.9 mm"}}, {"saw": {"table_back": "221 mm"}}),
    # centre of mass 392.4 from the heel, sled and board 15.2 N in the lightest wood, a hand's 100 N at the far handle,
    # 646.5: together 617.6 from the heel, so inside an edge 136.4 further on, 754.0 from the blade's centre
    "support.infeed_needed": ({"saw": {"table_front": "753.9 mm"}}, {"saw": {"table_front": "754 mm"}}),
    # clear at 766.8, the centre of mass 663.9 from the heel: it comes within 50 mm of an edge 152.9 behind the axis
    "support.outfeed_needed": ({**THICK, **run_on("152.8 mm")}, {**THICK, **run_on("152.9 mm")}),
    # 332.3 mm at 24 teeth and 4000 rpm: 0.02 mm a tooth is 10.39 s, 0.1 mm is 2.08 s
    "feed.too_slow": (
        {"saw": {"teeth": 24, "rpm": 4000, "feed_time": 10.4}},
        {"saw": {"teeth": 24, "rpm": 4000, "feed_time": 10.3}},
    ),
    "feed.too_fast": (
        {"saw": {"teeth": 24, "rpm": 4000, "feed_time": 2.0}},
        {"saw": {"teeth": 24, "rpm": 4000, "feed_time": 2.1}},
    ),
}  # fmt: skip


@pytest.mark.parametrize("code", CASES)
def test_raised_and_just_not_raised(code: str) -> None:
    raised, quiet = CASES[code]
    found = of_code(worked(**raised), code)
    assert len(found) == 1
    assert found[0].level is CODES[code]
    assert of_code(worked(**quiet), code) == []


def test_the_quiet_job_has_no_finding_of_the_cut() -> None:
    own = {code.split(".")[0] for code in CASES} - {"blade", "clamp"}
    found = [f.code for f in worked().findings if f.code.split(".")[0] in own or f.code in CASES]
    assert found == []


def test_a_finding_says_numbers_and_what_would_do() -> None:
    for code, (raised, _) in CASES.items():
        (found,) = of_code(worked(**raised), code)
        assert found.numbers, code
        assert any(c.isdigit() for c in found.text), code
        assert found.text.endswith("."), code


# -- the way out that is told does away with the finding ---------------------------------------------------

WAYS_OUT: dict[str, tuple[str, str, str]] = {
    "blade.over_marked_speed": ("saw", "rpm", "Run it at {} or slower"),
    "blade.rim_fast": ("saw", "rpm", "exceed it; {} a minute"),
    "blade.rim_too_fast": ("saw", "rpm", "Run this blade at {} a minute"),
    "feed.faster_than_hand": ("saw", "feed_time", "Take {} s or more"),
    "feed.too_fast": ("saw", "feed_time", "Take {} s or more"),
    "feed.too_slow": ("saw", "feed_time", "Take {} s or less"),
    "blade.axis_above_table": ("saw", "blade_diameter", "use a blade of {}."),
    "blade.smaller_than_work": ("saw", "blade_diameter", "use a blade of {}."),
    "fence.short_lead": ("saw", "fence_front", "near end is {} from"),
    "table.no_room_to_start": ("saw", "table_front", "front edge, {} or more"),
}


@pytest.mark.parametrize("code", WAYS_OUT)
def test_the_way_out_holds(code: str) -> None:
    raised, _ = CASES[code]
    (found,) = of_code(advised(job(**raised)), code)
    table, key, phrase = WAYS_OUT[code]
    before, after = phrase.split("{}")
    told = found.text.split(before)[1].split(after)[0]
    value = float(told) if key in ("rpm", "feed_time") else told
    changed = {**raised, table: {**raised.get(table, {}), key: value}}
    work = worked(**changed)
    assert not of_code(work, code)
    before_codes = {f.code for f in worked(**raised).findings}
    assert {f.code for f in work.findings} <= before_codes  # followed literally it breaks nothing else
    assert not [f for f in work.findings if f.code.split(".")[0] == code.split(".")[0] and f.level is Level.FAULT]


def test_a_further_notch_takes_up_a_short_board() -> None:
    """The notch that grips_air proposes does hold the board."""
    (found,) = of_code(worked(stock={"length": "560 mm"}), "clamp.grips_air")
    low = found.text.split("A further notch may lie ")[1].split(" to ")[0]
    work = worked(stock={"length": "560 mm"}, sled={"extra_stations": [low]})
    assert not of_code(work, "clamp.grips_air")
    assert not [f for f in work.findings if f.code == "notch.overlap"]


def test_no_notch_is_proposed_where_none_would_do() -> None:
    (found,) = of_code(worked(stock={"length": "400 mm"}), "clamp.grips_air")
    assert "further notch" not in found.text
    assert "no clamp" in found.text


def test_no_knife_for_a_blade_that_leaves_none_room() -> None:
    (found,) = of_code(worked(saw={"plate": "2.4 mm"}), "knife.too_thin")
    assert "No knife fits this blade" in found.text


# -- bad input ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "value", "told"),
    [
        ("fence_gap", "-0.4 mm", "not negative"),
        ("riving_knife", "-2 mm", "not negative"),
        ("feed_time", 0, "more than 0"),
        ("feed_time", "6", "number"),
        ("tooth_feed", ["0.1 mm", "0.02 mm"], "the least first"),
        ("tooth_feed", ["0.1 mm"], "found 1 value"),
        ("cutting_energy", 50, "cutting_energy"),  # no key: nobody can fill it in
        ("guard_height", 0, "more than zero"),
    ],
)
def test_bad_input_is_one_message(key: str, value: object, told: str) -> None:
    with pytest.raises(JobError) as caught:
        job_from_dict(raw(saw={key: value}))
    message = str(caught.value)
    assert key in message
    assert told in message
    assert "\n" not in message


def test_a_zero_gap_would_cut_the_sled() -> None:
    assert of_code(worked(saw={"fence_gap": 0}), "fence.cuts_sled")[0].level is Level.FAULT


NOTCH = {"nose_flat": 0}  # a nose notch instead of a clamp on the nose, which would be stopped first


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"sled": {"heel_station": "300 mm"}}, "clamp.meets_blade"),
        ({"saw": {"fence_front": "620 mm"}}, "clamp.meets_fence"),
        ({"saw": {"end_of_cut": "run_on"}}, "clamp.meets_fence"),
        ({"saw": {"fence_front": "1300 mm"}, "stock": {"length": "3 m"}, "sled": NOTCH}, "board.meets_fence"),
        ({"saw": {"riving_knife": "3 mm"}}, "knife.thicker_than_kerf"),
        ({"saw": {"fence_front": "100 mm"}}, "fence.behind_blade"),
    ],
)
def test_make_writes_nothing_where_a_clamp_would_meet_blade_or_fence(
    tmp_path: Path, changes: Tables, code: str
) -> None:
    (tmp_path / "job.toml").write_text(job_to_toml(job(**changes)))
    done = run("make", "job.toml", "--out", "out", cwd=tmp_path)
    assert done.returncode == 1, done.stderr
    assert code in done.stderr
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]


def test_a_negative_gap_stops_the_command_with_one_message(tmp_path: Path) -> None:
    text = job_to_toml(job()).replace('fence_gap = "0.4 mm"', 'fence_gap = "-0.4 mm"')
    (tmp_path / "job.toml").write_text(text)
    done = run("check", "job.toml", cwd=tmp_path)
    assert done.returncode == 2
    assert len(done.stderr.strip().splitlines()) == 1
    assert "fence_gap" in done.stderr

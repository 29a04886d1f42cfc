"""Random jobs for property tests: wide ranges, both units, plank and sheet, measured sleds, extras.

`raw_jobs` gives the plain tables a TOML reader would give, `jobs` the checked job. The ranges reach well past what
anybody builds: what comes out must be a number or a finding, never an exception.
"""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.tables import Job

PLANKS = ["1x2", "1x6", "5/4x6", "2x4", "2x6", "2x8", "2x10", "2x12"]


def lengths(least: float, most: float) -> st.SearchStrategy[str | float]:
    """A length from `least` to `most` mm: in mm with one decimal, or in inches to 1/64."""
    mm = st.integers(max(round(least * 10), 1), max(round(most * 10), 1)).map(lambda n: f"{n / 10:g} mm")
    first, last = max(round(least / 25.4 * 64), 1), max(round(most / 25.4 * 64), 1)
    inches = st.integers(first, last).map(lambda n: f"{n // 64} {n % 64}/64 in" if n > 63 else f"{n}/64 in")
    return st.one_of(mm, inches)


def auto_or(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.one_of(st.just("auto"), strategy)


def or_zero(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.one_of(strategy, st.just(0))


def _stock() -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(
        {
            "thickness": st.one_of(lengths(2, 80), st.sampled_from(["4/4 S2S", "8/4 S2S"])),
            "height": lengths(5, 200),
        },
        optional={
            "species": st.text(max_size=20),
            "finished_thickness": lengths(1, 80),
            "length": lengths(200, 6000),
        },
    )


def _saw() -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(
        {},
        optional={
            "blade_diameter": lengths(150, 450),
            "kerf": lengths(1, 6),
            "max_depth": lengths(40, 150),
            "fence_gap": or_zero(lengths(0.1, 12)),
            "blade_above_work": or_zero(lengths(1, 40)),
            "fence_side": st.sampled_from(["left", "right"]),
            "fence_front": lengths(50, 900),
            "end_of_cut": st.sampled_from(["hold", "run_on", "draw_back"]),
            "travel_margin": or_zero(lengths(1, 200)),
            "side_clearance": or_zero(lengths(1, 60)),
            "clear_gap": or_zero(lengths(1, 20)),
            "plate": lengths(0.8, 4),
            "riving_knife": or_zero(lengths(0.8, 5)),
            "table_front": lengths(50, 1500),
            "table_back": lengths(50, 1500),
            "fence_height": lengths(8, 120),
            "feed_time": st.floats(0.1, 600),
            "guard_height": lengths(10, 300),
            "guard_front": lengths(10, 600),
            "teeth": st.integers(2, 200),
            "rpm": st.floats(100, 30000),
        },
    )


def _clamp() -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(
        {},
        optional={
            "opening": lengths(10, 300),
            "throat": lengths(10, 200),
            "pad_width": lengths(5, 80),
            "pad_height": lengths(2, 80),
            "jaw": lengths(2, 60),
        },
    )


def _sled() -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(
        {},
        optional={
            "made_from": st.sampled_from(["plank", "sheet"]),
            "plank": st.one_of(st.sampled_from(PLANKS), st.tuples(lengths(10, 100), lengths(20, 500)).map(list)),
            "sheet_thickness": lengths(3, 30),
            "layers": st.integers(1, 6),
            "dowel": or_zero(lengths(2, 30)),
            "length": auto_or(lengths(20, 4000)),
            "round_marks": or_zero(lengths(0.1, 10)),
            "nose_min": lengths(1, 80),
            "web": lengths(2, 80),
            "notch_length": lengths(5, 300),
            "notch_width": lengths(4, 80),
            "nose_flat": auto_or(or_zero(lengths(1, 300))),
            "heel_station": auto_or(or_zero(lengths(1, 3000))),
            "nose_station": auto_or(or_zero(lengths(1, 1000))),
            "extra_stations": st.lists(lengths(10, 3000), max_size=4),
            "hand_line": auto_or(or_zero(lengths(1, 3000))),
            "handle_station": auto_or(or_zero(lengths(1, 3000))),
            "handle_spacing": lengths(2, 300),
            "handle_hole": or_zero(lengths(1, 40)),
            "heel_as_made": lengths(5, 400),
            "nose_as_made": lengths(1, 200),
        },
    )


def ratios() -> st.SearchStrategy[float | str]:
    whole = st.integers(1, 100).map(float)
    return st.one_of(whole, st.floats(1, 100), st.sampled_from(["1 in 12", "1:8", "1 in 12.5"]), st.floats(6, 20))


def _curves() -> st.SearchStrategy[list[list[str]]]:
    """Offsets of gentle and of impossible bends."""

    def along(steps: list[tuple[float, float]]) -> list[list[str]]:
        station, found = 0.0, []
        for step, offset in steps:
            found.append([f"{station:.3f} mm", f"{offset:.3f} mm"])
            station += step
        return found

    steps = st.tuples(st.floats(50, 1500), st.floats(-400, 400))
    return st.lists(steps, min_size=4, max_size=12).map(along)


def craft_tables() -> st.SearchStrategy[dict[str, Any]]:
    """What a job says of wood, clamps, glue, limits and bent members."""
    blank = st.fixed_dictionaries(
        {"curve": _curves()},
        optional={
            "name": st.text(max_size=20),
            "length": lengths(300, 9000),
            "bend": st.sampled_from(["thickness", "height"]),
        },
    )
    adhesive = {
        "kind": st.sampled_from(["PVA", "epoxy", "pur", "resorcinol", "UF"]),
        "spread": st.floats(50, 500).map(lambda g: f"{g:.1f} g/m2"),
        "pressure": st.floats(0.05, 2).map(lambda p: f"{p:.3f} MPa"),
        "open_time": st.integers(1, 90).map(lambda m: f"{m} min"),
        "clamp_time": st.integers(1, 48).map(lambda h: f"{h} h"),
    }
    woods = ["white ash", "Sitka spruce", "teak", "redwood", "beech", ""]
    stock = {
        "species": st.sampled_from(woods),
        "modulus": st.floats(4, 25).map(lambda e: f"{e:.2f} GPa"),
        "rupture": st.floats(30, 200).map(lambda r: f"{r:.1f} MPa"),
    }
    clamp = {"force": st.floats(20, 9000).map(lambda n: f"{n:.0f} N"), "count": st.integers(1, 60)}
    return st.fixed_dictionaries(
        {
            "stock": st.fixed_dictionaries({}, optional=stock),
            "clamp": st.fixed_dictionaries({}, optional=clamp),
            "adhesive": st.fixed_dictionaries({}, optional=adhesive),
        },
        optional={
            "limits": st.fixed_dictionaries({}, optional={"bend_factor": st.floats(1, 20)}),
            "blank": st.lists(blank, max_size=2),
        },
    )


def raw_jobs() -> st.SearchStrategy[dict[str, Any]]:
    """Plain tables of a valid job file."""
    return st.fixed_dictionaries(
        {"stock": _stock(), "joint": st.fixed_dictionaries({"ratio": ratios()}), **full_shops()},
        optional={
            "title": st.text(max_size=30),
            "units": st.sampled_from(["mm", "in"]),
            "saw": _saw(),
            "clamp": _clamp(),
            "sled": _sled(),
            "printer": st.fixed_dictionaries(
                {"gauges": st.sampled_from(["all", "useful"])},
                optional={"layer": lengths(0.1, 1), "tolerance": lengths(0.1, 1)},
            ),
        },
    )


def full_shops() -> dict[str, st.SearchStrategy[Any]]:
    """Every machine, and every gauge whether it reads finely enough or not: all that can be made is made."""
    return {"shop_has": st.just(["printer", "router", "laser"])}


def jobs() -> st.SearchStrategy[Job]:
    """Valid jobs, many of which can't be built."""
    return raw_jobs().map(job_from_dict)


def likely_jobs() -> st.SearchStrategy[Job]:
    """Jobs near what people build: most have few findings, many have none."""
    clamp = {
        "opening": lengths(60, 150),
        "throat": lengths(60, 120),
        "pad_width": lengths(15, 35),
        "pad_height": lengths(8, 25),
        "jaw": lengths(8, 15),
    }
    sled = {
        "made_from": st.sampled_from(["plank", "sheet"]),
        "plank": st.tuples(lengths(30, 45), lengths(120, 300)).map(list),
        "length": auto_or(lengths(500, 2400)),
        "layers": st.integers(2, 3),
        "round_marks": st.sampled_from(["0.5 mm", "1 mm", "1/16 in", 0]),
        "nose_flat": auto_or(or_zero(lengths(20, 90))),
        "notch_length": lengths(45, 80),
        "notch_width": lengths(13, 20),
        "heel_station": auto_or(lengths(250, 900)),
        "nose_station": auto_or(lengths(5, 400)),
        "handle_station": auto_or(lengths(500, 1500)),
        "extra_stations": st.lists(lengths(300, 1200), max_size=2),
    }
    saw = {
        "kerf": lengths(2, 3.5),
        "fence_gap": lengths(0.2, 1),
        "fence_front": lengths(150, 500),
        "end_of_cut": st.sampled_from(["hold", "run_on", "draw_back"]),
        "fence_side": st.sampled_from(["left", "right"]),
    }
    raw = st.fixed_dictionaries(
        {
            "units": st.sampled_from(["mm", "in"]),
            **full_shops(),
            "printer": st.just({"gauges": "all"}),
            "title": st.text(max_size=80),
            "stock": st.fixed_dictionaries(
                {"thickness": lengths(10, 40), "height": lengths(40, 72)}, optional={"species": st.text(max_size=60)}
            ),
            "joint": st.fixed_dictionaries({"ratio": st.floats(6, 20).map(lambda n: round(n, 2))}),
            "saw": st.fixed_dictionaries({}, optional=saw),
            "clamp": st.fixed_dictionaries(clamp),
            "sled": st.fixed_dictionaries({}, optional=sled),
        }
    )
    return raw.map(job_from_dict)

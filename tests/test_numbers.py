"""numbers.json: every key of the file contract, the unit in the key, six decimals, the same every time."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from typing import Any

import pytest
from scarfwright.models.job.file import job_from_text
from scarfwright.models.numbers.numbers import numbers, rounded
from scarfwright.models.solve import work_up

BASE = "[stock]\nthickness = 22\nheight = 60\n{stock}\n[joint]\nratio = 12\n[clamp]\nopening = 80\n[sled]\n{sled}\n"

# the contract: what others read
JOINT = {"ratio", "ratio_realised", "thickness_mm", "height_mm", "tip_mm", "taper_run_mm", "overlap_mm",
         "finished_run_mm"}  # fmt: skip
SLED = {"length_mm", "thickness_mm", "heel_mm", "nose_mm", "angle_deg", "mark_mm", "nose_flat_mm", "notches", "clamps"}
NOTCH = {"station_mm", "web_mm", "length_mm", "width_mm", "left_mm"}
CLAMP = {"where", "station_mm", "opening_mm", "limit_mm"}
SAW = {"fence_mm", "blade_height_mm", "start_mm", "travel_offcut_free_mm", "travel_done_mm", "travel_clear_mm",
       "travel_limit_mm", "least_station_mm"}  # fmt: skip
FINDING = {"code", "level", "text", "numbers"}

# endings that say a unit, and keys that are plain numbers
UNITS = ("_mm", "_mm2", "_mm3", "_deg", "_percent", "_s", "_w", "_kg", "_cm3", "_m_s", "_m_min", "_j_cm3")
PURE = {"format", "ratio", "ratio_realised", "clamps"}


def worked(sled: str = "", stock: str = "") -> dict[str, Any]:
    return numbers(work_up(job_from_text(BASE.format(sled=sled, stock=stock))))


SLEDS = {
    "plank": "",
    "sheet": 'made_from = "sheet"',
    "as made": "length = 1500\nheel_as_made = 153\nnose_as_made = 28",
    "notches": 'length = 1500\nnose_flat = 0\nextra_stations = ["500 mm"]',
    "faulty": "length = 300",
}


@pytest.mark.parametrize("kind", SLEDS)
def test_every_key_of_the_contract_is_there(kind: str) -> None:
    data = worked(SLEDS[kind])
    assert data["format"] == 1
    assert set(data["joint"]) >= JOINT
    assert set(data["sled"]) >= SLED
    assert set(data["saw"]) >= SAW
    assert all(set(n) >= NOTCH for n in data["sled"]["notches"])
    assert all(set(c) >= CLAMP for c in data["sled"]["clamps"])
    assert {c["where"] for c in data["sled"]["clamps"]} <= {"heel", "nose", "nose_flat", "extra"}
    assert all(set(f) >= FINDING and f["level"] in ("fault", "caution", "note") for f in data["findings"])


def test_what_does_not_apply_is_null() -> None:
    sheet = worked(SLEDS["sheet"])
    assert sheet["sled"]["mark_mm"] is None
    assert sheet["dividing"] is None
    assert sheet["joint"]["finished_run_mm"] is None
    assert worked()["dividing"] is not None
    assert worked(stock="finished_thickness = 20")["joint"]["finished_run_mm"] == pytest.approx(240, rel=0.01)


def test_the_realised_slope_is_the_exported_sleds() -> None:
    for kind in SLEDS:
        s = worked(SLEDS[kind])["sled"]
        realised = worked(SLEDS[kind])["joint"]["ratio_realised"]
        assert realised == pytest.approx(s["length_mm"] / (s["heel_mm"] - s["nose_mm"]), rel=1e-6)
        assert s["angle_deg"] == pytest.approx(math.degrees(math.atan(1 / realised)), abs=1e-6)


def test_stations_count_from_the_heel() -> None:
    data = worked('length = 1500\nnose_flat = 0\nnose_station = "300 mm"')
    stations = {n["where"]: n["station_mm"] for n in data["sled"]["notches"]}
    assert stations["nose"] == pytest.approx(1500 / math.cos(math.radians(data["sled"]["angle_deg"])) - 300, abs=1e-5)


def walk(value: Any, key: str = "") -> Iterator[tuple[str, Any]]:
    if isinstance(value, dict):
        for name, item in value.items():
            yield from walk(item, name)
    elif isinstance(value, list):
        for item in value:
            yield from walk(item, key)
    else:
        yield key, value


@pytest.mark.parametrize("kind", SLEDS)
def test_units_stand_in_the_keys_and_floats_have_six_decimals(kind: str) -> None:
    data = worked(SLEDS[kind])
    for part in ("joint", "sled", "saw", "dividing"):
        for key, value in walk(data[part]):
            if isinstance(value, int | float) and not isinstance(value, bool):
                assert key in PURE or key.endswith(UNITS), key
    for key, value in walk(data):
        if isinstance(value, float):
            assert math.isfinite(value), key
            assert value == round(value, 6), key
            assert math.copysign(1, value) == 1 or value < 0, key  # no -0.0


def test_rounding() -> None:
    assert rounded({"a": [1 / 3, (2 / 3,)], "b": "1/3", "c": None, "d": 7, "e": True}) == {
        "a": [0.333333, [0.666667]],
        "b": "1/3",
        "c": None,
        "d": 7,
        "e": True,
    }
    assert math.copysign(1, rounded(-1e-9)) == 1


def test_the_same_job_gives_the_same_numbers_and_plain_json() -> None:
    assert json.dumps(worked(), allow_nan=False) == json.dumps(worked(), allow_nan=False)
    assert json.loads(json.dumps(worked())) == worked()

"""When wedge and hand stop are useless, and that only they are left out then."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest
from scarfwright.models.findings import Finding, Level, faults
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.make import items, parts_for

from tests.cli_runs import run
from tests.shops import in_full_shop

BASE: dict[str, Any] = {
    "stock": {"thickness": "22 mm", "height": "60 mm"},
    "joint": {"ratio": 12},
    "sled": {"made_from": "sheet", "length": "1200 mm"},
    "clamp": {"opening": "80 mm"},
}


def worked(**tables: dict[str, Any]) -> Workup:
    raw = {name: {**BASE.get(name, {}), **tables.get(name, {})} for name in {**BASE, **tables}}
    return work_up(in_full_shop(job_from_dict(raw)))


def found(work: Workup, code: str) -> Finding:
    (one,) = [f for f in work.findings if f.code == code]
    return one


def test_a_wedge_that_the_clamp_does_not_close_over() -> None:
    work = worked(clamp={"opening": "50 mm"})
    one = found(work, "nose_wedge.no_grip")
    # by hand: nose 25, wedge 3 + 50/12 thick at the tip, board 22, all square to the work edge
    needed = 22 + (25 + 3 + 50 / 12) * math.cos(math.atan(1 / 12))
    assert one.numbers["needed_mm"] == pytest.approx(needed, abs=1e-3)
    assert one.level is Level.FAULT
    assert one.part == "nose_wedge"
    assert not faults(list(work.findings))
    assert "nose_wedge" not in {p.name for p in parts_for(work, "print")}
    assert not any("nose_wedge" in item.path for item in items(work))
    enough = worked(clamp={"opening": f"{needed + 0.01:.3f} mm"})
    assert "nose_wedge" in {p.name for p in parts_for(enough, "print")}


def test_a_hand_stop_that_sticks_out_over_the_edge() -> None:
    """The least stop is 25 long; a nose 10 wide is 10 + 110/12 at a line 110 from its end."""
    work = worked(sled={"hand_line": "1090 mm", "nose_min": "10 mm"})
    one = found(work, "hand_stop.sticks_out")
    assert one.numbers["width_mm"] == pytest.approx(10 + 110 / 12)
    assert "hand_stop" not in {p.name for p in parts_for(work, "print")}


def test_a_hand_stop_is_as_long_as_the_sled_is_wide_there() -> None:
    work = worked(sled={"hand_line": "1050 mm"})
    (stop,) = [p for p in parts_for(work, "print") if p.name == "hand_stop"]
    x0, _, x1, _ = stop.outline.bounds
    y0, y1 = stop.outline.bounds[1], stop.outline.bounds[3]
    assert max(x1 - x0, y1 - y0) == pytest.approx(25 + 150 / 12 - 4)


def test_a_hand_line_off_the_sled_makes_nothing() -> None:
    work = worked(sled={"hand_line": "1300 mm"})
    assert "sled.hands_have_no_room" in {f.code for f in faults(list(work.findings))}
    assert parts_for(work, "print") == []


def test_make_goes_on_without_the_part_and_says_so(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(
        '[stock]\nthickness = "22 mm"\nheight = "60 mm"\n[joint]\nratio = 12\n[sled]\nmade_from = "sheet"\n'
        'length = "1200 mm"\n[clamp]\nopening = "50 mm"\n[printer]\nbed = [90, 90, 30]\n'
    )
    command = ("make", job, "--out", tmp_path / "out", "--only", "print")
    done = run(*command, "--json", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    parts = {f["code"]: f for f in told["findings"] if f["level"] == "fault"}
    assert {"nose_wedge.no_grip", "print.too_tall"} <= set(parts)
    assert all(f["part"] for f in parts.values())
    assert not any("nose_wedge" in name or "riser." in name for name in told["files"])
    assert any("hand_stop" in name for name in told["files"])
    again = run(*command, cwd=tmp_path)
    assert again.returncode == 0
    assert "nose_wedge.no_grip" in again.stdout


@pytest.mark.parametrize(("gauges", "made"), [("useful", False), ("all", True)])
def test_the_forks_scale_is_made_with_its_fork_only(gauges: str, made: bool) -> None:
    """At a printer's 0.2 mm a fork for 22 mm reads less finely than the joint needs: its scale reads nothing alone."""
    job = in_full_shop(job_from_dict(BASE))
    printer = job.printer.model_copy(update={"gauges": gauges})
    names = {w.kind.name for w in work_up(job.model_copy(update={"printer": printer})).wanted if not w.left_out}
    assert ("taper_fork" in names) == made
    assert ("taper_scale" in names) == made

"""The cut moved along on a page: its stretches and moments, what is said of them, the page's data and markup."""

from __future__ import annotations

import json
import re
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import Phase, given, settings
from lxml import etree
from scarfwright.models.cut.bodies import hinge, moving_setup
from scarfwright.models.cut.moments import TOLERANCE, passage
from scarfwright.models.cut.scene import setup_scene
from scarfwright.models.findings import Level
from scarfwright.models.job.file import job_from_dict, read_job
from scarfwright.models.job.tables import Job
from scarfwright.models.solve import work_out, work_up
from scarfwright.models.words.at_the_saw.moments import told
from scarfwright.models.workup import Workup
from scarfwright.outputs.moving_cut.piece import piece
from scarfwright.outputs.web.piece import Piece

from tests.cut_jobs import worked
from tests.proof_jobs import faultless
from tests.strategies import jobs

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
AS_THEY_COME = [Phase.explicit, Phase.reuse, Phase.generate]  # making a job smaller takes longer than it helps
NAMES = ("plank-metric", "plank-inch", "sheet-layers")


@cache
def example(name: str) -> tuple[Workup, Piece]:
    work = work_up(read_job(EXAMPLES / f"{name}.toml"))
    return work, piece(work)


def said(work: Workup) -> list[tuple[float, float, str, Level]]:
    cut = passage(work.way)
    return [(s.start, s.end, told(work, cut, s), s.level) for s in cut.stretches]


@settings(max_examples=15)
@given(jobs())
def test_whatever_the_job_the_whole_range_is_told_without_a_hole(job: Job) -> None:
    told_without_a_hole(job)


@pytest.mark.parametrize(
    "change",
    [  # a cut that ends before a table of 50 mm lets it begin; a fence gap that leaves nothing of the joint
        {"stock": {"thickness": "2 mm", "height": "5 mm"}, "saw": {"table_front": "50 mm", "blade_diameter": "150 mm"}},
        {"stock": {"thickness": "2 mm", "height": "25.6 mm", "length": "200 mm"}, "saw": {}},
    ],
)
def test_of_an_impossible_cut_only_what_can_come_is_told(change: dict[str, Any]) -> None:
    saw = {**change["saw"], "fence_gap": "4.6 mm", "riving_knife": 0}
    job = job_from_dict({"stock": change["stock"], "joint": {"ratio": 69.0}, "saw": saw})
    told_without_a_hole(job)
    assert [one.kind for one in passage(work_out(job).way).stretches] == ["past_block", "at_limit"]


@pytest.mark.slow
@settings(max_examples=300, phases=AS_THEY_COME)
@given(jobs())
def test_whatever_the_job_in_hundreds_of_them(job: Job) -> None:
    told_without_a_hole(job)


def told_without_a_hole(job: Job) -> None:
    work = work_out(job)
    cut, found = passage(work.way), said(work)
    assert found[0][0] == cut.start
    assert found[-1][1] == cut.last
    assert all(one[1] == other[0] for one, other in pairwise(found))
    assert all(start <= end for start, end, _, _ in found)
    assert all(text.endswith(".") and len(text) < 320 for _, _, text, _ in found)
    assert cut.moments[0].name == "start"
    assert all(one.travel <= other.travel for one, other in pairwise(cut.moments))
    limit = work.way.travel_limit
    if limit is not None:
        assert cut.last == max(limit, cut.start)  # up to the limit and not past it
        assert found[-1][3] is Level.FAULT
    else:
        assert cut.last == cut.block


@pytest.mark.parametrize("name", NAMES)
def test_the_numbers_of_the_job_are_where_sentences_change(name: str) -> None:
    """Against the travels of numbers.json: at each, and a hair before, another sentence."""
    from scarfwright.models.numbers.numbers import numbers

    work, _ = example(name)
    cut, saw = passage(work.way), numbers(work)["saw"]
    kinds = {
        at: (cut.stretch_at(at - 0.2).kind, cut.stretch_at(at - 0.04).kind, cut.stretch_at(at).kind)
        for at in (saw["travel_offcut_free_mm"], saw["travel_done_mm"], saw["travel_limit_mm"])
    }
    after = "blade_in_taper" if saw["end_of_cut"] == "run_on" else "at_block"
    assert list(kinds.values()) == [
        ("cutting", "lip", "lip"),
        ("lip", after, after),
        ("past_block", "at_limit", "at_limit"),
    ]
    assert cut.start <= saw["start_mm"]
    block = work.cut.advice.stop.from_axis
    assert (cut.stretch_at(block).kind, cut.stretch_at(block + 0.2).kind) == ("at_block", "past_block")


def test_what_is_left_to_push_is_never_too_little_and_at_most_a_mark_too_much() -> None:
    for work in (worked(), worked(joint={"ratio": 20}, sled={"length": None}), example("plank-inch")[0]):
        cut = passage(work.way)
        step = 1.0 if work.job.units == "mm" else 25.4 / 16
        free, done = work.way.travel.offcut_free, work.way.travel.done
        for i in range(500):
            at = free + (done - free) * i / 500
            left = cut.stretch_at(at).left
            assert done - at - TOLERANCE - 1e-9 <= left <= done - at + 2 * step  # two marks on the flattest slopes


def test_the_sentence_of_the_lip_is_in_the_jobs_units() -> None:
    (metric,) = [t for _, _, t, _ in said(example("plank-metric")[0]) if "keep pushing 30 mm" in t]
    assert metric.startswith("The offcut is free, the taper is not complete: keep pushing 30 mm.")
    assert "left" in metric  # the free side of a fence on the right
    inch = " ".join(t for _, _, t, _ in said(example("plank-inch")[0]))
    assert "keep pushing 1 3/8 in" in inch
    assert " mm" not in inch
    assert "on the right" in " ".join(t for _, _, t, _ in said(example("sheet-layers")[0]))  # fence on the left


@pytest.mark.parametrize(
    ("end", "labels", "tells"),
    [
        ("hold", ["Start", "Offcut free", "Taper complete", "Travel limit"], "Hold the sled down and against"),
        ("run_on", ["Start", "Offcut free", "Taper complete", "Blade clear", "Travel limit"], "Push on in one go"),
        ("draw_back", ["Start", "Offcut free", "Taper complete", "Travel limit"], "KICKBACK"),
    ],
)
def test_moments_and_sentences_are_those_of_the_end_of_the_cut(end: str, labels: list[str], tells: str) -> None:
    work = worked(saw={"end_of_cut": end}, sled={"length": None})
    data: Any = piece(work).data
    assert [m["label"] for m in data["moments"]] == labels
    at_done = passage(work.way).stretch_at(work.way.travel.done)
    assert tells in told(work, passage(work.way), at_done)
    assert any("Past the end of the cut" in s["text"] for s in data["sentences"])


def test_a_job_without_offcut_has_no_such_moment_and_no_lip() -> None:
    work = worked(stock={"thickness": "2.5 mm", "height": "40 mm"})
    data: Any = piece(work).data
    assert hinge(work.way) is None
    assert data["free_mm"] is None
    assert "Offcut free" not in [m["label"] for m in data["moments"]]
    assert not any("offcut is free" in s["text"] for s in data["sentences"])
    assert "There is no offcut" in data["sentences"][1]["text"]
    assert "fallen" not in piece(work).html


@pytest.mark.parametrize("name", NAMES)
def test_the_board_in_three_is_the_board_and_what_the_kernel_leaves_of_it(name: str) -> None:
    """Kept, kerf and offcut together are the board; the kerf, less where the rule of the picture says the blade has
    been, and what is kept are the solid with the lip that the assembly cuts."""
    from scarfwright.models.cut.bodies import mesh_of
    from scarfwright.models.solids.setup import block_solid

    work, shown = example(name)
    way, blade = work.way, work.way.blade
    parts = {t.role: mesh_of(t.piece, 0.01) for t in moving_setup(way)}
    states = {s.name.removesuffix("_not_reached"): s for s in setup_scene(way).states}

    def solid_of(state: str) -> float:
        (found,) = (p for p in states[state].pieces if p.name == "work")
        return float(block_solid(found.shape).Volume())

    kept, kerf, offcut = (parts[role].volume for role in ("work", "kerf", "offcut"))
    assert kept + kerf + offcut == pytest.approx(solid_of("start"), rel=1e-9)
    assert kept == pytest.approx(solid_of("done"), rel=1e-9)
    assert parts["offcut"].closed
    # the rule, in thin layers: at height z all that is further on than the blade's front is gone
    data: Any = shown.data
    free, layers, high = data["free_mm"], 400, way.joint.height
    corners = [c for c in parts["kerf"].corners if abs(c[2]) < 1e-9]
    left = 0.0
    for i in range(layers):
        z = (i + 0.5) * high / layers
        reach = (data["blade"]["radius_mm"] ** 2 - (z + data["blade"]["depth_mm"]) ** 2) ** 0.5
        left += _area_below([(x, y) for x, y, _ in corners], -reach - free) * high / layers
    assert kept + left == pytest.approx(solid_of("offcut_free"), abs=0.002 * left + 1.0)
    assert left > 100
    assert blade.height == pytest.approx(data["blade"]["height_mm"])


def _area_below(ring: list[tuple[float, float]], x: float) -> float:
    """Area of a convex ring's part with a smaller x: Sutherland and Hodgman's clip, then the shoelace."""
    out: list[tuple[float, float]] = []
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        if a[0] <= x:
            out.append(a)
        if (a[0] <= x) != (b[0] <= x):
            share = (x - a[0]) / (b[0] - a[0])
            out.append((x, a[1] + share * (b[1] - a[1])))
    return abs(sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(out, [*out[1:], *out[:1]], strict=True))) / 2


def test_left_is_the_mirror_image() -> None:
    right, left = (worked(saw={"fence_side": side}) for side in ("right", "left"))
    one, other = (piece(work).data["bodies"] for work in (right, left))
    assert isinstance(one, list)
    assert isinstance(other, list)
    for a, b in zip(one, other, strict=True):
        assert a["role"] == b["role"]

        def corners(body: dict[str, Any], side: int) -> set[tuple[int, int, int]]:
            flat = body["corners"]
            return {(flat[i], side * flat[i + 1], flat[i + 2]) for i in range(0, len(flat), 3)}

        if a["role"] != "clamp":  # their order may differ, not their shape
            assert corners(a, 1) == corners(b, -1), a["role"]
    fall, mirrored = hinge(right.way), hinge(left.way)
    assert fall is not None
    assert mirrored is not None
    assert mirrored.start == pytest.approx((fall.start[0], -fall.start[1]))
    assert mirrored.out == pytest.approx((fall.out[0], -fall.out[1]))


@pytest.mark.parametrize("name", NAMES)
def test_markup_keeps_the_pages_rules(name: str) -> None:
    """Well-formed, ids of its own and each once, all that is used is there, nothing a strict content policy refuses."""
    _, shown = example(name)
    closed = re.sub(r"(<input[^>]*)>", r"\1/>", shown.html.replace(" hidden>", ' hidden="">'))
    root = etree.fromstring(f"<section>{closed}</section>")
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    assert all(str(i).startswith(f"{shown.key}-") for i in ids)
    used = [str(e.get("href"))[1:] for e in root.iter("use")]
    used += re.findall(r"url\(#([^)]+)\)", shown.html)
    assert set(used) <= set(ids)
    assert len(used) > 20
    for element in root.iter():
        assert not [a for a in map(str, element.keys()) if a == "style" or a.startswith("on")]
    assert not re.search(
        r"\beval\b|new Function|setAttribute\(\s*\"style\"|https?:|@import|url\(", shown.script + shown.style
    )
    assert all(line.startswith((f"[data-piece={shown.key}]", "@media", "  ", "}")) for line in shown.style.splitlines())
    stills = root.findall(".//li")
    assert len(stills) == len(passage(example(name)[0].way).moments)  # print shows the moments
    assert all(len(still.findall("svg")) == 2 for still in stills)


@pytest.mark.parametrize("name", NAMES)
def test_it_takes_at_most_100_kB_of_the_page(name: str) -> None:
    _, shown = example(name)
    data = json.dumps(shown.data, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    assert len((shown.html + shown.script + shown.style + data).encode()) <= 100_000


@pytest.mark.parametrize("seed", range(6))
def test_any_job_without_a_fault_has_its_picture(seed: int) -> None:
    """Closed bodies for shops as different as random ones are, the sled as long as it is, every number a number."""
    work = faultless(seed)
    shown: Any = piece(work).data
    json.dumps(shown, allow_nan=False)
    for body in shown["bodies"]:
        flat, triangles = body["corners"], body["triangles"]
        runs = {(triangles[i + j], triangles[i + (j + 1) % 3]) for i in range(0, len(triangles), 3) for j in range(3)}
        assert all((b, a) in runs for a, b in runs), body["role"]
        if body["role"] == "sled":
            xs = flat[::3]
            assert (max(xs), min(xs)) == (0, pytest.approx(-10 * work.way.sled.length, abs=0.5))
    assert len(json.dumps(shown)) < 60_000


def test_same_job_same_piece() -> None:
    work, shown = example("plank-metric")
    assert piece(work) == shown

"""Jobs that once passed, misled or left their maker stuck, each with what is wanted of it. Their heads say why."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

import pytest
from scarfwright.models.findings import faults
from scarfwright.models.job.file import read_job
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup

from tests.shops import in_full_shop

FOLDER = Path(__file__).parent / "trials"


@dataclass(frozen=True)
class Trial:
    """`faults`: all codes of that level, none for a job that is made. `told`: pieces that some finding's text has,
    `figures`: by name (see `figure`), `never`: pieces that no text has."""

    file: str
    faults: frozenset[str] = frozenset()
    also: frozenset[str] = frozenset()
    told: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    figures: dict[str, float] = field(default_factory=dict)


TRIALS = [
    Trial(
        "as-made-notch-cut",
        faults=frozenset({"clamp.meets_blade"}),
        figures={"heel notch": 394.5, "sled length": 800.0, "fence": 123.8, "hand line": 690.0},
    ),
    Trial("as-made-sheet", figures={"sled nose": 24.9, "fence": 105.4}),
    Trial(
        "as-made-without-length",
        faults=frozenset({"sled.as_made_needs_length"}),
        told=("Make the sled 60 in long",),
        figures={"sled length": 60 * 25.4},
    ),
    Trial("deep-clamp"),
    Trial("flat-slope-small-clamps", faults=frozenset({"clamp.no_grip"}), told=("clamps that open 3 1/2 in",)),
    Trial("hand-line-too-near", faults=frozenset({"hands.line_too_near", "handle.breaks_out"})),
    Trial(
        "margins-of-nothing",
        faults=frozenset({"margin.stop_beyond", "clamp.deep_meets_blade"}),
        also=frozenset({"margin.travel_small", "margin.side_small"}),
    ),
    Trial(
        "narrow-plank",
        faults=frozenset(
            {
                "sled.too_short",
                "nose.no_clamp",
                "sled.hands_have_no_room",
                "clamp.grips_air",
                "board.meets_fence",
            }
        ),
        told=("plank 5 1/2 in wide",),
        never=("travel of -", "after -", "at -"),
    ),
    Trial("no-room-for-hands", figures={"sled length": 34 * 25.4, "hand line": 27 * 25.4}),
    Trial("nose-exactly-an-inch", never=("1 in wide, less than nose_min 1 in",)),
    Trial("run-on-exact-marks"),
    Trial("sled-too-low", also=frozenset({"backing.low"}), told=("58 mm above it", "from 3 layers")),
    Trial("wedge-on-a-short-sled", faults=frozenset({"sled.hands_have_no_room", "clamp.meets_fence"})),
]


def figure(work: Workup, name: str) -> float:
    way = work.way
    return {
        "heel notch": next(n.station for n in way.layout.notches if n.where == "heel"),
        "sled length": way.sled.length,
        "sled nose": way.sled.nose,
        "fence": way.fence,
        "hand line": way.layout.hand_line,
    }[name]


def trial(name: str) -> Workup:
    return work_up(read_job(FOLDER / f"{name}.toml"))


def test_every_job_of_the_folder_is_tried() -> None:
    assert {t.file for t in TRIALS} <= {p.stem for p in FOLDER.glob("*.toml")}


@pytest.mark.parametrize("wanted", TRIALS, ids=lambda t: t.file)
def test_a_trial(wanted: Trial) -> None:
    work = trial(wanted.file)
    assert {f.code for f in faults(list(work.findings))} == wanted.faults
    assert wanted.also <= {f.code for f in work.findings}
    texts = [f.text for f in work.findings]
    for piece in wanted.told:
        assert any(piece in text for text in texts), piece
    for piece in wanted.never:
        assert not any(piece in text for text in texts), piece
    for name, value in wanted.figures.items():
        assert figure(work, name) == pytest.approx(value, abs=1e-6), name


def test_a_measured_sled_keeps_what_is_cut_into_it() -> None:
    work = trial("as-made-notch-cut")
    way = work.way
    assert [n.station for n in way.layout.notches] == [n.station for n in way.planned.notches]
    assert way.layout.handle_holes == way.planned.handle_holes
    assert way.sled.nose_flat == way.nominal.nose_flat
    assert way.sled.ratio == pytest.approx(800 / (123.4 - 58))
    assert way.joint.ratio == way.sled.ratio
    assert way.travel.done > work.way.planned.clamps[0].station - 400  # and the travels follow the measured slope


def test_advice_for_a_measured_sled_leads_to_no_other_sled() -> None:
    """What is in the maker's hands can get another notch or line, never another length, plank or slope."""
    other = {"sled.plank", "sled.nose_min", "sled.nose_flat", "joint.ratio", "sled.web", "sled.layers"}
    for name in ("as-made-notch-cut", "as-made-sheet"):
        for one in trial(name).findings:
            for remedy in one.remedies:
                assert not other & {key for key, _ in remedy}
                assert "sled.length" not in dict(remedy)


def test_a_deep_clamp_is_clear_as_low_as_it_goes() -> None:
    """At its lowest, by hand: a throat of 120 lets the pads down to the table, where the blade is longest."""
    work = trial("deep-clamp")
    clamp = next(c for c in work.way.layout.clamps if c.where == "heel")
    assert clamp.pushed_down is not None
    assert clamp.pushed_down >= work.way.travel_end + 10 - 1e-6
    assert clamp.limit is None or clamp.limit >= work.way.travel_end + 50 - 1e-6
    shallow = work_up(read_job(FOLDER / "run-on-exact-marks.toml"))
    assert shallow.way.layout.least_station > 0


def test_a_wedge_has_its_own_limit() -> None:
    """A wedge as long as two pads would let the jaw 60 in from the nose: it is as long as the fence allows."""
    work = work_up(in_full_shop(read_job(FOLDER / "run-on-exact-marks.toml")))
    wedge = next(w for w in work.wanted if w.kind.name == "nose_wedge")
    sled = work.way.sled
    at_fence = sled.length - wedge.parameters["length"] - 12 / (1 + sled.ratio**2) ** 0.5 - 450
    assert at_fence >= work.way.travel_end + 50 - 1e-6

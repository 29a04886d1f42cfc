"""The proof by solids: what the files say about a cut, tried out with bodies.

This module takes only what a job leaves behind: cad/sled.step, numbers.json and job.toml. It imports none of the
calculations. A board is stood on the work edge of the sled that was written, the blade is a disc of the kerf's width
swept along the travel, clamps are boxes, the fence is a box; then it is cut and measured. Whether something happens
at a travel is asked a twentieth of a millimetre before it and after it, so every travel is proved to 0.05 mm, every
length to 0.01 mm.
"""

from __future__ import annotations

import json
import math
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests import proof_jobs

FAST, SLOW = range(12), range(1000, 1200)
TRAVEL = 0.05  # travels are right to this [mm]
LENGTH = 0.01  # and lengths to this [mm]
HAIR = 0.001  # what passes at exactly a clearance does not meet [mm]
ROOM_AT_START = 25.0  # before the blade, while it comes up to speed [mm]
PAST = 400.0  # board beyond what a given length leaves open [mm]
BAR = 12.0  # height of a clamp's bar [mm]; its lower edge is what counts

Point = tuple[float, float]


# -- reading what was written -----------------------------------------------------------------------------


def millimetres(text: str | float, units: str) -> float:
    """A length of job.toml, written "22 mm", "1 1/2 in" or as a bare number in the job's units."""
    if not isinstance(text, str):
        return float(text) * (25.4 if units == "in" else 1.0)
    *numbers, unit = text.split()
    total = 0.0
    for number in numbers:
        above, _, below = number.partition("/")
        total += float(above) / float(below or 1)
    return total * {"mm": 1.0, "in": 25.4}[unit]


class Bench:
    """The sled as written, and bodies made beside it. X from the heel, Y from the fence edge, z up [mm]."""

    def __init__(self, folder: Path) -> None:
        import cadquery as cq

        self.numbers: dict[str, Any] = json.loads((folder / "numbers.json").read_text())
        self.job: dict[str, Any] = tomllib.loads((folder / "job.toml").read_text())
        self.sled: Any
        (self.sled,) = cq.importers.importStep(str(folder / "cad" / "sled.step")).solids().vals()
        self.side = -1.0 if self.job["saw"]["fence_side"] == "left" else 1.0
        box = self.sled.BoundingBox()
        self.length, self.top = box.xmax, box.zmax
        heel_end = [v for v in self.sled.Vertices() if abs(v.X - self.length) < 1e-6]
        self.heel_width = max(self.side * v.Y for v in heel_end)
        self.normal = self._work_edge()

    def _work_edge(self) -> Point:
        """Outward normal (X, Y) of the face the board is laid against: the outermost of those that look its way."""
        found = []
        for face in self.sled.Faces():
            n = face.normalAt()
            if face.geomType() == "PLANE" and self.side * n.y > 0.5 and abs(n.z) < 1e-9:
                centre = face.Center()
                found.append((n.x * centre.x + n.y * centre.y, -n.x, self.side * n.y))
        return max(found)[1:]

    def of(self, table: str, key: str) -> float:
        return millimetres(self.job[table][key], self.job["units"])

    @property
    def saw(self) -> dict[str, Any]:
        found: dict[str, Any] = self.numbers["saw"]
        return found

    @property
    def sin(self) -> float:
        return self.normal[0]

    @property
    def cos(self) -> float:
        return self.normal[1]

    # -- bodies ---------------------------------------------------------------------------------------------

    def upright(self, corners: list[Point], low: float, high: float) -> Any:
        """A body from above: corners (X, Y), from height low to high."""
        import cadquery as cq

        points = [cq.Vector(self.length - x, self.side * y, low) for x, y in corners]
        face = cq.Face.makeFromWires(cq.Wire.makePolygon(points, close=True))
        return cq.Solid.extrudeLinear(face, cq.Vector(0, 0, high - low))

    def box(self, x: Point, y: Point, z: Point) -> Any:
        return self.upright([(x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])], *z)

    def along_board(self, u: Point, v: Point, z: Point) -> Any:
        """A box in the board's own frame: u along the work edge from the heel, v square to it from the sled out."""
        corners = [(u[0], v[0]), (u[1], v[0]), (u[1], v[1]), (u[0], v[1])]
        return self.upright([self.at(*corner) for corner in corners], *z)

    def at(self, u: float, v: float) -> Point:
        return (u * self.cos + v * self.sin, self.heel_width - u * self.sin + v * self.cos)

    def board(self) -> Any:
        given = self.job["stock"].get("length")
        long = max(self.length, self.heel_width / self.sin) + PAST
        length = long if given is None else self.of("stock", "length")
        return self.along_board((0.0, length), (0.0, self.of("stock", "thickness")), (0.0, self.of("stock", "height")))

    def blade(self, start: float, end: float, grown: float = 0.0) -> Any:
        """All that the blade has passed through from one travel to another; `grown` widens it on both sides."""
        import cadquery as cq

        radius = self.of("saw", "blade_diameter") / 2
        axis, near = self.saw["blade_height_mm"] - radius, self.saw["fence_mm"]
        y = self.side * (near - grown)
        back, front = self.length - start, self.length - end  # in the file's x the blade comes from the heel end

        def point(x: float, z: float) -> Any:
            return cq.Vector(x, y, z)

        if end - start < 1e-9:
            rim = cq.Wire.makeCircle(radius, point(front, axis), cq.Vector(0, 1, 0))
        else:
            up, down = axis + radius, axis - radius
            rim = cq.Wire.assembleEdges(
                [
                    cq.Edge.makeLine(point(front, up), point(back, up)),
                    cq.Edge.makeThreePointArc(point(back, up), point(back + radius, axis), point(back, down)),
                    cq.Edge.makeLine(point(back, down), point(front, down)),
                    cq.Edge.makeThreePointArc(point(front, down), point(front - radius, axis), point(front, up)),
                ]
            )
        width = self.of("saw", "kerf") + 2 * grown
        return cq.Solid.extrudeLinear(cq.Face.makeFromWires(rim), cq.Vector(0, self.side * width, 0))

    def fence(self, travel: float) -> Any:
        """The fence with the sled at a travel: its front end stands fence_front before the blade's axis."""
        behind = min(self.saw["start_mm"], travel) - self.of("saw", "table_back")
        front = travel + self.of("saw", "fence_front")
        return self.box((behind, front), (-60.0, 0.0), (0.0, self.of("saw", "fence_height")))

    def clamp(self, where: dict[str, Any], low: float) -> list[Any]:
        """All the room a clamp may take up, sliding in its seat: outer jaw, fence-side jaw, bar."""
        thickness, throat = self.of("stock", "thickness"), self.of("clamp", "throat")
        jaw_outer, jaw_inner = self.of("clamp", "jaw_outer"), self.of("clamp", "jaw_inner")
        along = self.seat(where)
        inner = thickness - where["opening_mm"]
        jaws = (low, low + throat + BAR)
        return [
            self.along_board(along, (thickness, thickness + jaw_outer), jaws),
            self.along_board(along, (inner - jaw_inner, inner), jaws),
            self.along_board(along, (inner - jaw_inner, thickness + jaw_outer), (low + throat, low + throat + BAR)),
        ]

    def seat(self, where: dict[str, Any]) -> Point:
        """Stretch of the work edge in which a clamp's jaws may lie: all of its slot, or of the nose flat."""
        pad, station = self.of("clamp", "pad_width"), where["station_mm"]
        if where["where"] == "nose_flat":
            step = (self.numbers["sled"]["nose_flat_mm"], self.numbers["sled"]["nose_flat_step_mm"])
            end = (self.length - step[0]) * self.cos + (self.heel_width - step[1]) * self.sin
            return (min(end, station - pad / 2), station + pad / 2)
        half = max(pad, self.of("sled", "notch_length")) / 2
        return (station - half, station + half)

    def pads_low(self, where: dict[str, Any]) -> float:
        return float(max(self.top, self.of("stock", "height")) - where["swallowed_mm"])

    def clamps(self) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = self.numbers["sled"]["clamps"]
        return found

    def cut(self, travel: float) -> list[Any]:
        """The pieces the board is in once the sled has been pushed to a travel, largest first."""
        pieces = self.board().cut(self.blade(self.saw["start_mm"], travel)).Solids()
        return sorted(pieces, key=lambda piece: -piece.Volume())

    def furthest(self, piece: Any) -> float:
        """Greatest Y of a piece's corners."""
        return max(float(self.side * v.Y) for v in piece.Vertices())


def meet(one: Any, *others: Any) -> bool:
    return any(one.distance(other) < 1e-7 for other in others)


# -- what is proved ---------------------------------------------------------------------------------------


def prove_slope(bench: Bench) -> None:
    joint, sled = bench.numbers["joint"], bench.numbers["sled"]
    assert bench.cos / bench.sin == pytest.approx(joint["ratio_realised"], rel=1e-7)
    assert bench.length == pytest.approx(sled["length_mm"], abs=LENGTH)
    assert bench.heel_width == pytest.approx(sled["heel_mm"], abs=LENGTH)
    assert bench.saw["fence_mm"] - bench.heel_width == pytest.approx(bench.of("saw", "fence_gap"), abs=LENGTH)
    assert bench.saw["blade_height_mm"] - bench.of("stock", "height") == pytest.approx(
        bench.of("saw", "blade_above_work"), abs=LENGTH
    )


def prove_pieces(bench: Bench) -> None:
    """Uncut at the start; one piece before offcut free, two after; the offcut beyond the blade; lip until done."""
    saw, kerf = bench.saw, bench.of("saw", "kerf")
    assert not meet(bench.blade(saw["start_mm"], saw["start_mm"] + ROOM_AT_START - TRAVEL), bench.board(), bench.sled)
    free, done = saw["travel_offcut_free_mm"], saw["travel_done_mm"]
    assert len(bench.cut(free - TRAVEL)) == 1
    work, offcut = bench.cut(free + TRAVEL)
    assert min(bench.side * v.Y for v in offcut.Vertices()) == pytest.approx(saw["fence_mm"] + kerf, abs=LENGTH)
    assert bench.furthest(work) - saw["fence_mm"] == pytest.approx(kerf, abs=LENGTH)  # the lip, up to a kerf thick
    before, after = bench.cut(done - TRAVEL)[0], bench.cut(done + TRAVEL)[0]
    assert bench.furthest(before) > saw["fence_mm"] + 1e-4
    assert bench.furthest(after) < saw["fence_mm"] + 1e-6


def prove_clear(bench: Bench, work: Any) -> None:
    """The back of the blade has left the taper by the gap asked for, square to the blade."""
    clear, gap = bench.saw["travel_clear_mm"], bench.of("saw", "clear_gap")
    assert meet(work, bench.blade(clear - TRAVEL, clear - TRAVEL, gap))
    assert not meet(work, bench.blade(clear + TRAVEL, clear + TRAVEL, gap))


def prove_sled_stays_whole(bench: Bench) -> None:
    """The blade passes the sled by the fence gap, all the way; the fence touches the sled and no more."""
    last = max(bench.saw["travel_clear_mm"], bench.saw["travel_limit_mm"] or 0.0)
    swept = bench.blade(bench.saw["start_mm"], last)
    assert swept.distance(bench.sled) == pytest.approx(bench.of("saw", "fence_gap"), abs=LENGTH)
    fence = bench.fence(last)
    assert fence.distance(bench.sled) < 1e-6
    assert min(bench.side * v.Y for v in bench.sled.Vertices()) == pytest.approx(0.0, abs=1e-6)


def prove_seats(bench: Bench) -> None:
    """Each clamp fits its seat in the sled as written, closes on web and work, and can't slide past where it may."""
    pad, jaw, thickness = bench.of("clamp", "pad_width"), bench.of("clamp", "jaw_inner"), bench.of("stock", "thickness")
    less = 0.002
    for where in bench.clamps():
        low = bench.pads_low(where)
        assert low >= -1e-9
        assert where["opening_mm"] <= bench.of("clamp", "opening")
        assert where["swallowed_mm"] <= bench.of("clamp", "throat") + 1e-9
        station, inner = where["station_mm"], thickness - where["opening_mm"]
        from_u, to_u = bench.seat(where)
        on_flat = where["where"] == "nose_flat"
        straight = bench.numbers["sled"]["nose_flat_mm"] if on_flat else bench.of("sled", "notch_length")
        straight -= 0.0 if on_flat else bench.of("sled", "notch_width")
        z = (low, bench.top + 5.0)
        if pad <= straight and not on_flat:
            middle = (station - pad / 2 + less, station + pad / 2 - less)
            assert not meet(bench.sled, bench.along_board(middle, (inner - jaw, inner - less), z))
            pressed = bench.along_board(middle, (inner - jaw, inner + LENGTH), z)
            assert meet(bench.sled, pressed)
        past_heel = bench.along_board((from_u - TRAVEL, from_u + pad), (inner - jaw, inner - less), z)
        if not on_flat or bench.numbers["sled"]["nose_flat_step_mm"] > 0.5:
            assert meet(bench.sled, past_heel)
        if not on_flat:
            assert meet(bench.sled, bench.along_board((to_u - pad, to_u + TRAVEL), (inner - jaw, inner - less), z))


def prove_notches(bench: Bench) -> None:
    """Slots in the sled as written: the middles of their round ends, seen along the work edge."""
    x, y = bench.at(0.0, 0.0)
    ends = []
    for face in bench.sled.Faces():
        if face.geomType() == "CYLINDER":
            cylinder = face._geomAdaptor().Cylinder()
            centre, radius = cylinder.Axis().Location(), cylinder.Radius()
            dx, dy = bench.length - centre.X() - x, bench.side * centre.Y() - y
            ends.append((dx * bench.cos - dy * bench.sin, dx * bench.sin + dy * bench.cos, radius))
    for notch in bench.numbers["sled"]["notches"]:
        half, radius = max(notch["length_mm"] - notch["width_mm"], 0.0) / 2, notch["width_mm"] / 2
        for u in (notch["station_mm"] - half, notch["station_mm"] + half):
            expected = (u, -notch["web_mm"] - radius, radius)
            assert any(math.dist(end, expected) < LENGTH for end in ends), notch
    of_clamps = {c["station_mm"] for c in bench.clamps() if c["where"] != "nose_flat"}
    assert of_clamps == {n["station_mm"] for n in bench.numbers["sled"]["notches"]}


def prove_limits(bench: Bench) -> None:
    """Each clamp, wherever it slides and with the side clearance, is free of blade and fence until its limit."""
    saw = bench.saw
    start, never = saw["start_mm"], bench.length + bench.of("saw", "blade_diameter")
    grown = bench.of("saw", "side_clearance")
    for where in bench.clamps():
        bodies = bench.clamp(where, bench.pads_low(where))
        limit = where["limit_mm"]
        until = never if limit is None else limit - TRAVEL
        # a clamp that never comes into the way may pass at exactly the clearance
        assert not meet(bench.blade(start, until, grown - HAIR * (limit is None)), *bodies), where
        assert not meet(bench.fence(until), *bodies), where
        if limit is not None:
            hit = bench.blade(start, limit + TRAVEL, grown), bench.fence(limit + TRAVEL)
            assert meet(hit[0 if where["meets"] == "blade" else 1], *bodies), where
        deepest = max(max(bench.top, bench.of("stock", "height")) - bench.of("clamp", "throat"), 0.0)
        deep, limit = bench.clamp(where, deepest), where["limit_pushed_down_mm"]
        until = never if limit is None else limit - TRAVEL
        assert not meet(bench.blade(start, until, grown - HAIR * (limit is None)), *deep), where
        if limit is not None:
            assert meet(bench.blade(start, limit + TRAVEL, grown), *deep), where


def prove_limit_of_all(bench: Bench) -> None:
    """Blade, fence, board and all clamps together, and the board's tail at the fence."""
    saw, board = bench.saw, bench.board()
    tail, limit = saw["board_limit_mm"], saw["travel_limit_mm"]
    never = bench.length + bench.of("saw", "blade_diameter")
    assert not meet(bench.fence(never if tail is None else tail - TRAVEL), board)
    if tail is not None:
        assert meet(bench.fence(tail + TRAVEL), board)
    bodies = [body for where in bench.clamps() for body in bench.clamp(where, bench.pads_low(where))]
    grown, start = bench.of("saw", "side_clearance"), saw["start_mm"]
    until = never if limit is None else limit - TRAVEL
    assert not meet(bench.blade(start, until, grown - HAIR), *bodies)
    assert not meet(bench.fence(until), board, *bodies)
    if limit is not None:
        after = limit + TRAVEL
        assert meet(bench.blade(start, after, grown), *bodies) or meet(bench.fence(after), board, *bodies)
        end = saw["travel_clear_mm"] if saw["end_of_cut"] == "run_on" else saw["travel_done_mm"]
        assert saw["travel_end_mm"] == end
        assert limit >= end + bench.of("saw", "travel_margin") - 1e-6  # else there is a fault and no file


def prove_least_station(bench: Bench) -> None:
    """A slot clamp at the least station is free of the blade: with its pads where they belong to the end of the cut and
    its margin (or the stop block's mark and the spare room past it), pushed down to the spare room past the end; nearer
    to the heel one of the two is not."""
    half = max(bench.of("clamp", "pad_width"), bench.of("sled", "notch_length")) / 2
    least = bench.saw["least_station_mm"]
    if least <= half + 1.0:
        return  # no clamp on the board can come into the blade's way
    mark, spare = (25.4 / 16, 25.4 * 7 / 16) if bench.numbers["units"] == "in" else (1.0, 10.0)
    end, side = bench.saw["travel_end_mm"], bench.of("saw", "side_clearance")
    whole = end + max(bench.of("saw", "travel_margin"), mark + spare)
    heel = next(c for c in bench.clamps() if c["where"] == "heel")
    deepest = max(max(bench.top, bench.of("stock", "height")) - bench.of("clamp", "throat"), 0.0)
    swept = [(bench.blade(bench.saw["start_mm"], until, side), low)
             for until, low in ((whole, bench.pads_low(heel)), (end + spare, deepest))]  # fmt: skip
    further, nearer = heel | {"station_mm": least + TRAVEL}, heel | {"station_mm": least - TRAVEL}
    assert not any(meet(blade, *bench.clamp(further, low)) for blade, low in swept)
    assert any(meet(blade, *bench.clamp(nearer, low)) for blade, low in swept)


def prove_joint(bench: Bench, work: Any) -> None:
    """Two pieces, one turned half round about the upright axis, put together: slope, tip, run, overlap, thickness."""
    joint, thickness = bench.numbers["joint"], bench.of("stock", "thickness")
    heel_x, heel_y = bench.at(0.0, 0.0)

    def in_board(vertex: Any) -> Point:
        x, y = bench.length - vertex.X - heel_x, bench.side * vertex.Y - heel_y
        return (x * bench.cos - y * bench.sin, x * bench.sin + y * bench.cos)

    (taper,) = (f for f in work.Faces() if abs(bench.side * f.normalAt().y - 1.0) < 1e-9)
    across, back = bench.normal, (taper.normalAt().x, bench.side * taper.normalAt().y)
    cosine = across[1] * back[1] - across[0] * back[0]
    assert 1 / math.tan(math.acos(cosine)) == pytest.approx(joint["ratio_realised"], rel=1e-6)
    slope = [in_board(v) for v in taper.Vertices()]
    assert min(v for u, v in slope if u < 1.0) == pytest.approx(joint["tip_mm"], abs=LENGTH)
    assert max(u for u, _ in slope) == pytest.approx(joint["taper_run_mm"], abs=LENGTH)
    assert max(v for _, v in slope) == pytest.approx(thickness, abs=LENGTH)

    import cadquery as cq

    def mate(along: float, square: float) -> Any:
        """The other piece turned half round and moved so that its tip lies at u, its bearing face at v."""
        x, y = bench.at(along / 2, square / 2)
        axis = cq.Vector(bench.length - x, bench.side * y, 0)
        return work.rotate(axis, axis + cq.Vector(0, 0, 1), 180)

    # slid together along the boards with their faces in line, until the tapers touch
    apart = 15.0
    overlap = joint["overlap_mm"] - apart + work.distance(mate(joint["overlap_mm"] - apart, thickness)) / bench.sin
    assert overlap == pytest.approx(joint["overlap_mm"], abs=LENGTH)
    assert not meet(work, mate(joint["overlap_mm"] - LENGTH, thickness))
    assert meet(work, mate(joint["overlap_mm"] + LENGTH, thickness))
    closed = mate(joint["overlap_mm"], thickness)
    assert sum(s.Volume() for s in work.intersect(closed).Solids()) < LENGTH * bench.sin * 0.01 * joint["glue_area_mm2"]
    # tips set the overlap apart and the tapers closed square to the boards: as thick as the boards
    square = thickness + apart - work.distance(mate(joint["overlap_mm"], thickness + apart)) / bench.cos
    joined = [in_board(v)[1] for piece in (work, mate(joint["overlap_mm"], square)) for v in piece.Vertices()]
    assert max(joined) - min(joined) == pytest.approx(thickness, abs=LENGTH)


def prove(folder: Path) -> None:
    """Everything about one job."""
    bench = Bench(folder)
    prove_slope(bench)
    prove_pieces(bench)
    work = bench.cut(max(bench.saw["travel_clear_mm"], bench.saw["travel_done_mm"] + 1))[0]
    prove_clear(bench, work)
    prove_sled_stays_whole(bench)
    prove_seats(bench)
    prove_notches(bench)
    prove_limits(bench)
    prove_limit_of_all(bench)
    prove_least_station(bench)
    prove_joint(bench, work)


@pytest.mark.parametrize("seed", FAST)
def test_a_seeded_dozen(seed: int, tmp_path: Path) -> None:
    prove(proof_jobs.write_job(proof_jobs.faultless(seed), tmp_path))


@pytest.mark.slow
@pytest.mark.parametrize("seed", SLOW)
def test_two_hundred_random_jobs(seed: int, tmp_path: Path) -> None:
    prove(proof_jobs.write_job(proof_jobs.faultless(seed), tmp_path))


@pytest.mark.parametrize("name", proof_jobs.PICKED)
def test_picked_corners(name: str, tmp_path: Path) -> None:
    prove(proof_jobs.write_job(proof_jobs.picked(name), tmp_path))


# -- the proof itself: it must notice a number that is wrong by little more than it allows -------------------------


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return Bench(proof_jobs.write_job(proof_jobs.picked("worked case"), tmp_path_factory.mktemp("proof")))


def prove_travels(bench: Bench) -> None:
    prove_pieces(bench)
    prove_clear(bench, bench.cut(bench.saw["travel_clear_mm"])[0])
    prove_limit_of_all(bench)


@pytest.mark.parametrize("off", [-2.5, 2.5])
@pytest.mark.parametrize("key", ["offcut_free", "done", "clear", "limit"])
def test_a_travel_a_little_off_is_noticed(bench: Bench, key: str, off: float, monkeypatch: pytest.MonkeyPatch) -> None:
    saw = bench.saw
    monkeypatch.setitem(saw, f"travel_{key}_mm", saw[f"travel_{key}_mm"] + off * TRAVEL)
    with pytest.raises((AssertionError, ValueError)):
        prove_travels(bench)


@pytest.mark.parametrize("off", [-2.5, 2.5])
@pytest.mark.parametrize("key", ["tip", "taper_run", "overlap"])
def test_a_length_a_little_off_is_noticed(bench: Bench, key: str, off: float, monkeypatch: pytest.MonkeyPatch) -> None:
    joint = bench.numbers["joint"]
    monkeypatch.setitem(joint, f"{key}_mm", joint[f"{key}_mm"] + off * LENGTH)
    with pytest.raises(AssertionError):
        prove_joint(bench, bench.cut(bench.saw["travel_clear_mm"])[0])


@pytest.mark.parametrize("off", [-2.5, 2.5])
@pytest.mark.parametrize("which", [0, 1])
def test_a_clamp_limit_a_little_off_is_noticed(
    bench: Bench, which: int, off: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    clamp = bench.clamps()[which]
    monkeypatch.setitem(clamp, "limit_mm", clamp["limit_mm"] + off * TRAVEL)
    with pytest.raises(AssertionError):
        prove_limits(bench)


def test_a_station_a_little_off_is_noticed(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    notch = bench.numbers["sled"]["notches"][0]
    monkeypatch.setitem(notch, "station_mm", notch["station_mm"] + 2.5 * LENGTH)
    with pytest.raises(AssertionError):
        prove_notches(bench)

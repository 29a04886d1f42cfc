"""The set-up at the saw as files: the 3D model and the STEP assembly, read back by other readers."""

from __future__ import annotations

import json
import struct
import subprocess
import sys
from itertools import combinations
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from scarfwright.models.job.file import job_from_dict, read_job
from scarfwright.models.job.tables import Job
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.make import items, make_all

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
SAW = {"table", "fence", "blade", "riving_knife", "sled"}
Box = tuple[tuple[float, float, float], tuple[float, float, float]]


class Model(NamedTuple):
    """A binary glTF file taken apart by hand: its JSON, and the box of every node in millimetres with z up."""

    data: dict[str, Any]
    groups: dict[str, dict[str, Box]]


class Made(NamedTuple):
    work: Workup
    numbers: dict[str, Any]
    folder: Path

    @property
    def glb(self) -> Path:
        return self.folder / "cad" / "saw-setup.glb"

    @property
    def step(self) -> Path:
        return self.folder / "cad" / "saw-setup.step"


def make(job: Job, folder: Path) -> Made:
    work = work_up(job)
    make_all([i for i in items(work, {"cad"}) if "saw-setup" in i.path], folder, lambda _: None)
    return Made(work, numbers(work), folder)


def taken_apart(path: Path) -> Model:
    """glTF 2.0, chapter "GLB file format": header, JSON chunk, binary chunk."""
    whole = path.read_bytes()
    magic, version, length = struct.unpack_from("<4sII", whole)
    assert (magic, version, length) == (b"glTF", 2, len(whole))
    size, kind = struct.unpack_from("<I4s", whole, 12)
    assert kind == b"JSON"
    assert size % 4 == 0
    data = json.loads(whole[20 : 20 + size])
    binary_size, kind = struct.unpack_from("<I4s", whole, 20 + size)
    assert kind == b"BIN\0"
    assert binary_size == data["buffers"][0]["byteLength"] == len(whole) - 28 - size
    (root,) = data["scenes"][data["scene"]]["nodes"]
    groups = {}
    for index in data["nodes"][root]["children"]:
        group = data["nodes"][index]
        groups[group["name"]] = {
            data["nodes"][child]["name"]: box_of(data, data["nodes"][child]) for child in group["children"]
        }
    return Model(data, groups)


def box_of(data: dict[str, Any], node: dict[str, Any]) -> Box:
    """Box of a node in its group, turned back from metres with y up to millimetres with z up."""
    position = data["meshes"][node["mesh"]]["primitives"][0]["attributes"]["POSITION"]
    accessor, (dx, dy, dz) = data["accessors"][position], node["translation"]
    (x0, y0, z0), (x1, y1, z1) = accessor["min"], accessor["max"]
    return (
        (1000 * (x0 + dx), -1000 * (z1 + dz), 1000 * (y0 + dy)),
        (1000 * (x1 + dx), -1000 * (z0 + dz), 1000 * (y1 + dy)),
    )


@pytest.fixture(scope="module", params=["plank-metric", "plank-inch", "sheet-layers"])
def made(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Made:
    return make(read_job(EXAMPLES / f"{request.param}.toml"), tmp_path_factory.mktemp(request.param))


@pytest.fixture(scope="module")
def model(made: Made) -> Model:
    return taken_apart(made.glb)


def plain(name: str) -> str:
    """The state without its number, and without the word that it is not reached."""
    return name.partition("_")[2].removesuffix("_not_reached")


def test_five_states_at_the_travels_of_the_numbers(made: Made, model: Model) -> None:
    saw = made.numbers["saw"]
    told = {
        plain(n["name"]): n["extras"]["travel_mm"] for n in model.data["nodes"] if "travel_mm" in n.get("extras", {})
    }
    assert told == {
        "start": saw["start_mm"],
        **{k: saw[f"travel_{k}_mm"] for k in ("offcut_free", "done", "clear", "limit")},
    }
    assert [n[0] for n in model.groups] == ["1", "2", "3", "4", "5"]
    assert list(told.values()) == sorted(told.values())


def test_what_is_in_each_state(made: Made, model: Model) -> None:
    clamps = len(made.numbers["sled"]["clamps"])
    work = {"start": "work", "offcut_free": "work_with_lip"}
    for name, boxes in model.groups.items():
        state = plain(name)
        assert set(boxes) >= SAW | {work.get(state, "work_tapered")}
        assert ("offcut" in boxes) == (state != "start")
        assert sum("_clamp" in n for n in boxes) == clamps
        assert ("not_reached" in name) == any("_meets_" in n for n in boxes)


def test_where_things_stand(made: Made, model: Model) -> None:
    saw, sled, job = made.numbers["saw"], made.numbers["sled"], made.work.job
    side = -1 if job.saw.fence_side == "left" else 1

    def across(box: Box) -> tuple[float, float]:
        low, high = sorted((side * box[0][1], side * box[1][1]))
        return low, high

    for name, boxes in model.groups.items():
        travel = saw["start_mm"] if plain(name) == "start" else saw[f"travel_{plain(name)}_mm"]
        assert boxes["sled"][1][0] == pytest.approx(travel, abs=0.001)  # the heel, past the blade's axis
        assert across(boxes["sled"]) == pytest.approx((0, sled["heel_mm"]), abs=0.001)
        assert boxes["sled"][1][2] == pytest.approx(sled["thickness_mm"], abs=0.001)
        assert boxes["blade"][1][2] == pytest.approx(saw["blade_height_mm"], abs=0.06)  # chords
        assert across(boxes["blade"]) == pytest.approx((saw["fence_mm"], saw["fence_mm"] + job.saw.kerf), abs=0.001)
        assert boxes["fence"][0][0] == pytest.approx(-job.saw.fence_front, abs=0.001)
        assert across(boxes["fence"])[1] == pytest.approx(0, abs=0.001)
        assert boxes["table"][0][0] == pytest.approx(-job.saw.table_front, abs=0.001)
        assert boxes["table"][1][0] == pytest.approx(job.saw.table_back, abs=0.001)
        assert boxes["table"][1][2] == 0
        # EN 1870 series: the knife's top at least 2 mm below the blade's
        assert boxes["riving_knife"][1][2] <= saw["blade_height_mm"] - 2
        low, high = across(boxes["riving_knife"])
        assert high - low == pytest.approx(job.saw.riving_knife, abs=0.001)
        if "offcut" in boxes:  # on the free side, and it stays where it fell
            assert across(boxes["offcut"])[0] == pytest.approx(saw["fence_mm"] + job.saw.kerf, abs=0.001)
            assert boxes["offcut"] == model.groups["2_offcut_free"]["offcut"]


def test_meshes_are_closed_and_coloured(made: Made) -> None:
    import trimesh

    scene: Any = trimesh.load(made.glb)
    assert len(scene.geometry) >= len(SAW) + 5
    for mesh in scene.geometry.values():
        assert mesh.is_watertight
        assert mesh.is_winding_consistent
        assert mesh.volume > 0
        assert mesh.visual.material.baseColorFactor is not None
    size = scene.extents
    assert size[0] < 10  # metres
    assert size[1] < 1


def placed(path: Path) -> dict[str, dict[str, Any]]:
    """Solids of a STEP assembly by group and name, each where it stands in its group."""
    import cadquery as cq

    root = cq.Assembly.importStep(str(path))
    assert root.name == path.stem
    return {g.name: {c.name: c.obj.moved(c.loc) for c in g.children} for g in root.children}  # type: ignore[union-attr]


def test_step_says_the_same_as_the_model(made: Made, model: Model) -> None:
    solids = placed(made.step)
    in_order = [(g, list(found)) for g, found in solids.items()]
    assert in_order == [(g, list(found)) for g, found in model.groups.items()]
    for group, found in solids.items():
        for name, solid in found.items():
            assert solid.isValid()
            box, (low, high) = solid.BoundingBox(), model.groups[group][name]
            assert (box.xmin, box.ymin, box.zmin) == pytest.approx(low, abs=0.06)
            assert (box.xmax, box.ymax, box.zmax) == pytest.approx(high, abs=0.06)


def test_nothing_runs_through_anything_else(made: Made) -> None:
    """Bodies may touch, not overlap; but for clamps that are marked as in the way, and the board clamped to a sled."""
    for group, found in placed(made.step).items():
        sound = {name: solid for name, solid in found.items() if "_meets_" not in name}
        for (one, first), (other, second) in combinations(sound.items(), 2):
            shared = first.intersect(second)
            volume = sum(s.Volume() for s in shared.Solids()) if shared else 0.0
            assert volume < 0.01, (group, one, other)


def test_a_clamp_in_the_way_meets_what_its_name_says(made: Made) -> None:
    for found in placed(made.step).values():
        for name, solid in found.items():
            if name.endswith("_meets_fence"):
                assert solid.distance(found["fence"]) < 1e-6
            elif name.endswith("_meets_blade"):
                # grown by the side clearance it meets the blade
                assert solid.distance(found["blade"]) <= made.work.job.saw.side_clearance + 1e-6


GOOD = {
    "stock": {"thickness": "22 mm", "height": "60 mm", "length": "1.6 m"},
    "joint": {"ratio": 12},
    "clamp": {"opening": "120 mm"},
    "files": {"machine": "laser"},
}


def test_left_is_the_mirror_image(tmp_path: Path) -> None:
    right, left = (
        taken_apart(make(job_from_dict(GOOD | {"saw": {"fence_side": side}}), tmp_path / side).glb).groups
        for side in ("right", "left")
    )
    assert list(right) == list(left)
    for group, boxes in right.items():
        assert list(boxes) == list(left[group])
        for name, ((x0, y0, z0), (x1, y1, z1)) in boxes.items():
            low, high = left[group][name]
            assert low == pytest.approx((x0, -y1, z0), abs=0.001)
            assert high == pytest.approx((x1, -y0, z1), abs=0.001)


def test_without_an_offcut_there_is_no_such_state(tmp_path: Path) -> None:
    thin = GOOD | {"stock": {"thickness": "3 mm", "height": "40 mm"}}
    groups = taken_apart(make(job_from_dict(thin), tmp_path).glb).groups
    assert [plain(name) for name in groups][:2] == ["start", "done"]
    assert not any("offcut" in boxes for boxes in groups.values())


def test_when_all_is_reached_no_state_says_otherwise(tmp_path: Path) -> None:
    groups = taken_apart(make(job_from_dict(GOOD | {"saw": {"end_of_cut": "run_on"}}), tmp_path).glb).groups
    assert not any("not_reached" in name for name in groups)
    assert not any("_meets_" in name for boxes in groups.values() for name in boxes)


def test_extra_clamps_are_numbered(tmp_path: Path) -> None:
    more = {"sled": {"length": "1500 mm", "plank": ["38 mm", "184 mm"], "extra_stations": ["500 mm", "700 mm"]}}
    groups = taken_apart(make(job_from_dict(GOOD | more), tmp_path).glb).groups
    assert {"extra_clamp_1", "extra_clamp_2"} <= set(groups["1_start"])


def test_same_job_same_bytes(tmp_path: Path) -> None:
    from scarfwright.models.solids.setup import block_solid

    first = make(job_from_dict(GOOD), tmp_path / "first")
    block_solid.cache_clear()
    again = make(job_from_dict(GOOD), tmp_path / "again")
    assert first.glb.read_bytes() == again.glb.read_bytes()
    assert first.step.read_bytes() == again.step.read_bytes()


def test_the_scene_is_data_without_the_kernel() -> None:
    code = (
        "import sys; from pathlib import Path; from scarfwright.models.job.file import read_job;"
        "from scarfwright.models.solve import work_up; from scarfwright.models.cut.scene import setup_scene;"
        f"assert setup_scene(work_up(read_job(Path({str(EXAMPLES / 'plank-metric.toml')!r}))).way).states;"
        "assert not {'cadquery', 'OCP', 'trimesh'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=120)

"""The commands that list the parts and build one alone."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import trimesh
from ezdxf.filemanagement import readfile as read_dxf
from scarfwright.models.parts import registry
from scarfwright.models.parts.words import WordError, find_kind, read, words

from tests.cli_runs import run


def test_parts_lists_every_part_with_every_parameter(tmp_path: Path) -> None:
    shown = run("parts", cwd=tmp_path)
    assert shown.returncode == 0
    listed = json.loads(run("parts", "--json", cwd=tmp_path).stdout)["parts"]
    assert [p["name"] for p in listed] == list(registry())
    for part in listed:
        assert part["name"] in shown.stdout
        assert part["parameters"]
        for word in part["parameters"]:
            assert word["name"] in shown.stdout
            assert word["about"], (part["name"], word["name"])
            assert word["unit"] or word["kind"] in ("text", "number"), (part["name"], word["name"])


def test_one_part_is_listed_alone(tmp_path: Path) -> None:
    listed = json.loads(run("parts", "square_block", "--json", cwd=tmp_path).stdout)["parts"]
    (block,) = listed
    units = {w["name"]: w["unit"] for w in block["parameters"]}
    assert units["angle"] == "deg"
    assert units["height"] == "mm"
    assert run("parts", "nothing", cwd=tmp_path).returncode == 2


@pytest.mark.parametrize("name", sorted(registry()))
def test_defaults_as_shown_can_be_typed(name: str) -> None:
    kind = registry()[name]
    typed = [f"{word.name}={word.shown()}" for word in words(kind)]
    found = read(kind, typed)
    for word in words(kind):
        assert found[word.name] == (word.default if word.kind == "list" else pytest.approx(word.default)), word.name


def test_lengths_in_every_form() -> None:
    riser = find_kind("riser")
    values = {"22": 22.0, "22 mm": 22.0, "2.2cm": 22.0, "3/4 in": 19.05, '1 1/2"': 38.1, "1 ft 2 in": 355.6}
    for text, mm in values.items():
        assert read(riser, [f"length={text}"]) == {"length": pytest.approx(mm)}
    sled = find_kind("sled")
    assert read(sled, ["stations=400,600"]) == {"stations": (400.0, 600.0)}
    given: object = read(sled, ["stations=16 in"])
    assert given == {"stations": (pytest.approx(406.4),)}
    assert read(sled, ["holes=100,30,5; 8 in,-40,5", "stations="]) == {
        "holes": ((100.0, 30.0, 5.0), (pytest.approx(203.2), -40.0, 5.0)),
        "stations": (),
    }
    assert read(find_kind("nose_wedge"), ["ratio=8.5"]) == {"ratio": 8.5}


@pytest.mark.parametrize(
    ("name", "given", "says"),
    [
        ("riser", "heigth=20", 'the nearest known one is "height"'),
        ("riser", "height", "expected key=value"),
        ("riser", "height=", "expected a length"),
        ("riser", "height=tall", "expected a length"),
        ("riser", "height=20 yd", "no unit known"),
        ("riser", "height=3/0 in", "zero under the line"),
        ("riser", "height=nan", "finite"),
        ("riser", "height=inf", "finite"),
        ("riser", "height=-3", "not negative"),
        ("riser", "height=1e9", "100 m"),
        ("nose_wedge", "ratio=steep", "expected a number"),
        ("nose_wedge", "ratio=1e12", "expected a number"),
        ("sled", "holes=1,2", "groups of 3 lengths"),
        ("sled", "stations=a,b", "expected a length"),
        ("risr", "height=20", 'the nearest known one is "riser"'),
    ],
)
def test_bad_words_are_one_message(name: str, given: str, says: str) -> None:
    with pytest.raises(WordError) as caught:
        read(find_kind(name), [given])
    assert says in str(caught.value)
    assert "\n" not in str(caught.value)


def test_given_twice() -> None:
    with pytest.raises(WordError, match="twice"):
        read(find_kind("riser"), ["height=20", "height=30"])


def test_bad_words_on_the_command_line(tmp_path: Path) -> None:
    for words_given in (["riser", "heigth=20"], ["risr"], ["riser", "height=x"]):
        done = run("part", *words_given, "--out", "x.stl", cwd=tmp_path)
        assert done.returncode == 2
        assert done.stderr.startswith("scarfwright: ")
        assert len(done.stderr.splitlines()) == 1
        assert "Traceback" not in done.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("out", ["riser.obj", "riser", "no/such/riser.stl", "folder.stl"])
def test_targets_that_cannot_be_used(out: str, tmp_path: Path) -> None:
    (tmp_path / "folder.stl").mkdir()
    done = run("part", "riser", "--out", out, cwd=tmp_path)
    assert done.returncode == 2
    assert "expected" in done.stderr
    assert len(done.stderr.splitlines()) == 1
    assert [p.name for p in tmp_path.iterdir()] == ["folder.stl"]


def test_impossible_sizes_are_a_finding(tmp_path: Path) -> None:
    done = run("part", "riser", "height=1", "--out", "x.stl", cwd=tmp_path)
    assert done.returncode == 1
    assert "Stops the job" in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_each_format_alone(tmp_path: Path) -> None:
    for suffix in (".stl", ".3mf", ".step", ".dxf"):
        out = tmp_path / f"wedge{suffix}"
        done = run("part", "nose_wedge", "ratio=10", "length=3 in", "--out", out, cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        assert "Nose wedge" in done.stdout
    assert sorted(p.suffix for p in tmp_path.iterdir()) == [".3mf", ".dxf", ".step", ".stl"]
    area = (3.0 + 3.0 + 7.62) / 2 * 76.2
    for suffix in (".stl", ".3mf"):
        mesh: Any = trimesh.load(tmp_path / f"wedge{suffix}", force="mesh")
        assert mesh.volume == pytest.approx(area * 20.0, rel=1e-6)
    document: Any = read_dxf(tmp_path / "wedge.dxf")
    (ring,) = document.modelspace().query("LWPOLYLINE")
    doubled = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]], strict=True))
    assert abs(doubled) / 2 == pytest.approx(area)


def test_an_old_file_is_replaced_whole_or_kept(tmp_path: Path) -> None:
    out = tmp_path / "riser.stl"
    out.write_bytes(b"old")
    if os.getuid() != 0:  # root may write anywhere
        tmp_path.chmod(0o500)
        try:
            assert run("part", "riser", "--out", out, cwd=Path.cwd()).returncode == 2
            assert out.read_bytes() == b"old"
        finally:
            tmp_path.chmod(0o700)
    assert run("part", "riser", "height=1", "--out", out, "--force", cwd=tmp_path).returncode == 1
    assert out.read_bytes() == b"old"
    refused = run("part", "riser", "--out", out, cwd=tmp_path)
    assert (refused.returncode, "--force" in refused.stderr) == (2, True)
    assert out.read_bytes() == b"old"
    assert run("part", "riser", "--out", out, "--force", cwd=tmp_path).returncode == 0
    assert len(out.read_bytes()) > 1000
    assert [p.name for p in tmp_path.iterdir()] == ["riser.stl"]
    once = out.read_bytes()
    assert run("part", "riser", "--out", out, "--force", cwd=tmp_path).returncode == 0
    assert out.read_bytes() == once


def test_listing_loads_no_kernel(tmp_path: Path) -> None:
    code = (
        "import sys\nfrom scarfwright.cli.parting import list_parts\nlist_parts(None, True)\n"
        "heavy = {'cadquery', 'OCP', 'ezdxf', 'reportlab', 'rpack'} & set(sys.modules)\nassert not heavy, heavy"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr

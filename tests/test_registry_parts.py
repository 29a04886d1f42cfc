"""Every registered part as files: what another reader finds in them. Driven by the registry: a new part is tested too.

The parts' whole ranges are walked in test_gauges_parts; here each is made a few times, and every file is read back.
"""

from __future__ import annotations

import inspect
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import trimesh
from scarfwright.models.findings import Level
from scarfwright.models.flat.loop import rectangle
from scarfwright.models.part.part import Part
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts import registry
from scarfwright.models.parts.check import check_part
from scarfwright.models.parts.kind import PartKind, _drawn
from scarfwright.models.parts.words import WordError, read, words
from scarfwright.models.printing.bed import height, part_bounds
from scarfwright.models.solids.solids import bodies, solid
from scarfwright.outputs.formats.table import write

# places within each range: as the part comes, small, large
SPOTS = {"as it comes": None, "small": 0.3, "large": 0.7}


def parameters(name: str, spot: float | None) -> Given:
    kind = registry()[name]
    if spot is None:
        takes_label = "label" in inspect.signature(kind.build).parameters
        return {"label": "1 in 12"} if takes_label else {}
    own = kind.filled({})
    # between the default and the end of the range, so that the sizes still belong together
    ends = {key: bounds[0] if spot < 0.5 else bounds[1] for key, bounds in kind.ranges.items()}
    return {key: own[key] + 0.25 * (end - own[key]) for key, end in ends.items()}


def places() -> Iterator[Any]:
    """Every part as it comes, and turn about small or large; both with --slow."""
    for k, name in enumerate(sorted(registry())):
        for spot in SPOTS:
            later = spot == ("large", "small")[k % 2]
            yield pytest.param((name, spot), id=f"{name}, {spot}", marks=[pytest.mark.slow] if later else [])


@pytest.fixture(params=places())
def part(request: pytest.FixtureRequest) -> Any:
    name, spot = request.param
    kind, given = registry()[name], parameters(name, SPOTS[spot])
    found = check_part(kind, None, given)
    if any(f.level is Level.FAULT for f in found):
        assert spot != "as it comes", found
        pytest.skip(f"sizes that do not belong together, and it says so: {found[0].code}")
    return kind.drawn(given)


def test_files_read_back(part: Any, tmp_path: Path) -> None:
    """Solid valid and one body; volume against the closed form; meshes closed, one body, wound outwards, without flat
    triangles, true to 0.1 %; 3MF in millimetres with one object of the part's name; STEP one solid; same bytes."""
    body = solid(part)
    assert body.isValid()
    assert body.Volume() == pytest.approx(part.volume, rel=1e-6)
    for suffix in (".stl", ".3mf", ".step"):
        write(bodies(part), tmp_path / f"part{suffix}")
    for suffix in (".stl", ".3mf"):
        loaded: Any = trimesh.load(tmp_path / f"part{suffix}")
        if suffix == ".3mf":
            assert loaded.units == "millimeter"
            assert list(loaded.geometry) == [part.name]
        mesh: Any = trimesh.load(tmp_path / f"part{suffix}", force="mesh")
        assert mesh.is_watertight
        assert mesh.is_winding_consistent
        assert mesh.body_count == 1
        assert mesh.volume == pytest.approx(body.Volume(), rel=1e-3)
        assert mesh.area_faces.min() > 0
        low_x, low_y, high_x, high_y = part_bounds(part)
        assert mesh.bounds[0] == pytest.approx((low_x, low_y, 0.0), abs=0.02)
        assert mesh.bounds[1] == pytest.approx((high_x, high_y, height(part)), abs=0.02)
    step_read_back(tmp_path / "part.step", body.Volume())


def step_read_back(path: Path, volume: float) -> None:
    import cadquery as cq

    solids = cq.importers.importStep(str(path)).solids().vals()
    assert len(solids) == 1
    (found,) = solids
    assert isinstance(found, cq.Solid)
    assert found.isValid()
    assert found.Volume() == pytest.approx(volume, rel=1e-6)
    assert "SI_UNIT(.MILLI.,.METRE.)" in path.read_text()


@pytest.mark.parametrize("name", sorted(registry()))
def test_same_part_same_bytes(name: str, tmp_path: Path) -> None:
    from scarfwright.models.solids import solids
    from scarfwright.outputs.formats import mesh

    kind = registry()[name]
    for run in ("one", "two"):
        (tmp_path / run).mkdir()
        solids._shape.cache_clear()
        _drawn.cache_clear()
        mesh._meshed.cache_clear()
        for suffix in (".stl", ".3mf", ".step", ".dxf"):
            made = kind.drawn({})
            write(made if suffix == ".dxf" else bodies(made), tmp_path / run / f"{name}{suffix}")
    for path in (tmp_path / "one").iterdir():
        assert path.read_bytes() == (tmp_path / "two" / path.name).read_bytes(), path.name


def test_where_the_writer_breaks_a_line_leaves_no_trace() -> None:
    """The kernel counts its translations over the life of a program; a longer count moves its line breaks."""
    from scarfwright.outputs.formats.step_text import pinned

    def text(counted: int, broken: str) -> str:
        brand = f"'Open CASCADE STEP translator 7.8 {counted}'"
        return f"FILE_NAME('x','now');DATA;\n#1 = PRODUCT({brand},{broken}#2);\n#2 = END('a;b',$);\nENDSEC;\n"

    assert pinned(text(9, "$,"), "part") == pinned(text(10, "\n  $,\n  "), "part")
    assert "#1=PRODUCT('part',$,#2);\n#2=END('a;b',$);" in pinned(text(9, "$,"), "part")


def test_a_parameter_that_is_yes_or_no() -> None:
    def flap(length: float = 50.0, raised: bool = False) -> Part:
        """Build a flap.

        length: of it [mm]
        raised: whether it is drawn open
        """
        return Part("flap", "Flap", rectangle(0, 0, length, 30 if raised else 20), 3.0)

    kind = PartKind("flap", "a flap", flap, lambda _work: None)
    word = words(kind)[1]
    assert (word.kind, word.shown(), word.unit, word.about) == ("yes or no", "no", "", "whether it is drawn open")
    assert kind.drawn(read(kind, ["raised=yes"])).outline.bounds[3] == 30
    with pytest.raises(WordError, match="expected yes or no"):
        read(kind, ["raised=perhaps"])


def test_values_are_asked_for_by_their_sort() -> None:
    values = Values({"width": 20, "open": True, "label": "1:12", "slots_mm": (5.5, 11.0), "screws": ((1.0, 2.0),)})
    assert (values["width"], values["open"]) == (20, 1)
    assert (values.text("label"), values.text("name")) == ("1:12", "")
    assert values.many("slots_mm") == (5.5, 11.0)
    assert values.plain() == {**values, "label": ""}
    for wrong in (lambda: values["label"], lambda: values.text("width"), lambda: values.many("width")):
        with pytest.raises(TypeError, match=r"width|label"):
            wrong()
    with pytest.raises(TypeError, match="screws"):
        values.many("screws")
    with pytest.raises(KeyError):
        values["height"]


def test_a_layer_is_the_sled_one_sheet_thick() -> None:
    """The same shape and the sled's own words for it; only thickness, name and the edges no tab stands on differ."""
    layer, sled = registry()["sheet_layer"], registry()["sled"]
    made, whole = layer.drawn({"length": 1200.0}), sled.drawn({"length": 1200.0})
    assert (made.outline, made.features) == (whole.outline, whole.features)
    assert (made.name, made.thickness, whole.thickness) == ("sheet_layer", 18.0, 38.0)
    assert len(made.guides) == len(list(made.outline.edges())) - 3  # the two ends and the nose flat's step
    assert {w.name: w.default for w in words(layer)} == {w.name: w.default for w in words(sled)} | {"thickness": 18.0}

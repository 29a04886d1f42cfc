"""The manifest of a made folder: what it lists, that it is the same for the same files, and what it finds out later."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any

import pytest
from scarfwright.models.sharing import versions
from scarfwright.models.sharing.compared import Compared, Difference, compared
from scarfwright.models.sharing.manifest import (
    NAME,
    Manifest,
    PlugIn,
    Sealed,
    Terms,
    manifest_text,
    read_manifest,
)
from scarfwright.models.sharing.versions import library_versions, others, tool_version
from scarfwright.outputs import folder as folder_room
from scarfwright.outputs.folder import FolderError, replaced_whole
from scarfwright.outputs.share.seal import manifest_in
from scarfwright.outputs.share.shared import read_folder
from scarfwright.outputs.share.whole import MARKER, Files, files_of

GROUPS = {"cad", "cut"}


def fill(
    target: Path,
    text: str,
    groups: set[str] = GROUPS,
    job: bytes = b"job",
    version: str = "1",
    terms: Terms | None = None,
) -> Manifest:
    with replaced_whole(target, groups, version, job, terms) as folder:
        (folder / "job.toml").write_bytes(job)
        (folder / "numbers.json").write_text('{"format": 1, "sled": {"length_mm": 900.0}, "plan": {"x": 1}}')
        for group in groups:
            (folder / group).mkdir()
            (folder / group / "file.txt").write_text(text)
    found = manifest_in(target)
    assert found is not None
    return found


def test_it_lists_every_file_and_is_the_last(tmp_path: Path) -> None:
    made = fill(tmp_path / "out", "one", terms=Terms((PlugIn("more-parts", "1.2"),), "CC-BY-4.0"))
    for name, told in made.files.items():
        data = (tmp_path / "out" / name).read_bytes()
        assert told == Sealed(hashlib.sha256(data).hexdigest(), len(data))
    lying = {p.relative_to(tmp_path / "out").as_posix() for p in (tmp_path / "out").rglob("*") if p.is_file()}
    assert set(made.files) == lying - {NAME, MARKER}
    assert NAME in (tmp_path / "out" / MARKER).read_text().splitlines()
    assert made.numbers == {"sled": {"length_mm": 900.0}}
    assert (made.tool, made.libraries) == ("1", library_versions())
    assert made.terms == Terms((PlugIn("more-parts", "1.2"),), "CC-BY-4.0")


def test_the_same_files_have_the_same_manifest(tmp_path: Path) -> None:
    fill(tmp_path / "a" / "out", "one")
    fill(tmp_path / "b", "one")
    fill(tmp_path / "b", "one", {"cut"})
    assert (tmp_path / "a" / "out" / NAME).read_bytes() == (tmp_path / "b" / NAME).read_bytes()


def test_what_is_kept_of_an_earlier_run_stays_listed(tmp_path: Path) -> None:
    fill(tmp_path / "out", "one")
    made = fill(tmp_path / "out", "two", {"cut"})
    assert set(made.files) == {"job.toml", "numbers.json", "cad/file.txt", "cut/file.txt"}
    assert files_of(tmp_path / "out", made).untouched
    made = fill(tmp_path / "out", "three", {"cut"}, b"another job")
    assert set(made.files) == {"job.toml", "numbers.json", "cut/file.txt"}


def test_what_was_changed_between_two_runs_is_not_sealed_as_whole(tmp_path: Path) -> None:
    fill(tmp_path / "out", "one")
    (tmp_path / "out" / "cad" / "file.txt").write_text("by hand")
    made = fill(tmp_path / "out", "two", {"cut"})
    assert files_of(tmp_path / "out", made).changed == ("cad/file.txt",)


@pytest.mark.parametrize("what", ["library", "plug-in", "no manifest", "damaged manifest"])
def test_files_of_other_versions_are_not_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, what: str) -> None:
    """The manifest says which versions made a folder, so all in it must be of these."""
    fill(tmp_path / "out", "one")
    terms = Terms((PlugIn("more-parts", "1.2"),)) if what == "plug-in" else None
    if what == "library":
        monkeypatch.setattr(folder_room, "library_versions", lambda: {**library_versions(), "numpy": "0.1"})
    elif what == "no manifest":
        (tmp_path / "out" / NAME).unlink()
    elif what == "damaged manifest":
        (tmp_path / "out" / NAME).write_text("{")
    made = fill(tmp_path / "out", "two", {"cut"}, terms=terms)
    assert "cad/file.txt" not in made.files
    assert not (tmp_path / "out" / "cad").exists()


def test_a_manifest_of_the_users_own_is_not_written_over(tmp_path: Path) -> None:
    """In a folder of a version that left none."""
    fill(tmp_path / "out", "one")
    marker = tmp_path / "out" / MARKER
    marker.write_text(marker.read_text().replace(f"{NAME}\n", ""))
    (tmp_path / "out" / NAME).write_text("mine")
    with pytest.raises(FolderError, match=r"manifest\.json: is yours"):
        fill(tmp_path / "out", "two")
    assert (tmp_path / "out" / NAME).read_text() == "mine"
    assert (tmp_path / "out" / "cad" / "file.txt").read_text() == "one"


def test_the_users_own_files_are_not_listed(tmp_path: Path) -> None:
    fill(tmp_path / "out", "one")
    (tmp_path / "out" / "cut" / "my notes.txt").write_text("mine")
    made = fill(tmp_path / "out", "two")
    assert "cut/my notes.txt" not in made.files
    assert files_of(tmp_path / "out", made).unlisted == ("cut/my notes.txt",)


# -- a folder that comes back -----------------------------------------------------------------------------------


def looked_at(tmp_path: Path) -> tuple[Path, Manifest]:
    out = tmp_path / "out"
    return out, fill(out, "one")


def test_whole(tmp_path: Path) -> None:
    out, made = looked_at(tmp_path)
    assert files_of(out, made) == Files(("cad/file.txt", "cut/file.txt", "job.toml", "numbers.json"))
    (out / MARKER).unlink()
    (out / ".DS_Store").write_text("x")
    assert files_of(out, made).unlisted == ()


def test_changed_missing_added(tmp_path: Path) -> None:
    out, made = looked_at(tmp_path)
    (out / "cad" / "file.txt").write_text("onf")  # as long as it was
    (out / "cut" / "file.txt").unlink()
    (out / "cut" / "new").mkdir()
    (out / "cut" / "new" / "sled.dxf").write_text("x")
    found = files_of(out, made)
    assert found == Files(("job.toml", "numbers.json"), ("cad/file.txt",), ("cut/file.txt",), ("cut/new/sled.dxf",))
    assert not found.untouched


@pytest.mark.parametrize("where", ["cad", "cad/file.txt"])
def test_a_link_is_no_file(tmp_path: Path, where: str) -> None:
    """Even one to the same bytes: what lies elsewhere may be others tomorrow."""
    out, made = looked_at(tmp_path)
    (out / where).rename(tmp_path / "elsewhere")
    (out / where).symlink_to(tmp_path / "elsewhere")
    assert files_of(out, made).changed == ("cad/file.txt",)


def test_a_folder_in_place_of_a_file_and_a_file_in_place_of_a_folder(tmp_path: Path) -> None:
    out, made = looked_at(tmp_path)
    (out / "cad" / "file.txt").unlink()
    (out / "cad" / "file.txt").mkdir()
    (out / "cut" / "file.txt").unlink()
    (out / "cut").rmdir()
    (out / "cut").write_text("x")
    found = files_of(out, made)
    assert (found.changed, found.missing, found.unlisted) == (("cad/file.txt",), ("cut/file.txt",), ("cut",))


def test_a_manifest_that_is_a_link_is_refused(tmp_path: Path) -> None:
    out, _ = looked_at(tmp_path)
    (out / NAME).rename(tmp_path / "m.json")
    (out / NAME).symlink_to(tmp_path / "m.json")
    with pytest.raises(ValueError, match="no ordinary file"):
        read_folder(out)


# -- the manifest itself ----------------------------------------------------------------------------------------


def test_it_reads_as_it_was_written() -> None:
    made = Manifest(
        "0.1.0",
        {"numpy": "2.0"},
        {"sled": {"a": [1, 2.5, None, True]}},
        {"job.toml": Sealed("0" * 64, 3), "cut/ä b.dxf": Sealed("f" * 64, 0)},
        Terms((PlugIn("a", "1"),), "CC-BY-4.0 OR MIT"),
    )
    text = manifest_text(made)
    assert read_manifest(text.encode()) == made
    assert list(json.loads(text)) == sorted(json.loads(text))
    assert json.loads(text)["format"] == 1


def test_versions_are_those_installed_and_load_nothing() -> None:
    import importlib.metadata
    import subprocess
    import sys

    assert library_versions()["numpy"] == importlib.metadata.version("numpy")
    assert {"cadquery", "cadquery-ocp", "ezdxf", "reportlab"} <= set(library_versions())
    code = (
        "import sys; from scarfwright.models.sharing.versions import library_versions; library_versions()\n"
        "print(sorted({'numpy', 'cadquery', 'OCP', 'ezdxf', 'reportlab', 'scipy'} & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"


def test_other_versions_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(versions, "library_versions", lambda: {"a": "1", "b": "2", "d": "5"})
    found = others("0.0.1", {"a": "1", "b": "3", "c": "4"}, [PlugIn("no-such-package", "9")])
    assert [(one.name, one.there, one.here) for one in found] == [
        ("scarfwright", "0.0.1", tool_version()),
        ("b", "3", "2"),
        ("c", "4", None),
        ("d", None, "5"),
        ("no-such-package", "9", None),
    ]


# -- numbers compared -------------------------------------------------------------------------------------------

NUMBERS: dict[str, Any] = {
    "sled": {"length_mm": 900.0, "notches": [{"web_mm": 25.0}, {"web_mm": 26.0}], "flat": None, "made_from": "plank"},
    "findings": [{"code": "a.b"}, {"code": "a.b"}, {"code": "c.d"}],
}


def changed(**sled: Any) -> dict[str, Any]:
    return {**NUMBERS, "sled": {**NUMBERS["sled"], **sled}}


def test_the_same_numbers() -> None:
    assert compared(NUMBERS, NUMBERS) == Compared(5, ())
    assert compared(changed(length_mm=900.000001), NUMBERS).same  # numbers.json is rounded there
    assert compared(json.loads(json.dumps(NUMBERS)), NUMBERS).same


@pytest.mark.parametrize(
    ("sled", "path", "there"),
    [
        ({"length_mm": 900.00001}, "sled.length_mm", 900.00001),
        ({"length_mm": 10**400}, "sled.length_mm", 10**400),
        ({"length_mm": None}, "sled.length_mm", None),
        ({"length_mm": "900.0"}, "sled.length_mm", "900.0"),
        ({"length_mm": True}, "sled.length_mm", True),
        ({"made_from": "sheet"}, "sled.made_from", "sheet"),
        ({"more": 3}, "sled.more", 3),
        ({"notches": [{"web_mm": 25.0}]}, "sled.notches[1].web_mm", None),
        ({"notches": [{"web_mm": 25.0}, {"web_mm": 27.0}]}, "sled.notches[1].web_mm", 27.0),
    ],
)
def test_another_number(sled: dict[str, Any], path: str, there: Any) -> None:
    found = compared(changed(**sled), NUMBERS)
    assert [(one.path, one.there) for one in found.others] == [(path, there)]
    assert isinstance(found.others[0], Difference)
    assert not found.same


def test_findings_that_came_or_went() -> None:
    there = {**NUMBERS, "findings": [{"code": "a.b"}, {"code": "x.y"}]}
    found = compared(there, NUMBERS)
    assert (found.others, found.came, found.went) == ((), ("a.b", "c.d"), ("x.y",))
    assert not found.same

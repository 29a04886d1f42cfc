"""Zips from anywhere: those of other tools are read whatever their order and packing, hostile ones refused, each in one
clear message. Nothing is ever unpacked."""

from __future__ import annotations

import io
import shutil
import stat
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.job.problems import JobError
from scarfwright.models.sharing.manifest import JOB, NAME, kept_numbers
from scarfwright.models.sharing.names import clash, wrong_name
from scarfwright.outputs.share.shared import is_zip, read_shared
from scarfwright.outputs.share.zip_directory import (
    LARGEST_UNPACKED,
    MOST_ENTRIES,
    ZipError,
    read_directory,
    read_entry,
)
from scarfwright.outputs.share.zip_out import write_zip

from tests.zips import One, entries_of, files_for, passed_on, raw_zip

ROOT = Path(__file__).parents[1]


def put(folder: Path, data: bytes, name: str = "job.zip") -> Path:
    path = folder / name
    path.write_bytes(data)
    return path


def laid(folder: Path) -> Path:
    """The files of a job that was passed on, as files."""
    for name, data in passed_on().items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    return folder


def refusal(path: Path) -> str:
    with pytest.raises(JobError) as caught:
        read_shared(path)
    assert len(caught.value.problems) == 1
    text = str(caught.value)
    assert "\n" not in text
    assert text.startswith(str(path))
    return text


# -- what other tools make --------------------------------------------------------------------------------------


@pytest.mark.parametrize("method", [zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED])
@pytest.mark.parametrize("folder", ["", "my job/", "Größe/"])
@pytest.mark.parametrize("backwards", [False, True])
def test_pythons_zips(tmp_path: Path, method: int, folder: str, backwards: bool) -> None:
    path = tmp_path / "a.zip"
    names = sorted(passed_on(), reverse=backwards)
    with zipfile.ZipFile(path, "w", method) as archive:
        if folder:
            archive.mkdir(folder.removesuffix("/"))
        for name in names:
            archive.writestr(folder + name, passed_on()[name])
        archive.comment = b"found PK\x05\x06 in a comment"
    found = read_shared(path)
    assert found.job.stock.thickness.text == "22 mm"
    assert found.unlisted == ()
    assert set(found.manifest.files) == set(passed_on()) - {NAME}


def test_a_python_stream_with_sizes_after_the_data(tmp_path: Path) -> None:
    class Pipe(io.RawIOBase):
        def __init__(self) -> None:
            self.data = bytearray()

        def writable(self) -> bool:
            return True

        def write(self, piece: object) -> int:
            data = bytes(memoryview(piece))  # type: ignore[arg-type,unused-ignore]
            self.data += data
            return len(data)

    pipe = Pipe()
    with zipfile.ZipFile(pipe, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in passed_on().items():
            archive.writestr(name, data)
    assert struct_flag(bytes(pipe.data)) & 8
    assert read_shared(put(tmp_path, bytes(pipe.data))).job.stock.height.text == "60 mm"


def struct_flag(data: bytes) -> int:
    return int.from_bytes(data[6:8], "little")


@pytest.mark.parametrize("options", [[], ["-0"], ["-9"], ["-X"], ["-D"], ["-fd"]])
def test_zips_of_the_zip_tool(tmp_path: Path, options: list[str]) -> None:
    if shutil.which("zip") is None:
        pytest.skip("the tool zip is not installed (Debian: apt install zip)")
    laid(tmp_path / "job")
    subprocess.run(["zip", "-q", "-r", *options, "../a.zip", "."], cwd=tmp_path / "job", check=True)
    subprocess.run(["zip", "-q", "-r", *options, "b.zip", "job"], cwd=tmp_path, check=True)
    assert read_shared(tmp_path / "a.zip").unlisted == ()
    assert read_shared(tmp_path / "b.zip").job.joint.ratio == 12


@pytest.mark.parametrize("options", [[], ["-mx=0"], ["-mx=9"], ["-mm=Copy"]])
def test_zips_of_7z(tmp_path: Path, options: list[str]) -> None:
    if shutil.which("7z") is None:
        pytest.skip("the tool 7z is not installed (Debian: apt install p7zip-full)")
    laid(tmp_path / "job")
    subprocess.run(["7z", "a", "-tzip", "-bd", *options, "a.zip", "job"], cwd=tmp_path, check=True, capture_output=True)
    assert read_shared(tmp_path / "a.zip").job.joint.ratio == 12


@pytest.mark.parametrize(("option", "word"), [("-mm=BZip2", "bzip2"), ("-mm=LZMA", "LZMA"), ("-psecret", "encrypted")])
def test_what_7z_can_do_besides_is_refused(tmp_path: Path, option: str, word: str) -> None:
    if shutil.which("7z") is None:
        pytest.skip("the tool 7z is not installed (Debian: apt install p7zip-full)")
    laid(tmp_path / "job")
    subprocess.run(["7z", "a", "-tzip", "-bd", option, "a.zip", "job"], cwd=tmp_path, check=True, capture_output=True)
    assert word in refusal(tmp_path / "a.zip")


def test_what_desktops_leave_behind_counts_for_nothing(tmp_path: Path) -> None:
    entries = [One("job/.DS_Store", b"x"), *entries_of({f"job/{n}": d for n, d in passed_on().items()})]
    found = read_shared(put(tmp_path, raw_zip([*entries, One("__MACOSX/job/._job.toml", b"y")])))
    assert found.unlisted == ()


def test_files_that_nobody_listed_are_named(tmp_path: Path) -> None:
    entries = [*entries_of(passed_on()), One("cut/better.dxf", b"x")]
    assert read_shared(put(tmp_path, raw_zip(entries))).unlisted == ("cut/better.dxf",)


def test_a_zip_is_known_by_its_name_or_by_its_first_bytes(tmp_path: Path) -> None:
    assert is_zip(tmp_path / "not there.ZIP")
    assert is_zip(put(tmp_path, raw_zip([]), "job"))
    assert is_zip(put(tmp_path, raw_zip([One("a")]), "job.toml"))
    assert not is_zip(put(tmp_path, b"[stock]", "b.toml"))
    assert not is_zip(tmp_path)


# -- what is meant to do harm -----------------------------------------------------------------------------------

MORE = One("more.txt", b"more")
LINK, PIPE = stat.S_IFLNK | 0o777, stat.S_IFIFO | 0o666
HOSTILE = {
    "absolute": ([One("/etc/x")], "an absolute name"),
    "climbing": ([One("cut/../../x")], "climbs"),
    "climbing whole": ([One("..")], "climbs"),
    "backslash": ([One("cut\\x")], "backslash"),
    "drive": ([One("C:x")], "drive letter"),
    "NUL": ([One("job.toml\0.exe")], "NUL"),
    "bell": ([One("a\x07b")], "control character"),
    "empty name": ([One("")], "empty name"),
    "empty step": ([One("a//b")], "empty step"),
    "dot step": ([One("./a")], "empty step"),
    "long name": ([One("a" * 300)], "300 characters"),
    "link": ([One("cut/link", b"/etc/passwd", mode=LINK, made_on=3)], "a link"),
    "link made elsewhere": ([One("cut/link", b"x", mode=LINK)], "a link"),
    "pipe": ([One("pipe", mode=PIPE, made_on=3)], "device or pipe"),
    "twice": ([MORE, MORE], "fall on one file"),
    "twice but for capitals": ([MORE, One("MORE.TXT", b"x")], "fall on one file"),
    "twice but for how accents are written": ([One("\u00e9", flags=2048), One("e\u0301", flags=2048)], "one file"),
    "file and folder": ([One("more.txt/inner", b"x"), MORE], "fall on one file"),
    "folder and file of one name": ([One("x/"), One("x", b"1")], "fall on one file"),
    "folder with content": ([One("x/", b"1")], "folder with content"),
    "encrypted": ([One("a", b"x", flags=1)], "encrypted"),
    "strongly encrypted": ([One("a", b"x", flags=64)], "encrypted"),
    "masked": ([One("a", b"x", flags=1 << 13)], "encrypted"),
    "bzip2": ([One("a", b"x", method=12)], "bzip2"),
    "unknown packing": ([One("a", b"x", method=77)], "method 77"),
    "two sizes": ([One("a", b"x", size=2)], "two sizes"),
    "no UTF-8": ([One(b"\xff", flags=2048)], "not UTF-8"),
    "other name inside": ([One("a", b"x", outer_name=b"b")], "another name"),
    "other size inside": ([One("a", b"x" * 90, method=8, outer_size=91)], "other sizes"),
    "bomb": ([One("a", b"\0" * 3_000_000, method=8)], "no bomb"),
    "bomb by what it says": ([One("a", b"x", method=8, size=LARGEST_UNPACKED + 1)], "at most"),
    "zip64": ([One("a", b"x", size=0xFFFFFFFF)], "zip64"),
    "on another disk": ([One("a", b"x", disk=1)], "damaged"),
    "beyond the end": ([One("a", b"x", offset=10**8)], "no file where"),
    "in the middle of another": ([One("a", b"x" * 50), One("b", b"y", offset=5)], "no file where"),
}


@pytest.mark.parametrize("case", HOSTILE, ids=str)
@pytest.mark.parametrize("first", [False, True])
def test_hostile_entries(tmp_path: Path, case: str, first: bool) -> None:
    entries, word = HOSTILE[case]
    good = entries_of(passed_on())
    assert word in refusal(put(tmp_path, raw_zip([*entries, *good] if first else [*good, *entries])))


def test_entries_that_overlap(tmp_path: Path) -> None:
    """Two names for the same bytes, and one file laid into another: Python before 3.12 sees neither."""
    inner = raw_zip([One("b", b"inner")])[: 30 + 1 + 5]
    outer = One("a", b"x" * 20 + inner + b"y" * 20)
    whole = [*entries_of(passed_on()), outer]
    place = raw_zip(whole).index(inner)
    laid_in = raw_zip([*whole, One("b", b"inner", offset=place)])
    assert "overlapping" in refusal(put(tmp_path, laid_in))
    begins = raw_zip(whole).rindex(b"PK\x03\x04\x14\0", 0, raw_zip(whole).index(inner))
    assert "overlapping" in refusal(
        put(tmp_path, raw_zip([*whole, One("a", outer.data, offset=begins, outer_name=b"a")]))
    )


def test_an_entry_that_reaches_into_the_directory(tmp_path: Path) -> None:
    entries = [*entries_of(passed_on()), One("a", b"x", size=60, packed=60)]
    assert "reaching into the directory" in refusal(put(tmp_path, raw_zip(entries)))


LIES: list[tuple[dict[str, Any], str]] = [
    ({"before": b"MZ program"}, "10 bytes before its first file"),
    ({"before": b"MZ program", "shift": -10}, "directory not where it says"),
    ({"after": b"more"}, "cut short"),
    ({"count": 3}, "more in its directory"),
    ({"count": 99}, "directory damaged"),
    ({"count": MOST_ENTRIES + 1}, "at most"),
    ({"count": 0xFFFF}, "zip64"),
    ({"disk": 1}, "several"),
    ({"shift": 5}, "directory not where"),
]


@pytest.mark.parametrize(("wrong", "word"), LIES, ids=[word for _, word in LIES])
def test_a_directory_that_lies(tmp_path: Path, wrong: dict[str, Any], word: str) -> None:
    assert word in refusal(put(tmp_path, raw_zip(entries_of(passed_on()), **wrong)))


@pytest.mark.parametrize("kept", [0, 3, 21, 100, 1000])
def test_cut_short(tmp_path: Path, kept: int) -> None:
    assert "cut short" in refusal(put(tmp_path, raw_zip(entries_of(passed_on()))[:kept]))


def test_no_file_and_no_ordinary_file(tmp_path: Path) -> None:
    assert "no such file" in refusal(tmp_path / "none.zip")
    (tmp_path / "folder.zip").mkdir()
    assert "ordinary file" in refusal(tmp_path / "folder.zip")


@given(st.binary(max_size=300), st.integers(0, 3000))
def test_bytes_changed_anywhere_end_in_a_message_or_in_the_same_two_files(noise: bytes, at: int) -> None:
    data = bytearray(raw_zip(entries_of(passed_on(), method=8)))
    start = at * len(data) // 3000
    data[start : start + len(noise)] = noise
    stream = io.BytesIO(bytes(data))
    try:
        entries = read_directory(stream)
        found = {name: read_entry(stream, entries[name], 1_000_000) for name in (NAME, JOB) if name in entries}
    except ZipError:
        return
    assert all(found[name] == passed_on()[name] for name in found)


# -- what it should hold ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("gone", [NAME, JOB])
def test_a_missing_entry(tmp_path: Path, gone: str) -> None:
    entries = [one for one in entries_of(passed_on()) if one.name != gone]
    assert f"no {gone}" in refusal(put(tmp_path, raw_zip(entries)))


def test_a_manifest_that_lies(tmp_path: Path) -> None:
    files = dict(passed_on())
    changed = {**files, JOB: files[JOB].replace(b"60 mm", b"61 mm")}
    assert "another job.toml" in refusal(put(tmp_path, raw_zip(entries_of(changed))))
    longer = {**files, "cut/sled.dxf": b"0\nEOF\n999\n"}
    assert "lists cut/sled.dxf with 6 bytes" in refusal(put(tmp_path, raw_zip(entries_of(longer))))
    del longer["cut/sled.dxf"]
    assert "no such file" in refusal(put(tmp_path, raw_zip(entries_of(longer))))


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        ({"format": 2}, "newer scarfwright"),
        ({"format": "1"}, "expected 1"),
        ({"format": True}, "expected 1"),
        ({"tool": {"name": "other", "version": "1"}}, "another maker"),
        ({"tool": None}, "tool: found none"),
        ({"libraries": {"numpy": 3}}, "libraries numpy"),
        ({"libraries": {"a b": "1"}}, "a name that is none"),
        ({"numbers": []}, "numbers: found a list"),
        ({"plug_ins": {}}, "plug_ins"),
        ({"plug_ins": [{"name": "x"}]}, "plug_ins version"),
        ({"licence": 5}, "licence"),
        ({"licence": "x\ny"}, "licence"),
        ({"files": {}}, "no job.toml"),
        ({"files": {"../x": {"sha256": "0" * 64, "bytes": 1}}}, "climbs"),
        ({"files": {"manifest.json": {"sha256": "0" * 64, "bytes": 1}}}, "itself"),
        ({"files": {"job.toml": {"sha256": "0" * 63, "bytes": 1}}}, "sha256"),
        ({"files": {"job.toml": {"sha256": "0" * 64, "bytes": -1}}}, "bytes"),
        ({"files": {"job.toml": 1}}, "sha256 and bytes"),
        ({"files": {n: {"sha256": "0" * 64, "bytes": 1} for n in ("job.toml", "JOB.toml")}}, "fall on one file"),
        ({"files": {str(n): {"sha256": "0" * 64, "bytes": 1} for n in range(5001)}}, "at most 5000"),
    ],
    ids=str,
)
def test_a_manifest_that_is_none(tmp_path: Path, changes: dict[str, Any], word: str) -> None:
    files = files_for({"sled": {"length_mm": 1.0}}, **changes)
    assert word in refusal(put(tmp_path, raw_zip(entries_of(files))))


@pytest.mark.parametrize(
    ("text", "word"),
    [
        (b"", "no JSON"),
        (b"[]", "found a list"),
        (b"\xff", "not UTF-8"),
        (b'{"format": 1, "format": 1}', "twice"),
        (b'{"format": NaN}', "finite"),
        (b'{"format": ' + b"9" * 5000 + b"}", "no JSON"),
        (b"[" * 100_000, "nested too deeply"),
        (b" " * 1_000_001, "expected at most 1000000"),
    ],
    ids=lambda value: value[:12] if isinstance(value, bytes) else value,
)
def test_a_manifest_that_is_no_json(tmp_path: Path, text: bytes, word: str) -> None:
    assert word in refusal(put(tmp_path, raw_zip(entries_of({**passed_on(), NAME: text}))))


def test_numbers_nested_too_deeply(tmp_path: Path) -> None:
    deep: object = 1
    for _ in range(60):
        deep = [deep]
    files = files_for({"sled": deep})
    assert "nested too deeply" in refusal(put(tmp_path, raw_zip(entries_of(files))))


def test_a_job_that_includes_another_file(tmp_path: Path) -> None:
    """What was passed on is whole: no file of the reader's is looked at."""
    (tmp_path / "my-shop.toml").write_text('[saw]\nkerf = "9 mm"\n')
    job = 'include = "my-shop.toml"\n' + passed_on()[JOB].decode()
    text = refusal(put(tmp_path, raw_zip(entries_of(files_for({}, job)))))
    assert "expected a job that is whole" in text
    assert "job.zip/job.toml, line 1: include" in text


def test_a_job_too_large_or_unreadable(tmp_path: Path) -> None:
    assert "at most 1000000" in refusal(put(tmp_path, raw_zip(entries_of(files_for({}, "#" * 1_000_001)))))
    assert "expected TOML" in refusal(put(tmp_path, raw_zip(entries_of(files_for({}, "[stock")))))
    damaged = [One(e.name, e.data, crc=7) if e.name == JOB else e for e in entries_of(passed_on())]
    assert "damaged" in refusal(put(tmp_path, raw_zip(damaged)))


# -- writing ----------------------------------------------------------------------------------------------------

GOLDEN = "7cb9b6f00bf24159d08aaa954d5b5446d00ed80a9cbda7af78f6b821839f3ebd"  # of the three files below, on every Python


def sha_of_three(folder: Path) -> str:
    import hashlib

    (folder / "cut").mkdir()
    (folder / "a.txt").write_bytes(b"one\n")
    (folder / "cut" / "b.dxf").write_bytes(bytes(range(256)))
    (folder / "empty").write_bytes(b"")
    write_zip(folder / "out.zip", folder, ["a.txt", "cut/b.dxf", "empty"], replace=False)
    return hashlib.sha256((folder / "out.zip").read_bytes()).hexdigest()


def test_the_same_files_give_the_same_bytes_everywhere(tmp_path: Path) -> None:
    assert sha_of_three(tmp_path) == GOLDEN


def other_pythons() -> list[str]:
    """Other Pythons of this machine that are new enough, by their commands."""
    names = [f"python3.{minor}" for minor in range(11, 20) if minor != sys.version_info.minor]
    found = [path for name in names if (path := shutil.which(name)) and works(path)]
    beside = Path(sys.base_prefix).parent.glob("3.1[1-9]*/bin/python3")
    return [*found, *(str(path) for path in sorted(beside) if str(sys.base_prefix) not in str(path))]


def works(python: str) -> bool:
    return subprocess.run([python, "-c", "pass"], capture_output=True, check=False).returncode == 0


def test_a_zip_made_on_one_python_is_read_on_another(tmp_path: Path) -> None:
    """The rooms that write and read zips need nothing but Python, so any will do: it writes the same bytes and reads
    ours."""
    others = other_pythons()
    if not others:
        pytest.skip(
            "no other Python of 3.11 or newer is installed; the bytes of a zip are pinned by GOLDEN all the same"
        )
    laid(tmp_path / "job")
    write_zip(tmp_path / "ours.zip", tmp_path / "job", sorted(passed_on()), replace=False)
    code = (
        "import sys; from pathlib import Path\n"
        "from scarfwright.outputs.share.zip_directory import read_directory, read_entry\n"
        "from scarfwright.outputs.share.zip_out import write_zip\n"
        "folder = Path(sys.argv[1])\n"
        "with (folder / 'ours.zip').open('rb') as file:\n"
        "    entries = read_directory(file)\n"
        "    whole = all(read_entry(file, e, 10**6) == (folder / 'job' / n).read_bytes() for n, e in entries.items())\n"
        "write_zip(folder / sys.argv[2], folder / 'job', sorted(entries), replace=False)\n"
        "print(len(entries), whole)\n"
    )
    for number, python in enumerate(others):
        done = subprocess.run(
            [python, "-c", code, str(tmp_path), f"{number}.zip"],
            env={"PYTHONPATH": str(ROOT / ".typing")},
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.stdout == f"{len(passed_on())} True\n", done.stderr
        assert (tmp_path / f"{number}.zip").read_bytes() == (tmp_path / "ours.zip").read_bytes()


def test_a_zip_is_never_put_over_another(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("a")
    (tmp_path / "out.zip").write_text("mine")
    with pytest.raises(FileExistsError):
        write_zip(tmp_path / "out.zip", tmp_path, ["a.txt"], replace=False)
    assert (tmp_path / "out.zip").read_text() == "mine"
    with pytest.raises(FileNotFoundError):
        write_zip(tmp_path / "out.zip", tmp_path, ["none.txt"], replace=True)
    assert (tmp_path / "out.zip").read_text() == "mine"
    write_zip(tmp_path / "out.zip", tmp_path, ["a.txt"], replace=True)
    assert zipfile.ZipFile(tmp_path / "out.zip").read("a.txt") == b"a"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["a.txt", "out.zip"]


# -- names ------------------------------------------------------------------------------------------------------


@given(st.text(max_size=40))
def test_a_name_that_is_let_through_stays_in_its_folder(name: str) -> None:
    if wrong_name(name) is None:
        assert (Path("/a/b") / name).resolve().is_relative_to("/a/b")
        assert Path(name).as_posix() == name


@given(st.lists(st.sampled_from(["a", "A", "a/b", "a/c", "b", "B/c", "ß", "SS"]), unique=True, max_size=4))
def test_names_clash_where_a_disk_without_capitals_would_lose_one(names: list[str]) -> None:
    kept: dict[str, str] = {}
    for name in names:
        kept[name.casefold()] = name
    folders = {key.rpartition("/")[0] for key in kept if "/" in key}
    lost = len(kept) < len(names) or bool(folders & set(kept))
    assert (clash(names) is not None) == lost


def test_a_zip_of_ours_has_numbers_kept_whole() -> None:
    kept = kept_numbers({"format": 1, "sled": {"a": 1}, "plan": {"b": 2}, "bending": ["x" * 400_000], "findings": []})
    assert kept == {"sled": {"a": 1}, "findings": []}

"""Files made from the page: those of `make` and `share` to the byte, one job's alone, by a process of their own."""

from __future__ import annotations

import hashlib
import json
import os
import signal
import time
import zipfile
from pathlib import Path
from typing import Any

import pytest
from scarfwright.models.job.reading.plain import plain_to_text

from tests.cli_runs import run, write
from tests.page.served import JOB, Served, served
from tests.page.test_page_command import children

BESIDE = {"manifest.json", "READ-FIRST.txt", "LICENCE.txt"}  # what `share` packs otherwise than `make` leaves it
OTHER: dict[str, Any] = {**JOB, "title": "another"}


def wait(page: Served, ticket: str, seconds: float = 240.0) -> Any:
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        found = page.answer("progress", {"ticket": ticket})
        if found["state"] != "making":
            return found
        time.sleep(0.2)
    raise AssertionError("the files are never made")


def sha(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def test_files_are_those_of_make_and_share(tmp_path: Path) -> None:
    job = write(tmp_path, plain_to_text(JOB))
    assert run("share", job, "--out", tmp_path / "shared.zip", cwd=tmp_path).returncode == 0
    with zipfile.ZipFile(tmp_path / "shared.zip") as packed:  # the files of `make`, and two beside them
        wanted = {name: sha(packed.read(name)) for name in packed.namelist()}
    with served() as page:
        begun = page.answer("make", {"job": JOB})
        assert begun["ticket"] == wanted["job.toml"] == page.answer("work", {"job": JOB})["ticket"]
        found = wait(page, begun["ticket"])
        assert found["state"] == "made", found["why"]
        got, listed = {}, {}
        for one in found["files"]:
            status, data = page.ask("file", {"ticket": begun["ticket"], "name": one["name"]})
            assert status == 200
            assert len(data) == one["bytes"]
            got[one["name"]] = sha(data)
            if one["name"] == "manifest.json":  # that of the zip lists the two files beside as well
                listed = {name: entry["sha256"] for name, entry in json.loads(data)["files"].items()}
        assert listed == {name: value for name, value in got.items() if name != "manifest.json"}
        assert listed == {name: value for name, value in wanted.items() if name not in BESIDE}
        assert set(got) == {*listed, "manifest.json"}
        status, data = page.ask("file", {"ticket": begun["ticket"], "name": found["zip"]["name"]})
        assert sha(data) == sha((tmp_path / "shared.zip").read_bytes())

        # of another job there are no files, and no name reaches beyond the list
        other = page.answer("work", {"job": OTHER})["ticket"]
        assert page.ask("file", {"ticket": other, "name": "job.toml"})[0] == 404
        for name in ("../job.toml", "/etc/passwd", "paper", "", ".scarfwright", "paper/../job.toml"):
            assert page.ask("file", {"ticket": begun["ticket"], "name": name})[0] == 404


def test_one_at_a_time_stopped_killed_and_gone_on() -> None:
    with served() as page:
        begun = page.answer("make", {"job": JOB})
        assert page.ask("make", {"job": OTHER})[0] == 409  # another tab
        assert page.answer("make", {"job": JOB})["state"] == "making"  # the same job: the same making
        assert page.answer("stop", {"ticket": begun["ticket"]})["state"] == "stopped"
        assert page.ask("file", {"ticket": begun["ticket"], "name": "job.toml"})[0] == 404

        begun = page.answer("make", {"job": OTHER})
        for _ in range(100):
            if workers := children(page.process.pid):
                break
            time.sleep(0.1)
        os.kill(workers[0], signal.SIGKILL)
        found = wait(page, begun["ticket"])
        assert found["state"] == "failed"
        assert "ended from outside" in found["why"]
        assert page.answer("work", {"job": JOB})["problems"] == []
        assert [path for room in page.room.iterdir() for path in room.iterdir()] == []


@pytest.mark.parametrize("height", ["20 mm"])
def test_a_job_with_faults_makes_nothing_and_says_why(height: str) -> None:
    with served() as page:
        bad = {**JOB, "stock": {"thickness": "22 mm", "height": height}}
        found = wait(page, page.answer("make", {"job": bad})["ticket"])
        assert found["state"] == "failed"
        assert "stock.not_upright" in found["why"]
        assert found["files"] == []

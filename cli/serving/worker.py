"""The process that makes the files of one job for the page, as `scarfwright make` does.

Started with the folder to work in; one line of JSON comes in, the job's text. Lines of JSON go out: {"file", "done",
"total"} before each file, then {"files": [[name, bytes], ...], "zip": bytes} or {"why": text}. When whoever started it
is gone, its input ends: it takes the folder away and stops.
"""

from __future__ import annotations

import contextlib
import io
import json
import os
import shutil
import sys
import threading
from pathlib import Path
from typing import Any, TextIO

JOB, MADE, ZIP = "job.toml", "files", "job.zip"


def main(room: Path) -> int:
    """Returns the exit code of make."""
    out = sys.stdout
    text = json.loads(sys.stdin.readline())["job"]
    threading.Thread(target=_end_when_alone, args=(room,), daemon=True).start()
    said = io.StringIO()
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(said):
        code = _make(room, text, out)
    if code:
        _tell(out, why=said.getvalue().strip().removeprefix("scarfwright: ") or f"make ended with {code}")
        return code
    _tell(out, files=_listed(room / MADE), zip=(room / ZIP).stat().st_size)
    return 0


def _make(room: Path, text: str, out: TextIO) -> int:
    from scarfwright.cli.jobs import find
    from scarfwright.cli.main import version
    from scarfwright.cli.making import make_ready, put
    from scarfwright.cli.problems import problem
    from scarfwright.cli.sharing.packing import pack_made
    from scarfwright.models.job.problems import JobError
    from scarfwright.outputs.make import GROUPS

    def tell(name: str, done: int, total: int) -> None:
        _tell(out, file=name, done=done, total=total)

    file, groups = room / JOB, set(GROUPS)
    file.write_text(text, encoding="utf-8", newline="\n")
    try:
        ready = make_ready(find(file, None).job, file, groups, False)
        if isinstance(ready, int):
            return ready
        stopped = put(ready, room / MADE, groups, version(), ready.terms, tell)
        if stopped is None:
            tell(ZIP, len(ready.todo), len(ready.todo))
            pack_made(ready, room / MADE, room / ZIP, version())
        return stopped or 0
    except JobError as error:
        problem(error.problems[0].text)
        return 2
    except OSError as error:
        problem(f"{error.filename or 'writing'}: {error.strerror or error}")
        return 2


def _listed(folder: Path) -> list[list[Any]]:
    """What the user gets: every file by its path in the folder, with its size [bytes]."""
    from scarfwright.outputs.share.whole import MARKER

    files = sorted(path for path in folder.rglob("*") if path.is_file() and path.name != MARKER)
    return [[path.relative_to(folder).as_posix(), path.stat().st_size] for path in files]


def _tell(out: TextIO, **what: object) -> None:
    print(json.dumps(what), file=out, flush=True)


def _end_when_alone(room: Path) -> None:
    while sys.stdin.read(1):
        pass
    shutil.rmtree(room, ignore_errors=True)
    os._exit(1)


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))

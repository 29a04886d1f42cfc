"""The files of jobs: made one at a time in a process of their own, kept until the page ends or others take their place.

What was made is known by the ticket of the job it was made from: sha256 of the job.toml among the files.
"""

from __future__ import annotations

import asyncio
import contextlib
import hashlib
import itertools
import json
import shutil
import sys
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal

from scarfwright.cli.serving.worker import JOB, MADE, ZIP

MOST_KEPT = 3  # jobs whose files are kept: of the one before last one may still be fetching some
State = Literal["making", "made", "stopped", "failed"]
KILLED = "the process that makes files was ended from outside; nothing is lost, make them again"
LINE = 2_000_000  # bytes of one line from the worker: the list of files is one


@dataclass
class Run:
    """One making of files."""

    ticket: str
    room: Path
    state: State = "making"
    why: str = ""
    now: str = "starting"
    done: int = 0
    total: int = 0
    files: dict[str, int] = field(default_factory=dict)
    zip: int = 0  # its size [bytes]
    process: asyncio.subprocess.Process | None = None

    def as_json(self) -> dict[str, Any]:
        return {
            "ticket": self.ticket,
            "state": self.state,
            "why": self.why,
            "now": self.now,
            "done": self.done,
            "total": self.total,
            "zip": {"name": ZIP, "bytes": self.zip},
            "files": [{"name": name, "bytes": size} for name, size in self.files.items()],
        }


class BusyError(Exception):
    """Files of another job are being made."""


class Maker:
    """Makes files below `room`, a folder that is its own."""

    def __init__(self, room: Path) -> None:
        self._room = room
        self._runs: dict[str, Run] = {}
        self._count = itertools.count(1)
        self._tasks: set[asyncio.Task[None]] = set()

    def run(self, ticket: str) -> Run | None:
        """The making of a job by its ticket."""
        return self._runs.get(ticket)

    async def start(self, ticket: str, text: str) -> Run:
        """Make the files of a job's text, or find them made or in the making. Raises BusyError."""
        busy = next((run for run in self._runs.values() if run.state == "making"), None)
        if busy is not None and busy.ticket != ticket:
            raise BusyError
        old = self._runs.get(ticket)
        if old is not None and old.state in ("making", "made"):
            return old
        self._forget(ticket)
        for oldest in list(self._runs)[: max(len(self._runs) - MOST_KEPT + 1, 0)]:
            self._forget(oldest)
        run = self._runs[ticket] = Run(ticket, self._room / str(next(self._count)))
        run.room.mkdir(mode=0o700)
        task = asyncio.create_task(self._made(run, text))
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)
        return run

    def stop(self, ticket: str) -> Run | None:
        """End the making of a job's files, if they are in the making."""
        run = self._runs.get(ticket)
        if run is not None and run.state == "making":
            run.state = "stopped"
            _kill(run)
        return run

    def close(self) -> None:
        """End whatever goes on; the folder is its owner's to take away."""
        for ticket in list(self._runs):
            self.stop(ticket)

    def path_of(self, ticket: str, name: str) -> Path | None:
        """Where a made file lies, by a name that the worker told; None for any other."""
        run = self._runs.get(ticket)
        if run is None or run.state != "made":
            return None
        if name == ZIP:
            return run.room / ZIP
        if name not in run.files:
            return None
        return run.room / MADE / name

    def _forget(self, ticket: str) -> None:
        run = self._runs.pop(ticket, None)
        if run is not None:
            shutil.rmtree(run.room, ignore_errors=True)

    async def _made(self, run: Run, text: str) -> None:
        try:
            await self._work(run, text)
        except OSError as error:
            run.state, run.why = "failed", f"no process can be started to make files ({error.strerror or error})"
        if run.state == "making":
            run.state, run.why = "failed", run.why or KILLED
        if run.state != "made":
            shutil.rmtree(run.room, ignore_errors=True)

    async def _work(self, run: Run, text: str) -> None:
        words = [sys.executable, "-P", "-m", "scarfwright.cli.serving.worker", str(run.room)]
        pipe = asyncio.subprocess.PIPE
        run.process = await asyncio.create_subprocess_exec(
            *words, stdin=pipe, stdout=pipe, stderr=asyncio.subprocess.DEVNULL, cwd=run.room, limit=LINE,
            start_new_session=True,
        )  # fmt: skip
        assert run.process.stdin is not None
        assert run.process.stdout is not None
        if run.state == "stopped":
            _kill(run)
        with contextlib.suppress(ConnectionError):
            run.process.stdin.write(json.dumps({"job": text}).encode() + b"\n")
            await run.process.stdin.drain()
            async for line in run.process.stdout:
                self._hear(run, json.loads(line))
        run.process.stdin.close()
        await run.process.wait()

    def _hear(self, run: Run, told: dict[str, Any]) -> None:
        if "file" in told:
            run.now, run.done, run.total = told["file"], told["done"], told["total"]
        elif "why" in told:
            run.why = told["why"]
        elif run.state == "making":
            run.files, run.zip = dict(told["files"]), told["zip"]
            made_from = hashlib.sha256((run.room / MADE / JOB).read_bytes()).hexdigest()
            same = made_from == run.ticket
            run.state, run.done = ("made", len(run.files)) if same else ("failed", 0)
            run.why = "" if same else "the files are of another job"


def _kill(run: Run) -> None:
    if run.process is not None and run.process.returncode is None:
        with contextlib.suppress(ProcessLookupError):
            run.process.kill()

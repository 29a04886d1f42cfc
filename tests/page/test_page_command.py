"""The page's server as a process: what it prints, where it listens, what it loads, how it ends; slow clients."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from tests.cli_runs import GOOD, run, write
from tests.page.served import JOB, Served, read_all, served

IMPATIENT = """
from scarfwright.cli.serving import guard, protocol
protocol.PageProtocol.patience = 1.0
guard.Guard.__init__.__defaults__ = (1.0,)
from scarfwright.cli.entry import run; run()
"""
LOADED = """
import atexit, sys
atexit.register(lambda: print(sorted({n.partition(".")[0] for n in sys.modules}), file=sys.stderr))
from scarfwright.cli.entry import run; run()
"""
KERNEL = {"cadquery", "OCP", "trimesh", "networkx", "vtkmodules"}


def listening(pid: int) -> set[tuple[str, int]]:
    """Addresses a process listens on, read from /proc."""
    inodes = set()
    for link in Path(f"/proc/{pid}/fd").iterdir():
        found = re.match(r"socket:\[(\d+)\]", os.readlink(link))
        if found:
            inodes.add(found[1])
    places = set()
    for table in ("tcp", "tcp6"):
        for line in Path(f"/proc/{pid}/net/{table}").read_text().splitlines()[1:]:
            words = line.split()
            if words[3] == "0A" and words[9] in inodes:
                address, port = words[1].split(":")
                places.add((address, int(port, 16)))
    return places


@pytest.mark.skipif(not Path("/proc/net/tcp").exists(), reason="reads Linux's tables of sockets")
def test_listens_on_loopback_alone_and_loads_no_kernel() -> None:
    with served(code=LOADED) as page:
        assert re.fullmatch(r"http://127\.0\.0\.1:\d+/\?key=[\w-]{32}", page.address)
        assert listening(page.process.pid) == {("0100007F", page.port)}
        assert page.answer("work", {"job": JOB})["problems"] == []
        assert page.answer("look", {"job": JOB, "sheets": True})["sheets"]
        assert page.answer("begin", {})["schemas"]
        page.process.send_signal(signal.SIGINT)
        _, said = page.process.communicate(timeout=60)
        loaded = re.search(r"\[.*\]", said)
        assert loaded is not None
        assert "starlette" in loaded[0]
        assert {name for name in KERNEL if f"'{name}'" in loaded[0]} == set()


def test_ends_with_ctrl_c_and_leaves_nothing_behind(tmp_path: Path) -> None:
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        with served(write(tmp_path, GOOD)) as page:
            assert page.answer("begin", {})["job"]["stock"]["height"] == "60 mm"
            assert len(list(page.room.iterdir())) == 1
            assert page.stop(number) == 0
            assert list(page.room.iterdir()) == []


def test_ends_while_files_are_made() -> None:
    with served() as page:
        made = page.answer("make", {"job": JOB})
        assert made["state"] == "making"
        time.sleep(1.0)
        workers = children(page.process.pid)
        assert workers
        assert page.stop() == 0
        assert list(page.room.iterdir()) == []
        assert gone(workers)


def test_a_server_that_is_killed_takes_its_worker_along() -> None:
    with served() as page:
        page.answer("make", {"job": JOB})
        time.sleep(1.0)
        workers = children(page.process.pid)
        assert workers
        page.stop(signal.SIGKILL)
        assert gone(workers)


def test_what_a_killed_server_left_is_cleared_by_the_next(tmp_path: Path) -> None:
    """The folder of a dead server goes, that of a living one stays, and so does what only bears such a name."""
    strange = tmp_path / "scarfwright-page-notes"
    strange.mkdir()
    kept = tmp_path / "kept"
    kept.mkdir()
    (kept / "mine.txt").write_text("mine", encoding="utf-8")
    (tmp_path / "scarfwright-page-1-link").symlink_to(kept)
    with served(room=tmp_path) as dead:
        (left,) = tmp_path.glob(f"scarfwright-page-{dead.port}-*")
        (left / "1").mkdir()
        dead.stop(signal.SIGKILL)
        assert left.is_dir()
        with served(room=tmp_path) as living, served(room=tmp_path) as third:
            assert not left.exists()
            for page in (living, third):
                assert len(list(tmp_path.glob(f"scarfwright-page-{page.port}-*"))) == 1
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "kept",
        "scarfwright-page-1-link",
        "scarfwright-page-notes",
    ]
    assert (kept / "mine.txt").is_file()


def children(pid: int) -> list[int]:
    found = Path(f"/proc/{pid}/task")
    return [int(word) for task in found.iterdir() for word in (task / "children").read_text().split()]


def gone(pids: list[int], seconds: float = 30.0) -> bool:
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        if not any(alive(pid) for pid in pids):
            return True
        time.sleep(0.1)
    return False


def alive(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def test_a_port_that_is_taken_is_said(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        done = run("page", "--no-open", "--port", str(port), cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == ""
    assert f"--port: found {port}, which can't be listened on" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("port", ["-1", "65536", "x"])
def test_a_port_there_can_not_be(tmp_path: Path, port: str) -> None:
    assert run("page", "--no-open", "--port", port, cwd=tmp_path).returncode == 2


def test_a_job_that_can_not_be_used_is_said_before_anything_is_served(tmp_path: Path) -> None:
    done = run("page", "--no-open", write(tmp_path, "[stock]\nthickness = 1"), cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == ""
    done = run("page", "--no-open", write(tmp_path, 'include = "shop.toml"\n' + GOOD), cwd=tmp_path)
    assert done.returncode == 2
    assert "a page reads no other file" in done.stderr


def test_without_the_extra_one_line_says_how_to_install_it(tmp_path: Path) -> None:
    code = "import sys; sys.modules['starlette'] = None\nfrom scarfwright.cli.entry import run; run()"
    done = run("page", "--no-open", cwd=tmp_path, code=code)
    assert done.returncode == 2
    assert done.stderr.splitlines() == [
        "scarfwright: the page needs Starlette and uvicorn, which are not here; install them with: "
        'pip install "scarfwright[page]"'
    ]


def test_without_a_browser_the_address_is_said(tmp_path: Path) -> None:
    env = {**os.environ, "PATH": "/nonexistent", "BROWSER": "", "DISPLAY": "", "TMPDIR": str(tmp_path)}
    code = "from scarfwright.cli.entry import run; run()"
    process = subprocess.Popen(
        [sys.executable, "-c", code, "page"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=env
    )
    assert process.stdout is not None
    assert process.stderr is not None
    assert process.stdout.readline().startswith("http://127.0.0.1:")
    assert "No browser was found" in process.stderr.readline()
    process.send_signal(signal.SIGINT)
    process.communicate(timeout=60)
    assert process.returncode == 0


# -- raw sockets -------------------------------------------------------------------------------------------------


def head(page: Served, length: int) -> bytes:
    return (
        f"POST /work HTTP/1.1\r\nHost: 127.0.0.1:{page.port}\r\nX-Scarfwright-Key: {page.key}\r\n"
        f"Content-Type: application/json\r\nContent-Length: {length}\r\n\r\n"
    ).encode()


def guarded(answer: bytes) -> bool:
    lower = answer.lower()
    return all(word in lower for word in (b"content-security-policy: default-src 'none'", b"nosniff", b"no-store"))


def test_slow_oversize_and_broken_requests() -> None:
    with served(code=IMPATIENT) as page:
        page.answer("begin", {})
        found = page.raw(head(page, 2_000_000))  # said before the body is there
        assert b" 413 " in found.splitlines()[0]
        assert guarded(found)

        chunk = b"fffff\r\n" + b" " * 0xFFFFF + b"\r\n"
        chunked = head(page, 0).replace(b"Content-Length: 0", b"Transfer-Encoding: chunked") + chunk
        found = page.raw(chunked)
        assert b" 413 " in found.splitlines()[0]

        began = time.monotonic()
        found = page.raw(head(page, 100) + b"{")  # the rest never comes
        assert b" 408 " in found.splitlines()[0]
        assert guarded(found)
        assert time.monotonic() - began >= 0.9

        for nonsense, status in (
            (b"\x16\x03\x01\x02\x00\x01\x00\r\n\r\n", b" 400 "),  # a TLS greeting
            (b"GET / HTTP/1.1\r\n\r\n", b" 400 "),
            (b"GET / HTTP/9.9\r\n\r\n", b" 421 "),
        ):
            found = page.raw(nonsense)
            assert status in found.splitlines()[0]
            assert guarded(found)

        twice = b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nHost: evil\r\n\r\n"
        assert b" 400 " in page.raw(twice).splitlines()[0]
        long = b"GET /" + b"a" * 200_000 + b" HTTP/1.1\r\n\r\n"
        found = page.raw(long)
        assert found == b"" or b" 400 " in found.splitlines()[0]
        assert page.answer("work", {"job": JOB})["problems"] == []


def test_a_head_that_drips_is_cut_off() -> None:
    with served(code=IMPATIENT) as page:
        page.answer("begin", {})
        with socket.create_connection(("127.0.0.1", page.port), timeout=30) as connection:
            began = time.monotonic()
            connection.sendall(b"GET / HTTP/1.1\r\n")
            try:
                for letter in b"X-Slow: " + b"a" * 100:
                    connection.sendall(bytes([letter]))
                    time.sleep(0.1)
            except OSError:
                pass
            assert read_all(connection) == b""
            assert time.monotonic() - began < 10
        with socket.create_connection(("127.0.0.1", page.port), timeout=30) as idle:
            assert read_all(idle) == b""  # nothing was ever sent


def test_websockets_are_not_spoken() -> None:
    with served() as page:
        page.answer("begin", {})
        asked = (
            f"GET /?key={page.key} HTTP/1.1\r\nHost: 127.0.0.1:{page.port}\r\nUpgrade: websocket\r\n"
            "Connection: Upgrade, close\r\nSec-WebSocket-Version: 13\r\n"
            "Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n\r\n"
        )
        first: Any = page.raw(asked.encode()).splitlines()[0]
        assert b" 101 " not in first

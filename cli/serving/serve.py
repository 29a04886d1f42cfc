"""`scarfwright page`: listens on this machine alone, prints the address, opens it, and cleans up when it ends."""

from __future__ import annotations

import secrets
import shutil
import signal
import socket
import sys
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

from scarfwright.cli.problems import refuse
from scarfwright.cli.serving.room import make_room
from scarfwright.cli.terminal import out

LOOPBACK = "127.0.0.1"
MISSING = 'the page needs Starlette and uvicorn, which are not here; install them with: pip install "scarfwright[page]"'


def serve_page(path: Path | None, port: int, *, open_it: bool) -> int:
    """Serve until interrupted. Returns the exit code. Raises JobError for a job that can't be used."""
    try:
        import starlette.applications  # noqa: F401
        import uvicorn  # noqa: F401
    except ImportError:
        return refuse(MISSING)
    given = _given(path)
    try:
        listening = _listen(port)
    except OSError as error:
        return refuse(
            f"--port: found {port}, which can't be listened on ({error.strerror or error}); "
            "expected a port that is free, or no --port",
            key="--port",
        )
    room = make_room(LOOPBACK, listening.getsockname()[1])
    try:
        _run(listening, room, given, path.name if path else "", open_it=open_it)
    except KeyboardInterrupt:
        pass  # the way it is meant to end
    finally:
        listening.close()
        shutil.rmtree(room, ignore_errors=True)
    print("The page is closed.", file=sys.stderr)
    return 0


def _given(path: Path | None) -> dict[str, Any] | None:
    """The tables of the job file to begin with."""
    if path is None:
        return None
    from scarfwright.models.job.reading.plain import plain_from_text
    from scarfwright.models.job.reading.toml_text import read_text

    return plain_from_text(read_text(path), str(path))


def _listen(port: int) -> socket.socket:
    """A socket on the loopback device and nowhere else. Raises OSError."""
    found = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        if sys.platform != "win32":  # there it would let another program listen on the same port
            found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        found.bind((LOOPBACK, port))
        found.listen(64)
    except OSError:
        found.close()
        raise
    return found


def _run(listening: socket.socket, room: Path, given: dict[str, Any] | None, name: str, *, open_it: bool) -> None:
    import uvicorn
    from scarfwright.cli.serving.app import Page
    from scarfwright.cli.serving.guard import Guard
    from scarfwright.cli.serving.maker import Maker
    from scarfwright.cli.serving.protocol import PageProtocol

    key = secrets.token_urlsafe(24)
    host = f"{LOOPBACK}:{listening.getsockname()[1]}"
    maker = Maker(room)
    guard = Guard(Page(key, maker, given, name).app(), host, key)
    config = uvicorn.Config(
        guard, http=PageProtocol, ws="none", loop="asyncio", lifespan="off", interface="asgi3", log_config=None,
        log_level="critical", access_log=False, proxy_headers=False, server_header=False, timeout_graceful_shutdown=1,
    )  # fmt: skip
    server = uvicorn.Server(config)
    if hasattr(signal, "SIGHUP"):  # the terminal was closed
        signal.signal(signal.SIGHUP, lambda *_: setattr(server, "should_exit", True))
    address = f"http://{host}/?key={key}"
    out(address)
    if open_it:
        _aside(lambda: _open(address))
    _aside(_warm_up)
    try:
        server.run(sockets=[listening])
    finally:
        maker.close()


def _aside(work: Callable[[], None]) -> None:
    threading.Thread(target=work, daemon=True).start()


def _open(address: str) -> None:
    import webbrowser

    if not _in_a_window() or not webbrowser.open(address):
        print("No browser was found to open: open the address above in one on this machine.", file=sys.stderr)


def _in_a_window() -> bool:
    """Whether the browser found has a window of its own: one in this terminal would take it over."""
    import webbrowser

    try:
        return type(webbrowser.get()) is not webbrowser.GenericBrowser
    except webbrowser.Error:
        return False


def _warm_up() -> None:
    """Load what the page needs in the order in which it asks for it."""
    from scarfwright.cli.serving.app import RESOURCES
    from scarfwright.outputs.page.resources import resource

    for name in RESOURCES:
        resource(name)
    from scarfwright.outputs.page.beginning import beginning

    beginning()
    from scarfwright.outputs.page.answer import at_once

    at_once({"stock": {"thickness": "22 mm", "height": "60 mm"}, "joint": {"ratio": 12}})

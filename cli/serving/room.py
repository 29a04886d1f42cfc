"""The server's own folder: made for the port it listens on, taken away at the end; a killed server's is cleared.

A server that was killed can't clear up. Its folder's name holds the port that it listened on: where nobody listens
there any more, nobody uses the folder.
"""

from __future__ import annotations

import os
import re
import shutil
import socket
import stat
import tempfile
from pathlib import Path

NAME = re.compile(r"scarfwright-page-(\d{1,5})-\w+")
SOON = 0.5  # s to find out whether somebody listens on this machine


def make_room(host: str, port: int) -> Path:
    """A new folder for whoever listens on the port, after those of dead servers are cleared. Raises OSError."""
    clear_left(host)
    return Path(tempfile.mkdtemp(prefix=f"scarfwright-page-{port}-"))


def clear_left(host: str) -> None:
    """Take away the folders of servers that no longer listen; none of another user, nothing that is a link."""
    for path in Path(tempfile.gettempdir()).glob("scarfwright-page-*"):
        found = NAME.fullmatch(path.name)
        if found and _ours(path) and not _listens(host, int(found[1])):
            shutil.rmtree(path, ignore_errors=True)


def _ours(path: Path) -> bool:
    try:
        seen = path.lstat()
    except OSError:
        return False
    return stat.S_ISDIR(seen.st_mode) and (not hasattr(os, "getuid") or seen.st_uid == os.getuid())


def _listens(host: str, port: int) -> bool:
    try:
        with socket.create_connection((host, port), timeout=SOON):
            return True
    except ConnectionRefusedError:
        return False
    except (OSError, OverflowError):  # who doesn't answer may be busy
        return True

"""A page served in a fresh process, and one served in this one without a socket."""

from __future__ import annotations

import contextlib
import json
import os
import signal
import socket
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from tests.cli_runs import ENTRY

JOB: dict[str, Any] = {
    "stock": {"thickness": "22 mm", "height": "60 mm"},
    "joint": {"ratio": 12},
    "clamp": {"opening": "80 mm"},
}


@dataclass
class Served:
    """A running page: its process, the folder that holds its temporary files, its address."""

    process: subprocess.Popen[str]
    room: Path
    address: str

    @property
    def port(self) -> int:
        found = urlsplit(self.address).port
        assert found is not None
        return found

    @property
    def key(self) -> str:
        return self.address.partition("key=")[2]

    def ask(self, name: str, body: object, **headers: str) -> tuple[int, bytes]:
        """Status and body of a POST."""
        data = body if isinstance(body, bytes) else json.dumps(body).encode()
        found = self.raw(
            "\r\n".join(
                [
                    f"POST /{name} HTTP/1.1", f"Host: 127.0.0.1:{self.port}", f"X-Scarfwright-Key: {self.key}",
                    "Content-Type: application/json", f"Content-Length: {len(data)}", "Connection: close",
                    *(f"{key}: {value}" for key, value in headers.items()), "", "",
                ]
            ).encode() + data
        )  # fmt: skip
        head, _, rest = found.partition(b"\r\n\r\n")
        return int(head.split()[1]), rest

    def answer(self, name: str, body: object) -> Any:
        status, found = self.ask(name, body)
        assert status == 200, found
        return json.loads(found)

    def raw(self, data: bytes, seconds: float = 60.0) -> bytes:
        """Everything that comes back when just this is sent."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=seconds) as connection:
            connection.sendall(data)
            return read_all(connection)

    def stop(self, number: int = signal.SIGINT) -> int:
        self.process.send_signal(number)
        return self.process.wait(60)


def read_all(connection: socket.socket) -> bytes:
    found = b""
    with contextlib.suppress(ConnectionResetError):
        while chunk := connection.recv(65536):
            found += chunk
    return found


@contextlib.contextmanager
def served(*words: str | Path, code: str = ENTRY, room: Path | None = None) -> Iterator[Served]:
    """`scarfwright page --no-open`, ended with the block. `room`: for its temporary files, else one of its own."""
    with contextlib.nullcontext(str(room)) if room else tempfile.TemporaryDirectory() as folder:
        process = subprocess.Popen(
            [sys.executable, "-c", code, "page", "--no-open", *map(str, words)],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=folder, env={**os.environ, "TMPDIR": folder},
        )  # fmt: skip
        assert process.stdout is not None
        try:
            yield Served(process, Path(folder), process.stdout.readline().strip())
        finally:
            if process.poll() is None:
                process.send_signal(signal.SIGINT)
            try:
                process.wait(60)
            except subprocess.TimeoutExpired:
                process.kill()
            process.stdout.close()
            if process.stderr is not None:
                process.stderr.close()

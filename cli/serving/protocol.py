"""HTTP as uvicorn reads it, with two rules of the page: no waiting for slow heads, and its headers on errors too."""

from __future__ import annotations

import asyncio
from typing import Any

import h11
from scarfwright.cli.serving.guard import ON_EVERY_ANSWER, PATIENCE
from uvicorn.protocols.http.h11_impl import H11Protocol


class PageProtocol(H11Protocol):
    """A connection that is closed when no request has arrived in time."""

    patience = PATIENCE
    _end: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        super().connection_made(transport)
        self._wait()

    def data_received(self, data: bytes) -> None:
        super().data_received(data)
        if self.conn.their_state is h11.IDLE:  # the head of a request is still on its way
            self._wait()
        else:
            self._stop_waiting()

    def connection_lost(self, exc: Exception | None) -> None:
        self._stop_waiting()
        super().connection_lost(exc)

    def send_400_response(self, msg: str) -> None:
        """What is no HTTP at all never comes to the guard."""
        headers: list[Any] = [
            (b"content-type", b"text/plain; charset=utf-8"),
            (b"connection", b"close"),
            *ON_EVERY_ANSWER,
        ]
        for event in (
            h11.Response(status_code=400, headers=headers, reason=b"Bad Request"),
            h11.Data(data=msg.encode("ascii")),
            h11.EndOfMessage(),
        ):
            sent = self.conn.send(event)
            if sent is not None:
                self.transport.write(sent)
        self.transport.close()

    def _wait(self) -> None:
        if self._end is None:  # a byte now and then doesn't put the end off
            self._end = self.loop.call_later(self.patience, self._too_slow)

    def _stop_waiting(self) -> None:
        if self._end is not None:
            self._end.cancel()
            self._end = None

    def _too_slow(self) -> None:
        self._end = None
        self.transport.close()

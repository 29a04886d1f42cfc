"""What stands before every request and every answer: who may ask, how much, how long; and what each answer says of
itself."""

from __future__ import annotations

import asyncio
import hmac
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import Any

Message = MutableMapping[str, Any]
Scope = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

LARGEST = 1_000_000  # bytes of a request's body: a job is a page of text
PATIENCE = 10.0  # seconds for a request to arrive whole, and for each piece of an answer to be taken
TOKEN = b"x-scarfwright-key"
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
ON_EVERY_ANSWER: tuple[tuple[bytes, bytes], ...] = (
    (b"content-security-policy", POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
)
_OURS = {name for name, _ in ON_EVERY_ANSWER}


class RefusedError(Exception):
    """A request that is not answered: the status, and one line that says why."""

    def __init__(self, status: int, why: str) -> None:
        self.status = status
        super().__init__(why)


class Guard:
    """The app behind a door.

    host: "127.0.0.1:PORT", the one name this server answers to; key: what the printed address carries.
    `patience` [s] is less in tests.
    """

    def __init__(self, app: App, host: str, key: str, patience: float = PATIENCE) -> None:
        self.app, self.host, self.key, self.patience = app, host.encode(), key.encode(), patience

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return
        door = _Door(send, self.patience)
        try:
            self._admit(scope)
            body = await self._body(scope, receive) if scope["method"] == "POST" else b""
            await self.app(scope, _given(body, receive), door.send)
        except RefusedError as error:
            await door.refuse(error.status, str(error))
        except TimeoutError:
            await door.refuse(408, f"the request took over {self.patience:g} seconds")
        except ConnectionError:
            return  # whoever asked has gone
        except Exception:
            await door.refuse(500, "the page's own mistake; what was typed is untouched")

    def _admit(self, scope: Scope) -> None:
        """Raises RefusedError."""
        headers = scope["headers"]
        if _only(headers, b"host") != self.host:
            raise RefusedError(421, "found another host's name, expected the printed address")
        origin = [value for name, value in headers if name == b"origin"]
        if origin not in ([], [b"http://" + self.host]):
            raise RefusedError(403, "found another page's request, expected this page's own")
        if scope["method"] != "POST":
            return
        if not hmac.compare_digest(_only(headers, TOKEN), self.key):
            raise RefusedError(403, "found no key or a wrong one, expected that of the printed address")
        if _only(headers, b"content-type").partition(b";")[0].strip().lower() != b"application/json":
            raise RefusedError(415, "found another kind of content, expected application/json")

    async def _body(self, scope: Scope, receive: Receive) -> bytes:
        """The whole body, which is small. Raises RefusedError or TimeoutError."""
        told = _only(scope["headers"], b"content-length")
        if told.isdigit() and int(told) > LARGEST:
            raise RefusedError(413, f"found {int(told)} bytes, expected {LARGEST} at most")
        body = bytearray()
        async with asyncio.timeout(self.patience):
            while True:
                message = await receive()
                if message["type"] == "http.disconnect":
                    raise ConnectionError
                body += message.get("body", b"")
                if len(body) > LARGEST:
                    raise RefusedError(413, f"found more than {LARGEST} bytes")
                if not message.get("more_body", False):
                    return bytes(body)


def _only(headers: Iterable[tuple[bytes, bytes]], name: bytes) -> bytes:
    """The value of a header that stands there once; nothing where it is missing or stands there twice."""
    found = [value for key, value in headers if key == name]
    return found[0] if len(found) == 1 else b""


def _given(body: bytes, receive: Receive) -> Receive:
    """Hands the body on as one message; what comes after it is the end of the connection."""
    messages = iter([{"type": "http.request", "body": body, "more_body": False}])

    async def give() -> Message:
        return next(messages, None) or await receive()

    return give


class _Door:
    """The way out: every answer with what must stand on it, none to a reader who takes nothing."""

    def __init__(self, send: Send, patience: float) -> None:
        self._send, self._patience, self._begun = send, patience, False

    async def send(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            self._begun = True
            own = [(name, value) for name, value in message.get("headers", ()) if name.lower() not in _OURS]
            message = {**message, "headers": [*own, *ON_EVERY_ANSWER]}
        try:
            async with asyncio.timeout(self._patience):
                await self._send(message)
        except TimeoutError:
            raise ConnectionError from None

    async def refuse(self, status: int, why: str) -> None:
        if self._begun:
            return  # too late to say anything else: the connection ends
        text = why.encode()
        headers = [
            (b"content-type", b"text/plain; charset=utf-8"),
            (b"content-length", str(len(text)).encode()),
            (b"connection", b"close"),
        ]
        try:
            await self.send({"type": "http.response.start", "status": status, "headers": headers})
            await self.send({"type": "http.response.body", "body": text})
        except ConnectionError:
            return

"""Requests that nobody means well with, the status each must get, and what stands on every answer."""

from __future__ import annotations

import asyncio
import hashlib
import json
from collections.abc import Callable, Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import httpx
import pytest
from scarfwright.cli.serving.app import Page
from scarfwright.cli.serving.guard import LARGEST, ON_EVERY_ANSWER, Guard
from scarfwright.cli.serving.maker import Maker, Run
from scarfwright.cli.serving.worker import MADE, ZIP

from tests.page.served import JOB

HOST, KEY = "127.0.0.1:8765", "the-key"
POST = {"x-scarfwright-key": KEY, "content-type": "application/json"}


class Client:
    """Requests to the app without a socket, one after the other."""

    def __init__(self, room: Path, runner: asyncio.Runner, maker: Maker | None = None) -> None:
        app: Any = Guard(Page(KEY, maker or Maker(room), None, "").app(), HOST, KEY)
        transport = httpx.ASGITransport(app=app, raise_app_exceptions=False)
        self._http, self._runner = httpx.AsyncClient(transport=transport, base_url=f"http://{HOST}"), runner

    def request(self, method: str, path: str, **more: Any) -> httpx.Response:
        return self._runner.run(self._http.request(method, path, **more))


@pytest.fixture
def client(tmp_path: Path) -> Iterator[Client]:
    with asyncio.Runner() as runner:
        yield Client(tmp_path, runner)


def post(path: str, body: object, **headers: str | None) -> Callable[[Client], Any]:
    """A POST as the page sends it, but for these headers (None: without it)."""
    given = {name: value for name, value in {**POST, **headers}.items() if value is not None}
    data = body if isinstance(body, bytes | str) else json.dumps(body)
    return lambda client: client.request("POST", path, content=data, headers=given)


def get(path: str, **headers: str) -> Callable[[Client], Any]:
    return lambda client: client.request("GET", path, headers=headers)


DEEP = '{"job": ' + '{"a": ' * 5000 + "1" + "}" * 5001
MILDLY_DEEP = json.dumps({"job": {"board": [[[[[[[[[[[[[[1]]]]]]]]]]]]]]}})
HOSTILE: dict[str, tuple[Callable[[Client], Any], int]] = {
    "foreign host": (post("/work", {"job": JOB}, host="evil.example:8765"), 421),
    "the right host on another port": (post("/work", {"job": JOB}, host="127.0.0.1:80"), 421),
    "a name for this machine": (post("/work", {"job": JOB}, host="localhost:8765"), 421),
    "foreign host, for the page": (get(f"/?key={KEY}", host="evil.example"), 421),
    "foreign origin": (post("/work", {"job": JOB}, origin="http://evil.example"), 403),
    "an origin that is nobody": (post("/work", {"job": JOB}, origin="null"), 403),
    "own origin but encrypted": (post("/work", {"job": JOB}, origin=f"https://{HOST}"), 403),
    "foreign origin, for the page": (get(f"/?key={KEY}", origin="http://evil.example"), 403),
    "no key": (post("/work", {"job": JOB}, **{"x-scarfwright-key": None}), 403),
    "a wrong key": (post("/work", {"job": JOB}, **{"x-scarfwright-key": "the-kez"}), 403),
    "the page without a key": (get("/"), 403),
    "the page with a wrong key": (get("/?key=thekey"), 403),
    "a form from elsewhere": (post("/work", "a=b", **{"content-type": "application/x-www-form-urlencoded"}), 415),
    "plain text, which needs no leave": (post("/work", {"job": JOB}, **{"content-type": "text/plain"}), 415),
    "one byte too many": (post("/work", b" " * (LARGEST + 1)), 413),
    "no JSON": (post("/work", "{"), 400),
    "nothing": (post("/work", ""), 400),
    "not UTF-8": (post("/work", b'{"job": "\xff"}'), 400),
    "a list": (post("/work", [1, 2]), 400),
    "no job": (post("/work", {}), 400),
    "a job that is a list": (post("/work", {"job": []}), 400),
    "deep nesting": (post("/work", DEEP), 400),
    "nesting that can be read": (post("/work", MILDLY_DEEP), 400),
    "no number": (post("/work", '{"job": {"joint": {"ratio": NaN}}}'), 400),
    "a number of thousands of digits": (post("/work", '{"job": {"joint": {"ratio": ' + "9" * 5000 + "}}}"), 400),
    "half a character": (post("/work", '{"job": {"title": "\\ud800"}}'), 400),
    "unknown path": (get("/etc/passwd"), 404),
    "a climbing path": (get("/..%2f..%2fetc%2fpasswd"), 404),
    "a file of the package": (get("/answer.py"), 404),
    "reading what is only asked": (get("/work"), 405),
    "writing the page": (post("/", {}), 405),
    "another method": (lambda client: client.request("DELETE", "/page.js"), 405),
    "a file of no job": (post("/file", {"ticket": "0" * 64, "name": "job.toml"}), 404),
    "a file by a path": (post("/file", {"ticket": "..", "name": "../../etc/passwd"}), 404),
    "a ticket that is no text": (post("/progress", {"ticket": 7}), 400),
    "files of a job that can't be used": (post("/make", {"job": {"stock": {}}}), 422),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_gets_its_status_and_nothing_of_the_inside(client: Client, name: str) -> None:
    ask, status = HOSTILE[name]
    found = ask(client)
    assert found.status_code == status
    assert_guarded(found.headers)
    assert len(found.text) < 200
    for word in ("Traceback", "scarfwright/", 'File "', "site-packages"):
        assert word not in found.text


def assert_guarded(headers: Any) -> None:
    for key, value in ON_EVERY_ANSWER:
        assert headers[key.decode()] == value.decode()
    assert "unsafe" not in headers["content-security-policy"]


@pytest.mark.parametrize(
    ("name", "values", "status"),
    [
        ("host", [HOST, "evil.example"], 421),
        ("x-scarfwright-key", [KEY, "another"], 403),
        ("content-type", ["application/json", "text/plain"], 415),
        ("origin", [f"http://{HOST}", "http://evil.example"], 403),
    ],
)
def test_a_header_that_stands_there_twice_is_none(client: Client, name: str, values: list[str], status: int) -> None:
    headers = [(key, value) for key, value in {"host": HOST, **POST}.items() if key != name]
    headers += [(name, value) for value in values]
    found = client.request("POST", "/work", content=json.dumps({"job": JOB}), headers=headers)
    assert found.status_code == status


@pytest.mark.parametrize(("state", "status"), [("making", 404), ("stopped", 404), ("failed", 404), ("made", 200)])
def test_files_are_given_when_all_are_made_and_not_before(tmp_path: Path, state: Any, status: int) -> None:
    maker, ticket = Maker(tmp_path), "0" * 64
    (tmp_path / "1").mkdir()
    (tmp_path / "1" / ZIP).write_bytes(b"half")
    maker._runs[ticket] = Run(ticket, tmp_path / "1", state)
    with asyncio.Runner() as runner:
        found = post("/file", {"ticket": ticket, "name": ZIP})(Client(tmp_path, runner, maker))
    assert found.status_code == status


@pytest.mark.parametrize(("made_from", "state"), [(b"this job", "made"), (b"another", "failed")])
def test_files_of_another_job_are_not_taken_for_this_ones(tmp_path: Path, made_from: bytes, state: str) -> None:
    run = Run(hashlib.sha256(b"this job").hexdigest(), tmp_path)
    (tmp_path / MADE).mkdir()
    (tmp_path / MADE / "job.toml").write_bytes(made_from)
    Maker(tmp_path)._hear(run, {"files": [["job.toml", 8]], "zip": 1})
    assert (run.state, run.why == "") == (state, state == "made")


def asked_of(app: Any, runner: asyncio.Runner) -> httpx.Response:
    transport = httpx.ASGITransport(app=Guard(app, HOST, KEY), raise_app_exceptions=False)
    return runner.run(httpx.AsyncClient(transport=transport, base_url=f"http://{HOST}").get("/page.css"))


def test_a_mistake_of_ours_tells_nothing_of_the_inside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Inside the app, and before it: the same words, guarded."""

    async def broken(*_: Any) -> None:
        raise RuntimeError("secret")

    def raising(_name: str) -> None:
        raise RuntimeError("secret")

    monkeypatch.setattr("scarfwright.cli.serving.app._resource", raising)
    with asyncio.Runner() as runner:
        for app in (broken, Page(KEY, Maker(tmp_path), None, "").app()):
            found = asked_of(app, runner)
            assert (found.status_code, found.text) == (500, "the page's own mistake; what was typed is untouched")
            assert_guarded(found.headers)


def test_what_an_answer_says_of_itself_is_said_once() -> None:
    async def lax(_scope: Any, _receive: Any, send: Any) -> None:
        headers = [(b"Cache-Control", b"public"), (b"x-content-type-options", b"sniff")]
        await send({"type": "http.response.start", "status": 200, "headers": headers})
        await send({"type": "http.response.body", "body": b""})

    with asyncio.Runner() as runner:
        assert_guarded(asked_of(lax, runner).headers)


def test_a_file_that_asks_for_another_is_not_opened(client: Client) -> None:
    found = post("/open", {"text": 'include = "/etc/passwd"', "name": "mine.toml"})(client).json()
    assert found["job"] is None
    assert "reads no other file" in found["problems"][0]


def test_who_takes_nothing_of_an_answer_is_let_go(tmp_path: Path) -> None:
    async def never(_message: Any) -> None:
        await asyncio.Event().wait()

    async def nothing() -> dict[str, Any]:
        return {"type": "http.disconnect"}

    async def asked() -> None:
        app: Any = Guard(Page(KEY, Maker(tmp_path), None, "").app(), HOST, KEY, patience=0.05)
        scope = {"type": "http", "method": "GET", "path": "/page.css", "query_string": b"", "root_path": "",
                 "headers": [(b"host", HOST.encode())]}  # fmt: skip
        await asyncio.wait_for(app(scope, nothing, never), timeout=20)

    asyncio.run(asked())


@pytest.mark.parametrize("path", ["/page.js", "/page.css", "/book.css", "/form.js", "/files.js", "/pieces.js"])
def test_what_is_given_is_guarded_too(client: Client, path: str) -> None:
    found = client.request("GET", path)
    assert found.status_code == 200
    assert_guarded(found.headers)


def test_own_origin_and_a_content_type_with_a_charset_are_let_in(client: Client) -> None:
    found = post("/work", {"job": JOB}, origin=f"http://{HOST}", **{"content-type": "application/json; charset=utf-8"})
    assert found(client).status_code == 200


@pytest.mark.parametrize(
    ("job", "path"),
    [
        ({**JOB, "stock": 5}, ["stock"]),
        ({**JOB, "stock": {"thickness": {"a": 1}, "height": True}}, ["stock", "thickness"]),
        ({**JOB, "board": [{"length": "1 m"}] * 10_000}, ["board"]),
        ({**JOB, "board": [5]}, ["board", 0]),
        ({**JOB, "nonsense": {"a": 1}}, ["nonsense"]),
        ({**JOB, "title": "x" * 500_000}, ["title"]),
        ({**JOB, "title": None}, ["title"]),
        ({**JOB, "joint": {"ratio": 1e400}}, ["joint", "ratio"]),
        ({**JOB, "include": "shop.toml"}, ["include"]),
    ],
)  # fmt: skip
def test_what_is_no_job_is_problems_at_their_keys(client: Client, job: dict[str, Any], path: list[Any]) -> None:
    body = json.dumps({"job": job}).replace("Infinity", "1e400")
    found = post("/work", body)(client)
    assert found.status_code == 200
    assert path in [one["path"] for one in found.json()["problems"]]
    assert all(len(one["text"]) < 400 for one in found.json()["problems"])


@pytest.mark.parametrize(
    "title", ["<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "\x00\x1b[2J\u202e", "</svg><b>"]
)
def test_titles_are_text(client: Client, title: str) -> None:
    """Markup and control characters stand in no piece as anything but text."""
    found = post("/work", {"job": {**JOB, "title": title, "stock": {**JOB["stock"], "species": title}}})(client).json()
    assert found["problems"] == []
    shown = "".join(one["html"] for one in found["pieces"])
    assert set(shown) & {"\x00", "\x1b"} == set()
    tags = Tags()
    tags.feed(shown)
    assert tags.found >= {"svg", "path", "li"}
    assert tags.found & {"script", "img", "b\u202e", "iframe"} == set()
    assert tags.on == []


class Tags(HTMLParser):
    """Names of all elements, and attributes that would run something."""

    def __init__(self) -> None:
        super().__init__()
        self.found: set[str] = set()
        self.on: list[str] = []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.found.add(tag)
        self.on += [name for name, _ in attributes if name.startswith("on") or name == "style"]


def test_a_mistake_of_the_page_is_an_answer_without_the_inside(client: Client, monkeypatch: Any) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError("secret/path")

    monkeypatch.setattr("scarfwright.outputs.page.answer.work_up", broken)
    found = post("/work", {"job": JOB})(client)
    assert found.status_code == 500
    assert_guarded(found.headers)
    assert "secret" not in found.text

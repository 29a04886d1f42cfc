"""What the server answers: the page's files, and what it asks about a job. Nothing of a request becomes a path."""

from __future__ import annotations

import hmac
import json
import sys
import threading
from collections.abc import Callable
from typing import Any, NoReturn, TypeVar

import anyio
from scarfwright.cli.serving.guard import RefusedError
from scarfwright.cli.serving.maker import BusyError, Maker
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response
from starlette.routing import Route

DEEPEST = 12  # tables, lists and lists of lists of a job are four deep
AT_ONCE = 2  # jobs worked out at a time; more would only make each slower
KINDS = {"html": "text/html", "css": "text/css", "js": "text/javascript"}
OTHER_JOB = "these files are not there: they were made of another job, or never"
BUSY = "files of another job are being made: wait for them or stop them, then make these"

T = TypeVar("T")


class Page:
    """The answers, for one run of the server. `given`: the tables of the job that the page begins with."""

    def __init__(self, key: str, maker: Maker, given: dict[str, Any] | None, name: str) -> None:
        self.key, self.maker, self.given, self.name = key, maker, given, name
        self._places: anyio.CapacityLimiter | None = None

    def app(self) -> Starlette:
        posts: dict[str, Callable[[Request], Any]] = {
            "begin": self.begin, "work": self.work, "look": self.look, "open": self.open,
            "make": self.make, "progress": self.progress, "stop": self.stop, "file": self.file,
        }  # fmt: skip
        return Starlette(
            routes=[
                Route("/", self.page, methods=["GET"]),
                *(Route(f"/{name}", self.resource, methods=["GET"]) for name in RESOURCES),
                *(Route(f"/{name}", answer, methods=["POST"]) for name, answer in posts.items()),
            ],
            exception_handlers={RefusedError: _refused, Exception: _mistake},
        )

    async def page(self, request: Request) -> Response:
        given = request.query_params.get("key", "")
        if not hmac.compare_digest(given.encode(), self.key.encode()):
            raise RefusedError(403, "found no key or a wrong one: open the address that scarfwright page printed")
        return _resource("page.html")

    async def resource(self, request: Request) -> Response:
        return _resource(request.url.path.removeprefix("/"))

    async def begin(self, request: Request) -> Response:
        """Schemas and pictures of both units, and the job to begin with."""
        from scarfwright.outputs.page.beginning import beginning

        _tables_in(await request.body())
        return JSONResponse({**await self._aside(beginning), "job": self.given, "name": self.name})

    async def work(self, request: Request) -> Response:
        """Figures, findings and the first pieces of a job, or what is wrong with it."""
        from scarfwright.outputs.page.answer import at_once

        tables = _job_in(await request.body())
        return JSONResponse(await self._aside(lambda: at_once(tables)))

    async def look(self, request: Request) -> Response:
        """What takes longer: ways out, the other pieces, whole sheets. Given up when whoever asked has gone."""
        from scarfwright.outputs.page.looking import in_full

        asked = await request.body()
        tables, sheets = _job_in(asked), bool(_tables_in(asked).get("sheets"))
        gone = threading.Event()
        async with anyio.create_task_group() as group:
            group.start_soon(_set_when_gone, request, gone)
            found = await self._aside(lambda: in_full(tables, gone.is_set, whole_sheets=sheets))
            group.cancel_scope.cancel()
        return JSONResponse(found)

    async def open(self, request: Request) -> Response:
        """The tables of a job file's text."""
        from scarfwright.models.job.problems import JobError
        from scarfwright.models.job.reading.plain import plain_from_text
        from scarfwright.models.job.reading.toml_text import text_of

        asked = _tables_in(await request.body())
        data, name = _text(asked, "text").encode(), _text(asked, "name")[:200]
        try:
            tables = await self._aside(lambda: plain_from_text(text_of(data, name), name))
            return JSONResponse({"job": tables, "problems": []})
        except JobError as error:
            return JSONResponse({"job": None, "problems": [one.text for one in error.problems]})

    async def make(self, request: Request) -> Response:
        """Begin to make the files of a job; or they are there already."""
        tables = _job_in(await request.body())
        ticket, text = await self._aside(lambda: _ordered(tables))
        try:
            return JSONResponse((await self.maker.start(ticket, text)).as_json())
        except BusyError:
            raise RefusedError(409, BUSY) from None

    async def progress(self, request: Request) -> Response:
        return self._told(self.maker.run(_text(_tables_in(await request.body()), "ticket")))

    async def stop(self, request: Request) -> Response:
        return self._told(self.maker.stop(_text(_tables_in(await request.body()), "ticket")))

    def _told(self, run: Any) -> Response:
        if run is None:
            raise RefusedError(404, OTHER_JOB)
        return JSONResponse(run.as_json())

    async def file(self, request: Request) -> Response:
        """A made file, by its job's ticket and its name in the list."""
        asked = _tables_in(await request.body())
        path = self.maker.path_of(_text(asked, "ticket"), _text(asked, "name"))
        if path is None or not path.is_file():
            raise RefusedError(404, OTHER_JOB)
        return FileResponse(path, media_type="application/octet-stream")

    async def _aside(self, work: Callable[[], T]) -> T:
        """Do it in a thread, so that the server goes on listening."""
        if self._places is None:
            self._places = anyio.CapacityLimiter(AT_ONCE)
        return await anyio.to_thread.run_sync(work, limiter=self._places)


RESOURCES = ("page.css", "book.css", "form.js", "page.js", "files.js", "pieces.js")


def _resource(name: str) -> Response:
    from scarfwright.outputs.page.resources import resource

    kind = KINDS[name.rpartition(".")[2]]
    return Response(resource(name), media_type=kind)


def _ordered(tables: dict[str, Any]) -> tuple[str, str]:
    """The ticket and the text of a job to be made. Raises RefusedError for one that can't be."""
    from scarfwright.models.job.file import job_from_dict
    from scarfwright.models.job.reading.plain import plain_to_text
    from scarfwright.outputs.page.answer import ticket

    return ticket(job_from_dict(_usable(tables))), plain_to_text(tables)


def _usable(tables: dict[str, Any]) -> dict[str, Any]:
    """The same tables. Raises RefusedError."""
    from scarfwright.models.job.file import job_from_dict
    from scarfwright.models.job.problems import JobError

    try:
        job_from_dict(tables)
    except JobError as error:
        raise RefusedError(422, error.problems[0].text) from None
    return tables


# -- reading what is asked -------------------------------------------------------------------------------------


def _job_in(body: bytes) -> dict[str, Any]:
    found = _tables_in(body).get("job")
    if not isinstance(found, dict):
        raise RefusedError(400, "found no job, expected its tables")
    return found


def _tables_in(body: bytes) -> dict[str, Any]:
    """The body's JSON object. Raises RefusedError."""
    try:
        found = json.loads(body.decode("utf-8"), parse_constant=_no_number)
        json.dumps(found, ensure_ascii=False).encode("utf-8")  # half of a pair of surrogates is no text
    except (ValueError, RecursionError):
        raise RefusedError(400, "found no JSON, expected an object") from None
    if not isinstance(found, dict):
        raise RefusedError(400, "found no JSON object, expected one")
    if _deep(found, DEEPEST):
        raise RefusedError(400, f"found JSON nested deeper than {DEEPEST}, expected a job's tables")
    return found


def _deep(value: object, left: int) -> bool:
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return bool(inner) and (left == 0 or any(_deep(one, left - 1) for one in inner))


def _no_number(text: str) -> NoReturn:
    raise ValueError(text)


def _text(asked: dict[str, Any], key: str) -> str:
    found = asked.get(key)
    if not isinstance(found, str):
        raise RefusedError(400, f"found no {key}, expected text")
    return found


async def _set_when_gone(request: Request, gone: threading.Event) -> None:
    while True:
        if (await request.receive())["type"] == "http.disconnect":
            gone.set()
            return


async def _refused(_request: Request, error: Exception) -> Response:
    assert isinstance(error, RefusedError)
    return Response(str(error), status_code=error.status, media_type="text/plain")


async def _mistake(_request: Request, error: Exception) -> Response:
    print(f"scarfwright: the page's own mistake: {type(error).__name__}: {error}", file=sys.stderr, flush=True)
    return Response("the page's own mistake; what was typed is untouched", status_code=500, media_type="text/plain")

"""The tool in processes forked off one that has read all code and done nothing yet.

A fresh process reads half a second of libraries for `check` and seconds for `make`, and the tests start hundreds. A
fork is a process of its own with its own exit code, files and memory, but has read them already. What depends on
the start of a process (interruption, what is loaded when, the interpreter's own switches) is tried in fresh ones.
"""

from __future__ import annotations

import atexit
import gc
import importlib
import json
import os
import pkgutil
import subprocess
import sys
import tempfile
import traceback
from contextlib import suppress
from functools import cache
from pathlib import Path

NEW = os.O_WRONLY | os.O_CREAT
CAN = hasattr(os, "fork")


def run(words: tuple[str, ...], cwd: Path, env: dict[str, str], first: str) -> subprocess.CompletedProcess[str]:
    """Run the tool on `words` in `cwd`, after the code `first`; `env` is all of the environment, with nothing in it
    that Python itself reads.
    """
    with tempfile.TemporaryDirectory() as room:
        out, err = Path(room, "out"), Path(room, "err")
        server = _server()
        assert server.stdin
        assert server.stdout
        server.stdin.write(json.dumps([words, str(cwd), env, first, str(out), str(err)]) + "\n")
        server.stdin.flush()
        answer = server.stdout.readline()
        assert answer, "the process that is forked from has ended"
        return subprocess.CompletedProcess(words, int(answer), _text(out), _text(err))


def _text(path: Path) -> str:
    return path.read_bytes().decode("utf-8", "surrogateescape").replace("\r\n", "\n")


@cache
def _server() -> subprocess.Popen[str]:
    server = subprocess.Popen(
        [sys.executable, __file__], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8"
    )
    atexit.register(server.kill)
    return server


def _serve() -> None:
    """Read everything, then fork once for each line asked for and answer with its exit code."""
    answers = os.fdopen(os.dup(1), "w")
    os.dup2(2, 1)
    _read_all()
    gc.collect()
    gc.freeze()
    for line in sys.stdin:
        child = os.fork()
        if not child:
            _become(*json.loads(line))
        code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        print(code, file=answers, flush=True)


def _read_all() -> None:
    from scarfwright import cli, models, outputs

    for package in (cli, models, outputs):
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            with suppress(ImportError):  # what an extra brings that is not installed here
                importlib.import_module(module.name)
    for library in ("cadquery", "ezdxf", "ortools.sat.python.cp_model", "reportlab.pdfgen.canvas", "scipy.interpolate"):
        importlib.import_module(library)


def _become(words: list[str], cwd: str, env: dict[str, str], first: str, out: str, err: str) -> None:
    """Be the process that was asked for; never return."""
    code = 1
    try:
        for fd, path, flags in ((0, os.devnull, os.O_RDONLY), (1, out, NEW), (2, err, NEW)):
            os.dup2(os.open(path, flags, 0o600), fd)
        os.chdir(cwd)
        os.environ.clear()
        os.environ.update(env)
        tempfile.tempdir = None
        sys.argv = ["scarfwright", *words]
        exec(first, {})
        from scarfwright.cli.entry import run as enter

        enter()
    except SystemExit as ended:
        code = ended.code if isinstance(ended.code, int) else 0 if ended.code is None else 1
    except BaseException:
        traceback.print_exc()
    finally:
        atexit._run_exitfuncs()
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


if __name__ == "__main__":
    _serve()

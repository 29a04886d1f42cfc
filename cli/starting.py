"""`scarfwright start`: a commented job file to begin from."""

from __future__ import annotations

import contextlib
import re
import shlex
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from scarfwright.cli.examples import example, listed, nearest
from scarfwright.cli.interruption import Interruption
from scarfwright.cli.problems import refuse
from scarfwright.cli.terminal import out, visible
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.forms.start_text import Start, starting_text
from scarfwright.models.job.problems import JobError
from scarfwright.models.job.shop import MACHINES, Machine
from scarfwright.models.lengths.length import LengthError, Unit, parse_length

T = TypeVar("T")
Ask = Callable[[str], str]
NO_FILE = "no file was written"


def start_job(file: Path, units: Unit) -> int:
    """Write the file unless its name is taken. Returns the exit code."""
    return _written(file, starting_text(Start(units)))


def start_like(file: Path, name: str) -> int:
    """Write a packaged example as somebody's own job. Returns the exit code: 2 for a name that is none's."""
    try:
        text = example(name).text
    except KeyError:
        code = refuse(
            f'start --like: found "{name}", expected an example; the nearest is "{nearest(name)}"', key="--like"
        )
        print(*listed(), sep="\n", file=sys.stderr)
        return code
    return _written(file, text)


def ask_and_start(file: Path, units: Unit | None, ask: Ask | None = None) -> int:
    """Ask five questions on the terminal, then write the file. Returns the exit code."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return refuse("start --ask: found no terminal to ask on, expected one; without --ask no question is put")
    if file.exists():
        return taken(file)
    Interruption.so_far = NO_FILE
    out("Five questions. Enter alone keeps what is in brackets; Ctrl-C ends, and no file is written.")
    try:
        start = asked(ask or _on_terminal, units)
    except EOFError:
        return refuse(f"start --ask: found the end of the input, expected an answer; {NO_FILE}")
    return _written(file, starting_text(start))


def _on_terminal(question: str) -> str:
    """The line typed in answer. Raises EOFError."""
    sys.stdout.write(question)
    sys.stdout.flush()
    line = sys.stdin.readline()
    if not line:
        raise EOFError
    return line.rstrip("\n")


def asked(ask: Ask, units: Unit | None) -> Start:
    """Units, board, slope, plank, machines; each asked again until the answer can be used. Raises EOFError."""
    found: Unit = units or _units(ask)
    board = {"mm": "22 mm x 60 mm", "in": "7/8 in x 1 3/4 in"}[found]
    known: dict[str, Any] = {"units": found, "stock": {"thickness": "22 mm", "height": "60 mm"}, "joint": {"ratio": 12}}
    thick, high = _until(ask, f"Board, thickness x height [{board}]: ", board, lambda text: _board(text, known))
    known["stock"] = {"thickness": thick, "height": high}
    ratio = _until(ask, "Slope, 8:1 to 20:1 [12:1]: ", "12:1", lambda text: _slope(text, known))
    known["joint"] = {"ratio": ratio}
    plank = _until(ask, 'Plank for the sled, "2x8" or thickness x width [2x8]: ', "2x8", lambda t: _plank(t, known))
    machines = _until(ask, "Machines there are: printer, router, laser [none]: ", "none", _machines)
    return Start(
        found,
        {"stock.thickness": thick, "stock.height": high, "joint.ratio": ratio, "sled.plank": plank},
        machines,
    )


def _units(ask: Ask) -> Unit:
    def read(text: str) -> Unit:
        words: dict[str, Unit] = {"mm": "mm", "millimetres": "mm", "in": "in", "inch": "in", "inches": "in"}
        if text.lower() not in words:
            raise ValueError(f'found "{text}", expected mm or in')
        return words[text.lower()]

    return _until(ask, "Units, mm or in [mm]: ", "mm", read)


def _until(ask: Ask, question: str, usual: str, read: Callable[[str], T]) -> T:
    """The first answer that can be read; what is wrong with the others is said."""
    while True:
        text = ask(question).strip() or usual
        try:
            return read(text)
        except JobError as error:
            out(f"  {visible(_without_key(error.problems[0].text))}")
        except ValueError as error:
            out(f"  {visible(str(error))}")


def _without_key(problem: str) -> str:
    """What is wrong with an answer; which key it would have gone to, and in what file, nobody asked yet."""
    return problem[max(problem.find("found "), 0) :]


def _two(text: str, units: Unit, what: str, example: str) -> list[object]:
    """Two sizes; a unit that stands once, after the second, is the first one's too."""
    parts = [part.strip() for part in re.split(r"\s*[x×*]\s*|\s+by\s+", text, flags=re.IGNORECASE)]
    if len(parts) != 2 or not all(parts):
        raise ValueError(f'found "{text}", expected {what}, such as {example}')
    unit = re.search(r"(mm|cm|in|inch|inches|\"|″|”)\.?$", parts[1], flags=re.IGNORECASE)
    if unit and re.fullmatch(r"[\d\s./,¼½¾⅛⅜⅝⅞-]+", parts[0]):
        parts[0] += f" {unit[1]}"
    return [_typed(part, units) for part in parts]


def _typed(text: str, units: Unit) -> object:
    """As a job file writes it: a number alone is in the units answered before, and a fraction alone is inches there."""
    plain = text.replace(",", ".") if text.count(",") == 1 and len(text.partition(",")[2]) != 3 else text
    try:
        return float(plain) if "." in plain else int(plain)
    except ValueError:
        pass
    try:
        return parse_length(text, units, bare=units == "in").text
    except LengthError:
        return text  # refused with the reason where it is tried on the job


def _board(text: str, known: dict[str, Any]) -> tuple[object, object]:
    example = "22 x 60 mm" if known["units"] == "mm" else "7/8 x 1 3/4 in"
    thick, high = _two(text, known["units"], "thickness x height", example)
    job_from_dict({**known, "stock": {"thickness": thick, "height": high}})
    return thick, high


def _slope(text: str, known: dict[str, Any]) -> object:
    job_from_dict({**known, "joint": {"ratio": text}})
    return text


def _plank(text: str, known: dict[str, Any]) -> object:
    with contextlib.suppress(JobError):
        job_from_dict({**known, "sled": {"plank": text}})
        return text
    example = "2x8 or 38 x 184 mm" if known["units"] == "mm" else "2x8 or 1 1/2 x 7 1/4 in"
    sizes = _two(text, known["units"], "a nominal size or thickness x width", example)
    job_from_dict({**known, "sled": {"plank": sizes}})
    return sizes


def _machines(text: str) -> tuple[Machine, ...]:
    words = {word.strip("\"',.") for word in text.lower().replace(",", " ").split()} - {"none", "and", "no"}
    if not words <= set(MACHINES):
        raise ValueError(f'found "{text}", expected some of printer, router, laser, or none')
    return tuple(machine for machine in MACHINES if machine in words)


def taken(file: Path) -> int:
    said = "is there already and is left as it is; expected a name not yet taken"
    return refuse(f"{file}: {said}", file=str(file))


def _written(file: Path, text: str) -> int:
    """Write the file and say what to do with it. Returns the exit code."""
    code = write_new(file, text)
    if not code:
        out(f"{visible(str(file))}: edit it, then run: scarfwright check {shlex.quote(visible(str(file)))}")
    return code


def write_new(file: Path, text: str) -> int:
    """Write a new file whole, or none, and say why not. Returns the exit code."""
    made = False
    try:
        with file.open("x", encoding="utf-8", newline="\n") as stream:
            made = True
            stream.write(text)
    except FileExistsError:
        return taken(file)
    except BaseException as error:
        if made:
            with contextlib.suppress(OSError):
                file.unlink()
        if not isinstance(error, OSError):
            raise
        said = f"can't be written ({error.strerror}); expected a place that can be written to; {NO_FILE}"
        return refuse(f"{file}: {said}", file=str(file))
    Interruption.so_far = f"{visible(str(file))} is written"
    return 0

"""`scarfwright start`: a commented job file to begin from."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from scarfwright.cli.problems import problem
from scarfwright.models.job.start_text import starting_text


def start_job(file: Path, units: Literal["mm", "in"]) -> int:
    """Write the file unless its name is taken. Returns the exit code."""
    try:
        with file.open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(starting_text(units))
    except FileExistsError:
        problem(f"{file}: is there already and is left as it is; expected a name not yet taken")
        return 2
    except OSError as error:
        problem(f"{file}: can't be written ({error.strerror}); expected a place that can be written to")
        return 2
    print(f"{file}: edit it, then run: scarfwright check {file}")
    return 0

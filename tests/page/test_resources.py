"""The page's own files: small, and given before anything of jobs is loaded."""

from __future__ import annotations

import subprocess
import sys

from scarfwright.cli.serving.app import RESOURCES
from scarfwright.outputs.page.resources import OURS, resource

MOST_BYTES = 60_000
LIGHT = """
import sys
from scarfwright.outputs.page.resources import resource
for name in sys.argv[1:]: assert resource(name)
print(*sorted({name.partition(".")[0] for name in sys.modules} & {"pydantic", "jinja2", "numpy", "scipy"}))
"""


def test_web_files_are_small() -> None:
    assert sum(len(resource(name).encode()) for name in OURS) <= MOST_BYTES


def test_the_page_is_painted_with_nothing_of_jobs_loaded() -> None:
    words = [sys.executable, "-c", LIGHT, "page.html", *RESOURCES]
    done = subprocess.run(words, capture_output=True, text=True, check=False, timeout=60)
    assert (done.returncode, done.stdout.strip(), done.stderr) == (0, "", "")

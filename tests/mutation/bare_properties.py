"""Lays a copy's properties bare for mutmut, which leaves every decorated function as it is: `@property` over a function
becomes an assignment below it. Half of what the sled's figures hang on are properties.

    python bare_properties.py FOLDER ...
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

DECORATED = re.compile(r"    @(property|cached_property)\n(    def (\w+)\(.*\n(?:(?:     .*)?\n)*)")


def bare(source: str) -> str:
    """The source with each property of a class assigned after its function."""
    return DECORATED.sub(lambda m: f"{m[2].rstrip()}\n\n    {m[3]} = {m[1]}({m[3]})\n\n", source)


if __name__ == "__main__":
    for folder in sys.argv[1:]:
        for path in Path(folder).rglob("*.py"):
            path.write_text(bare(path.read_text(encoding="utf-8")), encoding="utf-8")

"""Script and style of the form, the same for every job."""

from __future__ import annotations

from importlib.resources import files

SCRIPTS = ("lengths.js", "tuning.js", "saying.js", "form.js")


def script() -> str:
    """All scripts of the room as one."""
    return f'(() => {{\n"use strict";\n{"".join(packed(name) for name in SCRIPTS)}}})();\n'


def packed(name: str) -> str:
    """One of the room's files without indentation and without the lines that are comments."""
    text = files("scarfwright.outputs.joint_form").joinpath(name).read_text("utf-8")
    lines = (line.strip() for line in text.splitlines())
    return "".join(f"{line}\n" for line in lines if line and not line.startswith("//"))

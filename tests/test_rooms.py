"""The house as DEVELOPERS.md draws it: every import, late ones too, is an arrow that the table there allows."""

from __future__ import annotations

import ast
import re
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
TOPS = ("models", "outputs", "cli")
KERNEL = ("cadquery", "OCP")
KERNEL_ROOMS = ("models/solids", "outputs/formats")
MOST_FILES = 15
MOST_LINES = 350
MOST_FUNCTION_LINES = 60
SAW = {"models/sled", "models/cut", "models/groundwork", "models/workup"}
FREE_OF_THE_SAW = (
    "models/lengths", "models/flat", "models/job", "models/joint", "models/part", "models/printing", "models/sheets",
    "models/gluing", "models/plan", "outputs/drawing",
)  # fmt: skip


@cache
def table() -> dict[str, set[str]]:
    """Room -> the rooms it may import, from the block in DEVELOPERS.md; later lines may use earlier ones only."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    block = re.search(r"<!-- rooms -->\n```\n(.*?)```", text, flags=re.S)
    assert block is not None, "DEVELOPERS.md has no block of rooms"
    found: dict[str, set[str]] = {}
    for line in block.group(1).splitlines():
        name, arrow, uses = line.partition("<-")
        assert arrow, f"not a row of the table: {line}"
        used = {word for word in uses.split() if word != "-"}
        assert used <= set(found), f"{name.strip()} uses a room that is not above it: {sorted(used - set(found))}"
        found[name.strip()] = used
    return found


@cache
def sources() -> list[Path]:
    return [path for top in TOPS for path in sorted((ROOT / top).rglob("*.py"))]


def room_of(parts: tuple[str, ...]) -> str:
    """("models", "sled", "blade") is in the room models/sled; a module on top is a room of its own."""
    return "/".join(parts[:1] if parts[0] == "cli" else parts[:2])


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def imports(path: Path) -> tuple[tuple[str, ...], ...]:
    """Every module a file imports, late ones too, as its parts."""
    found: list[tuple[str, ...]] = []
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            found += [tuple(alias.name.split(".")) for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            found += [(*node.module.split("."), alias.name) for alias in node.names]
    return tuple(found)


def used_by(path: Path) -> set[str]:
    """The rooms a file uses besides its own."""
    own = {room_of(name[1:]) for name in imports(path) if name[0] == "scarfwright" and len(name) > 2}
    return own - {room_of(place(path)), "examples"}


def place(path: Path) -> tuple[str, ...]:
    return path.relative_to(ROOT).with_suffix("").parts


def test_imports_are_allowed_arrows() -> None:
    wrong = {}
    for path in sources():
        if path.name == "__init__.py" and path.parent.parent == ROOT:
            continue
        room = room_of(place(path))
        assert room in table(), f"{room} is not in the table of rooms"
        if used_by(path) - table()[room]:
            wrong["/".join(place(path))] = sorted(used_by(path) - table()[room])
    assert wrong == {}


def test_every_arrow_of_the_table_is_used() -> None:
    """An arrow that nobody needs would let somebody in."""
    used: dict[str, set[str]] = {}
    for path in sources():
        used.setdefault(room_of(place(path)), set()).update(used_by(path))
    unused = {room: sorted(allowed - used[room]) for room, allowed in table().items() if allowed - used[room]}
    assert unused == {}


def test_the_kernel_is_imported_in_few_rooms_and_late() -> None:
    wrong = {}
    for path in sources():
        kernel = [name for name in imports(path) if name[0] in KERNEL]
        early = [n for n in tree(path).body if isinstance(n, ast.Import | ast.ImportFrom) and _named(n) & set(KERNEL)]
        if early or (kernel and room_of(place(path)) not in KERNEL_ROOMS):
            wrong["/".join(place(path))] = kernel
    assert wrong == {}


def _named(node: ast.Import | ast.ImportFrom) -> set[str]:
    if isinstance(node, ast.Import):
        return {alias.name.split(".")[0] for alias in node.names}
    return {(node.module or "").split(".")[0]}


def reached(room: str, rooms: dict[str, set[str]]) -> set[str]:
    found: set[str] = set()
    todo = [room]
    while todo:
        for nearer in rooms[todo.pop()] - found:
            found.add(nearer)
            todo.append(nearer)
    return found


@pytest.mark.parametrize("room", FREE_OF_THE_SAW)
def test_what_needs_no_table_saw_knows_none(room: str) -> None:
    """Directly or through another room: so that another way to cut the joint can stand beside the sled."""
    assert reached(room, table()) & SAW == set()


def test_no_room_is_crowded() -> None:
    folders = {path.parent for path in sources()}
    crowded = {
        str(folder.relative_to(ROOT)): count
        for folder in folders
        if (count := len([p for p in folder.glob("*.py") if p.name != "__init__.py"])) > MOST_FILES
        and folder != ROOT / "models" / "parts"
    }
    assert crowded == {}


def test_no_module_needs_a_map() -> None:
    lines = {str(p.relative_to(ROOT)): len(p.read_text(encoding="utf-8").splitlines()) for p in sources()}
    assert {name: count for name, count in lines.items() if count > MOST_LINES} == {}


def test_no_function_needs_scrolling() -> None:
    long = {}
    for path in sources():
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.FunctionDef) and (node.end_lineno or 0) - node.lineno >= MOST_FUNCTION_LINES:
                long[f"{path.relative_to(ROOT)}:{node.name}"] = (node.end_lineno or 0) - node.lineno + 1
    assert long == {}


FRONT_DOORS = {"read_job"}  # for whoever has a path and nothing else


def test_nothing_is_there_for_the_tests_alone() -> None:
    """Every function and class of a module is named somewhere in the product besides where it is made."""
    made: dict[str, str] = {}
    named: set[str] = set()
    for path in sources():
        for node in ast.walk(tree(path)):
            match node:
                case ast.Name(id=name) | ast.Attribute(attr=name):
                    named.add(name)
                case ast.Constant(value=str(text)):  # "module:function" in a table, a name in __all__
                    named.add(text.rpartition(":")[2])
        for top in tree(path).body:
            if isinstance(top, ast.FunctionDef | ast.ClassDef) and not top.decorator_list:
                made[top.name] = str(path.relative_to(ROOT))
    assert {name: where for name, where in made.items() if name not in named | FRONT_DOORS} == {}


def test_every_room_says_what_it_knows() -> None:
    silent = [init for init in sources() if init.name == "__init__.py" and not ast.get_docstring(tree(init))]
    assert [init for init in silent if init.parent.parent != ROOT] == []

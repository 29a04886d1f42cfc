"""The text of a STEP file made the same for every run.

The kernel stamps times and counters, and the order in which it writes colours depends on where things happened to
lie in memory. ISO 10303-21 gives the order and the numbers of entities no meaning, so they are put into an order of
their content: entities nobody refers to (the roots) sorted by what they say, each followed by what it refers to;
parts of an assembly stay in the order of its tree.
"""

from __future__ import annotations

import hashlib
import re

_EPOCH = "2000-01-01T00:00:00"
_ENTITY = re.compile(r"#(\d+)\s*=\s*(.*?);\s*(?=#\d+\s*=|$)", re.DOTALL)
_BRAND = re.compile(r"'Open CASCADE STEP translator [\d.]+\s+[\d.]+'")
_USE = re.compile(r"(NEXT_ASSEMBLY_USAGE_OCCURRENCE\(\s*)'(\d+)'")
_REFERENCE = re.compile(r"#(\d+)")


def pinned(text: str, name: str) -> str:
    """Time stamp, counters, the kernel's own names and the entities' order, the same for the same content."""
    header, _, rest = text.partition("DATA;")
    data, _, _ = rest.rpartition("ENDSEC;")
    header = re.sub(
        r"FILE_NAME\(.*?\);",
        f"FILE_NAME('{name}','{_EPOCH}',(''),(''),'','scarfwright','');",
        header,
        count=1,
        flags=re.DOTALL,
    )
    header = re.sub(r"FILE_DESCRIPTION\(\('[^']*'\)", "FILE_DESCRIPTION(('solids in millimetres')", header, count=1)
    # joined first: where the writer broke a line depends on how many digits its counters have reached
    joined = "\n".join(f"#{number}={_joined(body)};" for number, body in _ENTITY.findall(data.strip()))
    data = _counted(_BRAND.sub(f"'{name}'", joined))
    if data.count("STYLED_ITEM(") > 1:  # with one colour there is no order to differ
        data = "\n".join(_in_order_of_content({int(number): body for number, body in _ENTITY.findall(data)}))
    return header + "DATA;\n" + data + "\nENDSEC;\nEND-ISO-10303-21;\n"


def _joined(body: str) -> str:
    """The writer wraps long entities; the breaks carry no meaning."""
    return "".join(line.lstrip() for line in body.splitlines())


def _counted(data: str) -> str:
    """Uses of a part in an assembly numbered from 1 in the order of the tree; the kernel counts on over all files."""
    known = sorted({int(use[2]) for use in _USE.finditer(data)})
    rank = {number: i + 1 for i, number in enumerate(known)}
    return _USE.sub(lambda use: f"{use[1]}'{rank[int(use[2])]}'", data)


def _references(body: str) -> list[int]:
    """Numbers an entity refers to, in order; a # within quotes is text."""
    return [int(n) for n in _REFERENCE.findall(re.sub(r"'(?:[^']|'')*'", "''", body))]


def _in_order_of_content(entities: dict[int, str]) -> list[str]:
    children = {number: _references(body) for number, body in entities.items()}
    referred = {child for found in children.values() for child in found}
    digests = _digests(entities, children)
    roots = sorted(
        (n for n in entities if n not in referred),
        key=lambda n: (_type(entities[n]), _place_in_tree(n, entities, children), digests[n]),
    )
    order: dict[int, int] = {}
    stack = roots[::-1]
    while stack:
        number = stack.pop()
        if number not in order:
            order[number] = len(order) + 1
            stack += [c for c in children[number][::-1] if c not in order]
    return [f"#{new}={_renumbered(entities[old], order)};" for old, new in order.items()]


def _place_in_tree(root: int, entities: dict[int, str], children: dict[int, list[int]]) -> int:
    """Number of the use of a part a root is about, so that readers show parts in the order they were added; else 0."""
    for child in children[root]:
        for grandchild in children[child]:
            use = _USE.match(entities[grandchild])
            if use:
                return int(use[2])
    return 0


def _digests(entities: dict[int, str], children: dict[int, list[int]]) -> dict[int, str]:
    """What each entity says with everything it refers to, children first, without recursion."""
    done: dict[int, str] = {}
    for start in entities:
        stack = [start]
        while stack:
            number = stack[-1]
            open_ones = [c for c in children[number] if c not in done]
            if number in done or not open_ones:
                stack.pop()
                said = _REFERENCE.sub(lambda m: done.get(int(m[1]), m[0]), entities[number])
                done[number] = hashlib.md5(said.encode(), usedforsecurity=False).hexdigest()
            else:
                stack += open_ones
    return done


def _type(body: str) -> str:
    return body.partition("(")[0]


def _renumbered(body: str, order: dict[int, int]) -> str:
    pieces = re.split(r"('(?:[^']|'')*')", body)
    pieces[::2] = [_REFERENCE.sub(lambda m: f"#{order[int(m[1])]}", piece) for piece in pieces[::2]]
    return "".join(pieces)

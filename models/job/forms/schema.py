"""The JSON Schema (2020-12) of the job file, from the models' own descriptions and defaults: for editors, and for a
form that asks for every key there is."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from scarfwright.models.job.forms.start_text import example
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Unit

DRAFT = "https://json-schema.org/draft/2020-12/schema"
MEASURE = "x-measure-yours"  # the default is a guess about the user's own saw, clamps or machine
INCLUDE = "include"  # of a file only: what reads a job whole has no use for it
_INCLUDE = {
    "type": "string",
    "title": "Shop file",
    "description": "A file beside the job with the shop's saw, clamps and machines; what the job gives wins.",
}
_WORDS = {"dxf": "DXF", "rpm": "turns a minute", "mm": "mm", "as": "as", "min": "least", "max": "most"}
_TITLES = {
    "dxf": "DXF version",
    "rpm": "Blade speed",
    "max_rpm": "Speed marked on the blade",
    "nose_min": "Least nose width",
    "max_depth": "Most blade height",
    "shop_has": "Machines there are",
    "made_from": "Sled made from",
    "bed": "Bed size",
    "board": "Boards on the rack",
    "blank": "Pieces to glue up",
    "buy": "Wood to be had",
    "stock": "Board",
    "joint": "Slope",
    "ratio": "Slope",
}


def job_schema(units: Unit = "mm") -> dict[str, Any]:
    """The schema with the defaults that a job in these units has. What has no default may have `examples`."""
    raw = Job.model_json_schema()
    tables = {one["$ref"].rpartition("/")[2]: table for table, one in _references(raw)}
    return {
        "$schema": DRAFT,
        "title": "scarfwright job",
        **{key: raw[key] for key in ("description", "type", "additionalProperties", "required")},
        "properties": {key: _key("", key, one, units) for key, one in raw["properties"].items()} | {INCLUDE: _INCLUDE},
        "$defs": {
            name: {
                **{key: value for key, value in model.items() if key != "properties"},
                "title": title(tables[name]),
                "properties": {k: _key(tables[name], k, one, units) for k, one in model["properties"].items()},
            }
            for name, model in raw["$defs"].items()
        },
    }


@cache
def title(key: str) -> str:
    """A key in words: "blade_diameter" is "Blade diameter"."""
    words = " ".join(_WORDS.get(word, word) for word in key.split("_"))
    return _TITLES.get(key, words[:1].upper() + words[1:])


def _references(raw: Mapping[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Each table of the job with the reference to its model."""
    for key, one in raw["properties"].items():
        for node in (one, one.get("items", {})):
            if "$ref" in node:
                yield key, node


def _key(table: str, key: str, raw: Mapping[str, Any], units: Unit) -> dict[str, Any]:
    """One key without what is no JSON Schema and what no job file can say (null)."""
    found = _kind(raw)
    found["title"] = title(key)
    if "description" in raw:
        found["description"] = raw["description"]
    default = raw.get("inch", raw.get("default")) if units == "in" else raw.get("default")
    if key == "units":
        default = units
    if default is not None:
        found["default"] = default
    else:
        shown = example(f"{table}.{key}", units)
        if shown is None and "example" in raw:
            shown = tomllib.loads(f"it = {raw['example']}")["it"]
        found |= {} if shown is None else {"examples": [shown]}
    if raw.get("guess"):
        found[MEASURE] = True
    return found


def _kind(raw: Mapping[str, Any]) -> dict[str, Any]:
    """What values there may be: alternatives laid together where they are plain types, null left out."""
    rest = {
        key: _kind(value) if key == "items" else value
        for key, value in raw.items()
        if key not in ("anyOf", "prefixItems", "title", "description", "default", "inch", "guess", "example")
    }
    if "prefixItems" in raw:
        rest["items"] = _kind(raw["prefixItems"][0])  # so many alike
    ways = [one for way in raw.get("anyOf", ()) for one in _ways(way)]
    if len(ways) > 1 and all(set(way) == {"type"} for way in ways):
        rest["type"] = [way["type"] for way in ways]
    elif len(ways) == 1:
        rest |= ways[0]
    elif ways:
        rest["anyOf"] = ways
    return rest


def _ways(way: Mapping[str, Any]) -> list[dict[str, Any]]:
    if "anyOf" in way:
        return [one for inner in way["anyOf"] for one in _ways(inner)]
    return [] if way.get("type") == "null" else [_kind(way)]

"""The sled, one half as it runs; its shape is the sled room's."""

from __future__ import annotations

from scarfwright.models.parts.kind import PartKind
from scarfwright.models.sled.shape import shape_of, sled

KIND = PartKind(
    name="sled",
    summary="the tapered sled, one half of the plank or all layers glued",
    build=sled,
    from_job=lambda work: shape_of(work.way),
    goes_to=frozenset({"cad", "cut"}),
    handed=True,
    way="sled",
    ranges={
        "length": (900.0, 3000.0),
        "heel": (130.0, 240.0),
        "nose": (25.0, 60.0),
        "thickness": (18.0, 60.0),
        "nose_flat": (0.0, 80.0),
        "web": (15.0, 35.0),
        "notch_length": (30.0, 90.0),
        "notch_width": (8.0, 20.0),
        "hand_line": (0.0, 600.0),
    },
)

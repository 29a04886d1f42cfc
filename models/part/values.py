"""Named values: what a part is built from, and what a gauge reads."""

from __future__ import annotations

from collections.abc import Mapping

Value = float | str | tuple[float, ...] | tuple[tuple[float, ...], ...]  # yes and no are numbers too


class Values(dict[str, Value]):
    """Values by name. `values["width"]` is a number, as nearly all are; the others are asked for by their sort.

    Raises KeyError for a name that isn't there and TypeError for a value of another sort.
    """

    def __getitem__(self, name: str, /) -> float:
        value = super().__getitem__(name)
        if not isinstance(value, float | int):
            raise TypeError(f"{name} is {value!r}, no number")
        return value

    def text(self, name: str) -> str:
        """A text; "" where there is none."""
        value = self.get(name, "")
        if not isinstance(value, str):
            raise TypeError(f"{name} is {value!r}, no text")
        return value

    def plain(self) -> Values:
        """The same without its label, which takes longer to draw than all the rest."""
        return Values({**self, "label": ""}) if "label" in self else self

    def uncompensated(self) -> Values:
        """The same for a cutter: printed slots and holes are drawn wider because a printer closes them."""
        return Values({**self, "compensation": 0.0}) if "compensation" in self else self

    def many(self, name: str) -> tuple[float, ...]:
        """Numbers in a row."""
        value = super().__getitem__(name)
        numbers = tuple(n for n in value if isinstance(n, float | int)) if isinstance(value, tuple) else ()
        if not isinstance(value, tuple) or len(numbers) < len(value):
            raise TypeError(f"{name} is {value!r}, no row of numbers")
        return numbers


Given = Mapping[str, Value]  # some of a part's parameters, by name

"""What a sentence is: a function that is given how to say lengths, and a finding's numbers by name."""

from __future__ import annotations

from collections.abc import Callable

Sentence = Callable[..., str]  # (say, *, needed_mm, ..., **_)

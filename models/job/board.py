"""How long the board is that the job does not tell the length of."""

from __future__ import annotations

from scarfwright.models.job.tables import Job

ASSUMED_LENGTH = {"mm": 2400.0, "in": 96 * 25.4}  # 2.4 m, or 8 ft: common lengths; common practice, no source


def board_length(job: Job) -> float:
    """Length of the longest board [mm]: as given, else one common length, the same everywhere."""
    return ASSUMED_LENGTH[job.units] if job.stock.length is None else float(job.stock.length)

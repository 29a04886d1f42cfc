"""Shops for tests: one that has every machine and makes every gauge, whether it reads finely enough or not."""

from __future__ import annotations

from typing import Any

from scarfwright.models.job.shop import MACHINES
from scarfwright.models.job.tables import Job

FULL_SHOP = 'shop_has = ["printer", "router", "laser"]\n'
FULL: dict[str, Any] = {"shop_has": list(MACHINES), "printer": {"gauges": "all"}}


def in_full_shop(job: Job) -> Job:
    """The job in such a shop."""
    printer = job.printer.model_copy(update={"gauges": "all"})
    return job.model_copy(update={"shop_has": MACHINES, "printer": printer})

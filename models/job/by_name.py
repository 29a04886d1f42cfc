"""The job's tables by their names in the file."""

from __future__ import annotations

from typing import Any, get_args, get_origin

from pydantic import BaseModel
from scarfwright.models.job.tables import Job


def table_model(table: str) -> type[BaseModel] | None:
    """The model of a table of the job, or of each of a list of tables; None for a plain key such as the title."""
    annotation: Any = Job.model_fields[table].annotation
    model = get_args(annotation)[0] if is_list(table) else annotation
    return model if isinstance(model, type) and issubclass(model, BaseModel) else None


def is_list(table: str) -> bool:
    """Whether there may be several: [[blank]]."""
    annotation: Any = Job.model_fields[table].annotation
    found = get_args(annotation)
    return (
        get_origin(annotation) is list
        and bool(found)
        and isinstance(found[0], type)
        and issubclass(found[0], BaseModel)
    )

"""What every sheet of a job says in its title block."""

from __future__ import annotations

from scarfwright.models.job.paper import LETTER, drawing_size
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.outputs.drawing.panels import Cell

DEFER = "The saw maker's manual, local rules and competent instruction come first."


def job_cells(job: Job, what: str, scale: str, number: int, count: int) -> list[Cell]:
    """Job, wood, units and scale, the warning not to scale, and the sheet's number."""
    paper = "Letter" if drawing_size(job.files) == LETTER else "A4"
    units = "Millimetres, to the nearest 0.1" if job.units == "mm" else "Inches, to the nearest 1/64"
    return [
        Cell("Job", (job.title or "(no title)", what), 80, bold=True),
        Cell("Wood", (_stock(job), _sled_wood(job)), 75),
        Cell("Units and scale", (units, scale), 53),
        Cell("On paper", ("DO NOT SCALE", f"{paper}, print at 100 %"), 45, bold=True),
        Cell("Sheet", (f"{number} of {count}", "scarfwright"), 24),
    ]


def _stock(job: Job) -> str:
    say, stock = drawn_in(job.units), job.stock
    wood = f", {stock.species}" if stock.species else ""  # last: what is too long for its cell loses its end
    return f"Board {say(stock.thickness)} thick, {say(stock.height)} high{wood}"


def _sled_wood(job: Job) -> str:
    say, sled = drawn_in(job.units), job.sled
    if sled.made_from == "sheet":
        layers = "1 layer" if sled.layers == 1 else f"{sled.layers} layers"
        return f"Sled {layers} of sheet {say(sled.sheet_thickness)}"
    name = f" ({sled.plank.name})" if sled.plank.name else ""
    return f"Sled plank {say(sled.plank.thickness)} x {say(sled.plank.width)}{name}"

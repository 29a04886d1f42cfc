"""The papers about the joint itself, from a worked-out job: the pair, and the sheet to measure a test joint on."""

from __future__ import annotations

from scarfwright.models.job.paper import drawing_size
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Sheet
from scarfwright.outputs.drawing.job_cells import job_cells
from scarfwright.outputs.drawing.panels import Cell
from scarfwright.outputs.joint_sheet.data import Cells, JointData
from scarfwright.outputs.joint_sheet.sheets import joint_sheets
from scarfwright.outputs.test_joint_sheet.data import TestJointData
from scarfwright.outputs.test_joint_sheet.sheet import test_joint_sheet


def joint_papers(work: Workup) -> list[Sheet]:
    """The joint mated, magnified and planed; marks and turns."""
    job = work.job
    finished = job.stock.finished_thickness
    planed = None if finished is None or finished > work.joint.thickest_finish else float(finished)
    return joint_sheets(
        JointData(work.joint, planed, job.units, job.saw.fence_side, job.title, drawing_size(job.files), _cells(work))
    )


def test_joint_paper(work: Workup) -> Sheet:
    """One sheet to measure on."""
    job = work.job
    return test_joint_sheet(TestJointData(work.joint, job.units, job.title, drawing_size(job.files), _cells(work)))


def _cells(work: Workup) -> Cells:
    def cells(what: str, scale: str, number: int, count: int) -> list[Cell]:
        return job_cells(work.job, what, scale, number, count)

    return cells

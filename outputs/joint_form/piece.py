"""The form as a piece of a page: its script works out what `tune` does, from the same constants and sentences."""

from __future__ import annotations

from html import escape

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import say_in
from scarfwright.models.tuning.plan import plan_of
from scarfwright.models.tuning.reader import MOST_JOINTS
from scarfwright.models.words.the_joint.accuracy import NOBODY
from scarfwright.models.words.the_joint.tuning import ROWS, SAY
from scarfwright.outputs.joint_form.constants import of_lengths, of_plan, of_tuning
from scarfwright.outputs.joint_form.packaged import packed, script
from scarfwright.outputs.joint_form.texts import INTRO, NO_SCRIPT, TEXTS, fields
from scarfwright.outputs.web.piece import Piece


def piece(work: Groundwork) -> Piece:
    """The form for a job that can be cut."""
    job, joint = work.job, work.joint
    plan = plan_of(work)
    return Piece(
        key="tune",
        html=f'<p>{escape(INTRO)}</p>\n<div id="tune-form"><p>{escape(NO_SCRIPT)}</p></div>\n',
        script=script(),
        style=packed("form.css"),
        data={
            # what was typed stays with the joint it was measured on, whatever else of the job changes
            "key": f"{job.title}, {job.units}, {joint.thickness:.2f} x {joint.height:.2f}",
            "units": job.units,
            "plan": of_plan(plan),
            "constants": of_tuning(job.units),
            "lengths": of_lengths(),
            "say": SAY,
            "rows": ROWS,
            "nobody": NOBODY,
            "texts": TEXTS,
            "fields": fields(joint, say_in(job.units)),
            "most_joints": MOST_JOINTS,
        },
    )

"""Where the figures of gluing, planing and the bend test come from."""

from __future__ import annotations

from collections.abc import Mapping

from scarfwright.models.craft import Craft
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.words.the_book.figure import Figure, Origin
from scarfwright.models.words.the_joint.gluing import amount_rows
from scarfwright.models.words.the_joint.planing import planing_rows
from scarfwright.models.words.the_joint.strength import sample_rows

MAKER = "The adhesive maker's figure comes before it."
AMOUNTS: Mapping[str, tuple[str, Origin]] = {
    "Glue": ("gluing.kind", Origin("job", "The kind that the job names. The maker's instructions come first.")),
    "Spread": (
        "gluing.mass_g",
        Origin("formula", f"Area of the joint's face times the spread that is usual for this kind of glue. {MAKER}"),
    ),
    "Pressure": ("gluing.pressure_wanted_mpa", Origin("source", "Usual for this kind of glue; its "
        f"table names the source. {MAKER}")),
    "Each clamp": (
        "gluing.force_each_n",
        Origin("formula", "The pressure times the face that the clamps press, shared between the clamps."),
    ),
    "Yours give": (
        "gluing.pressure_given_mpa",
        Origin("formula", "Clamps times the force the job gives for one, over the face that they "
            "press. Measure yours."),
    ),
    "Clamps": (
        "gluing.clamps",
        Origin("formula", "As many on each long edge as press the whole joint, one over its pad and "
            "a board's thickness more, "
               "for pressure spreads in the wood; both edges alike."),
    ),
    "Warmth": ("gluing.least_temperature_c", Origin("source", "Of this kind of glue; its table names "
        f"the source. {MAKER}")),
    "Moisture": ("gluing.moisture_percent", Origin("source", "Of this kind of glue; its table names "
        f"the source. {MAKER}")),
    "Open time": ("gluing.time_needed_min", Origin("practice", f"Spreading and setting clamps, so much each. {MAKER}")),
    "In clamps": ("gluing.clamp_time_min", Origin("source", f"Of this kind of glue, or as the job says. {MAKER}")),
}  # fmt: skip
PLANING: Mapping[str, tuple[str, Origin]] = {
    "Off each face": ("planing.each_face_mm", Origin("formula", "Half of board less finished thickness.")),
    "Thickness": ("planing.thickness_mm", Origin("job", "Finished thickness, as the job says.")),
    "Glue line": ("planing.run_mm", Origin("formula", "Finished thickness times the slope.")),
    "Upper feather": ("planing.upper_feather_mm", Origin("formula", "What comes off the face less "
        "the tip, times the slope.")),
    "Lower feather": ("planing.lower_feather_mm", Origin("formula", "Board less what comes off the "
        "lower face and the tip, times the slope.")),
    "Stiffness": ("planing.stiffness_share", Origin("formula", "The cube of finished over board thickness.")),
}  # fmt: skip
SAMPLE: Mapping[str, tuple[str, Origin]] = {
    "Sample": ("strength.bend_test.width_mm", Origin("chosen", "As wide as a bathroom scale can "
        "still read, at most the board.")),
    "Span": ("strength.bend_test.span_mm", Origin("source", "14 depths or more, as ASTM D143 (from memory).")),
    "Joint": ("strength.bend_test.joint_mm", Origin("formula", "Thickness of the sample times the slope.")),
    "Proof": (
        "strength.bend_test.proof_reads_kg",
        Origin("formula", "Load at which the joint's share of the wood's strength, less two standard "
            "deviations, is reached: "
               "2 b d² x stress / (3 span); the scale reads half."),
    ),
    "Sag then": (
        "strength.bend_test.sag_at_proof_mm",
        Origin("formula", "Load x span³ / (48 x modulus x b d³ / 12), with the scatter of the modulus."),
    ),
    "Breaks at": (
        "strength.bend_test.scale_reads_kg",
        Origin("formula", "The same as the proof load, at the mean strength and two standard "
            "deviations to either side."),
    ),
}  # fmt: skip


def gluing_figures(work: Groundwork, craft: Craft) -> tuple[Figure, ...]:
    """Amounts, and how high the risers are."""
    say, places = drawn_in(work.job.units), craft.gluing.places
    found = list(_rows(amount_rows(craft.gluing, work.job.units), AMOUNTS))
    if craft.gluing.lay.way == "flat":
        told = "The clamp's jaw below the board, and room for a finger under it (common practice, no source)."
        high = say.rule_up(places.riser_height)
        found.append(Figure("gluing.riser_height_mm", "Risers, height", high, Origin("formula", told)))
    return tuple(found)


def planing_figures(work: Groundwork, craft: Craft) -> tuple[Figure, ...]:
    """None where the job gives no finished thickness."""
    if craft.planing is None:
        return ()
    return _rows(planing_rows(work.joint, craft.planing, work.job.units), PLANING)


def sample_figures(work: Groundwork, craft: Craft) -> tuple[Figure, ...]:
    """None where the wood has no figures."""
    test, wood = craft.strength.test, craft.strength.wood
    if test is None or wood is None:
        return ()
    return _rows(sample_rows(test, wood, work.job.units), SAMPLE)


def _rows(rows: list[tuple[str, str]], origins: Mapping[str, tuple[str, Origin]]) -> tuple[Figure, ...]:
    return tuple(Figure(origins[label][0], label, text, origins[label][1]) for label, text in rows)

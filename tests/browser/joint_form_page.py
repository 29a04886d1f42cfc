"""The form of the test joint alone on a page, from disk, under the content policy that a page with it has."""

from __future__ import annotations

import base64
import hashlib
import json
from typing import Any

from scarfwright.models.job.file import job_from_dict
from scarfwright.models.solve import work_out
from scarfwright.outputs.joint_form.packaged import packed
from scarfwright.outputs.joint_form.piece import piece

METRIC: dict[str, Any] = {
    "title": 'Sheer clamp </script> "x"',
    "stock": {"thickness": "22 mm", "height": "60 mm"},
    "joint": {"ratio": 12},
}
INCHES: dict[str, Any] = {
    "units": "in",
    "title": "Inwale",
    "stock": {"thickness": "7/8 in", "height": "1 3/4 in"},
    "joint": {"ratio": 12},
}
BENCH = """
// the job's name, for the tests' own call: constants, plan and joints to what `tune --json` says, without its sentences
const degrees = 180 / Math.PI;
const value = (one, by = 1) => one && { value: one.value * by, sigma: one.sigma * by };
const expectedOf = (one) =>
  one && { glue_gap_mm: one.gap, twist_deg: one.twist * degrees, inside_limits: one.inside, chance_inside: one.chance };
const residualOf = ({ row, expected, out }) =>
  ({ reading: row.key, what: row.what, read_mm: row.read, expected_mm: expected, sigma_mm: row.sigma,
    out_sigmas: out });
const correctionOf = ({ what, by = null, towards = null, at = null, instead_of = null }) => ({
  what, towards, at, instead_of,
  ...(/tilt|half/.test(what) ? { by_deg: by === null ? null : by * degrees } : { by_mm: by }),
});
const reportOf = (found) => ({
  ratio: value(found.ratio),
  tip_mm: value(found.fit.tip),
  fence_gap_mm: value(found.fence_gap),
  lean_deg: found.fit.lean && { ...value(found.fit.lean, degrees), signed: found.fit.signed },
  untold: found.untold,
  would_tell: found.would_tell,
  unused: found.unused.map(([test_joint, key, needs]) => ({ test_joint, key, needs })),
  contradictions: found.contradictions.map(residualOf),
  corrections: found.corrections.map(correctionOf),
  now: expectedOf(found.now),
  after: expectedOf(found.after),
  residuals: found.fit.residuals.map(residualOf),
});
"""


def bench(body: str) -> str:
    """A function over the form's own scripts, for the browser to evaluate."""
    scripts = "".join(packed(name) for name in ("lengths.js", "tuning.js", "saying.js"))
    return f"(given) => {{ {scripts} {BENCH} {body} }}"


def page_of(job: dict[str, Any]) -> str:
    """The whole page."""
    one = piece(work_out(job_from_dict(job, "job")))
    data = json.dumps(one.data).replace("<", "\\u003c")
    start = (
        "scarfwright.start = () => scarfwright.pieces.tune(document.querySelector('section'), JSON.parse(data.text));"
    )
    script = f'"use strict"; window.scarfwright = {{ pieces: {{}} }}; {one.script} {start} scarfwright.start();'
    hashes = [base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() for text in (script, one.style)]
    policy = f"default-src 'none'; script-src 'sha256-{hashes[0]}'; style-src 'sha256-{hashes[1]}'"
    return (
        f'<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Test joint</title>'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
        f'<meta name="viewport" content="width=device-width"><style>{one.style}</style></head><body><main>'
        f'<h1>Test joint</h1><section data-piece="tune"><h2>Measured</h2>{one.html}</section></main>'
        f'<script type="application/json" id="data">{data}</script><script>{script}</script></body></html>'
    )

"""The narrow drawings: readable on a phone, nothing over anything, whatever the job."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from scarfwright.models.findings import faults
from scarfwright.models.job.forms.schema import title
from scarfwright.models.job.tables import Job
from scarfwright.models.planning.planned import Planned
from scarfwright.models.solve import work_up
from scarfwright.models.words.the_book.of_the_saw import ASSUMED
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Clip, Item, Path
from scarfwright.outputs.narrow.at_the_saw import setup_scenes
from scarfwright.outputs.narrow.bend import bend_scenes, planing_scenes
from scarfwright.outputs.narrow.bent import bent_scenes
from scarfwright.outputs.narrow.boards import plan_scenes
from scarfwright.outputs.narrow.colours import NIGHT
from scarfwright.outputs.narrow.endings import ending_scenes
from scarfwright.outputs.narrow.glue import glue_scenes
from scarfwright.outputs.narrow.joint import joint_scenes
from scarfwright.outputs.narrow.measuring import measuring_scenes
from scarfwright.outputs.narrow.plank import dividing_scenes, plank_scenes
from scarfwright.outputs.narrow.scene import WIDTH, Scene
from scarfwright.outputs.narrow.sled import sled_scenes

from tests.book.books import EXAMPLES, mischief, text_of, worked
from tests.clear_sheets import unclear
from tests.strategies import likely_jobs

SCREEN, NARROWEST, BESIDE = (
    360.0,
    320.0,
    24.0,
)  # CSS px: screens, and what the page leaves beside a drawing on both sides
LEAST = 12.0  # CSS px that a letter may be high
MAKERS = (
    joint_scenes,
    sled_scenes,
    plank_scenes,
    dividing_scenes,
    setup_scenes,
    ending_scenes,
    glue_scenes,
    planing_scenes,
    bend_scenes,
    bent_scenes,
)
AS_THEY_COME = [Phase.explicit, Phase.reuse, Phase.generate]  # a smaller job is no easier to look at, and takes long


def every_scene(work: Workup, planned: Planned | None = None) -> Iterator[Scene]:
    for maker in MAKERS:
        yield from maker(work)
    if planned is not None:
        yield from plan_scenes(work, planned)


def wrong(scene: Scene) -> list[str]:
    """What is wrong with a scene: too small, too wide, unclear, in a colour the night does not know."""
    sheet = scene.sheet
    found = unclear(sheet)
    found += [f"{sheet.title}: {t.text!r} is {t.size} mm" for t in sheet.texts() if _pixels(t.size, NARROWEST) < LEAST]
    if sheet.width != WIDTH:
        found.append(f"{sheet.title}: {sheet.width} mm wide")
    unknown = {colour for item in sheet.items for colour in _colours(item)} - set(NIGHT)
    return found + [f"{sheet.title}: colour {colour} has no counterpart at night" for colour in sorted(unknown)]


def _pixels(mm: float, screen: float) -> float:
    return mm * (screen - BESIDE) / WIDTH


def _colours(item: Item) -> Iterator[str]:
    if isinstance(item, Clip):
        for inner in item.items:
            yield from _colours(inner)
    elif isinstance(item, Path):
        yield from (colour for colour in (item.fill, item.pen and item.pen.colour) if colour)
    else:
        yield item.colour


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_scenes_of_the_examples(path: object) -> None:
    work, planned = worked(text_of(path))  # type: ignore[arg-type]
    scenes = list(every_scene(work, planned))
    assert not [fault for scene in scenes for fault in wrong(scene)]
    names = [scene.name for scene in scenes]
    assert len(set(names)) == len(names)
    assert {"joint", "sled", "setup", "travel", "clamps"} <= set(names)
    assert ("plank" in names) == (work.job.sled.made_from == "plank")
    assert any(name.startswith("bent-") for name in names) == any(blank.curve for blank in work.job.blank)


def test_scenes_of_a_plan_with_names_of_any_kind() -> None:
    scenes = list(every_scene(*worked(mischief())))
    assert not [fault for scene in scenes for fault in wrong(scene)]
    assert {"boards-1", "blanks-1"} <= {scene.name for scene in scenes}


def test_what_to_measure_is_clear() -> None:
    scenes = measuring_scenes()
    assert not [fault for one in scenes for fault in wrong(one)]
    named = {text.text for one in scenes for text in one.sheet.texts()}
    assert {title(key) for key in ASSUMED if key != "pad_height"} - named <= {title("max_depth")}


def test_letters_keep_their_size_on_the_screen_they_are_made_for() -> None:
    work, _ = worked(text_of(EXAMPLES[0]))
    least = min(t.size for scene in every_scene(work) for t in scene.sheet.texts())
    assert _pixels(least, SCREEN) == pytest.approx(14.0)


def _check(job: Job) -> None:
    work = work_up(job)
    assume(not faults(list(work.findings)))
    found = [fault for scene in every_scene(work) for fault in wrong(scene)]
    assert not found, "\n".join(found)


@settings(max_examples=3, derandomize=True, phases=AS_THEY_COME, suppress_health_check=list(HealthCheck))
@given(job=likely_jobs())
def test_a_few_random_jobs(job: Job) -> None:
    _check(job)


@pytest.mark.slow
@settings(max_examples=400, phases=AS_THEY_COME, suppress_health_check=list(HealthCheck))
@given(job=likely_jobs())
def test_many_random_jobs(job: Job) -> None:
    _check(job)

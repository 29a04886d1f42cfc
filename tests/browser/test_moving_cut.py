"""The moving cut in a browser: silent under a strict policy, tells what Python tells, shows kerf and offcut, can be
moved and turned by mouse, finger and keys, goes on without WebGL and after the picture was lost."""

from __future__ import annotations

import subprocess
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from scarfwright.models.cut.bodies import hinge
from scarfwright.models.cut.moments import passage
from scarfwright.models.job.file import read_job
from scarfwright.models.lengths.say import say_in
from scarfwright.models.solve import work_up
from scarfwright.models.words.at_the_saw.moments import NO_3D, told, where
from scarfwright.models.workup import Workup
from scarfwright.outputs.moving_cut.piece import piece
from scarfwright.outputs.web.piece import Piece

from tests.browser.conftest import Open
from tests.browser.moving_cut_page import MOVE, READ, seen_at, written
from tests.browser.watching import Watched, need_html_validate

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = ("plank-metric", "plank-inch", "sheet-layers")  # held, in inches and run on, fence on the left


@cache
def example(name: str) -> tuple[Workup, Piece]:
    work = work_up(read_job(EXAMPLES / f"{name}.toml"))
    return work, piece(work)


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    room = tmp_path_factory.mktemp("moving_cut")
    return {name: written(example(name)[1], room / f"{name}.html") for name in NAMES}


def still(open_page: Open, address: str, width: int = 800, height: int = 900, **more: object) -> Watched:
    return open_page(address, width, height, **{"reduced_motion": "reduce", **more})


def pixels(seen: Watched, travel: float, places: list[tuple[float, float]]) -> list[list[int]]:
    found = seen.page.evaluate(f"async ([travel, places]) => {{ ({MOVE})(travel); return await ({READ})(places); }}",
                               [travel, places])  # fmt: skip
    assert isinstance(found, list)
    return found


def picture(seen: Watched, travel: float) -> list[list[int]]:
    """384 pixels spread over the picture."""
    box = seen.page.locator("canvas").bounding_box()
    assert box is not None
    grid = [(box["width"] * (i + 0.5) / 24, box["height"] * (j + 0.5) / 16) for i in range(24) for j in range(16)]
    return pixels(seen, travel, grid)


def colours_in(seen: Watched, travel: float) -> set[tuple[int, ...]]:
    return {tuple(p) for p in picture(seen, travel)}


def tells_as_python(seen: Watched, work: Workup, data: Any) -> None:
    """200 travels over the whole range, the moments, and both sides of where each sentence begins."""
    cut, say = passage(work.way), say_in(work.job.units)
    low, high = data["start_mm"], data["last_mm"]
    travels = [low + (high - low) * i / 199 for i in range(200)] + [m["travel_mm"] for m in data["moments"]]
    travels += [s["from_mm"] - by for s in data["sentences"][1:] for by in (0.06, 0.04)]
    found = seen.page.evaluate(
        f"""(travels) => travels.map((travel) => {{ ({MOVE})(travel);
            const told = document.querySelector(".seen"), slider = document.querySelector("input[type=range]");
            return [told.textContent, told.dataset.level, slider.getAttribute("aria-valuetext"),
                document.querySelector("output").textContent]; }})""",
        travels,
    )
    for travel, (text, level, spoken, at) in zip(travels, found, strict=True):
        stretch = cut.stretch_at(travel)
        assert (text, level) == (told(work, cut, stretch), str(stretch.level)), travel
        assert at == where(travel, say), travel
        assert spoken == f"{at}. {text}"


@pytest.mark.parametrize("name", NAMES)
def test_tells_what_python_tells(name: str, pages: dict[str, str], open_page: Open) -> None:
    seen = still(open_page, pages[name])
    tells_as_python(seen, *_of(name))
    for button in seen.page.query_selector_all("button"):
        button.click()
    assert (seen.messages, seen.requests) == ([], [])
    assert len(colours_in(seen, 0.0)) > 8  # reading a picture back makes Chromium say that it is slow


def _of(name: str) -> tuple[Workup, Any]:
    work, shown = example(name)
    return work, shown.data


@pytest.mark.parametrize("name", ["plank-inch", "sheet-layers"])
def test_without_webgl_plan_and_side_are_moved_all_the_same(
    name: str, pages: dict[str, str], open_without_webgl: Open
) -> None:
    seen = still(open_without_webgl, pages[name], 360)
    assert not seen.page.locator("canvas").is_visible()
    assert not seen.page.locator(".views").is_visible()
    assert seen.page.locator(".no-3d").inner_text() == NO_3D
    tells_as_python(seen, *_of(name))
    before, after = (_middle(seen, travel) for travel in (0.0, 20.0))
    assert after - before == pytest.approx(20 * _scale(seen) * _of(name)[1]["sense"], abs=0.1)
    assert (seen.messages, seen.requests) == ([], [])


def _middle(seen: Watched, travel: float) -> float:
    """Where the middle of the sled and all that runs with it is in the plan [CSS px]."""
    seen.page.evaluate(MOVE, travel)
    found = seen.page.evaluate(
        """() => { const box = document.querySelector('.flat use[href$="plan-sled"]').getBoundingClientRect();
           return (box.left + box.right) / 2; }"""
    )
    return float(found)


def _scale(seen: Watched) -> float:
    """CSS px a mm of the plan."""
    found = seen.page.evaluate(
        "() => { const svg = document.querySelector('.flat svg'); return svg.clientWidth / svg.viewBox.baseVal.width; }"
    )
    return float(found)


@pytest.mark.parametrize("name", ["plank-metric", "sheet-layers"])
def test_the_kerf_is_open_where_the_blade_has_been_and_nowhere_else(
    name: str, pages: dict[str, str], open_page: Open
) -> None:
    """From above, half way through the cut: wood on the kerf's line just before the blade's front at the board's top,
    none just behind it; wood beside it."""
    work, data = _of(name)
    seen = still(open_page, pages[name])
    view = next(v for v in data["views"] if v["name"] == "above")
    seen.page.click(f'button[value="{view["name"]}"]')
    box = seen.page.locator("canvas").bounding_box()
    assert box is not None
    side, blade, high = data["side"], data["blade"], work.joint.height
    front = -work.way.blade.reach(high)
    line = side * (blade["near_mm"] + blade["kerf_mm"] / 2)

    def at(x: float, y: float) -> tuple[float, float]:
        return seen_at(view, (x, y, high), box["width"], box["height"])

    heel = 120.0  # the travel: offcut not yet free, heel past the blade's back
    places = [at(front - 12, line), at(front + 12, line), at(100.0, line), at(100.0, side * (blade["near_mm"] - 3))]
    before, behind, past, beside = pixels(seen, heel, places)
    assert _wood(before)
    assert not _wood(behind)
    assert not _wood(past)
    assert _wood(beside)
    uncut = pixels(seen, data["start_mm"], [at(data["start_mm"] - 20, line)])
    assert _wood(uncut[0])


def _wood(pixel: list[int]) -> bool:
    red, green, blue, _ = pixel
    return red > 1.25 * blue and red > green


@pytest.mark.parametrize("name", ["plank-inch", "sheet-layers"])
def test_the_offcut_falls_to_the_free_side(name: str, pages: dict[str, str], open_page: Open) -> None:
    work, data = _of(name)
    seen = still(open_page, pages[name])
    view = next(v for v in data["views"] if v["name"] == "above")
    seen.page.click('button[value="above"]')
    box = seen.page.locator("canvas").bounding_box()
    assert box is not None
    fall = hinge(work.way)
    assert fall is not None
    over = data["fall"]["by_mm"] + work.joint.height / 2
    # on its upper face, 25 mm from its thin end: it would be gone from there, had it gone on with the sled
    x, y = fall.end[0] + fall.out[0] * over + data["free_mm"] + 25, fall.end[1] + fall.out[1] * over
    assert data["last_mm"] - data["free_mm"] > 50
    assert y * data["side"] > data["blade"]["near_mm"] + data["blade"]["kerf_mm"]
    place = seen_at(view, (x, y, 2.0), box["width"], box["height"])
    (before,), (after,) = pixels(seen, data["free_mm"] - 1, [place]), pixels(seen, data["last_mm"], [place])
    assert not _wood(before)
    assert _wood(after)
    uses = '[...document.querySelectorAll(".flat use")].map((u) => u.getAttribute("href"))'
    seen.page.evaluate(MOVE, data["free_mm"] - 0.2)
    assert not [u for u in seen.page.evaluate(uses) if "fallen" in u]
    seen.page.evaluate(MOVE, data["free_mm"])
    assert len([u for u in seen.page.evaluate(uses) if "fallen" in u]) == 2


def test_the_stop_block_goes_where_the_sled_passes_it(pages: dict[str, str], open_page: Open) -> None:
    _, data = _of("plank-metric")
    seen = still(open_page, pages["plank-metric"])
    for travel, shown in ((data["block_mm"], True), (data["block_mm"] + 0.2, False)):
        seen.page.evaluate(MOVE, travel)
        assert seen.page.locator('.flat use[href$="plan-block"]').is_visible() == shown


def test_keys_move_the_slider_by_marks_and_not_past_its_ends(pages: dict[str, str], open_page: Open) -> None:
    for name, mark in (("plank-metric", 1.0), ("plank-inch", 25.4 / 16)):
        _, data = _of(name)
        seen = still(open_page, pages[name])
        slider = seen.page.locator("input[type=range]")
        slider.focus()
        for key, to in (
            ("ArrowRight", data["start_mm"] + mark),
            ("PageUp", data["start_mm"] + 11 * mark),
            ("ArrowDown", data["start_mm"] + 10 * mark),
            ("End", data["last_mm"]),
            ("ArrowUp", data["last_mm"]),
            ("Home", data["start_mm"]),
            ("ArrowLeft", data["start_mm"]),
        ):
            seen.page.keyboard.press(key)
            assert float(slider.input_value()) == pytest.approx(to, abs=1e-3), key


def test_buttons_go_to_the_moments_and_say_where_one_is(pages: dict[str, str], open_page: Open) -> None:
    _, data = _of("plank-inch")
    for motion in ("reduce", "no-preference"):
        seen = still(open_page, pages["plank-inch"], reduced_motion=motion)
        for moment in data["moments"] if motion == "reduce" else data["moments"][3:1:-1]:
            button = seen.page.get_by_role("button", name=moment["label"])
            button.click()
            if motion != "reduce":  # at once for who wants it steady, else in a while
                assert button.get_attribute("aria-pressed") == "false"
                seen.page.wait_for_function(
                    "(name) => document.querySelector('.moments [aria-pressed=true]')?.textContent === name",
                    arg=moment["label"],
                )
            assert float(seen.page.locator("input[type=range]").input_value()) == pytest.approx(
                moment["travel_mm"], abs=0.05
            )
            assert button.get_attribute("aria-pressed") == "true"
            assert seen.page.locator('.moments [aria-pressed="true"]').count() == 1


def test_it_can_be_turned_and_views_turn_it_back(pages: dict[str, str], open_page: Open) -> None:
    seen = still(open_page, pages["plank-metric"])
    page, first = seen.page, picture(seen, 100.0)
    box = page.locator("canvas").bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 300, box["y"] + 200)
    page.mouse.down()
    page.mouse.move(box["x"] + 420, box["y"] + 230, steps=4)
    page.mouse.up()
    turned = picture(seen, 100.0)
    assert turned != first
    page.mouse.move(box["x"] + 100, box["y"] + 100)  # let go: no longer turned
    assert picture(seen, 100.0) == turned
    page.locator("canvas").focus()
    page.keyboard.press("ArrowLeft")
    assert picture(seen, 100.0) != turned
    page.get_by_role("button", name="Where you stand").click()
    assert picture(seen, 100.0) == first
    assert page.locator("canvas").evaluate("(c) => getComputedStyle(c).touchAction") == "pan-y"
    page.mouse.wheel(0, 200)  # a wheel scrolls the page, whatever is below it
    page.wait_for_function("() => scrollY > 50")


def test_a_lost_picture_comes_back(pages: dict[str, str], open_page: Open) -> None:
    seen = still(open_page, pages["plank-metric"])
    before = picture(seen, 50.0)
    seen.page.evaluate(
        """() => { const gl = document.querySelector("canvas").getContext("webgl2");
           window.lose = gl.getExtension("WEBGL_lose_context"); lose.loseContext(); }"""
    )
    seen.page.wait_for_timeout(100)
    seen.page.evaluate(MOVE, 60.0)  # plan, side and sentence go on meanwhile
    assert "60 mm" in seen.page.locator("output").inner_text()
    seen.page.evaluate("() => lose.restoreContext()")
    seen.page.wait_for_timeout(300)
    assert picture(seen, 50.0) == before
    assert not [m for m in seen.messages if m.startswith("error")]


COLOURS = """() => new Promise((done) => requestAnimationFrame(() => {
  const canvas = document.querySelector("canvas"), { width, height } = canvas;
  const copy = new OffscreenCanvas(width, height);
  copy.getContext("2d").drawImage(canvas, 0, 0);
  done(new Set(new Uint32Array(copy.getContext("2d").getImageData(0, 0, width, height).data.buffer)).size);
}))"""


def test_edges_are_smooth_once_nothing_moves(pages: dict[str, str], open_page: Open) -> None:
    """At rest an edge runs through many shades; while something moves each pixel is drawn once."""
    seen = still(open_page, pages["plank-metric"])
    moving = seen.page.evaluate(f"async () => {{ ({MOVE})(50); return await ({COLOURS})(); }}")
    seen.page.wait_for_timeout(400)
    rest = Image.open(BytesIO(seen.page.locator("canvas").screenshot())).convert("RGB")
    assert len(rest.getcolors(maxcolors=1_000_000) or ()) > 2 * moving


def test_another_jobs_data_take_its_place(pages: dict[str, str], open_page: Open) -> None:
    """As a served page does it: nothing of the first job is left, and one press of a key is one step."""
    seen = still(open_page, pages["plank-metric"])
    work, shown = example("sheet-layers")
    again = "(data) => { scarfwright.pieces.moving_cut(document.querySelector('[data-piece]'), data); }"
    for _ in range(3):
        seen.page.evaluate(again, shown.data)
    tells_as_python(seen, work, shown.data)
    assert seen.page.locator(".moments button").count() == len(passage(work.way).moments)
    assert "401.5 mm" in seen.page.locator("#moving_cut-colours").inner_text()
    seen.page.evaluate(MOVE, 0)
    seen.page.locator("input[type=range]").focus()
    seen.page.keyboard.press("ArrowRight")
    assert float(seen.page.locator("input[type=range]").input_value()) == pytest.approx(1.0)
    assert seen.messages == []
    fresh = still(open_page, pages["sheet-layers"])
    assert picture(seen, 70.0) == picture(fresh, 70.0)
    assert seen.page.inner_html(".flat") == fresh.page.inner_html(".flat")


@pytest.mark.parametrize("width", [320, 800])
def test_narrow_screens_paper_and_no_script(width: int, pages: dict[str, str], open_page: Open) -> None:
    seen = still(open_page, pages["plank-inch"], width)
    assert seen.sideways == 0
    assert not seen.page.locator(".stills").is_visible()
    for button in seen.page.query_selector_all("button"):
        box = button.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 44
    seen.page.emulate_media(media="print")
    assert not seen.page.locator(".live").is_visible()
    assert seen.page.locator(".stills svg:visible").count() == 10
    silent = still(open_page, pages["plank-inch"], width, java_script_enabled=False)
    assert not silent.page.locator(".live").is_visible()
    assert silent.page.locator(".stills svg:visible").count() == 10


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_is_in_the_way_of_use(scheme: str, pages: dict[str, str], open_page: Open) -> None:
    seen = still(open_page, pages["plank-metric"], 360, color_scheme=scheme)
    assert seen.faults_of_use() == []


def test_its_markup_is_valid(tmp_path: Path) -> None:
    page = tmp_path / "cut.html"
    written(example("plank-metric")[1], page)
    found = subprocess.run([*need_html_validate(), str(page)], capture_output=True, text=True, check=False, timeout=120)
    assert (found.returncode, found.stdout) == (0, "")


def test_nothing_is_in_the_way_of_use_without_webgl(pages: dict[str, str], open_without_webgl: Open) -> None:
    assert still(open_without_webgl, pages["plank-metric"], 360).faults_of_use() == []

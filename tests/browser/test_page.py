"""The page in a real browser: a beginner's path by the keyboard alone, and everything else one does there."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from scarfwright.models.job.file import job_from_dict, job_from_text, job_to_toml
from scarfwright.models.job.forms.schema import INCLUDE

from tests.cli_runs import run, write
from tests.page.served import Served, served
from tests.test_schema import keys_of

pytest.importorskip("playwright.sync_api")
from playwright.sync_api import Page, expect

from tests.browser.conftest import Open
from tests.browser.watching import Watched

SLOWLY = 60_000  # [ms] on a busy machine
GOOD, CAUTION = "This can be cut.", re.compile("needs? care")
DRIVER = re.compile(r"GL Driver Message")  # the software renderer's own


@pytest.fixture(scope="module")
def server() -> Iterator[Served]:
    with served() as found:
        found.answer("begin", {})
        yield found


@pytest.fixture
def visit(open_page: Open, server: Served) -> Any:
    """Opens the page; afterwards nothing was said on the console and nobody else was asked for anything."""
    opened: list[Watched] = []

    def one(width: int = 1300, height: int = 900, address: str = "", **context: Any) -> Watched:
        found = open_page(address or server.address, width, height, offline=False, **context)
        found.page.set_default_timeout(SLOWLY)
        found.page.wait_for_selector("#k-stock-thickness")
        opened.append(found)
        return found

    yield one
    for found in opened:
        assert [text for text in found.messages if not DRIVER.search(text)] == []
        own = f"http://127.0.0.1:{server.port}/"
        assert [url for url in found.requests if not url.startswith((own, "data:", f"blob:{own}"))] == []


def state(page: Page, text: str | re.Pattern[str]) -> None:
    expect(page.locator("#state")).to_contain_text(text, timeout=SLOWLY)


def type_the_three(page: Page) -> None:
    page.fill("#k-stock-thickness", "22")
    page.fill("#k-stock-height", "60")
    page.fill("#k-joint-ratio", "12:1")
    state(page, GOOD)


def settled(page: Page) -> None:
    """The rest of an answer has come too."""
    page.wait_for_selector('#pieces [data-key="saw"]:not([aria-busy])')


def tab_to(page: Page, selector: str, most: int = 150) -> None:
    for _ in range(most):
        if page.evaluate("(what) => document.activeElement.matches(what)", selector):
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"no way to {selector} with the keyboard")


@pytest.mark.parametrize("width", [1300, pytest.param(360, marks=pytest.mark.slow)])
def test_a_beginner_with_the_keyboard_alone(visit: Any, width: int, tmp_path: Path) -> None:
    """Three numbers, a fault, its mending, files: those of `make` to the byte."""
    page = visit(width).page
    state(page, "Still needed: 3 figures")
    tab_to(page, "#k-stock-thickness")
    page.keyboard.type("22 mm")
    tab_to(page, "#k-stock-height")
    page.keyboard.type("20")
    tab_to(page, "#k-joint-ratio")
    page.keyboard.type("12")
    state(page, "Not to be cut so")
    expect(page.locator("#make")).to_have_attribute("aria-disabled", "true")
    tab_to(page, "button.advice")
    page.keyboard.press("Enter")
    state(page, GOOD)
    assert page.input_value("#k-stock-thickness") == "20 mm"
    assert page.input_value("#k-stock-height") == "22 mm"
    assert page.evaluate("() => document.activeElement.id") == "result"
    tab_to(page, "#make")
    page.keyboard.press("Enter")
    expect(page.locator("#files-now")).to_contain_text("files are made", timeout=4 * SLOWLY)
    tab_to(page, "#made button")
    with page.expect_download() as coming:
        page.keyboard.press("Enter")
    got = Path(coming.value.path()).read_bytes()
    job = write(tmp_path, '[stock]\nthickness = "20 mm"\nheight = "22 mm"\n[joint]\nratio = 12\n')
    assert run("make", job, "--out", tmp_path / "made", cwd=tmp_path).returncode == 0
    wanted = (tmp_path / "made" / coming.value.suggested_filename).read_bytes()
    assert hashlib.sha256(got).hexdigest() == hashlib.sha256(wanted).hexdigest()


def test_the_form_has_exactly_the_schemas_keys(visit: Any) -> None:
    page = visit().page
    for key in ("board", "blank", "buy"):
        page.evaluate("(key) => document.getElementById(`k-${key}`).click()", key)
    paths = page.eval_on_selector_all("[data-path]", "(all) => all.map((one) => one.dataset.path)")
    found = {re.sub(r"\.0\.", ".", path) for path in paths if not path.startswith("#")}
    tables = {name.partition(".")[0] for name in keys_of() if "." in name}
    assert found == set(keys_of()) - tables - {INCLUDE}


def test_problems_stand_at_their_fields_in_the_words_of_check(visit: Any, tmp_path: Path) -> None:
    page = visit().page
    type_the_three(page)
    page.fill("#k-stock-height", "sixty")
    page.click("details[data-key=measured] > summary")
    page.fill("#k-saw-kerf", "-3 mm")
    state(page, "2 entries to mend")
    job = write(tmp_path, '[stock]\nthickness = 22\nheight = "sixty"\n[joint]\nratio = 12\n[saw]\nkerf = "-3 mm"\n')
    said = run("check", job, cwd=tmp_path).stderr
    for name in ("stock-height", "saw-kerf"):
        text = page.inner_text(f"#k-{name}-wrong")
        assert text[1:] in said
        assert page.get_attribute(f"#k-{name}", "aria-invalid") == "true"
        assert f"k-{name}-wrong" in (page.get_attribute(f"#k-{name}", "aria-describedby") or "")
    expect(page.locator("details[data-key=measured] > summary .mark")).to_have_text("1 to mend")
    page.fill("#k-stock-height", "60")
    page.fill("#k-saw-kerf", "")
    state(page, GOOD)


def test_defaults_are_shown_in_the_jobs_units_and_marked_until_touched(visit: Any) -> None:
    page = visit().page
    assert page.get_attribute("#k-saw-kerf", "placeholder") == "3.2 mm"
    page.select_option("#k-units", "in")
    expect(page.locator("#k-saw-kerf")).to_have_attribute("placeholder", "1/8 in")
    mark = page.locator('[data-path="saw.kerf"] .mark')
    page.click("details[data-key=measured] > summary")
    expect(mark).to_have_text("measure yours")
    page.fill("#k-saw-kerf", "3/32 in")
    expect(mark).to_be_hidden()
    page.fill("#k-saw-kerf", "")
    expect(mark).to_be_visible()
    page.fill("#k-saw-kerf", "3/32 in")
    page.reload()  # a job that is put into the form as a whole
    page.click("details[data-key=measured] > summary")
    expect(page.locator("#k-saw-kerf")).to_have_value("3/32 in")
    expect(mark).to_be_hidden()


def test_undo_and_redo_of_fifty_changes(visit: Any) -> None:
    page = visit().page
    type_the_three(page)
    page.evaluate("() => { for (let n = 0; n < 60; n++) page.put({...copy(page.job), title: `t${n}`}); }")
    assert page.input_value("#k-title") == "t59"
    page.evaluate("() => { for (let n = 0; n < 50; n++) document.getElementById('undo').click(); }")
    assert page.input_value("#k-title") == "t9"
    assert page.get_attribute("#undo", "aria-disabled") == "true"
    page.evaluate("() => document.getElementById('undo').click()")  # a further one does nothing
    assert page.input_value("#k-title") == "t9"
    page.evaluate("() => { for (let n = 0; n < 50; n++) document.getElementById('redo').click(); }")
    assert page.input_value("#k-title") == "t59"
    page.click("#undo")
    page.fill("#k-title", "another way")
    assert page.get_attribute("#redo", "aria-disabled") == "true"


def test_what_was_typed_survives_a_reload_and_nothing_else_is_kept(visit: Any) -> None:
    page = visit().page
    type_the_three(page)
    page.fill("#k-title", "kept")
    page.reload()
    page.wait_for_selector("#k-title")
    expect(page.locator("#k-title")).to_have_value("kept")
    state(page, GOOD)
    assert page.context.storage_state() == {"cookies": [], "origins": []}
    other = page.context.new_page()
    other.goto(page.url)
    other.wait_for_selector("#k-title")
    assert other.input_value("#k-title") == ""  # another tab is another job


def test_changed_numbers_are_marked_and_a_second_job_stands_beside(visit: Any) -> None:
    page = visit().page
    type_the_three(page)
    cell = page.locator('td[data-key="joint.overlap_mm"]')
    before = cell.inner_text()
    page.click("#beside")
    expect(page.locator("#figures thead").first).to_contain_text("beside")
    page.fill("#k-joint-ratio", "10:1")
    expect(cell).to_have_class(re.compile("changed"), timeout=SLOWLY)
    expect(cell).to_contain_text(f"changed, was {before}")
    row = page.locator("tr", has=cell).locator("td")
    assert row.nth(1).inner_text() == before
    page.click("#swap")
    expect(page.locator("#k-joint-ratio")).to_have_value("12:1")
    page.click("#alone")
    expect(page.locator("#figures thead")).to_have_count(0)


def test_a_job_taken_away_again_does_not_come_back_late(visit: Any) -> None:
    page = visit().page
    type_the_three(page)
    settled(page)
    page.click("#beside")
    expect(page.locator("#figures thead").first).to_contain_text("beside")
    held: list[Any] = []
    page.route("**/work", lambda route: held.append(route))  # answers are long in coming
    page.click("#swap")
    page.click("#alone")
    page.wait_for_timeout(300)
    assert held
    for route in list(held):
        route.continue_()
    expect(page.locator("#figures thead")).to_have_count(0)
    page.wait_for_timeout(700)
    assert page.evaluate("() => page.other") is None
    assert page.locator("#figures thead").count() == 0


def test_a_job_goes_to_a_file_and_comes_back(visit: Any, tmp_path: Path) -> None:
    page = visit().page
    type_the_three(page)
    page.fill("#k-title", 'Oars "for two", 5\' 6"')
    page.evaluate("() => page.form.go(['sled', 'plank'])")
    page.fill("#k-sled-plank", "38 mm x 184 mm")
    page.evaluate("() => page.form.go(['board'])")
    page.click("#k-board")
    page.fill("#k-board-0-length", "2.4 m")
    page.fill("#k-board-0-count", "6")
    state(page, GOOD)
    expect(page.locator("#name")).to_contain_text("Oars")
    with page.expect_download() as coming:
        page.click("#save")
    assert coming.value.suggested_filename == "oars-for-two-5-6.toml"
    text = Path(coming.value.path()).read_text(encoding="utf-8")
    wanted = {
        "title": 'Oars "for two", 5\' 6"',
        "stock": {"thickness": 22, "height": 60},
        "joint": {"ratio": "12:1"},
        "sled": {"plank": ["38 mm", "184 mm"]},
        "board": [{"length": "2.4 m", "count": 6}],
    }
    assert job_to_toml(job_from_text(text)) == job_to_toml(job_from_dict(wanted))

    page.set_input_files("#chosen", write(tmp_path, 'include = "shop.toml"\n' + text))
    expect(page.locator("#loose")).to_contain_text("a page reads no other file")
    assert page.input_value("#k-stock-height") == "60"  # nothing lost
    page.set_input_files("#chosen", write(tmp_path, "[stock\n"))
    expect(page.locator("#loose")).to_contain_text("Not opened: job.toml, line 1")
    page.set_input_files("#chosen", write(tmp_path, text.replace("height = 60", "height = 61")))
    expect(page.locator("#k-stock-height")).to_have_value("61")
    page.click("#undo")
    expect(page.locator("#k-stock-height")).to_have_value("60")


def test_files_are_of_the_job_they_were_made_from(visit: Any) -> None:
    page = visit().page
    type_the_three(page)
    page.fill("#k-title", "first")
    state(page, GOOD)
    page.wait_for_function("() => page.answer.text.includes('first') || page.text.includes('first')")
    page.click("#make")
    page.fill("#k-title", "second")  # while they are made
    expect(page.locator("#files-now")).to_contain_text("files are made", timeout=4 * SLOWLY)
    expect(page.locator("#make")).to_have_text("Make the files of the job as it is now")
    expect(page.locator("#files-say")).to_contain_text("of the job before that")
    expect(page.locator("#made h3").first).to_contain_text("of the earlier job")
    button = page.locator("#made button", has_text="job.toml")
    with page.expect_download() as coming:
        button.click()
    assert coming.value.suggested_filename == "earlier-job.toml"
    assert 'title = "first"' in Path(coming.value.path()).read_text(encoding="utf-8")
    page.fill("#k-title", "first")
    expect(page.locator("#make")).to_have_text("The files are made", timeout=SLOWLY)


def test_markup_in_a_title_is_text(visit: Any) -> None:
    page = visit().page
    type_the_three(page)
    title = "<img src=x onerror=alert(1)></script><b>"
    page.fill("#k-title", title)
    page.evaluate("() => page.form.go(['stock', 'species'])")
    page.fill("#k-stock-species", title)
    expect(page.locator("#name")).to_have_text(title, timeout=SLOWLY)
    settled(page)
    assert page.locator("main img, main b:has-text('onerror')").count() == 0


def test_the_verdict_is_announced_once_and_politely(visit: Any) -> None:
    page = visit().page
    type_the_three(page)
    settled(page)
    page.evaluate(
        """() => {
            window.told = [];
            new MutationObserver(() => told.push(document.getElementById('state').textContent))
                .observe(document.getElementById('state'), {childList: true, characterData: true, subtree: true});
        }"""
    )
    page.fill("#k-stock-height", "20")
    state(page, "Not to be cut so")
    page.wait_for_selector("button.advice")
    page.wait_for_timeout(500)
    assert len(page.evaluate("() => told")) == 1
    roles = page.eval_on_selector_all("[role=alert]:not([hidden]), [aria-live=assertive]", "(all) => all.length")
    assert roles == 0


def test_rows_of_pairs_are_filled_in_one_after_the_other(visit: Any) -> None:
    page = visit().page
    type_the_three(page)
    page.evaluate("() => { page.form.go(['board']); document.getElementById('k-board').click(); }")
    page.fill("#k-board-0-length", "2.4 m")
    rows = page.locator('[data-path="board.0.defects"]')
    rows.get_by_text("Add one").click()
    state(page, GOOD)  # a row nobody wrote in says nothing
    boxes = rows.locator("input")
    boxes.nth(0).fill("700")
    expect(rows.locator(".wrong")).to_contain_text("pair 1", ignore_case=True)
    boxes.nth(1).fill("740")
    expect(rows.locator(".wrong")).to_be_hidden()
    assert page.evaluate("() => page.job.board") == [{"length": "2.4 m", "defects": [[700, 740]]}]
    rows.get_by_label("take number 1 away").click()
    assert page.evaluate("() => page.job.board") == [{"length": "2.4 m"}]


def test_a_finding_leads_to_its_field(visit: Any) -> None:
    page = visit(360, 740).page
    type_the_three(page)
    page.fill("#k-stock-height", "200")
    page.wait_for_selector("button.advice")
    lead = page.locator("button.lead").first
    path = lead.get_attribute("data-path") or ""
    lead.click()
    assert page.evaluate("() => document.activeElement.id") == "k-" + path.replace(".", "-")


def test_when_the_program_ends_the_page_says_so_and_keeps_what_was_typed(open_page: Open) -> None:
    with served() as own:
        page = open_page(own.address, 1300, 900, offline=False).page
        page.set_default_timeout(SLOWLY)
        page.wait_for_selector("#k-stock-thickness")
        type_the_three(page)
        own.stop()
        page.fill("#k-title", "still here")
        expect(page.locator("#gone")).to_contain_text("What you typed is still here", timeout=SLOWLY)
        expect(page.locator("#gone")).to_be_visible()
        assert page.input_value("#k-title") == "still here"
        with page.expect_download() as coming:
            page.click("#save")
        assert "height = 60" in Path(coming.value.path()).read_text(encoding="utf-8")


def everything_open(page: Page) -> None:
    page.evaluate("() => { for (const one of document.querySelectorAll('details')) one.open = true; }")
    page.evaluate("() => { for (const key of ['board', 'blank', 'buy']) document.getElementById('k-' + key).click(); }")
    page.wait_for_timeout(500)


@pytest.mark.parametrize(
    ("width", "scheme"),
    [
        (1300, "dark"),
        (360, "light"),
        pytest.param(1300, "light", marks=pytest.mark.slow),
        pytest.param(360, "dark", marks=pytest.mark.slow),
    ],
)
def test_nothing_is_in_the_way_of_use(visit: Any, scheme: str, width: int) -> None:
    """axe-core finds nothing of any weight: with faults and with problems, all folds open."""
    seen = visit(width, color_scheme=scheme)
    page = seen.page
    type_the_three(page)
    settled(page)
    everything_open(page)
    page.evaluate("() => page.put({...copy(page.job), board: undefined, blank: undefined, buy: undefined})")
    state(page, GOOD)
    settled(page)
    assert seen.faults_of_use() == []
    page.fill("#k-stock-height", "200")
    page.wait_for_selector("button.advice")
    page.fill("#k-saw-kerf", "wrong")
    state(page, "One entry to mend")
    assert seen.faults_of_use() == []


def test_no_sideways_scrolling_and_targets_for_a_thumb(visit: Any) -> None:
    """650 px is a window of 1300 px at 200 %."""
    seen = visit(1300, 700)
    page = seen.page
    type_the_three(page)
    settled(page)
    everything_open(page)
    for width in (1300, 650, 360, 320):
        page.set_viewport_size({"width": width, "height": 700})
        assert seen.sideways == 0, width
        small = page.evaluate(
            """() => [...document.querySelectorAll('button, summary, select, input:not([type=file]), a')]
                .map((one) => [one, (one.type === 'checkbox' ? one.closest('label') : one).getBoundingClientRect()])
                .filter(([one, at]) => at.width > 0 && !one.closest('.skip') && Math.min(at.width, at.height) < 43.5)
                .map(([one, at]) => [one.tagName, one.id, one.textContent.slice(0, 20), at.width, at.height])"""
        )
        assert small == [], width


def test_typing_is_never_held_up(visit: Any) -> None:
    """Letters arrive in the field however long the server takes."""
    page = visit().page
    page.route("**/work", lambda _: None)  # it never answers
    page.focus("#k-title")
    page.keyboard.type("a long title that is typed at once", delay=5)
    assert page.input_value("#k-title") == "a long title that is typed at once"
    page.unroute("**/work")

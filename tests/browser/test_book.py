"""The shop book in a browser, from disk, the network off: silent, complete, readable, usable, printable."""

from __future__ import annotations

import subprocess
from io import BytesIO
from pathlib import Path

import pdfplumber
import pytest
from playwright.sync_api import PdfMargins

from tests.book.books import PLANK, counting_piece, mischief, page_of, text_of, worked
from tests.browser.conftest import Open
from tests.browser.watching import Watched, need_html_validate

CHAPTERS = 13
MARGIN: PdfMargins = {"top": "12mm", "bottom": "12mm", "left": "12mm", "right": "12mm"}
LEAST_LETTER = 12.0  # CSS px


@pytest.fixture(scope="session")
def room(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Books on disk: of an example, and of a job that means mischief."""
    found = tmp_path_factory.mktemp("books")
    jobs = {"plank": text_of(PLANK), "mischief": mischief()}
    for name, text in jobs.items():
        page = page_of(*worked(text), (counting_piece(),))
        (found / f"{name}.html").write_text(page, encoding="utf-8", newline="\n")
    return found


@pytest.fixture
def books(room: Path) -> dict[str, str]:
    """Their addresses."""
    return {file.stem: file.as_uri() for file in sorted(room.glob("*.html"))}


def test_says_nothing_asks_for_nothing_and_is_whole(books: dict[str, str], open_page: Open) -> None:
    for name, address in books.items():
        seen = open_page(address)
        assert (seen.messages, seen.requests) == ([], []), name
        assert seen.page.text_content("#tune-told") == "</script><b>told & heard</b>\u2028", name
        assert seen.page.locator("main > section > h2").count() == CHAPTERS, name


@pytest.mark.parametrize("width", [320, 360])
def test_nothing_scrolls_sideways_and_every_letter_can_be_read(
    books: dict[str, str], open_page: Open, width: int
) -> None:
    for name, address in books.items():
        seen = open_page(address, width)
        assert seen.sideways <= 0, name
        least = seen.page.evaluate(
            """() => Math.min(...[...document.querySelectorAll('main svg text')].map(
                t => parseFloat(t.getAttribute('font-size')) * t.ownerSVGElement.getBoundingClientRect().width
                     / t.ownerSVGElement.viewBox.baseVal.width))"""
        )
        assert least >= LEAST_LETTER, name
        outside = seen.page.evaluate(
            """() => [...document.querySelectorAll('main svg text')].filter(t => {
                const box = t.getBoundingClientRect(), page = t.ownerSVGElement.getBoundingClientRect();
                return box.left < page.left - 1 || box.right > page.right + 1;
            }).map(t => t.textContent)"""
        )
        assert outside == [], name


def test_the_fence_is_in_sight_and_two_touches_away(books: dict[str, str], open_page: Open) -> None:
    """The line with fence, blade and the worst finding stays, and hides nothing that a link leads to."""
    seen = open_page(books["plank"], has_touch=True)
    page = seen.page
    assert "126.6 mm" in page.inner_text(".sight")
    page.tap(".sight .set a >> nth=0")
    page.wait_for_function("() => location.hash === '#saw'")
    first = page.locator("#saw .facts .main summary").first
    first.scroll_into_view_if_needed()
    assert "126.6 mm" in first.inner_text()
    assert page.locator(".sight").bounding_box()["y"] == pytest.approx(0, abs=1)  # type: ignore[index]
    page.tap(".worst a")
    target = page.locator(page.evaluate("() => location.hash"))
    sight = page.locator(".sight").bounding_box()
    box = target.bounding_box()
    assert sight is not None
    assert box is not None
    assert sight["height"] <= box["y"] < 740


def test_a_figure_says_where_it_comes_from_by_key_without_a_script(books: dict[str, str], open_page: Open) -> None:
    seen = open_page(books["plank"], java_script_enabled=False)
    page = seen.page
    figure = page.locator("#saw .facts details").first
    assert not figure.locator("p").is_visible()
    figure.locator("summary").focus()
    page.keyboard.press("Enter")
    assert figure.locator("p").is_visible()
    assert "Measure the heel" in figure.locator("p").inner_text()
    assert page.locator("main svg").count() > 8
    assert page.locator("#book-clear-line").is_hidden()
    page.locator("#saw .steps input").first.check()


def test_the_book_is_painted_before_its_pieces_are_filled(books: dict[str, str], open_page: Open) -> None:
    seen = open_page("about:blank")
    seen.page.add_init_script(
        """new PerformanceObserver(list => { for (const one of list.getEntries())
             if (one.name === "first-contentful-paint") window.paintedAt ??= one.startTime;
           }).observe({ type: "paint", buffered: true });
           const filled = () => { window.filledAt ??= performance.now(); };
           document.addEventListener("DOMContentLoaded", () =>
             new MutationObserver(filled).observe(document.documentElement, { attributes: true }));"""
    )
    seen.page.goto(books["plank"])
    seen.page.wait_for_function("() => window.paintedAt && window.filledAt")
    assert seen.page.evaluate("() => paintedAt < filledAt")


def test_ticks_and_the_record_stay_on_the_device(books: dict[str, str], open_page: Open) -> None:
    seen = open_page(books["plank"])
    page = seen.page
    page.locator("#saw-walk-2").check()
    page.locator("#record-heel").fill("126.1 mm")
    page.locator("#record-nose").focus()
    page.reload()
    assert page.locator("#saw-walk-2").is_checked()
    assert not page.locator("#saw-walk-1").is_checked()
    assert page.locator("#record-heel").input_value() == "126.1 mm"
    page.goto(books["mischief"])  # another job keeps its own
    assert not page.locator("#saw-walk-2").is_checked()
    page.goto(books["plank"])
    page.locator("#book-clear").click()
    assert page.locator("#book-clear").is_hidden()
    page.reload()
    assert not page.locator("#saw-walk-2").is_checked()
    assert page.locator("#record-heel").input_value() == ""
    assert seen.messages == []


def test_without_a_place_to_keep_things_all_else_works(books: dict[str, str], open_page: Open) -> None:
    seen = open_page("about:blank")
    seen.page.add_init_script("Object.defineProperty(window, 'localStorage', {get() { throw new Error('none'); }})")
    seen.page.goto(books["plank"])
    seen.page.locator("#saw-walk-2").check()
    assert seen.page.locator("#saw-walk-2").is_checked()
    assert seen.messages == []


def test_a_piece_that_fails_stops_no_other(room: Path, open_page: Open) -> None:
    from dataclasses import replace

    bad = replace(
        counting_piece("moving_cut"), script="scarfwright.pieces.moving_cut = () => { throw new Error('x'); };"
    )
    file = room / "bad.htm"
    file.write_text(page_of(*worked(text_of(PLANK)), (bad, counting_piece())), encoding="utf-8")
    seen = open_page(file.as_uri())
    assert "told" in (seen.page.text_content("#tune-told") or "")
    assert seen.page.text_content("#moving_cut-told") == "untold"
    assert len(seen.messages) == 1
    seen.page.locator("#saw-walk-2").check()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_anybody_can_use_it(books: dict[str, str], open_page: Open, scheme: str) -> None:
    seen = open_page(books["plank" if scheme == "dark" else "mischief"], color_scheme=scheme)
    seen.page.evaluate("() => document.querySelectorAll('details').forEach(one => { one.open = true; })")
    assert seen.faults_of_use() == []
    assert _faint(seen) == []


def test_anybody_can_use_it_where_nothing_draws_in_3d(books: dict[str, str], open_without_webgl: Open) -> None:
    seen = open_without_webgl(books["plank"])
    assert (seen.messages, seen.requests) == ([], [])
    assert seen.faults_of_use() == []


def _faint(seen: Watched) -> list[str]:
    """Texts that stand out from the page's own ground by less than 7 to 1."""
    found = seen.page.evaluate(
        """() => {
            const light = c => { const v = c.match(/[\\d.]+/g).slice(0, 3).map(n => { n /= 255;
                return n <= 0.04045 ? n / 12.92 : ((n + 0.055) / 1.055) ** 2.4; });
                return 0.2126 * v[0] + 0.7152 * v[1] + 0.0722 * v[2]; };
            const ground = e => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor;
                if (!c.endsWith(', 0)')) return c; } return 'rgb(255, 255, 255)'; };
            const written = e => [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim());
            const out = new Set();
            for (const e of document.querySelectorAll('body *')) {
                if (e.closest('script, [hidden], svg') || !written(e))
                    continue;
                const [a, b] = [light(getComputedStyle(e).color), light(ground(e))].sort((x, y) => y - x);
                if ((a + 0.05) / (b + 0.05) < 7) out.add(e.tagName + '.' + e.className);
            }
            return [...out];
        }"""
    )
    return [str(one) for one in found]


def test_print_cuts_no_drawing_and_has_every_origin(books: dict[str, str], open_page: Open) -> None:
    """Every drawing's letters come out on one page; boxes to tick are there and empty; no word of touching."""
    seen = open_page(books["plank"])
    seen.page.locator("#saw-walk-2").check()
    drawings = seen.page.evaluate(
        "() => [...document.querySelectorAll('main svg')].map(s => "
        "[...s.querySelectorAll('text')].map(t => t.textContent))"
    )
    with pdfplumber.open(BytesIO(seen.page.pdf(format="A4", margin=MARGIN))) as paper:
        pages = [" ".join((page.extract_text() or "").split()) for page in paper.pages]
    whole = " ".join(pages)
    for texts in drawings:
        words = [word for text in texts for word in text.split()]
        assert any(all(word in page for word in words) for page in pages), texts
    assert "keeps the blade off the sled" in whole
    assert "where from" not in whole
    assert "Clear ticks" not in whole
    seen.page.emulate_media(media="print")
    look = seen.page.evaluate("() => getComputedStyle(document.querySelector('#saw-walk-2'), '').appearance")
    assert look == "none"  # no mark is drawn in it
    colours = "() => [getComputedStyle(document.body).color, getComputedStyle(document.body).backgroundColor]"
    assert seen.page.evaluate(colours) == ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]


def test_is_valid_html(room: Path) -> None:
    files = [str(file) for file in sorted(room.glob("*.html"))]
    done = subprocess.run([*need_html_validate(), *files], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr

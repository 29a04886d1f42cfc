"""The shop book in a browser, from disk, the network off: silent, complete, readable, usable, printable."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.book.books import EXAMPLES, counting_piece, mischief, page_of, text_of, worked
from tests.browser.conftest import Open


@pytest.fixture(scope="session")
def books(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Addresses of books on disk, by name."""
    room = tmp_path_factory.mktemp("books")
    jobs = {path.stem: text_of(path) for path in EXAMPLES} | {"mischief": mischief()}
    found = {}
    for name, text in jobs.items():
        file: Path = room / f"{name}.html"
        file.write_text(page_of(*worked(text), (counting_piece(),)), encoding="utf-8")
        found[name] = file.as_uri()
    return found


def test_says_nothing_and_asks_for_nothing(books: dict[str, str], open_page: Open) -> None:
    for name, address in books.items():
        seen = open_page(address)
        assert (seen.messages, seen.requests) == ([], []), name
        assert seen.page.text_content("#joint_form-told") == "</script><b>told & heard</b>\u2028", name

"""A page in a real browser, and what it said and asked for meanwhile."""

from __future__ import annotations

import os
import shutil
from dataclasses import dataclass, field
from pathlib import Path
from typing import NoReturn

import pytest
from playwright.sync_api import Browser, Page

CHROMIUM = Path("/usr/bin/chromium")
NPM_ROOM = Path(os.environ.get("SCARFWRIGHT_NPM", Path(__file__).parents[2] / "build" / "npm"))
AXE = NPM_ROOM / "node_modules" / "axe-core" / "axe.min.js"
HTML_VALIDATE = NPM_ROOM / "node_modules" / ".bin" / "html-validate"
QUIET = ("--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync")
# its other pictures are drawn faster by the processor itself than by a graphics card that the processor plays;
# without --disable-gpu: with it each picture in 3D is read back, which Chromium complains of on the console
SOFTWARE = (
    "--no-sandbox",
    "--use-gl=angle",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--disable-gpu-rasterization",
)
WITHOUT_WEBGL = ("--disable-webgl", "--disable-webgl2", "--disable-3d-apis")


def missing(reason: str) -> NoReturn:
    """Skip, or fail where the browser must be there."""
    if os.environ.get("SCARFWRIGHT_BROWSER") == "1":
        pytest.fail(reason)
    pytest.skip(f"{reason}; with SCARFWRIGHT_BROWSER=1 this fails")


def need_axe() -> str:
    """axe-core's script."""
    if not AXE.is_file():
        missing("axe-core is not installed (tests/browser/install.sh)")
    return AXE.read_text(encoding="utf-8")


def need_html_validate() -> list[str]:
    """The words that start html-validate."""
    if not HTML_VALIDATE.exists() or shutil.which("node") is None:
        missing("html-validate is not installed (tests/browser/install.sh)")
    return [str(HTML_VALIDATE)]


@dataclass
class Watched:
    """A page with everything it wrote to the console, every error, and every request but the one for itself."""

    page: Page
    messages: list[str] = field(default_factory=list)
    requests: list[str] = field(default_factory=list)

    @property
    def sideways(self) -> float:
        """How far the page scrolls sideways [CSS px]."""
        found = self.page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
        return float(found)

    def faults_of_use(self) -> list[str]:
        """What axe-core finds, of any weight: rule, how grave, and where."""
        if not self.page.evaluate("() => 'axe' in window"):
            self.page.evaluate(need_axe())  # by the debugger, which no content policy holds up
        found = self.page.evaluate("async () => (await axe.run(document, {resultTypes: ['violations']})).violations")
        return [f"{one['id']} ({one['impact']}): {node['target']}" for one in found for node in one["nodes"]]


def watched(browser: Browser, target: str, width: int = 360, height: int = 740, **context: object) -> Watched:
    """Open a page, the network off, and wait until it is at rest. `context`: further options of the browser context,
    such as color_scheme="dark", java_script_enabled=False, has_touch=True."""
    room = browser.new_context(viewport={"width": width, "height": height}, **{"offline": True, **context})  # type: ignore[arg-type]
    found = Watched(room.new_page())
    found.page.on("console", lambda message: found.messages.append(f"{message.type}: {message.text}"))
    found.page.on("pageerror", lambda error: found.messages.append(f"error: {error}"))
    found.page.on("request", lambda request: found.requests.append(request.url))
    found.page.goto(target)
    found.page.wait_for_load_state("load")
    if context.get("java_script_enabled") is not False:  # a book fills its pieces when it has been painted
        found.page.wait_for_function(
            "() => !document.getElementById('book-data') || document.querySelector('[data-filled]')"
        )
    found.requests = [url for url in found.requests if url != target]
    return found

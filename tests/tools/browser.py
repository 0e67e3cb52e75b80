"""Debian's Chromium, driven by Playwright, for pages opened from disk."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from tools.needed import missing

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

__all__ = ["Visit", "chromium", "open_page"]

_ARGUMENTS = (
    "--no-sandbox",  # Chromium refuses its sandbox to root; only our own pages are opened
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """An open page and what it said and asked for while it was opened."""

    page: "Page"
    """The page; closed when the context ends."""
    complaints: list[str] = field(default_factory=list)
    """Errors and warnings of the console: a blocked script, a broken picture."""
    strangers: list[str] = field(default_factory=list)
    """Addresses asked for that do not lie on this disk."""


@contextmanager
def chromium() -> Iterator["Browser"]:
    """Start Chromium; the test is skipped, or fails under `CI=true`, where there is none."""
    program = shutil.which("chromium")
    if program is None:
        missing("Chromium", how="apt-get install chromium")
    try:
        from playwright.sync_api import sync_playwright  # noqa: PLC0415 - may be missing
    except ModuleNotFoundError:
        missing("Playwright", how="pip install --editable '.[test]'")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=program, args=list(_ARGUMENTS))
        try:
            yield browser
        finally:
            browser.close()


@contextmanager
def open_page(
    browser: "Browser",
    path: Path,
    *,
    width: int = 1280,
    height: int = 800,
    scheme: Literal["light", "dark"] = "light",
    scripts: bool = True,
) -> Iterator[Visit]:
    """Open a page from disk in a window of this many CSS pixels."""
    context = browser.new_context(
        viewport={"width": width, "height": height},
        color_scheme=scheme,
        java_script_enabled=scripts,
        reduced_motion="reduce",
    )
    visit = Visit(page=context.new_page())
    visit.page.on(
        "console",
        lambda said: (
            visit.complaints.append(said.text) if said.type in {"error", "warning"} else None
        ),
    )
    visit.page.on("pageerror", lambda error: visit.complaints.append(error.message))
    visit.page.on(
        "request",
        lambda asked: (
            visit.strangers.append(asked.url) if not asked.url.startswith("file:") else None
        ),
    )
    try:
        visit.page.goto(path.resolve().as_uri())
        yield visit
    finally:
        context.close()

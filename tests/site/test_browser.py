"""Compiled pages in a browser, opened from disk."""

import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tools.browser import open_page
from tools.sites import PAGE_KINDS, ROOT, page_of_each_kind

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("folder", ["", "crosses", "diary", "entries", "groups", "lines", "tanks"])
def test_page__does_not_scroll_sideways_at_320_pixels(
    keeper_site: Path, browser: "Browser", folder: str
) -> None:
    """WCAG 2.2, 1.4.10 Reflow: 320 CSS pixels without scrolling in two directions."""
    pages = sorted((keeper_site / folder).glob("*.html"), key=lambda page: page.stat().st_size)
    assert pages
    lists = [page for page in pages if page.name == "index.html"]

    for page in {*pages[-3:], *lists}:
        with open_page(browser, page, width=320) as visit:
            needed = visit.page.evaluate("document.documentElement.scrollWidth")
            assert needed <= 320, f"{page.relative_to(keeper_site)} needs {needed} pixels"


@pytest.mark.parametrize("kind", PAGE_KINDS)
def test_page__says_the_same_without_scripts(
    keeper_site: Path, browser: "Browser", kind: str
) -> None:
    page = keeper_site / page_of_each_kind(keeper_site)[kind]

    with open_page(browser, page, scripts=True) as visit:
        with_scripts = visit.page.inner_text("main")
    with open_page(browser, page, scripts=False) as visit:
        without = visit.page.inner_text("main")

    assert len(without.split()) > 10
    assert set(without.split()) <= set(with_scripts.split())


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("kind", PAGE_KINDS)
def test_page__opens_without_complaint_and_asks_no_stranger(
    keeper_site: Path, browser: "Browser", kind: str, scheme: str
) -> None:
    page = keeper_site / page_of_each_kind(keeper_site)[kind]

    with open_page(browser, page, scheme="dark" if scheme == "dark" else "light") as visit:
        visit.page.wait_for_load_state("load")
        broken = visit.page.evaluate(
            "[...document.images].filter(i => i.complete && !i.naturalWidth).map(i => i.src)"
        )

    assert visit.complaints == []
    assert visit.strangers == []
    assert broken == []


@pytest.mark.parametrize("kind", PAGE_KINDS)
def test_page__first_stop_of_the_tab_key_is_the_way_to_the_text(
    keeper_site: Path, browser: "Browser", kind: str
) -> None:
    page = keeper_site / page_of_each_kind(keeper_site)[kind]

    with open_page(browser, page) as visit:
        visit.page.keyboard.press("Tab")
        target = visit.page.evaluate("document.activeElement.getAttribute('href')")
        box = visit.page.evaluate(
            "(() => { const r = document.activeElement.getBoundingClientRect();"
            " return [r.left, r.top, r.width, r.height] })()"
        )
        inside = visit.page.evaluate(
            "href => href && document.querySelector(href)?.closest('main') !== null", target
        )

    assert inside, f"the first link leads to {target}"
    assert box[0] >= 0, "the link stays out of sight when it has the focus"
    assert box[1] >= 0, "the link stays out of sight when it has the focus"
    assert box[2] >= 24, "WCAG 2.2, 2.5.8: at least 24 by 24 CSS pixels"
    assert box[3] >= 24, "WCAG 2.2, 2.5.8: at least 24 by 24 CSS pixels"


def test_take_screenshots__writes_every_kind_width_and_scheme(tmp_path: Path) -> None:
    site, pictures = tmp_path / "site", tmp_path / "pictures"
    for kind, where in PAGE_KINDS.items():
        page = site / (where if where.endswith(".html") else f"{where}one.html")
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(
            f'<!doctype html><html lang="en"><title>{kind}</title><h1>{kind}</h1></html>', "utf-8"
        )

    done = subprocess.run(
        [sys.executable, ROOT / "tests" / "site" / "take_screenshots.py", site, pictures],
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 0, done.stderr
    wanted = {
        f"{kind}-{width}-{scheme}.png"
        for kind in PAGE_KINDS
        for width in (360, 1280)
        for scheme in ("light", "dark")
    }
    assert {path.name for path in pictures.iterdir()} == wanted
    for picture in pictures.iterdir():
        header = picture.read_bytes()[:24]
        assert header[:8] == b"\x89PNG\r\n\x1a\n"
        assert int.from_bytes(header[16:20]) == int(picture.name.split("-")[1])

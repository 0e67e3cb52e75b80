"""Every kind of page against WCAG 2.2 A and AA, by axe-core, in both schemes and two widths."""

from pathlib import Path
from typing import TYPE_CHECKING, Literal

import pytest

from tools.axe import axe_violations
from tools.browser import open_page

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

KINDS = (
    "index.html",
    "offers.html",
    "about.html",
    *(f"{kind}/index.html" for kind in ("crosses", "diary", "groups", "lines", "looks", "tanks")),
    *(f"{kind}/*.html" for kind in ("crosses", "diary", "entries", "groups", "lines", "looks")),
    "pedigree/*.html",
    "tanks/*.html",
)
"""Every kind of page: a file, or a pattern of which the longest page is taken."""

SCHEMES: tuple[Literal["light", "dark"], ...] = ("light", "dark")


def _page(site: Path, kind: str) -> Path:
    found = [
        page for page in site.glob(kind) if "*" not in kind or page.name != "index.html"
    ]  # fmt: skip
    assert found, f"no page of the kind {kind}"
    return max(found, key=lambda page: (page.stat().st_size, page.name))


@pytest.mark.parametrize("kind", KINDS)
def test_page__has_no_violation_in_any_width_or_scheme(
    keeper_site: Path, browser: "Browser", kind: str
) -> None:
    page = _page(keeper_site, kind)

    for width in (360, 1280):
        for scheme in SCHEMES:
            with open_page(browser, page, width=width, scheme=scheme) as visit:
                assert axe_violations(visit.page) == [], (kind, width, scheme)


def test_axe__finds_what_is_wrong(browser: "Browser", tmp_path: Path) -> None:
    """Otherwise the tests above would pass for want of anything looking."""
    page = tmp_path / "bad.html"
    page.write_text("<title>x</title><main><img src='x'><p>no language</p></main>", "utf-8")

    with open_page(browser, page) as visit:
        found = " ".join(axe_violations(visit.page))

    assert "image-alt" in found
    assert "html-has-lang" in found

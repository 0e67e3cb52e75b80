"""What must hold of every page, whatever it says."""

import re
from pathlib import Path

import pytest

from tools.links import check_links
from tools.nu import nu_messages
from tools.sites import PAGE_KINDS, Page, pages_of_kind, read_pages

# Words that reach a page only when a value was not made into words.
_RAW_VALUE = re.compile(
    r"\bNone\b(?! (?:of|is|was)\b)|\bNaN\b|\bnan\b|\binf\b|\bUndefined\b|\bTraceback\b|\{\{|\{%"
    r"|\bobject at 0x"
    r"|\b(?:Decimal|Count|When|EventId)\(|<(?:Level|Claim|Assumption|Verdict)\."
)


@pytest.fixture(scope="module")
def pages(site: Path) -> tuple[Page, ...]:
    return read_pages(site)


def test_site__has_pages_of_every_kind(site: Path) -> None:
    numbers = {kind: len(pages_of_kind(site, kind)) for kind in PAGE_KINDS}

    assert all(numbers.values()), numbers


def test_site__every_internal_reference_resolves(site: Path) -> None:
    assert check_links(site) == ()


def test_site__nu_checker_has_nothing_to_say(site: Path) -> None:
    files = sorted(path for path in site.rglob("*") if path.suffix in {".html", ".css", ".svg"})

    assert nu_messages(files) == ()


def test_site__no_page_shows_a_raw_value(pages: tuple[Page, ...]) -> None:
    found = [(page.name, text) for page in pages for text in page.texts if _RAW_VALUE.search(text)]

    assert found == []


def test_site__every_page_has_the_content_policy_before_all_else(pages: tuple[Page, ...]) -> None:
    for page in pages:
        metas = [values for tag, values in page.tags if tag == "meta"]
        assert "charset" in metas[0], page.name
        assert metas[1].get("http-equiv") == "Content-Security-Policy", page.name
        directives = [part.split() for part in metas[1]["content"].split(";") if part.strip()]
        policy = {name: sources for name, *sources in directives}
        assert policy["default-src"] == ["'none'"], page.name
        assert policy["base-uri"] == ["'none'"], page.name
        assert policy["form-action"] == ["'none'"], page.name
        sources = {source for values in policy.values() for source in values}
        assert sources <= {"'none'", "'self'"}, page.name


def test_site__no_page_carries_what_the_content_policy_blocks(pages: tuple[Page, ...]) -> None:
    for page in pages:
        for tag, values in page.tags:
            assert tag != "style", page.name
            assert "style" not in values, (page.name, tag, values)
            assert not [name for name in values if name.startswith("on")], (page.name, tag)
            if tag == "script":
                assert "src" in values or values.get("type", "").endswith("json"), page.name


def test_site__every_page_has_language_title_and_one_heading_of_first_rank(
    pages: tuple[Page, ...],
) -> None:
    for page in pages:
        tags = [tag for tag, _ in page.tags]
        assert page.tags[0][0] == "html", page.name
        assert page.tags[0][1].get("lang"), page.name
        assert tags.count("h1") == 1, page.name
        assert tags.count("main") == 1, page.name
        assert page.texts[0], page.name


def test_site__no_page_asks_another_host_for_anything(pages: tuple[Page, ...]) -> None:
    for page in pages:
        for tag, values in page.tags:
            asked = [values.get("src", ""), values.get("srcset", "")]
            if tag == "link":
                asked.append(values.get("href", ""))
            assert not [url for url in asked if "//" in url], (page.name, tag, values)

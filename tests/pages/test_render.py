"""Every kind of page, drawn from made-up results."""

import os
import posixpath
import re
import subprocess
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest
from jinja2 import UndefinedError
from markupsafe import Markup

from filialog.journal.events import EventId
from filialog.journal.quantities import Count
from filialog.messages import ENGLISH, Words
from filialog.pages import PAGE_KINDS, render_pages, slug
from filialog.pages import render as render_module
from filialog.pages.templates import Templates
from tools.fake_results import FakeResults, empty_results, fake_results, theme

VOID = {"meta", "link", "br", "hr", "img", "input", "wbr"}
CSP = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self';"
    " connect-src 'self'; base-uri 'none'; form-action 'none'"
)
ROOT = Path(__file__).resolve().parents[2]
HOSTILE = '"><script>alert(1)</script>&{{7*7}}'


@dataclass
class Outline(HTMLParser):
    """What the tests want to know of a page."""

    tags: list[tuple[str, dict[str, str]]] = field(default_factory=list)
    text: list[str] = field(default_factory=list)
    tables: list[int] = field(default_factory=list)
    lists: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, {name: value or "" for name, value in attrs}))
        if tag == "tbody":
            self.tables.append(0)
        if tag == "tr" and self.tables:
            self.tables[-1] += 1
        if tag in {"ul", "ol", "dl"}:
            self.lists.append(0)
        if tag in {"li", "dt"}:
            self.lists[-1] += 1

    def handle_data(self, data: str) -> None:
        self.text.append(data)

    def values(self, attribute: str) -> list[str]:
        return [values[attribute] for _, values in self.tags if attribute in values]


def render(results: FakeResults, source: Mapping[str, str] | None = None) -> dict[str, str]:
    pages = render_pages(results, source or theme(), "0.1.0")
    return {page.address: page.body().decode() for page in pages}


def outline(html: str) -> Outline:
    page = Outline()
    page.feed(html)
    page.close()
    return page


def hostile() -> FakeResults:
    """Return the results with a group's name turned into an attack."""
    name = HOSTILE
    full = fake_results()
    rows = {
        name if group == "slate" else group: replace(
            row,
            group=name if group == "slate" else group,
            source='<img src="x">' if group == "slate" else row.source,
            seller_label="</q><script>" if group == "slate" else row.seller_label,
        )
        for group, row in full.group_rows.items()
    }
    settings = replace(full.journal.settings, title=name, about="</p><script>")
    return replace(full, group_rows=rows, journal=replace(full.journal, settings=settings))


@pytest.fixture(scope="module")
def pages() -> dict[str, str]:
    return render(fake_results())


def _all_sites() -> Iterator[tuple[str, dict[str, str]]]:
    yield "full", render(fake_results())
    yield "empty", render(empty_results())
    yield "hostile", render(hostile())


@pytest.fixture(scope="module")
def every_page() -> dict[str, str]:
    return {
        f"{name} {address}": html
        for name, site in _all_sites()
        for address, html in site.items()
        if address.endswith(".html")
    }


def test_render__draws_every_kind() -> None:
    drawn = {page.kind for page in render_pages(fake_results(), theme(), "0")}

    assert drawn == {kind.name for kind in PAGE_KINDS} | {"style"}


def test_page__has_one_first_heading_and_skips_no_rank(every_page: dict[str, str]) -> None:
    for address, html in every_page.items():
        ranks = [int(tag[1]) for tag, _ in outline(html).tags if re.fullmatch(r"h[1-6]", tag)]
        assert ranks[0] == 1, address
        assert ranks.count(1) == 1, address
        steps = pairwise(ranks)
        assert all(after <= before + 1 for before, after in steps), (address, ranks)


def test_page__has_each_id_once_and_refers_to_what_is_there(every_page: dict[str, str]) -> None:
    for address, html in every_page.items():
        page = outline(html)
        ids = page.values("id")
        assert len(ids) == len(set(ids)), address
        for names in page.values("aria-labelledby"):
            assert set(names.split()) <= set(ids), (address, names)


def test_site__every_link_leads_to_a_page() -> None:
    for name, site in _all_sites():
        ids = {address: set(outline(html).values("id")) for address, html in site.items()}
        for address, html in site.items():
            if not address.endswith(".html"):
                continue
            for href in outline(html).values("href"):
                path, _, fragment = href.partition("#")
                assert not href.startswith("/"), (name, address, href)
                assert not path.endswith("/"), (name, address, href)
                assert ":" not in href, (name, address, href)
                target = posixpath.normpath(posixpath.join(posixpath.dirname(address), path))
                target = target if path else address
                assert target in site, (name, address, href)
                assert not fragment or fragment in ids[target], (name, address, href)


def test_page__shows_no_raw_value_and_no_empty_table(every_page: dict[str, str]) -> None:
    for address, html in every_page.items():
        page = outline(html)
        text = " ".join(page.text)
        assert not re.search(r"\bNone\b|\bnan\b|Count\(|EventId|Level\.|object at", text), address
        assert all(page.tables), f"{address}: an empty table"
        assert all(page.lists), f"{address}: an empty list"


def test_page__has_the_policy_first_and_nothing_it_blocks(every_page: dict[str, str]) -> None:
    for address, html in every_page.items():
        page = outline(html)
        metas = [values for tag, values in page.tags if tag == "meta"]
        assert metas[0] == {"charset": "utf-8"}, address
        assert metas[1] == {"http-equiv": "Content-Security-Policy", "content": CSP}, address
        assert {"name": "referrer", "content": "no-referrer"} in metas, address
        assert not page.values("style"), address
        assert not [tag for tag, _ in page.tags if tag in {"script", "style", "img"}], address
        assert page.tags[0] == ("html", {"lang": "en"}), address
        assert [tag for tag, _ in page.tags].count("main") == 1, address


def test_page__is_well_nested(every_page: dict[str, str]) -> None:
    class Nesting(HTMLParser):
        def __init__(self) -> None:
            super().__init__()
            self.open: list[str] = []
            self.faults: list[str] = []

        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002
            if tag not in VOID:
                self.open.append(tag)

        def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            pass

        def handle_endtag(self, tag: str) -> None:
            if not self.open or self.open.pop() != tag:
                self.faults.append(tag)

    for address, html in every_page.items():
        nesting = Nesting()
        nesting.feed(html)
        assert nesting.faults == [], address
        assert nesting.open == [], address


def test_hostile_names__are_text_everywhere() -> None:
    site = render(hostile())

    for address, html in site.items():
        if address.endswith(".html"):
            assert "&lt;script&gt;alert(1)&lt;/script&gt;&amp;{{7*7}}" in html, address
            assert "<script" not in html, address
            assert "<img" not in html, address
    assert "&lt;img src=&#34;x&#34;&gt;" in site[f"groups/{slug(HOSTILE)}.html"]


def test_entry__shows_a_picture_by_its_description_and_no_file_name(
    pages: dict[str, str],
) -> None:
    html = pages["entries/2026-05-02.html"]

    assert "Two of them on moss" in html
    assert "0231" not in html
    assert "notes/private" not in html
    assert "my notes" in html
    assert '<a href="../groups/slate-f1.html">slate-f1</a>' in html


def test_group__opens_with_where_it_comes_from(pages: dict[str, str]) -> None:
    text = " ".join(" ".join(outline(pages["groups/slate-f2-a.html"]).text).split())

    assert "22 F2 young of dam slate-f1 × sire slate-f1 or ivory , hatched on 8 July 2026" in text
    assert "A member carries p without showing it: about even, 37.5" in text
    assert "one of 2 groups that can have had adult males" in text


def test_group__first_hybrid_that_hides_alleles_is_called_a_carrier(pages: dict[str, str]) -> None:
    assert "F1 hybrid, carrier" in pages["groups/slate-f1.html"]
    assert "F1 hybrid, carrier" not in pages["groups/slate-f2-a.html"]


@pytest.mark.parametrize(
    ("group", "label", "says"),
    [
        ("slate", "F2", "open"),
        ("slate-f2-a", "F2", "agrees"),
        ("slate-f2-a", "F3, blue", "other-number"),
        ("slate-f2-a", "BC1", "other-cross"),
        ("slate-f2-a", "very blue", "quoted"),
    ],
)
def test_group__holds_the_sellers_label_against_the_parents(
    group: str, label: str, says: str
) -> None:
    full = fake_results()
    row = replace(full.group_rows[group], seller_label=label)
    pages = render(replace(full, group_rows={**full.group_rows, group: row}))

    html = pages[f"groups/{group}.html"]
    assert f"“{label}”" in html
    assert ENGLISH[f"seller-label.{says}"].split("”.")[1].split("{")[0].strip() in html


def test_group__every_ancestor_drawn_stands_in_the_table(pages: dict[str, str]) -> None:
    html = pages["groups/slate-f2-a.html"]
    table = html[html.index(ENGLISH["pedigree.table-label"]) :].partition("</table>")[0]
    rows = re.findall(r'<tr><th scope="row">(?:<a[^>]*>)?([^<]+)<', table)

    drawn = re.findall(r'class="d-label"[^>]*>([^<]+)<', html)
    assert set(drawn) - set(rows) == {"one of 2 groups"}
    assert set(rows) == {"slate-f2-a", "slate-f1", "slate", "ivory"}
    assert "dam <a" in table


def test_cross__says_the_verdict_first_and_what_is_left(pages: dict[str, str]) -> None:
    text = " ".join(" ".join(outline(pages["crosses/first-try.html"]).text).split())

    assert "Cannot tell yet: the count fits, but dam P/p × sire p/p would fit as well." in text
    assert (
        "About 37 more young should settle it at odds of 20 to 1; 80 more, counted all at once,"
        " would do so nine times in ten."
    ) in text
    assert text.index("Cannot tell yet") < text.index("expected share")
    assert "Exact multinomial test" in text


def test_cross__gives_programs_the_numbers_unrounded(pages: dict[str, str]) -> None:
    page = outline(pages["crosses/first-try.html"])
    rows = [values for tag, values in page.tags if tag == "tr" and "data-look" in values]
    section = next(values for tag, values in page.tags if "data-table" in values)

    assert [(row["data-look"], row["data-observed"]) for row in rows] == [
        ("dark", "11"),
        ("pale", "9"),
    ]
    assert [float(row["data-expected"]) for row in rows] == [15.0, 5.0]
    assert section["data-method"] == "exact"
    assert 0.0 < float(section["data-p"]) < 1.0


def test_cross__without_a_table_says_why(pages: dict[str, str]) -> None:
    assert ENGLISH["no-table.all-one-look"] in pages["crosses/slate-ivory.html"]


def test_hidden_event__leaves_no_link_and_no_day() -> None:
    full = fake_results()
    moved = EventId("2026-05-02", 0)
    site = render(replace(full, hidden=frozenset({moved})))
    html = site["groups/slate-f1.html"]

    assert "2\N{NO-BREAK SPACE}May" not in site["tanks/rowan.html"].split("Water readings")[0]
    assert ENGLISH["book.hidden"] in html
    assert "2\N{NO-BREAK SPACE}May" not in html
    assert ENGLISH["references.hidden"] in site["crosses/first-try.html"]


def test_empty_journal__says_so_calmly() -> None:
    site = render(empty_results())

    assert ENGLISH["front.empty"] in site["index.html"]
    assert ENGLISH["list-empty.groups"] in site["groups/index.html"]
    assert ENGLISH["diary.empty"] in site["diary/index.html"]
    assert ENGLISH["frame.keeper-edition"] in site["index.html"]


def test_public_edition__has_no_keeper_warning(pages: dict[str, str]) -> None:
    assert ENGLISH["frame.keeper-edition"] not in pages["index.html"]


def _digests(results: FakeResults, **changes: str) -> dict[str, str]:
    source = {**theme(), **changes}
    found = render_pages(results, source, "0.1.0")
    return {page.address: page.digest for page in found}


def test_digest__changes_only_where_the_page_does() -> None:
    full = fake_results()
    ivory = full.group_rows["ivory"]
    more = replace(ivory.book[0], after=Count.of(3))
    changed = replace(full, group_rows={**full.group_rows, "ivory": replace(ivory, book=(more,))})
    before, after = _digests(full), _digests(changed)
    drawn_before, drawn_after = render(full), render(changed)

    moved = {address for address in before if before[address] != after[address]}
    assert moved == {a for a in drawn_before if drawn_before[a] != drawn_after[a]}
    assert moved == {"groups/ivory.html", "groups/index.html"}


def test_digest__follows_templates_through_what_they_use() -> None:
    full = fake_results()
    before = _digests(full)
    name = "parts.html.jinja"
    after = _digests(full, **{name: theme()[name] + "\n{# new #}\n"})

    assert {address for address in before if before[address] != after[address]} == {
        address for address in before if address.endswith(".html")
    }
    name = "tank.html.jinja"
    after = _digests(full, **{name: theme()[name] + "\n"})
    assert {address for address in before if before[address] != after[address]} == {
        address for address in before if re.fullmatch(r"tanks/(?!index).*", address)
    }


def test_digest__follows_words_and_style() -> None:
    full = fake_results()
    before = _digests(full)
    words = Words({**ENGLISH, "nav.diary": "Log"})
    after = {page.address: page.digest for page in render_pages(full, theme(), "0.1.0", words)}
    assert all(before[a] != after[a] for a in before if a.endswith(".html"))
    assert before["style.css"] == after["style.css"]

    after = _digests(full, **{"style.css": "a { color: red }"})
    assert [a for a in before if before[a] != after[a]] == ["style.css"]


_SCRIPT = """
import sys
sys.path[:0] = [{tests!r}]
from hashlib import sha256
from tools.fake_results import fake_results, theme
from filialog.messages import ENGLISH, Words
from filialog.pages import render_pages
for page in render_pages(fake_results(), theme(), "1"):
    print(page.address, page.digest, sha256(page.body()).hexdigest())
"""


def test_render__is_the_same_whatever_the_hash_seed() -> None:
    outputs = [
        subprocess.run(
            [sys.executable, "-c", _SCRIPT.format(tests=str(ROOT / "tests"))],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("0", "1")
    ]

    assert outputs[0].count("\n") > 25
    assert outputs[0] == outputs[1]


def test_templates__make_no_raw_html_and_no_arithmetic() -> None:
    for name, text in theme().items():
        if not name.endswith(".jinja"):
            continue
        assert not re.search(r"\|\s*safe|autoescape|Markup", text), name
        marks = re.findall(r"\{[{%](.*?)[%}]\}", text, flags=re.DOTALL)
        for mark in marks:
            bare = re.sub(r'"[^"]*"', '""', mark)
            assert not re.search(r"[+*/<>~]|==|!=|\|", bare), (name, mark)
            assert not re.search(r"\s-\s", bare), (name, mark)


def test_templates__refuse_an_unknown_name() -> None:
    source = {**theme(), "front.html.jinja": "{{ page.no_such_thing }}"}

    with pytest.raises(UndefinedError):
        render(fake_results(), source)


def test_templates__refuse_a_computed_name() -> None:
    templates = Templates({"a.html.jinja": "{% include x %}"}, Words(ENGLISH))

    with pytest.raises(ValueError, match="computed"):
        templates.digest("a.html.jinja")


def test_withheld_event__is_treated_like_a_hidden_one() -> None:
    full = fake_results()
    entries = tuple(
        replace(entry, events=tuple(
            replace(event, withheld=event.kind_name == "moved") for event in entry.events
        ))
        for entry in full.journal.entries
    )  # fmt: skip
    site = render(replace(full, journal=replace(full.journal, entries=entries)))

    assert ENGLISH["book.hidden"] in site["groups/slate-f1.html"]
    assert "netted gently" not in site["entries/2026-05-02.html"]


def test_hidden_readings__are_not_shown() -> None:
    full = fake_results()
    site = render(replace(full, hidden=frozenset({EventId("2026-03-14-hazel", 1)})))

    assert "22.5" in render(full)["tanks/hazel.html"]
    assert "22.5" not in site["tanks/hazel.html"]
    assert "22.5" not in site["index.html"]


def test_page__has_no_link_to_itself_in_its_text(pages: dict[str, str]) -> None:
    for address, html in pages.items():
        main = html.partition("<main")[2].partition("</main>")[0]
        name = address.rsplit("/", maxsplit=1)[-1]
        assert f'href="{name}"' not in main, address


def test_digest__tells_safe_html_from_text_that_reads_the_same() -> None:
    @dataclass(frozen=True)
    class View:
        text: str

    text = "a &lt; b"

    assert render_module._digest(View(text)) != render_module._digest(View(Markup(text)))


def test_book__move_of_a_group_is_no_loss(pages: dict[str, str]) -> None:
    html = pages["groups/slate-f1.html"]
    book = html[html.index('<h2 id="book">') :]

    assert re.findall(r'<td class="number">([^<]*)</td>', book)[:6] == [
        "+15", "15", "15", "15", "\N{MINUS SIGN}1", "14",
    ]  # fmt: skip

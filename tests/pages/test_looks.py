"""Looks: a page for each, and what was seen and is not explained."""

import re
from dataclasses import replace

from filialog.journal.events import EventId
from filialog.messages import ENGLISH
from filialog.pages import render_pages
from tools.fake_results import FakeResults, empty_results, fake_results, theme


def render(results: FakeResults) -> dict[str, str]:
    return {
        page.address: page.body().decode() for page in render_pages(results, theme(), "0.1.0")
    }  # fmt: skip


def told(html: str) -> str:
    return " ".join(re.sub(r"<[^>]*>", " ", html.partition("<main")[2]).split())


def test_look__quotes_the_trait_file_as_a_claim() -> None:
    text = told(render(fake_results())["looks/pale.html"])

    assert text.startswith('id="text" tabindex="-1"> pale pale: see-through white.')
    assert "“see-through white”" in text
    assert "“One recessive allele makes them pale.” claimed" in text
    assert "the keeper’s counts" in text


def test_look__says_of_how_many_it_was_seen_and_from_which_cross() -> None:
    text = told(render(fake_results())["looks/pale.html"])

    assert "Of 20 young put to a look, 9 showed it, from one cross." in text
    assert "first try 9 of 20 45" in text
    assert "25 % observed" in text


def test_look__shows_genotypes_and_groups() -> None:
    site = render(fake_results())

    assert re.findall(r"<code>([^<]*)</code>", site["looks/dark.html"]) == ["P/P", "P/p"]
    assert '<a href="../groups/pale-next.html">pale-next</a>' in site["looks/pale.html"]
    must = told(site["looks/dark.html"])
    assert "Every member must show it, if the parents recorded are right: slate-f1" in must


def test_look__never_seen_and_known_to_no_model_is_said_calmly() -> None:
    full = fake_results()
    row = replace(full.look_rows["pale"], models=(), genotypes=(), shown_by=(), seen_in=())
    html = render(replace(full, look_rows={"pale": row}))["looks/pale.html"]

    for key in ("look.no-models", "look.no-genotypes", "look.no-groups", "look.not-seen"):
        assert ENGLISH[key] in html, key
    assert "No young have been put to a look yet." in html


def test_look__counted_and_never_seen_names_the_cross() -> None:
    full = fake_results()
    row = full.look_rows["pale"]
    never = replace(row.seen_in[0], seen=0)
    text = told(render(replace(full, look_rows={"pale": replace(row, seen_in=(never,))}))
                ["looks/pale.html"])  # fmt: skip

    assert "Counted, and never seen, in the young of: first try ." in text
    assert ENGLISH["look.not-seen"] in text


def test_looks__list_what_is_not_explained_with_its_entry() -> None:
    html = render(fake_results())["looks/index.html"]
    text = told(html)

    assert ENGLISH["looks.heading-unexplained"] in text
    assert ": 1 of slate-f2-a : “half pale”. observed" in text
    assert "1 in rowan : half-sided: left side pale, right side dark. observed" in text
    assert '<a class="ref" href="../entries/2026-08-20-rowan.html">' in html


def test_looks__hidden_event_is_not_listed() -> None:
    full = fake_results()
    site = render(replace(full, hidden=frozenset({EventId("2026-08-20-rowan", 0)})))

    assert "half pale" not in told(site["looks/index.html"])


def test_looks__of_an_empty_journal_are_two_calm_sentences() -> None:
    html = render(empty_results())["looks/index.html"]

    assert ENGLISH["list-empty.looks"] in html
    assert ENGLISH["looks.none-unexplained"] in html

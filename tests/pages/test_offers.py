"""Offers: what a buyer is told, how well it is known, and what is never told."""

import re
from dataclasses import replace

import pytest

from filialog.analysis.rows import Level, LotState
from filialog.journal.events import EventId, LookSeen
from filialog.journal.quantities import Count
from filialog.messages import ENGLISH
from filialog.pages import render_pages
from tools.fake_results import FakeResults, empty_results, fake_results, theme


def render(results: FakeResults) -> dict[str, str]:
    return {
        page.address: page.body().decode() for page in render_pages(results, theme(), "0.1.0")
    }  # fmt: skip


def told(html: str) -> str:
    return " ".join(re.sub(r"<[^>]*>", " ", html.partition("<main")[2]).split())


def test_offers__card_says_what_how_many_and_where_from() -> None:
    text = told(render(fake_results())["offers.html"])

    assert "To be had: 5 animals; 2 of them promised; offered on 21" in text
    assert "plain, all carriers" in text
    assert "look dark" in text
    assert "Dam: slate (named by the keeper" in text
    assert "The whole table" in text
    assert ENGLISH["offers.terms"].split(".")[0] in text


def test_offers__gone_lots_stand_apart_without_a_card() -> None:
    html = render(fake_results())["offers.html"]

    assert html.index('id="lot-pale-1"') < html.index('<h2 id="past">')
    assert html.index('<tr id="lot-old-ones">') > html.index('<h2 id="past">')
    assert "Gone to new keepers" in html


def test_front__lists_what_is_to_be_had_with_a_link_to_the_card() -> None:
    html = render(fake_results())["index.html"]

    assert '<a href="offers.html#lot-pale-1">pale-1</a>' in html
    assert "old ones" not in html
    assert "5 animals; 2 of them promised" in told(html)


def test_offers__say_the_water_was_never_measured() -> None:
    assert ENGLISH["offer.no-water"] in render(fake_results())["offers.html"]


def test_offers__last_water_comes_with_its_day() -> None:
    full = fake_results()
    lot = replace(full.lot_rows["pale-1"], tanks=("hazel",))
    text = told(render(replace(full, lot_rows={"pale-1": lot}))["offers.html"])

    assert "hazel , measured on 14 March 2026: pH 6.4, temperature 22.5" in text


def test_no_offer__is_one_calm_sentence() -> None:
    site = render(replace(fake_results(), lot_rows={}))

    assert ENGLISH["offers.none"] in site["offers.html"]
    assert ENGLISH["offers.no-past"] in site["offers.html"]
    assert ENGLISH["front.no-offers"] in site["index.html"]
    assert ENGLISH["offers.none"] in render(empty_results())["offers.html"]


def test_hidden_offer__is_on_no_page() -> None:
    full = fake_results()
    site = render(replace(full, hidden=frozenset({EventId("2026-08-21", 0)})))

    assert "all carriers" not in site["offers.html"] + site["index.html"]
    assert ENGLISH["offers.none"] in site["offers.html"]


@pytest.mark.parametrize("state", list(LotState))
def test_state__of_a_lot_has_words(state: LotState) -> None:
    full = fake_results()
    lot = replace(full.lot_rows["pale-1"], state=state)

    assert ENGLISH[f"lot-state.{state.value}"] in render(
        replace(full, lot_rows={"pale-1": lot})
    )["offers.html"]  # fmt: skip


def _genotype(**changes: object) -> str:
    """Return what is said of the genotype of the group on offer, changed."""
    full = fake_results()
    row = replace(full.group_rows["slate-f1"], **changes)  # type: ignore[arg-type]  # fields
    site = render(replace(full, group_rows={**full.group_rows, "slate-f1": row}))
    text = told(site["offers.html"])
    return text[text.index(" genotype ") + 10 : text.index(" generation ")]


def test_genotype__certain_by_the_parents_alone_is_no_showing() -> None:
    assert _genotype().startswith("Certain, if the parents recorded are right: every one is P/p")


def test_genotype__claimed_by_the_keeper_says_so() -> None:
    assert _genotype(genotypes_level=Level.CLAIMED).startswith("Claimed by the keeper: every one")


def _three() -> FakeResults:
    return fake_results()


def test_genotype__of_several_is_an_expectation_and_not_visible() -> None:
    genotypes = _three().group_rows["slate-f2-a"].genotypes[:2]
    said = _genotype(genotypes=genotypes, hidden=(("p", 2 / 3),), look=LookSeen(whole="dark"))

    assert said.startswith("Expected: 2 in 3 carry p unseen; it cannot be seen which.")


def test_genotype__without_hidden_alleles_lists_the_genotypes() -> None:
    genotypes = _three().group_rows["slate-f2-a"].genotypes

    assert _genotype(genotypes=genotypes, hidden=()).startswith(
        "Expected: 1 in 4 P/P, 1 in 2 P/p, 1 in 4 p/p;"
    )


def test_genotype__shown_needs_a_look_that_was_seen_and_one_genotype_shows() -> None:
    pale = tuple(one for one in _three().group_rows["slate-f2-a"].genotypes if one.look == "pale")
    one = (replace(pale[0], probability=1.0),)
    seen = LookSeen(whole="pale")

    said = _genotype(genotypes=one, hidden=(), look=seen)
    assert said.startswith("Shown: they were seen to be pale, and only p/p shows that.")
    assert "observed" in said
    assert _genotype(genotypes=one, hidden=(), look=None).startswith("Certain, if")
    tally = replace(
        _three().group_rows["slate-f2-a"].tallies[0],
        looks=(("dark", Count.of(0)), ("pale", Count.of(9))),
    )
    assert _genotype(genotypes=one, hidden=(), tallies=(tally,)).startswith("Shown:")
    mixed = replace(tally, looks=(("dark", Count.of(1)), ("pale", Count.of(9))))
    assert _genotype(genotypes=one, hidden=(), tallies=(tally, mixed)).startswith("Certain, if")


def test_genotype__of_a_look_that_several_genotypes_show_is_not_shown_by_it() -> None:
    assert _genotype(look=LookSeen(whole="dark")).startswith("Certain, if the parents")


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({"genotypes": ()}, "no-genotypes"),
        ({"genotypes": (), "model": None}, "no-model"),
        ({"contradiction": (EventId("2026-08-20-rowan", 0),)}, "contradiction"),
        ({"look": LookSeen(left="pale", right="dark")}, "half-sided"),
    ],
)
def test_genotype__unknown_says_why(changes: dict[str, object], why: str) -> None:
    assert _genotype(**changes).startswith(ENGLISH[f"genotype-unknown.{why}"])

"""Rules of sense: what they report, what they leave alone, and that one cause is told of once."""

from dataclasses import replace

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from filialog.findings import Finding
from filialog.journal import check_journal
from filialog.journal.records import Journal, Section
from filialog.journal.rules.addresses_differ import folded_name
from filialog.pages.addresses import slug
from tools.cases import read_files
from tools.journals import (
    entry,
    event,
    group_page,
    journal,
    line_page,
    link,
    prose,
    settings,
    species,
    tank_page,
    trait_page,
)

_STOCK = event("present", on="2026-01-01", tank="fen", group="stock", count="10")


def _found(of: Journal) -> list[Finding]:
    return list(check_journal(of).findings)


def _codes(of: Journal) -> list[str]:
    return [finding.code for finding in _found(of)]


def _codes_of_text(files: dict[str, str]) -> list[str]:
    """Return the codes of all findings of a journal in text, those of reading first."""
    whole = {"journal.yaml": "title: The rack\n", "tanks/fen.md": "---\nlitres: 20\n---\n"} | files
    read = read_files({path: text.encode() for path, text in whole.items()})
    assert read.journal is not None
    return [finding.code for finding in (*read.findings, *check_journal(read.journal).findings)]


# --- one cause, one finding -----------------------------------------------------------------

_LATER = {
    "diary/2026-01-02.md": "---\ntank: fen\npresent: {group: stock, count: 10}\n---\n",
    "diary/2026-03-01.md": "---\ntank: fen\ndied: {group: novas, count: 1}\n---\nOne [[novas]].\n",
    "diary/2026-03-02.md": "---\ntank: fen\nmoved: {from: novas, as: nova-best, count: 2}\n---\n",
    "diary/2026-03-03.md": (
        "---\ntank: fen\nhatched: {brood: nova-young, dams: novas, sires: nova-best}\n"
        "sorted: {from: novas, into: {nova-rest: {count: 2, females: 2}}}\n"
        "joined: {parts: {novas: 2, stock: 1}, into: mixed}\n---\n"
    ),
    "groups/novas.md": "---\nsex: female\n---\nThe [[novas]].\n",
    "lines/nova.md": "---\nfounders: [novas, stock]\n---\n",
}
"""Much that speaks of the group `novas`."""


@pytest.mark.parametrize(
    ("broken", "code"),
    [
        pytest.param("---\ntank: fen\nbought: {group: novas, count: 4\n---\n", "R115", id="yaml"),
        pytest.param("---\ntank: fen\nbought: {group: novas}\n", "R005", id="not closed"),
        pytest.param("---\ndate: 2026-13-01\nbought: {group: novas}\n---\n", "R302", id="no day"),
        pytest.param("---\ntank: fen\nboght: {group: novas}\n---\n", "R201", id="mistyped"),
        pytest.param("---\ntank: fen\nsorted: {into: {novas: 4}}\n---\n", "R204", id="needs more"),
    ],
)
def test_broken_entry__causes_no_findings_for_later_mentions(broken: str, code: str) -> None:
    assert _codes_of_text({**_LATER, "diary/2026-01-05.md": broken}) == [code]


def test_later_mentions__without_the_broken_entry_are_findings() -> None:
    codes = _codes_of_text(_LATER)

    assert set(codes) == {"N101", "N102", "N105", "N107"}
    assert codes.count("N101") == 1


def test_broken_entry__does_not_silence_other_names() -> None:
    broken = "---\ntank: fen\nbought: {group: novas, count: 4\n---\n"
    other = "---\ntank: fen\ndied: {group: nowas, count: 1}\n---\n"

    codes = _codes_of_text({"diary/2026-01-05.md": broken, "diary/2026-03-01.md": other})

    assert codes == ["R115", "N101"]


def test_broken_tank_page__causes_no_findings_for_entries_of_the_tank() -> None:
    files = {
        "tanks/tarn.md": "---\nlitres: [20\n---\n",
        "diary/2026-01-05.md": (
            "---\ntank: tarn\npresent: {group: stock, count: 4}\nfed: 1 dab\n---\n[[tarn]].\n"
        ),
        "diary/2026-01-06.md": "---\nmoved: {group: stock, to: tarn}\n---\n",
        "diary/2026-01-07.md": "---\nstrayed: {from: tarn, to: fen}\n---\n",
    }

    assert _codes_of_text(files) == ["R115"]


def test_broken_trait_file__causes_no_findings_for_its_looks_and_alleles() -> None:
    looks = (
        "name: sheen\nsays: made up\nsource: made up\nloci:\n  s: {alleles: [S, s]}\n"
        "looks:\n  - look: matt\n    when: {s: has S}\n  - look: silky\n    when: {s: hom s\n"
    )
    files = {
        "traits/sheen.yaml": looks,
        "lines/one.md": "---\ntraits: one-locus-recessive\n---\n",
        "lines/two.md": "---\ntraits: sheen\n---\n",
        "diary/2026-01-05.md": (
            "---\ntank: fen\npresent: {group: stock, count: 4, genotype: S/s}\n"
            "counted: {group: stock, looks: {matt: 2, silky: 2}}\n---\n"
        ),
    }

    codes = _codes_of_text(files)

    assert codes
    assert {code[0] for code in codes} == {"R"}


def test_words_reported__keep_every_rule_of_names_quiet() -> None:
    text = entry(
        "2026-03-01",
        event("died", on="2026-03-01", tank="gone", group="lost", count="1"),
        event("moved", on="2026-03-01", tank="fen", group="stock", to="nowhere"),
        event("counted", on="2026-03-01", tank="fen", group="stock", looks={"odd": "1"}),
        event("bought", on="2026-03-01", tank="fen", group="new", genotype="Z/z"),
        on="2026-03-01",
        sections=[Section(tank=None, prose=prose(link("nothing")))],
    )
    broken = journal(
        _STOCK, text, tanks=["fen"], traits=[trait_page()], groups=[group_page("page")]
    )
    words = frozenset({"gone", "lost", "nowhere", "odd", "Z", "z", "nothing", "page"})

    assert sorted(set(_codes(broken))) == ["N101", "N102", "N103", "N105", "N107", "T101"]
    assert _codes(_with_reported(broken, words)) == []


def _with_reported(of: Journal, words: frozenset[str]) -> Journal:
    return replace(of, reported=words)


def test_unknown_group__points_at_three_more_places_and_counts_the_rest() -> None:
    deaths = [
        event("died", on=f"2026-03-{number:02}", tank="fen", group="lost", count="1")
        for number in range(1, 8)
    ]

    (finding,) = _found(journal(_STOCK, *deaths))

    assert finding.place.path.endswith("2026-03-01 fen.md")
    assert len(finding.related) == 3
    assert finding.notes == ("and at 3 more places",)


# --- names ----------------------------------------------------------------------------------


def test_tank__named_by_an_entry_of_prose_only_is_reported() -> None:
    only = entry("x", on="2026-01-02", tank="fne", sections=[Section(tank=None, prose=prose("."))])

    assert _codes(journal(_STOCK, only, tanks=["fen"])) == ["N102"]


def test_tank__needs_no_page_where_none_has_one() -> None:
    moved = event("moved", on="2026-02-01", tank="fen", group="stock", to="tarn")

    assert _codes(journal(_STOCK, moved)) == []


def test_look__is_not_judged_without_a_trait_model() -> None:
    tally = event("counted", on="2026-02-01", tank="fen", group="stock", looks={"odd": "1"})

    assert _codes(journal(_STOCK, tally)) == []


def test_genotype__needs_one_model_that_can_read_it() -> None:
    bought = event("bought", on="2026-02-01", tank="fen", group="new", genotype="D/d")

    assert _codes(journal(_STOCK, bought, traits=[trait_page()])) == []


_ALIKE = [["a", "A", "á", "ａ", "a\N{COMBINING ACUTE ACCENT}"], ["-", " ", ".", "--", "_", "'"]]
_ALIKE += [["ß", "ẞ", "ss"], ["ﬁ", "fi", "FI"], ["С", "с"], ["9", "９"], ["", "-"]]
_SIGNS = st.sampled_from(_ALIKE).flatmap(
    lambda alike: st.tuples(st.sampled_from(alike), st.sampled_from(alike))
)
_PAIRS = st.lists(_SIGNS, min_size=1, max_size=6).map(
    lambda signs: ("".join(one for one, _ in signs), "".join(other for _, other in signs))
)


@given(_PAIRS)
@example(("café", "cafe\N{COMBINING ACUTE ACCENT}"))
@example(("a.b", "a b"))
@example(("-a", "a"))
def test_names_of_one_address__are_folded_alike(pair: tuple[str, str]) -> None:
    """The addresses of the pages are the outside: whatever shares one must be reported."""
    one, other = pair
    assume(slug(one) == slug(other))

    assert folded_name(one) == folded_name(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [("a1", "a-1"), ("Сс F1", "Сс-F1"), ("...", "---"), ("ab", "a b")],
)
def test_names_of_different_addresses__are_folded_apart(one: str, other: str) -> None:
    assert slug(one) != slug(other)
    assert folded_name(one) != folded_name(other)


def test_crosses__of_one_address_are_reported() -> None:
    broods = [
        event("hatched", on="2026-02-01", tank="fen", brood="one", cross="First"),
        event("hatched", on="2026-02-02", tank="fen", brood="two", cross="first"),
    ]

    (finding,) = _found(journal(_STOCK, *broods))

    assert finding.code == "N106"
    assert finding.message == "cross `first` and cross `First` would share one address"


# --- parents --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("hatched", "codes"),
    [
        ("2026-04-21", []),
        ("2026-04-20", ["P102"]),
        ("2026-04-20/2026-04-21", []),
    ],
    ids=["on the first day", "a day too soon", "perhaps in time"],
)
def test_parents__can_be_adult_from_the_first_day_on(hatched: str, codes: list[str]) -> None:
    """60 days to breed and 20 to hatch after 2026-01-31 end on 2026-04-21."""
    dams = event("hatched", on="2026-01-31", tank="fen", brood="one", dams="stock", sires="stock")
    young = event("hatched", on=hatched, tank="fen", brood="two", dams="one", sires="stock")
    kept = journal(
        _STOCK,
        dams,
        young,
        kind_of=species(maturity_days=60, low_days=20),
        said=settings(species="brook-mite"),
    )

    assert _codes(kept) == codes


def test_parents__of_unknown_age_are_left_alone() -> None:
    young = event("hatched", on="2026-01-02", tank="fen", brood="one", dams="stock", sires="stock")

    assert _codes(journal(_STOCK, young, kind_of=species())) == []


def test_parents__one_of_two_groups_old_enough_is_enough() -> None:
    dams = event("hatched", on="2026-01-31", tank="fen", brood="one", dams="stock", sires="stock")
    young = event(
        "hatched", on="2026-02-10", tank="fen", brood="two", dams=("one", "stock"), sires="stock"
    )

    assert _codes(journal(_STOCK, dams, young, kind_of=species())) == []


def test_sex__one_of_two_groups_of_the_right_sex_is_enough() -> None:
    males = event("sorted", on="2026-01-05", tank="fen", from_="stock", into={"m": {"males": "3"}})
    young = event("hatched", on="2026-02-10", tank="fen", brood="two", dams=("m", "stock"))

    assert _codes(journal(_STOCK, males, young)) == []


def test_sex__all_groups_of_the_wrong_sex_are_named() -> None:
    males = event(
        "sorted",
        on="2026-01-05",
        tank="fen",
        from_="stock",
        into={"m": {"males": "3"}, "n": {"males": "2"}},
    )
    young = event("hatched", on="2026-02-10", tank="fen", brood="two", dams=("m", "n"))

    (finding,) = _found(journal(_STOCK, males, young))

    assert finding.message == "dams `m` and `n` of brood `two` are recorded as males only"


def test_loop__through_a_named_cross_points_at_the_pairing() -> None:
    events = [
        event("paired", on="2026-01-10", tank="fen", dams="two", sires="stock", cross="c"),
        event("hatched", on="2026-02-10", tank="fen", brood="one", cross="c"),
        event("hatched", on="2026-06-10", tank="fen", brood="two", dams="stock", sires="one"),
    ]

    (finding,) = [one for one in _found(journal(_STOCK, *events)) if one.code == "P101"]

    places = [finding.place, *(mark.place for mark in finding.related)]
    assert {place.path[6:16] for place in places} == {"2026-01-10", "2026-06-10"}
    assert "`two` from `one` from `two`" in finding.notes[0]


def test_pages__of_known_things_are_left_alone() -> None:
    kept = journal(
        _STOCK,
        tanks=[tank_page("fen", text=prose(link("stock"), link("pale"), link("fen")))],
        groups=[group_page("stock", genotype="D/-", sex="female")],
        lines=[line_page("pale", goal="bright", founders=["stock"])],
        traits=[trait_page()],
    )

    assert _codes(kept) == []

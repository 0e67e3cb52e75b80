"""What the pages show of a group's ancestors, how far back, and where they go on."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

import pytest

from filialog.analysis.pedigree_graph import KinRow
from filialog.analysis.rows import BookLine
from filialog.journal.events import EventId, LookSeen
from filialog.journal.quantities import Count, When
from filialog.messages import ENGLISH, Words
from filialog.pages import render_pages
from filialog.pages.drawing import MAX_NODES
from filialog.pages.here import Here, Site
from filialog.pages.pedigree import pedigree_page, pedigree_view
from filialog.pages.pedigree_nodes import death_of, pedigree_nodes
from filialog.pages.pedigree_walk import MOST_BESIDE, MOST_DRAWN, has_more, nearest_kin
from filialog.pages.pictures import NO_PICTURES
from tools.fake_results import FakeResults, fake_results, kin, theme

EVENT = EventId("2026-01-03-hazel", 0)


def with_kin(*rows: KinRow) -> FakeResults:
    """Return results whose groups have these rows, each with a page of its own."""
    full = fake_results()
    plain = replace(full.group_rows["slate"], look=None)
    names = dict.fromkeys(name for row in rows for name in (row.group, *row.behind))
    groups = {name: replace(plain, group=name) for name in names}
    return replace(
        full, group_rows={**full.group_rows, **groups}, kin_rows={row.group: row for row in rows}
    )


def tree(depth: int) -> FakeResults:
    """Return results with a full tree of ancestors above `x`."""
    rows = []
    names = ["x"]
    for _ in range(depth):
        rows += [kin(name, dams=(f"{name}d",), sires=(f"{name}s",)) for name in names]
        names = [name + side for name in names for side in "ds"]
    return with_kin(*rows)


def here_of(results: FakeResults, address: str = "groups/x.html") -> Here:
    return Here(Site(results, Words(ENGLISH), "0.1.0", NO_PICTURES), address)


def pages_of(results: FakeResults) -> Mapping[str, str]:
    return {
        page.address: page.body().decode() for page in render_pages(results, theme(), "0.1.0")
    }  # fmt: skip


# --- which ancestors ------------------------------------------------------------------------


def test_nearest_kin__of_a_small_pedigree_is_all_of_it() -> None:
    walk = nearest_kin(tree(3), "x", most=MOST_BESIDE)

    assert len(walk.rows) == 15
    assert walk.cut == frozenset()
    assert not has_more(tree(3), "x")


def test_nearest_kin__stops_after_whole_sets_of_parents() -> None:
    walk = nearest_kin(tree(6), "x", most=MOST_BESIDE)
    shown = {row.group for row in walk.rows}

    assert len(walk.rows) == 15
    assert walk.cut == {name for name in shown if len(name) == 4}
    assert has_more(tree(6), "x")


def test_nearest_kin__of_500_are_the_nearest_200() -> None:
    walk = nearest_kin(tree(8), "x", most=MOST_DRAWN)
    steps = [len(row.group) - 1 for row in walk.rows]

    assert MOST_DRAWN - 2 < len(walk.rows) <= MOST_DRAWN
    assert steps == sorted(steps)
    assert max(steps) == 7


def test_nearest_kin__shows_the_own_parents_however_many() -> None:
    many = tuple(f"m{number}" for number in range(40))
    walk = nearest_kin(with_kin(kin("x", dams=many, sires=many)), "x", most=MOST_BESIDE)

    assert len(walk.rows) == 41
    assert walk.cut == frozenset()


def test_nearest_kin__is_cut_where_the_own_parents_are_more_than_can_be_drawn() -> None:
    many = tuple(f"m{number}" for number in range(MOST_DRAWN))
    walk = nearest_kin(with_kin(kin("x", dams=many, sires=many)), "x", most=MOST_DRAWN)

    assert [row.group for row in walk.rows] == ["x"]
    assert walk.cut == {"x"}


def test_nearest_kin__visits_a_group_on_a_million_paths_once() -> None:
    """Thirty times a brood of brother and sister: a tree would have 2 ** 30 places."""
    rows = [kin(f"g{at}", dams=(f"g{at + 1}a", f"g{at + 1}b"), sires=(f"g{at + 1}a",))
            for at in range(30)]  # fmt: skip
    rows += [kin(f"g{at}{part}", sources=(f"g{at}",)) for at in range(1, 30) for part in "ab"]
    walk = nearest_kin(with_kin(*rows), "g0", most=MOST_DRAWN)
    names = [row.group for row in walk.rows]

    assert len(names) == len(set(names)) == 1 + 29 * 3 + 2


def test_nearest_kin__of_a_cut_group_that_is_all_shown_is_not_cut() -> None:
    many = tuple(f"m{number}" for number in range(8))
    rows = [
        kin("x", dams=("d",), sires=("s",)),
        kin("d", dams=many, sires=many),
        kin("s", dams=("e",), sires=("e",)),
        kin("e", dams=tuple(f"n{number}" for number in range(9)), sires=many),
    ]
    walk = nearest_kin(with_kin(*rows), "x", most=12)

    assert walk.cut == {"e"}


# --- what is drawn --------------------------------------------------------------------------


def test_nodes__of_sets_and_unknown_parents() -> None:
    results = with_kin(
        kin("x", dams=("a", "b"), sires=()), kin("a", sources=("c",)), kin("b", sources=("c",))
    )
    here = here_of(results)
    nodes = {
        node.label: node
        for node in pedigree_nodes(here, nearest_kin(results, "x", most=MOST_BESIDE))
    }

    assert nodes["one of 2 groups"].is_set
    assert nodes["one of 2 groups"].sex == "female"
    assert nodes["one of 2 groups"].parents == (("group a", "part"), ("group b", "part"))
    assert nodes["unknown"].sex == "male"
    assert {side for _, side in nodes["x"].parents} == {"dam", "sire"}
    assert nodes["x"].is_subject
    assert nodes["x"].href is None
    assert nodes["a"].href == "a.html"


def test_nodes__never_more_than_can_be_drawn() -> None:
    """Every group has two sets of its own, so that nodes run out before groups do."""
    rows = [
        kin(f"g{at}", dams=(f"g{at + 1}", f"g{at + 2}"), sires=(f"g{at + 1}", f"g{at + 3}"))
        for at in range(250)
    ]
    results = with_kin(*rows)
    walk = nearest_kin(results, "g0", most=MOST_DRAWN)
    nodes = pedigree_nodes(here_of(results), walk)

    assert walk.cut
    assert MAX_NODES - 5 < len(nodes) <= MAX_NODES


def test_nodes__where_the_drawing_stops_a_link_leads_on() -> None:
    results = tree(6)
    here = here_of(results)
    nodes = pedigree_nodes(here, nearest_kin(results, "x", most=MOST_BESIDE))
    ends = [node for node in nodes if node.goes_on]

    assert len(ends) == 8
    assert all(node.href == f"{node.label}.html#pedigree" for node in ends)
    assert all(node.parents == () for node in ends)
    assert all("more ancestors on its own page" in node.told for node in ends)


def _line(kind: str, change: int | None, after: int, day: str, **more: object) -> BookLine:
    plain = BookLine(
        event=EVENT,
        when=When.on(date.fromisoformat(day)),
        kind_name=kind,
        tank="hazel",
        to_tank=None,
        other_group=None,
        change=None if change is None else Count.of(change),
        gained=False,
        after=Count.of(after),
        shared_with=(),
        unaccounted=None,
    )
    return replace(plain, **more)  # type: ignore[arg-type]  # the test that calls it says which


@pytest.mark.parametrize(
    ("book", "died"),
    [
        pytest.param((), None, id="no_book"),
        pytest.param(
            (_line("died", 1, 0, "2026-03-04"),), "4\N{NO-BREAK SPACE}Mar 2026", id="the_only_one"
        ),
        pytest.param(
            (_line("died", 2, 1, "2026-03-04"), _line("died", 1, 0, "2026-03-09")),
            "9\N{NO-BREAK SPACE}Mar 2026",
            id="one_after_the_other",
        ),
        pytest.param((_line("died", 2, 1, "2026-03-04"),), None, id="one_left"),
        pytest.param(
            (_line("sold", 2, 1, "2026-03-04"), _line("died", 1, 0, "2026-03-09")),
            None,
            id="some_were_sold",
        ),
        pytest.param(
            (
                _line("died", 1, 1, "2026-03-04"),
                _line("counted", None, 0, "2026-03-09", unaccounted=Count.of(1)),
            ),
            None,
            id="one_is_missing",
        ),
        pytest.param(
            (
                _line("moved", 1, 1, "2026-03-04", to_tank="rowan"),
                _line("died", 1, 0, "2026-03-09"),
            ),
            "9\N{NO-BREAK SPACE}Mar 2026",
            id="changed_tanks_before",
        ),
        pytest.param(
            (
                _line("moved", 1, 1, "2026-03-04", to_tank="rowan", other_group="b"),
                _line("died", 1, 0, "2026-03-09"),
            ),
            None,
            id="one_lives_on_in_another_group",
        ),
    ],
)  # fmt: skip
def test_death__is_told_only_where_all_of_a_group_died(
    book: tuple[BookLine, ...], died: str | None
) -> None:
    results = with_kin(kin("x", dams=("a",), sires=("b",)))
    rows = {**results.group_rows, "a": replace(results.group_rows["a"], book=book)}
    results = replace(results, group_rows=rows)
    here = here_of(results)
    nodes = pedigree_nodes(here, nearest_kin(results, "x", most=MOST_BESIDE))
    (node,) = [node for node in nodes if node.label == "a"]

    assert death_of(here, "a") == died
    assert node.deceased is (died is not None)
    assert (f"died {died}" in node.told) is (died is not None)


def test_death__that_is_not_published_is_not_shown() -> None:
    results = with_kin(kin("x", dams=("a",), sires=("b",)))
    rows = {
        **results.group_rows,
        "a": replace(results.group_rows["a"], book=(_line("died", 1, 0, "2026-03-04"),)),
    }
    results = replace(results, group_rows=rows, hidden=frozenset({EVENT}))

    assert death_of(here_of(results), "a") is None


# --- pages ----------------------------------------------------------------------------------


def test_view__has_a_table_line_for_each_group_once() -> None:
    rows = [kin(f"g{at}", dams=(f"g{at + 1}",), sires=(f"g{at + 1}",)) for at in range(12)]
    view = pedigree_view(here_of(with_kin(*rows)), "g0")
    assert view is not None
    named = [line.group.striptags() for line in view.kin]

    assert named == [f"g{at}" for at in range(13)]
    assert view.kin[0].comes_from.striptags() == "dam g1; sire g1"
    assert view.kin[-1].comes_from == "nothing recorded before them"


def test_view__legend_explains_the_signs_and_looks_of_this_drawing_only() -> None:
    results = with_kin(kin("x", dams=("a",), sires=("b",)))
    pale = replace(results.group_rows["a"], look=LookSeen(whole="pale"))
    results = replace(results, group_rows={**results.group_rows, "a": pale})
    view = pedigree_view(here_of(results), "x")
    assert view is not None
    said = [line.says for line in view.legend]

    assert "look: pale" in said
    assert "look: dark" not in said
    assert ENGLISH["legend.sire"] in said
    assert ENGLISH["legend.set"] not in said
    assert ENGLISH["legend.related"] not in said


def test_view__of_a_founder_is_none() -> None:
    assert pedigree_view(here_of(with_kin(kin("x"))), "x") is None


def test_pages__of_a_large_pedigree_link_to_the_whole_of_it() -> None:
    site = pages_of(tree(5))

    assert 'href="../pedigree/x.html"' in site["groups/x.html"]
    assert "pedigree/xdd.html" not in site
    assert "in 62 groups" in site["pedigree/x.html"]
    assert site["pedigree/x.html"].count('class="d-node') == 63
    assert " style=" not in site["pedigree/x.html"]


def test_page__of_a_pedigree_too_large_says_so() -> None:
    page = pedigree_page(here_of(tree(8), "pedigree/x.html"), "x")
    shown = page.pedigree.drawing.count('class="d-node')

    assert f"The {shown - 1} nearest groups" in page.opening
    assert re.search(r'href="\.\./groups/x[ds]{7}\.html#pedigree"', page.pedigree.drawing)


@dataclass(frozen=True, kw_only=True)
class _Counting(FakeResults):
    asked: list[str]

    def kin(self, group: str) -> KinRow:
        self.asked.append(group)
        return FakeResults.kin(self, group)


def test_has_more__looks_no_further_than_it_must() -> None:
    full = tree(8)
    counting = _Counting(
        journal=full.journal, as_of=full.as_of, group_rows=full.group_rows,
        kin_rows=full.kin_rows, asked=[],
    )  # fmt: skip

    assert has_more(counting, "x")
    assert len(counting.asked) <= MOST_BESIDE

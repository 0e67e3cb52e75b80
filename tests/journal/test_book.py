"""What the book makes of a diary: differences, refusals, orders of a day, windows, colonies."""

import random
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import date
from itertools import permutations
from typing import Any

import pytest

from filialog.findings import Finding
from filialog.journal import check_journal
from filialog.journal.events import Event
from filialog.journal.ledger import Book, keep_book
from filialog.journal.names import names_of
from filialog.journal.quantities import Count
from filialog.journal.records import Journal
from tools.journals import day, drawn, event, journal, line_of, species
from tools.worlds import Worlds

END = date(2026, 12, 31)


def _kept(*events: Event, as_of: date = END) -> tuple[Journal, Book, tuple[Finding, ...]]:
    named = [one.tank for one in events]
    named += [one.text(key) for one in events for key in ("from", "to")]
    tanks = sorted({name for name in named if name and len(name) == 1 and name < "f"})
    whole = journal(*events, tanks=tanks)
    book, findings = keep_book(whole, names_of(whole), as_of=as_of)
    return whole, book, findings


def _numbers(book: Book, on: str = "2026-12-31") -> dict[str, str]:
    """Return who is where, as `x in a`."""
    return {f"{one.group} in {one.tank}": one.count.text for one in book.holdings(day(on))}


def _codes(findings: Iterable[Finding]) -> list[str]:
    return [finding.code for finding in findings]


def _told(whole: Journal, findings: Sequence[Finding]) -> str:
    return "\n\n".join(drawn(whole, finding) for finding in findings)


X10 = event("present", on="2026-01-01", tank="a", group="x", count=10)
Y3 = event("present", on="2026-01-02", tank="a", group="y", count=3)


# --- counts and the book --------------------------------------------------------------------


def test_total_count__below_the_book_leaves_exactly_the_gap_unaccounted() -> None:
    whole, book, findings = _kept(
        X10, event("counted", on="2026-01-05", tank="a", group="x", how="emptied", count=8)
    )

    assert _numbers(book) == {"x in a": "8"}
    (difference,) = book.differences
    assert (difference.groups, difference.tank, difference.found) == (("x",), "a", False)
    assert book.count(difference.number).exact == 2
    assert _told(whole, findings) == (
        "note[L204]: 8 counted of `x`, the book has 10\n"
        "  --> diary/2026-01-05 a.md:3:1\n"
        "   |\n"
        " 3 | counted: {group: x, how: emptied, count: 8}\n"
        "   | ^^^^^^^ fewer than on the book\n"
        "   = note: the difference is kept as unaccounted and shown"
    )


def test_total_count__above_the_book_finds_exactly_the_gap() -> None:
    whole, book, findings = _kept(
        X10, event("counted", on="2026-01-05", tank="a", group="x", all=True, count=13)
    )

    assert _numbers(book) == {"x in a": "13"}
    (difference,) = book.differences
    assert (difference.found, book.count(difference.number).exact) == (True, 3)
    assert _told(whole, findings) == (
        "note[L201]: 13 counted of `x`, the book has 10\n"
        "  --> diary/2026-01-05 a.md:3:1\n"
        "   |\n"
        " 3 | counted: {group: x, all: true, count: 13}\n"
        "   | ^^^^^^^ more than on the book\n"
        "   = note: the difference is kept as unaccounted and shown"
    )


def test_total_count__of_a_tank_leaves_open_which_group_the_missing_are_of() -> None:
    _, book, findings = _kept(
        X10, Y3, event("counted", on="2026-01-05", tank="a", how="emptied", count=12)
    )

    assert _numbers(book) == {"x in a": "9-10", "y in a": "2-3"}
    assert book.number_in([("x", "a"), ("y", "a")], END).exact == 12
    assert _codes(findings) == ["L204"]
    assert [len(book.postings[group]) for group in ("x", "y")] == [2, 2]


@pytest.mark.parametrize("how", ["netted", "looked", "photo", None])
def test_count__that_is_no_total_raises_only_the_lower_bound(how: str | None) -> None:
    many = event("present", on="2026-01-01", tank="a", group="x", count="8-12")
    said = {"how": how} if how else {}
    few = replace(
        event("counted", on="2026-01-05", tank="a", group="x", count=9),
        values={"group": "x", "count": Count.of(9), **said},
    )

    _, book, findings = _kept(many, few)

    assert _numbers(book) == {"x in a": "9-12"}
    assert _numbers(book, "2026-01-01") == {"x in a": "9-12"}
    assert findings == ()
    assert book.differences == ()


def test_count__that_is_no_total_and_beyond_the_book_leaves_the_end_open() -> None:
    _, book, findings = _kept(
        X10, event("counted", on="2026-01-05", tank="a", group="x", how="netted", count=12)
    )

    assert _numbers(book) == {"x in a": "12+"}
    assert _codes(findings) == ["L201"]
    assert book.count(book.differences[0].number).text == "2+"


def test_count__by_classes_is_the_sum_of_all_classes() -> None:
    _, book, findings = _kept(
        X10,
        event(
            "counted",
            on="2026-01-05",
            tank="a",
            group="x",
            how="emptied",
            looks={"dull": 5, "bright": "1-2"},
            other=[{"count": 1, "note": "half and half"}],
            unsorted=1,
        ),
    )

    assert _numbers(book) == {"x in a": "8-9"}
    assert _codes(findings) == ["L204"]


def test_count__of_all_young_leaves_the_adults_alone() -> None:
    brood = event("hatched", on="2026-01-03", tank="a", brood="young", count="5-9")
    young = event("counted", on="2026-01-20", tank="a", all_young=True, how="emptied", count=6)
    grown = event("counted", on="2026-06-20", tank="a", all_young=True, how="emptied", count=2)
    whole = journal(X10, brood, young, grown, tanks=["a"], kind_of=species(maturity_days=60))

    book, findings = keep_book(whole, names_of(whole), as_of=END)

    assert _numbers(book) == {"x in a": "10", "young in a": "6"}
    # None of the broods is young any more: those that were counted are of no group of the book.
    assert [finding.message for finding in findings] == ["2 counted of tank `a`, the book has 0"]


def test_count__in_a_tank_where_the_book_has_none_is_of_a_group_that_was_there() -> None:
    _, book, findings = _kept(
        X10,
        event("moved", on="2026-01-05", tank="a", group="x", to="b"),
        event("counted", on="2026-01-09", tank="a", how="looked", count=2),
    )

    assert _numbers(book) == {"x in a": "2+", "x in b": "10"}
    assert _codes(findings) == ["L201"]


def test_count__in_a_tank_that_never_held_a_group_is_a_difference_of_none() -> None:
    whole, book, findings = _kept(
        X10, event("counted", on="2026-01-09", tank="b", how="emptied", count="2-3")
    )

    assert _numbers(book) == {"x in a": "10"}
    (difference,) = book.differences
    assert (difference.groups, book.count(difference.number).text) == ((), "2-3")
    assert drawn(whole, findings[0]).startswith(
        "note[L201]: 2-3 counted of tank `b`, the book has 0\n"
    )


def test_count__is_not_booked_where_the_group_is_elsewhere() -> None:
    whole, book, findings = _kept(
        X10,
        event("bought", on="2026-01-02", tank="b", group="y", count=1),
        event("counted", on="2026-01-05", tank="b", group="x", how="emptied", count=4),
    )

    assert _numbers(book) == {"x in a": "10", "y in b": "1"}
    assert _told(whole, findings) == (
        "error[L102]: counted: `x` is not in tank `b` on 2026-01-05\n"
        "  --> diary/2026-01-05 b.md:3:18\n"
        "   |\n"
        " 3 | counted: {group: x, how: emptied, count: 4}\n"
        "   |                  ^ the book has it in `a`\n"
        "   = see diary/2026-01-01 a.md:3:1: `x` last present here, on 2026-01-01\n"
        "   = help: name the tank it was in, or write down the move that is missing"
    )


def test_count__between_bounds_that_no_number_of_the_book_agrees_with_is_a_difference() -> None:
    """Each two of three hold one: the first and the last hold none or two, never one."""
    three = [
        event("present", on="2026-01-01", entry=f"1 {name}", tank="a", group=name, count="0-1")
        for name in "xyz"
    ]
    pairs = [
        event("counted", on=f"2026-01-0{number}", tank="a", of=pair, how="emptied", count=1)
        for number, pair in ((2, ["x", "y"]), (3, ["y", "z"]), (4, ["x", "z"]))
    ]

    _, book, findings = _kept(*three, *pairs)

    assert [finding.message for finding in findings] == ["1 counted of `x`, `z`, the book has 0-2"]
    (difference,) = book.differences
    assert book.count(difference.number).exact == 1
    assert book.number_in([("x", "a"), ("z", "a")], END).exact == 1


# --- more than there is ---------------------------------------------------------------------


def test_named_death__of_more_than_there_are_is_refused_and_points_at_both_entries() -> None:
    whole, book, findings = _kept(
        X10,
        event("sold", on="2026-01-05", tank="a", group="x", count=7),
        event("sold", on="2026-01-06", tank="a", group="x", count=4),
        event("died", on="2026-01-07", tank="a", group="x", count=3),
    )

    assert _told(whole, findings) == (
        "error[L101]: sold: 4 of `x`, more than can be there\n"
        "  --> diary/2026-01-06 a.md:3:25\n"
        "   |\n"
        " 3 | sold: {group: x, count: 4}\n"
        "   |                         ^ on 2026-01-06 the book has 3\n"
        "   = see diary/2026-01-05 a.md:3:1: `x` last sold here, on 2026-01-05\n"
        "   = help: correct the count or the name, or write down what is missing, such as a birth,"
        " a purchase or a move"
    )
    # It is not booked, and later events go on from there.
    assert _numbers(book) == {}
    assert _numbers(book, "2026-01-06") == {"x in a": "3"}


def test_named_death__where_none_is_left_is_refused() -> None:
    whole, _, findings = _kept(
        X10,
        event("moved", on="2026-01-05", tank="a", group="x", to="b"),
        event("sold", on="2026-01-06", tank="b", group="x", count=10),
        event("died", on="2026-01-07", tank="b", group="x", count=1),
    )

    assert _told(whole, findings) == (
        "error[L101]: died: no `x` is left on 2026-01-07\n"
        "  --> diary/2026-01-07 b.md:3:15\n"
        "   |\n"
        " 3 | died: {group: x, count: 1}\n"
        "   |               ^ the book has 0\n"
        "   = see diary/2026-01-06 b.md:3:1: `x` last sold here, on 2026-01-06\n"
        "   = help: correct the name or the date, or write down what is missing"
    )


def test_group__used_before_it_is_there_is_refused() -> None:
    whole, _, findings = _kept(
        event("died", on="2026-01-01", tank="a", group="x", count=1),
        event("bought", on="2026-02-01", tank="a", group="x", count=4),
    )

    assert _told(whole, findings) == (
        "error[L103]: died: group `x` is not there yet on 2026-01-01\n"
        "  --> diary/2026-01-01 a.md:3:15\n"
        "   |\n"
        " 3 | died: {group: x, count: 1}\n"
        "   |               ^ used before it comes into being\n"
        "   = see diary/2026-02-01 a.md:3:1: `x` comes into being on 2026-02-01\n"
        "   = help: correct one of the two dates, or the name"
    )


def test_move__out_of_an_empty_tank_is_refused() -> None:
    whole, _, findings = _kept(X10, event("moved", on="2026-01-05", from_="b", to="a"))

    assert _told(whole, findings) == (
        "error[L101]: moved: no animal is in tank `b` on 2026-01-05\n"
        "  --> diary/2026-01-05.md:3:15\n"
        "   |\n"
        " 3 | moved: {from: b, to: a}\n"
        "   |               ^ the book has 0\n"
        "   = help: correct the tank or the date, or write down what is missing"
    )


def test_sorting__into_more_than_there_are_points_at_the_new_groups() -> None:
    whole, book, findings = _kept(
        Y3, event("sorted", on="2026-01-05", tank="a", from_="y", into={"p": 2, "q": 2})
    )

    assert _numbers(book) == {"y in a": "3"}
    assert drawn(whole, findings[0]).splitlines()[:5] == [
        "error[L101]: sorted: 4 of `y`, more than can be there",
        "  --> diary/2026-01-05 a.md:3:25",
        "   |",
        " 3 | sorted: {from: y, into: {p: {count: 2}, q: {count: 2}}}",
        f"   | {' ' * 24}{'^' * 30} on 2026-01-05 the book has 3",
    ]


def test_sorting__that_leaves_some_in_their_group_says_nothing_of_those() -> None:
    _, book, findings = _kept(
        Y3, event("sorted", on="2026-01-05", tank="a", from_="y", into={"y": 2, "p": 1})
    )

    assert _numbers(book) == {"y in a": "2", "p in a": "1"}
    assert [(one.kind_name, one.other_group) for one in book.postings["y"]] == [
        ("present", None),
        ("sorted", "p"),
    ]
    assert findings == ()


def test_joining__of_a_group_with_itself_moves_nothing() -> None:
    _, book, findings = _kept(
        Y3,
        event("joined", on="2026-01-05", tank="b", parts={"y": "all"}, into="y"),
        event("counted", on="2026-01-09", tank="b", how="emptied", count=2),
    )

    assert _numbers(book) == {"y in a": "3"}
    assert [finding.message for finding in findings] == ["2 counted of tank `b`, the book has 0"]


def test_joining__to_a_total_that_cannot_be_is_refused() -> None:
    _, book, findings = _kept(
        X10,
        Y3,
        event("joined", on="2026-01-05", tank="a", parts={"x": "some", "y": 1}, into="z", count=14),
    )

    assert _numbers(book) == {"x in a": "10", "y in a": "3"}
    assert _codes(findings) == ["L101"]


def test_joining__counts_what_was_in_the_group_already() -> None:
    _, book, findings = _kept(
        X10,
        Y3,
        event(
            "joined", on="2026-01-05", tank="a", parts={"x": "some", "y": "all"}, into="y", count=7
        ),
    )

    assert _numbers(book) == {"x in a": "6", "y in a": "7"}
    assert findings == ()


def test_unnamed_deaths__beyond_the_tank_are_a_warning_and_unaccounted() -> None:
    whole, book, findings = _kept(Y3, event("died", on="2026-01-05", tank="a", count=5))

    assert _numbers(book) == {}
    (difference,) = book.differences
    assert (difference.groups, difference.found) == ((), True)
    assert book.count(difference.number).exact == 2
    assert _told(whole, findings) == (
        "warning[L203]: died in tank `a`: 2 more than the book has there\n"
        "  --> diary/2026-01-05 a.md:3:15\n"
        "   |\n"
        " 3 | died: {count: 5}\n"
        "   |               ^ the book has 3\n"
        "   = note: the difference is kept as unaccounted\n"
        "   = help: write down which group they were of, if another move is missing"
    )


def test_unnamed_death__is_of_what_arrives_on_the_same_day() -> None:
    _, book, findings = _kept(
        X10,
        event("died", on="2026-01-05", tank="b", count=1),
        event("moved", on="2026-01-05", tank="a", group="x", to="b"),
    )

    assert _numbers(book) == {"x in b": "9"}
    assert findings == ()


def test_unnamed_death__in_no_tank_can_be_of_any_group() -> None:
    _, book, findings = _kept(
        X10,
        event("bought", on="2026-01-02", tank="b", group="y", count=1),
        event("died", on="2026-01-05", count=1),
    )

    assert _numbers(book) == {"x in a": "9-10", "y in b": "0-1"}
    assert findings == ()


# --- one cause, one finding -----------------------------------------------------------------


def test_refused_event__does_not_make_what_follows_from_it_a_finding() -> None:
    _, _, findings = _kept(
        Y3,
        event("moved", on="2026-01-05", tank="a", group="y", to="b", as_="z", count=9),
        event("died", on="2026-01-06", tank="b", group="z", count=1),
        event("sorted", on="2026-01-07", tank="b", from_="z", into={"zz": 2}),
        event("sold", on="2026-01-08", tank="b", group="zz", count=1),
        event("counted", on="2026-01-08", tank="b", how="emptied", count=2),
        event("died", on="2026-01-09", tank="b", count=1),
    )

    assert _codes(findings) == ["L101"]


def test_refused_move__does_not_make_the_closing_of_the_tank_a_finding() -> None:
    _, _, findings = _kept(
        Y3,
        event("moved", on="2026-01-05", tank="a", group="y", to="b", count=9),
        event("closed", on="2026-01-06", tank="a"),
    )

    assert _codes(findings) == ["L101"]


def test_refused_event__does_not_hide_another_cause() -> None:
    _, _, findings = _kept(
        X10,
        Y3,
        event("moved", on="2026-01-05", tank="a", group="y", to="b", count=9),
        event("sold", on="2026-01-06", tank="a", group="x", count=11),
    )

    assert _codes(findings) == ["L101", "L101"]


def test_event_with_an_unknown_name__does_not_make_what_follows_from_it_a_finding() -> None:
    whole = journal(
        Y3,
        event("moved", on="2026-01-05", tank="a", group="y", to="nowhere"),
        event("died", on="2026-01-06", tank="b", group="y", count=1),
        tanks=["a", "b"],
    )

    assert _codes(check_journal(whole).findings) == ["N102"]


# --- tanks taken down -----------------------------------------------------------------------


def test_closing__with_animals_on_the_book_is_a_warning_and_they_are_unaccounted() -> None:
    whole, book, findings = _kept(X10, event("closed", on="2026-02-01", tank="a", note="broken"))

    assert _numbers(book) == {}
    assert book.closed == {"a": day("2026-02-01")}
    assert [one.unaccounted for one in book.postings["x"]] == [False, True]
    assert _told(whole, findings) == (
        "warning[L205]: tank `a` is taken down with `x` still on its book\n"
        "  --> diary/2026-02-01 a.md:3:1\n"
        "   |\n"
        " 3 | closed: {note: broken}\n"
        "   | ^^^^^^ their whereabouts are unaccounted from here on\n"
        "   = see diary/2026-01-01 a.md:3:1: `x` last present here, on 2026-01-01\n"
        "   = help: write down where they went, or `left: {young: some}`"
    )


def test_closed_tank__takes_no_animals() -> None:
    whole, book, findings = _kept(
        X10,
        event("closed", on="2026-02-01", tank="b"),
        event("moved", on="2026-02-05", tank="a", group="x", to="b"),
    )

    assert _numbers(book) == {"x in a": "10"}
    assert _told(whole, findings) == (
        "error[L104]: moved: tank `b` was taken down before 2026-02-05\n"
        "  --> diary/2026-02-05 a.md:3:23\n"
        "   |\n"
        " 3 | moved: {group: x, to: b}\n"
        "   |                       ^ no animal can be here\n"
        "   = see diary/2026-02-01 b.md:3:1: tank `b` closed on 2026-02-01\n"
        "   = help: correct one of the two dates, or write down that the tank is in use again,"
        " such as `cycle: begun`"
    )


@pytest.mark.parametrize("work", ["soil", "fitted", "cycle", "planted"])
def test_closed_tank__is_in_use_again_after_work_on_it(work: str) -> None:
    _, book, findings = _kept(
        X10,
        event("closed", on="2026-02-01", tank="b"),
        event("moved", on="2026-02-05", tank="a", group="x", to="b"),
        event(work, on="2026-02-05", tank="b", note="new"),
    )

    assert _numbers(book) == {"x in b": "10"}
    assert findings == ()


def test_closed_tank__of_animals_left_behind_gives_them_back_with_a_note() -> None:
    _, book, findings = _kept(
        X10,
        event("closed", on="2026-02-01", tank="a", left={"young": "some"}),
        event("moved", on="2026-02-09", tank="a", group="x", to="b", count=2),
    )

    assert _numbers(book) == {"x in b": "2"}
    assert _codes(findings) == ["L201"]
    assert book.count(book.differences[0].number).exact == 2


def test_closed_tank__counted_later_holds_what_was_counted() -> None:
    _, book, findings = _kept(
        X10,
        event("closed", on="2026-02-01", tank="a", left={"young": "some"}),
        event("counted", on="2026-02-09", tank="a", how="emptied", count=2),
        event("moved", on="2026-02-10", from_="a", to="b"),
    )

    assert _numbers(book) == {"x in b": "2"}
    assert _codes(findings) == ["L201"]


# --- colonies -------------------------------------------------------------------------------

COLONY = event("present", on="2026-01-01", tank="a", group="c", count="~40", colony=True)


def test_colony__has_an_open_end_and_is_never_impossible() -> None:
    _, book, findings = _kept(
        COLONY,
        event("sold", on="2026-02-01", tank="a", group="c", count=60),
        event("counted", on="2026-03-01", tank="a", group="c", how="netted", count=100),
        event("died", on="2026-04-01", tank="a", count=150),
    )

    assert _numbers(book, "2026-01-10") == {"c in a": "39+"}
    assert _numbers(book, "2026-03-10") == {"c in a": "100+"}
    assert book.number_of("c", END).high is None
    assert findings == ()


def test_colony__counted_whole_has_that_number_that_day_or_more_later() -> None:
    _, book, findings = _kept(
        COLONY,
        event("counted", on="2026-02-01", tank="a", group="c", how="emptied", count=50),
        event("counted", on="2026-03-01", tank="a", group="c", how="emptied", count=70),
    )

    assert _numbers(book, "2026-02-10") == {"c in a": "50+"}
    assert _numbers(book, "2026-03-10") == {"c in a": "70+"}
    assert findings == ()


def test_colony__counted_whole_below_the_book_misses_animals() -> None:
    _, book, findings = _kept(
        COLONY, event("counted", on="2026-02-01", tank="a", group="c", how="emptied", count=30)
    )

    assert _numbers(book) == {"c in a": "30+"}
    assert _codes(findings) == ["L204"]


def test_colony__later_births_do_not_make_it_larger_before() -> None:
    _, book, _ = _kept(COLONY, event("sold", on="2026-06-01", tank="a", group="c", count=300))

    assert _numbers(book, "2026-01-10") == {"c in a": "39+"}


def test_colony__breeds_in_every_tank_it_is_moved_to() -> None:
    _, book, findings = _kept(
        COLONY,
        event("moved", on="2026-02-01", tank="a", group="c", to="b", count=5),
        event("died", on="2026-05-01", tank="b", group="c", count=9),
    )

    assert _codes(findings) == []
    assert book.number_in([("c", "b")], day("2026-02-02")).text == "5+"


def test_colony__moved_as_a_new_group_is_a_group_like_any_other() -> None:
    _, book, findings = _kept(
        COLONY,
        event("moved", on="2026-02-01", tank="a", group="c", to="b", as_="picked", count=5),
        event("died", on="2026-05-01", tank="b", group="picked", count=9),
    )

    assert book.number_of("picked", END).exact == 5
    assert _codes(findings) == ["L101"]


# --- windows --------------------------------------------------------------------------------


def test_window__is_booked_on_its_last_day_and_covers_both_cases_before() -> None:
    _, book, findings = _kept(X10, event("died", on="2026-02-01/2026-02-09", group="x", count=4))

    assert _numbers(book, "2026-01-31") == {"x in a": "10"}
    assert _numbers(book, "2026-02-01") == {"x in a": "6-10"}
    assert _numbers(book, "2026-02-08") == {"x in a": "6-10"}
    assert _numbers(book, "2026-02-09") == {"x in a": "6"}
    assert findings == ()


def test_window__of_a_move_covers_both_tanks_and_leaves_the_group_exact() -> None:
    _, book, _ = _kept(X10, event("moved", on="2026-02-01/2026-02-09", tank="a", group="x", to="b"))

    assert _numbers(book, "2026-02-05") == {"x in a": "0-10", "x in b": "0-10"}
    assert book.number_of("x", day("2026-02-05")).exact == 10
    assert book.groups_in("b", day("2026-02-03"), day("2026-02-04")) == ("x",)
    assert book.groups_in("b", day("2026-01-03"), day("2026-01-04")) == ()


def test_window__is_booked_on_its_first_day_where_its_last_does_not_work() -> None:
    _, book, findings = _kept(
        X10,
        event("moved", on="2026-02-01/2026-02-09", tank="a", group="x", to="b", count=10),
        event("closed", on="2026-02-05", tank="a"),
        event("sold", on="2026-02-20", tank="b", group="x", count=6),
    )

    assert findings == ()
    assert _numbers(book, "2026-02-01") == {"x in a": "0-10", "x in b": "0-10"}
    assert _numbers(book, "2026-02-05") == {"x in b": "10"}


def test_window__is_booked_on_its_first_day_where_something_else_needs_it() -> None:
    _, book, findings = _kept(
        event("bought", on="2026-02-01/2026-02-09", tank="a", group="x", count=5),
        event("sold", on="2026-02-04", tank="a", group="x", count=3),
    )

    assert findings == ()
    assert _numbers(book, "2026-02-02") == {"x in a": "0-5"}
    assert _numbers(book, "2026-02-04") == {"x in a": "2"}
    assert _numbers(book, "2026-02-09") == {"x in a": "2"}


def test_window__leaves_out_days_on_which_there_were_too_few() -> None:
    _, book, findings = _kept(
        event("bought", on="2026-01-01", tank="a", group="x", count=2),
        event("bought", on="2026-02-05", tank="a", group="x", count=5),
        event("died", on="2026-02-01/2026-02-09", tank="a", group="x", count=3),
    )

    assert findings == ()
    assert _numbers(book, "2026-02-03") == {"x in a": "2"}
    assert _numbers(book, "2026-02-06") == {"x in a": "4-7"}


def test_window__that_fits_nowhere_is_one_finding() -> None:
    _, _, findings = _kept(
        event("bought", on="2026-02-10", tank="a", group="x", count=5),
        event("sold", on="2026-02-01/2026-02-04", tank="a", group="x", count=3),
    )

    assert _codes(findings) == ["L103"]


def test_window__open_on_the_day_the_book_ends_covers_both_cases() -> None:
    events = (X10, event("died", on="2026-02-01/2026-02-09", tank="a", group="x", count=4))
    _, book, _ = _kept(*events, as_of=day("2026-02-05"))

    assert _numbers(book, "2026-02-05") == {"x in a": "6-10"}


def test_as_of__leaves_out_what_comes_later() -> None:
    _, book, _ = _kept(
        X10,
        event("died", on="2026-02-01", tank="a", group="x", count=4),
        as_of=day("2026-01-15"),
    )

    assert _numbers(book, "2026-02-05") == {"x in a": "10"}


# --- who was there --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("first", "last", "groups"),
    [
        ("2026-01-01", "2026-01-01", ("x",)),
        ("2025-12-01", "2025-12-31", ()),
        ("2026-01-04", "2026-01-05", ("x",)),
        ("2026-01-05", "2026-01-09", ("x",)),
        ("2026-01-06", "2026-01-09", ()),
        ("2026-01-09", "2026-01-10", ("y",)),
    ],
)
def test_groups_in__are_those_that_can_have_been_there_on_some_day(
    first: str, last: str, groups: tuple[str, ...]
) -> None:
    """A group that left on the first day was there that morning."""
    _, book, _ = _kept(
        X10,
        event("moved", on="2026-01-05", tank="a", group="x", to="b"),
        event("bought", on="2026-01-10", tank="a", group="y", count="0-3"),
    )

    assert book.groups_in("a", day(first), day(last)) == groups


def test_groups_in__knows_nothing_of_a_tank_that_was_never_named() -> None:
    _, book, _ = _kept(X10)

    assert book.groups_in("d", day("2026-01-01"), END) == ()
    assert book.number_of("nobody", END).exact == 0


# --- the order of a day ---------------------------------------------------------------------

TANGLED: dict[str, tuple[tuple[str, dict[str, Any]], ...]] = {
    "through-three-tanks": (
        ("moved", {"tank": "a", "group": "x", "to": "b"}),
        ("moved", {"tank": "b", "group": "x", "to": "c", "count": 10}),
        ("died", {"tank": "c", "count": 1}),
    ),
    "sorted-moved-joined": (
        ("sorted", {"tank": "a", "from_": "x", "into": {"p": 4}}),
        ("moved", {"tank": "a", "group": "p", "to": "b"}),
        ("joined", {"tank": "b", "parts": {"p": "all"}, "into": "q"}),
    ),
    "emptied-and-closed": (
        ("closed", {"tank": "a"}),
        ("moved", {"tank": "a", "group": "x", "to": "b"}),
        ("died", {"tank": "a", "group": "x", "count": 2}),
    ),
    "counted-after-a-death": (
        ("counted", {"tank": "a", "group": "x", "how": "emptied", "count": 8}),
        ("died", {"tank": "a", "group": "x", "count": 2}),
        ("moved", {"tank": "a", "group": "x", "to": "b", "count": 8}),
    ),
    "too-many-and-a-difference": (
        ("counted", {"tank": "a", "group": "x", "how": "emptied", "count": 6}),
        ("sold", {"tank": "a", "group": "x", "count": 5}),
        ("sold", {"tank": "a", "group": "x", "count": 5}),
        ("died", {"tank": "a", "count": 2}),
    ),
    "a-death-where-animals-arrive": (
        ("died", {"tank": "b", "count": 1}),
        ("moved", {"tank": "a", "group": "x", "to": "b"}),
        ("cycle", {"tank": "b", "state": "begun"}),
        ("bought", {"tank": "b", "group": "n", "count": 2}),
    ),
    "two-of-three-fit": (
        ("sold", {"tank": "a", "group": "x", "count": 7}),
        ("sold", {"tank": "a", "group": "x", "count": 4}),
        ("died", {"tank": "a", "group": "x", "count": 3}),
    ),
}


def _signs(whole: Journal, findings: Iterable[Finding]) -> list[tuple[str, ...]]:
    """Return what findings say and the lines they point at, without where those lines stand."""
    line = line_of(whole)
    return sorted(
        (
            finding.code,
            finding.message,
            finding.label,
            *(
                str(line(place.path, place.line))
                for place in (finding.place, *(mark.place for mark in finding.related))
            ),
        )
        for finding in findings
    )


@pytest.mark.parametrize("said", TANGLED.values(), ids=TANGLED)
def test_order_of_a_day__changes_no_number_and_no_finding(
    said: Sequence[tuple[str, dict[str, Any]]],
) -> None:
    seen = []
    for order in permutations(said):
        events = [event(kind, on="2026-03-01", entry="day", **keys) for kind, keys in order]
        whole, book, findings = _kept(X10, *events)
        found = sorted(
            (one.groups, one.found, book.count(one.number).text) for one in book.differences
        )
        seen.append((_numbers(book), found, _signs(whole, findings)))

    assert all(one == seen[0] for one in seen)


@pytest.mark.parametrize("seed", range(60))
def test_order_of_a_day__of_random_events_changes_no_number_and_no_finding(seed: int) -> None:
    diary = random.Random(seed)
    start = [X10, event("present", on="2026-01-01", tank="b", group="y", count="2-4")]
    kinds: list[Callable[[], Event]] = [
        lambda: _event("died", tank=diary.choice("ab"), count=diary.randint(1, 4)),
        lambda: _event("sold", tank="a", group="x", count=diary.randint(1, 6)),
        lambda: _event("moved", tank="a", group="x", to="b", count=diary.randint(1, 6)),
        lambda: _event("moved", tank="b", group="y", to="a"),
        lambda: _event("counted", tank="a", how="emptied", count=diary.randint(3, 12)),
        lambda: _event("counted", tank="b", group="y", how="netted", count=diary.randint(1, 4)),
        lambda: _event("sorted", tank="a", from_="x", into={"p": diary.randint(1, 6)}),
        lambda: _event("bought", tank="b", group="n", count=2),
        lambda: _event("moved", tank="b", group="n", to="a", as_="m"),
    ]
    said = [diary.choice(kinds)() for _ in range(diary.randint(2, 4))]
    seen = []
    for order in permutations(said):
        whole, book, findings = _kept(*start, *order)
        seen.append((_numbers(book), _signs(whole, findings)))

    assert all(one == seen[0] for one in seen)


def _event(kind: str, **said: object) -> Event:
    return event(kind, on="2026-03-01", entry="day", **dict[str, Any](said))


@pytest.mark.parametrize("seed", range(80))
def test_day__is_refused_only_where_no_order_works(seed: int) -> None:
    """Every order is followed through all worlds; one that refuses nothing is enough."""
    diary = random.Random(1_000 + seed)
    start = [
        event("present", on="2026-01-01", tank="a", group="x", count="3-4"),
        event("present", on="2026-01-02", tank="b", group="y", count=2),
    ]
    kinds: list[Callable[[], Event]] = [
        lambda: _event("sold", tank="a", group="x", count=diary.randint(1, 4)),
        lambda: _event("sold", tank="b", group="x", count=diary.randint(1, 3)),
        lambda: _event("moved", tank="a", group="x", to="b", count=diary.randint(1, 4)),
        lambda: _event("moved", tank="b", group="y", to="a"),
        lambda: _event("moved", tank="a", group="y", to="b", count=diary.randint(1, 2)),
        lambda: _event("died", tank="b", group="y", count=1),
        lambda: _event("bought", tank="a", group="y", count=1),
    ]
    said = [diary.choice(kinds)() for _ in range(4)]
    works = False
    for order in permutations(said):
        worlds = Worlds(tanks=("a", "b"), cap=9)
        for one in (*start, *order):
            worlds.follow(one, one.when.latest)
        works = works or not worlds.refused

    _, _, findings = _kept(*start, *said)

    assert (_codes(findings) == []) == works


def test_day__of_a_whole_rack_is_tried_tank_by_tank() -> None:
    """One impossible event among many does not stop the others, nor take long to find."""
    start, said = [], []
    for number in range(12):
        tank, group = f"t{number:02}", f"g{number:02}"
        start.append(event("present", on="2026-01-01", tank=tank, group=group, count=6))
        said.extend(
            [
                event("counted", on="2026-03-01", tank=tank, group=group, how="emptied", count=4),
                event("died", on="2026-03-01", tank=tank, count=2),
            ]
        )
    said.append(event("sold", on="2026-03-01", tank="t03", group="g03", count=5))
    tanks = [one.tank for one in start if one.tank]
    whole = journal(*start, *said, tanks=tanks)

    book, findings = keep_book(whole, names_of(whole), as_of=END)

    assert _codes(findings) == ["L101"]
    assert set(_numbers(book).values()) == {"4"}

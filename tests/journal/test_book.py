"""What the book makes of a diary: counts that differ, and what cannot be."""

from dataclasses import replace

import pytest

from filialog.journal import check_journal
from filialog.journal.ledger import keep_book
from filialog.journal.names import names_of
from filialog.journal.quantities import Count
from tools.books import END, X10, Y3, codes, kept, numbers, told
from tools.journals import drawn, event, journal, species


def test_total_count__below_the_book_leaves_exactly_the_gap_unaccounted() -> None:
    whole, book, findings = kept(
        X10, event("counted", on="2026-01-05", tank="a", group="x", how="emptied", count=8)
    )

    assert numbers(book) == {"x in a": "8"}
    (difference,) = book.differences
    assert (difference.groups, difference.tank, difference.found) == (("x",), "a", False)
    assert book.count(difference.number).exact == 2
    assert told(whole, findings) == (
        "note[L204]: 8 counted of `x`, the book has 10\n"
        "  --> diary/2026-01-05 a.md:3:1\n"
        "   |\n"
        " 3 | counted: {group: x, how: emptied, count: 8}\n"
        "   | ^^^^^^^ fewer than on the book\n"
        "   = note: the difference is kept as unaccounted and shown"
    )


def test_total_count__above_the_book_finds_exactly_the_gap() -> None:
    whole, book, findings = kept(
        X10, event("counted", on="2026-01-05", tank="a", group="x", all=True, count=13)
    )

    assert numbers(book) == {"x in a": "13"}
    (difference,) = book.differences
    assert (difference.found, book.count(difference.number).exact) == (True, 3)
    assert told(whole, findings) == (
        "note[L201]: 13 counted of `x`, the book has 10\n"
        "  --> diary/2026-01-05 a.md:3:1\n"
        "   |\n"
        " 3 | counted: {group: x, all: true, count: 13}\n"
        "   | ^^^^^^^ more than on the book\n"
        "   = note: the difference is kept as unaccounted and shown"
    )


def test_total_count__of_a_tank_leaves_open_which_group_the_missing_are_of() -> None:
    _, book, findings = kept(
        X10, Y3, event("counted", on="2026-01-05", tank="a", how="emptied", count=12)
    )

    assert numbers(book) == {"x in a": "9-10", "y in a": "2-3"}
    assert book.number_in([("x", "a"), ("y", "a")], END).exact == 12
    assert codes(findings) == ["L204"]
    assert [len(book.postings[group]) for group in ("x", "y")] == [2, 2]


@pytest.mark.parametrize("how", ["netted", "looked", "photo", None])
def test_count__that_is_no_total_raises_only_the_lower_bound(how: str | None) -> None:
    many = event("present", on="2026-01-01", tank="a", group="x", count="8-12")
    said = {"how": how} if how else {}
    few = replace(
        event("counted", on="2026-01-05", tank="a", group="x", count=9),
        values={"group": "x", "count": Count.of(9), **said},
    )

    _, book, findings = kept(many, few)

    assert numbers(book) == {"x in a": "9-12"}
    assert numbers(book, "2026-01-01") == {"x in a": "9-12"}
    assert findings == ()
    assert book.differences == ()


def test_count__that_is_no_total_and_beyond_the_book_leaves_the_end_open() -> None:
    _, book, findings = kept(
        X10, event("counted", on="2026-01-05", tank="a", group="x", how="netted", count=12)
    )

    assert numbers(book) == {"x in a": "12+"}
    assert codes(findings) == ["L201"]
    assert book.count(book.differences[0].number).text == "2+"


def test_count__by_classes_is_the_sum_of_all_classes() -> None:
    _, book, findings = kept(
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

    assert numbers(book) == {"x in a": "8-9"}
    assert codes(findings) == ["L204"]


def test_count__of_all_young_leaves_the_adults_alone() -> None:
    brood = event("hatched", on="2026-01-03", tank="a", brood="young", count="5-9")
    young = event("counted", on="2026-01-20", tank="a", all_young=True, how="emptied", count=6)
    grown = event("counted", on="2026-06-20", tank="a", all_young=True, how="emptied", count=2)
    whole = journal(X10, brood, young, grown, tanks=["a"], kind_of=species(maturity_days=60))

    book, findings = keep_book(whole, names_of(whole), as_of=END)

    assert numbers(book) == {"x in a": "10", "young in a": "6"}
    # None of the broods is young any more: those that were counted are of no group of the book.
    assert [finding.message for finding in findings] == ["2 counted of tank `a`, the book has 0"]


def test_count__in_a_tank_where_the_book_has_none_is_of_a_group_that_was_there() -> None:
    _, book, findings = kept(
        X10,
        event("moved", on="2026-01-05", tank="a", group="x", to="b"),
        event("counted", on="2026-01-09", tank="a", how="looked", count=2),
    )

    assert numbers(book) == {"x in a": "2+", "x in b": "10"}
    assert codes(findings) == ["L201"]


def test_count__in_a_tank_that_never_held_a_group_is_a_difference_of_none() -> None:
    whole, book, findings = kept(
        X10, event("counted", on="2026-01-09", tank="b", how="emptied", count="2-3")
    )

    assert numbers(book) == {"x in a": "10"}
    (difference,) = book.differences
    assert (difference.groups, book.count(difference.number).text) == ((), "2-3")
    assert drawn(whole, findings[0]).startswith(
        "note[L201]: 2-3 counted of tank `b`, the book has 0\n"
    )


def test_count__is_not_booked_where_the_group_is_elsewhere() -> None:
    whole, book, findings = kept(
        X10,
        event("bought", on="2026-01-02", tank="b", group="y", count=1),
        event("counted", on="2026-01-05", tank="b", group="x", how="emptied", count=4),
    )

    assert numbers(book) == {"x in a": "10", "y in b": "1"}
    assert told(whole, findings) == (
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

    _, book, findings = kept(*three, *pairs)

    assert [finding.message for finding in findings] == ["1 counted of `x`, `z`, the book has 0-2"]
    (difference,) = book.differences
    assert book.count(difference.number).exact == 1
    assert book.number_in([("x", "a"), ("z", "a")], END).exact == 1


def test_named_death__of_more_than_there_are_is_refused_and_points_at_both_entries() -> None:
    whole, book, findings = kept(
        X10,
        event("sold", on="2026-01-05", tank="a", group="x", count=7),
        event("sold", on="2026-01-06", tank="a", group="x", count=4),
        event("died", on="2026-01-07", tank="a", group="x", count=3),
    )

    assert told(whole, findings) == (
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
    assert numbers(book) == {}
    assert numbers(book, "2026-01-06") == {"x in a": "3"}


def test_named_death__where_none_is_left_is_refused() -> None:
    whole, _, findings = kept(
        X10,
        event("moved", on="2026-01-05", tank="a", group="x", to="b"),
        event("sold", on="2026-01-06", tank="b", group="x", count=10),
        event("died", on="2026-01-07", tank="b", group="x", count=1),
    )

    assert told(whole, findings) == (
        "error[L101]: died: no `x` is left on 2026-01-07\n"
        "  --> diary/2026-01-07 b.md:3:15\n"
        "   |\n"
        " 3 | died: {group: x, count: 1}\n"
        "   |               ^ the book has 0\n"
        "   = see diary/2026-01-06 b.md:3:1: `x` last sold here, on 2026-01-06\n"
        "   = help: correct the name or the date, or write down what is missing"
    )


def test_group__used_before_it_is_there_is_refused() -> None:
    whole, _, findings = kept(
        event("died", on="2026-01-01", tank="a", group="x", count=1),
        event("bought", on="2026-02-01", tank="a", group="x", count=4),
    )

    assert told(whole, findings) == (
        "error[L103]: died: group `x` is not there yet on 2026-01-01\n"
        "  --> diary/2026-01-01 a.md:3:15\n"
        "   |\n"
        " 3 | died: {group: x, count: 1}\n"
        "   |               ^ used before it comes into being\n"
        "   = see diary/2026-02-01 a.md:3:1: `x` comes into being on 2026-02-01\n"
        "   = help: correct one of the two dates, or the name"
    )


def test_move__out_of_an_empty_tank_is_refused() -> None:
    whole, _, findings = kept(X10, event("moved", on="2026-01-05", from_="b", to="a"))

    assert told(whole, findings) == (
        "error[L101]: moved: no animal is in tank `b` on 2026-01-05\n"
        "  --> diary/2026-01-05.md:3:15\n"
        "   |\n"
        " 3 | moved: {from: b, to: a}\n"
        "   |               ^ the book has 0\n"
        "   = help: correct the tank or the date, or write down what is missing"
    )


def test_sorting__into_more_than_there_are_points_at_the_new_groups() -> None:
    whole, book, findings = kept(
        Y3, event("sorted", on="2026-01-05", tank="a", from_="y", into={"p": 2, "q": 2})
    )

    assert numbers(book) == {"y in a": "3"}
    assert drawn(whole, findings[0]).splitlines()[:5] == [
        "error[L101]: sorted: 4 of `y`, more than can be there",
        "  --> diary/2026-01-05 a.md:3:25",
        "   |",
        " 3 | sorted: {from: y, into: {p: {count: 2}, q: {count: 2}}}",
        f"   | {' ' * 24}{'^' * 30} on 2026-01-05 the book has 3",
    ]


def test_sorting__that_leaves_some_in_their_group_says_nothing_of_those() -> None:
    _, book, findings = kept(
        Y3, event("sorted", on="2026-01-05", tank="a", from_="y", into={"y": 2, "p": 1})
    )

    assert numbers(book) == {"y in a": "2", "p in a": "1"}
    assert [(one.kind_name, one.other_group) for one in book.postings["y"]] == [
        ("present", None),
        ("sorted", "p"),
    ]
    assert findings == ()


def test_joining__of_a_group_with_itself_moves_nothing() -> None:
    _, book, findings = kept(
        Y3,
        event("joined", on="2026-01-05", tank="b", parts={"y": "all"}, into="y"),
        event("counted", on="2026-01-09", tank="b", how="emptied", count=2),
    )

    assert numbers(book) == {"y in a": "3"}
    assert [finding.message for finding in findings] == ["2 counted of tank `b`, the book has 0"]


def test_joining__to_a_total_that_cannot_be_is_refused() -> None:
    _, book, findings = kept(
        X10,
        Y3,
        event("joined", on="2026-01-05", tank="a", parts={"x": "some", "y": 1}, into="z", count=14),
    )

    assert numbers(book) == {"x in a": "10", "y in a": "3"}
    assert codes(findings) == ["L101"]


def test_joining__counts_what_was_in_the_group_already() -> None:
    _, book, findings = kept(
        X10,
        Y3,
        event(
            "joined", on="2026-01-05", tank="a", parts={"x": "some", "y": "all"}, into="y", count=7
        ),
    )

    assert numbers(book) == {"x in a": "6", "y in a": "7"}
    assert findings == ()


def test_unnamed_deaths__beyond_the_tank_are_a_warning_and_unaccounted() -> None:
    whole, book, findings = kept(Y3, event("died", on="2026-01-05", tank="a", count=5))

    assert numbers(book) == {}
    (difference,) = book.differences
    assert (difference.groups, difference.found) == ((), True)
    assert book.count(difference.number).exact == 2
    assert told(whole, findings) == (
        "warning[L203]: died in tank `a`: 2 more than the book has there\n"
        "  --> diary/2026-01-05 a.md:3:15\n"
        "   |\n"
        " 3 | died: {count: 5}\n"
        "   |               ^ the book has 3\n"
        "   = note: the difference is kept as unaccounted\n"
        "   = help: write down which group they were of, if another move is missing"
    )


def test_unnamed_death__is_of_what_arrives_on_the_same_day() -> None:
    _, book, findings = kept(
        X10,
        event("died", on="2026-01-05", tank="b", count=1),
        event("moved", on="2026-01-05", tank="a", group="x", to="b"),
    )

    assert numbers(book) == {"x in b": "9"}
    assert findings == ()


def test_unnamed_death__in_no_tank_can_be_of_any_group() -> None:
    _, book, findings = kept(
        X10,
        event("bought", on="2026-01-02", tank="b", group="y", count=1),
        event("died", on="2026-01-05", count=1),
    )

    assert numbers(book) == {"x in a": "9-10", "y in b": "0-1"}
    assert findings == ()


def test_refused_event__does_not_make_what_follows_from_it_a_finding() -> None:
    _, _, findings = kept(
        Y3,
        event("moved", on="2026-01-05", tank="a", group="y", to="b", as_="z", count=9),
        event("died", on="2026-01-06", tank="b", group="z", count=1),
        event("sorted", on="2026-01-07", tank="b", from_="z", into={"zz": 2}),
        event("sold", on="2026-01-08", tank="b", group="zz", count=1),
        event("counted", on="2026-01-08", tank="b", how="emptied", count=2),
        event("died", on="2026-01-09", tank="b", count=1),
    )

    assert codes(findings) == ["L101"]


def test_refused_move__does_not_make_the_closing_of_the_tank_a_finding() -> None:
    _, _, findings = kept(
        Y3,
        event("moved", on="2026-01-05", tank="a", group="y", to="b", count=9),
        event("closed", on="2026-01-06", tank="a"),
    )

    assert codes(findings) == ["L101"]


def test_refused_event__does_not_hide_another_cause() -> None:
    _, _, findings = kept(
        X10,
        Y3,
        event("moved", on="2026-01-05", tank="a", group="y", to="b", count=9),
        event("sold", on="2026-01-06", tank="a", group="x", count=11),
    )

    assert codes(findings) == ["L101", "L101"]


def test_event_with_an_unknown_name__does_not_make_what_follows_from_it_a_finding() -> None:
    whole = journal(
        Y3,
        event("moved", on="2026-01-05", tank="a", group="y", to="nowhere"),
        event("died", on="2026-01-06", tank="b", group="y", count=1),
        tanks=["a", "b"],
    )

    assert codes(check_journal(whole).findings) == ["N102"]

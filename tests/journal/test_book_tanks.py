"""What the book makes of tanks taken down, colonies, and who was where."""

import pytest

from tools.books import END, X10, codes, kept, numbers, told
from tools.journals import day, event


def test_closing__with_animals_on_the_book_is_a_warning_and_they_are_unaccounted() -> None:
    whole, book, findings = kept(X10, event("closed", on="2026-02-01", tank="a", note="broken"))

    assert numbers(book) == {}
    assert book.closed == {"a": day("2026-02-01")}
    assert [one.unaccounted for one in book.postings["x"]] == [False, True]
    assert told(whole, findings) == (
        "warning[L205]: tank `a` is taken down with `x` still on its book\n"
        "  --> diary/2026-02-01 a.md:3:1\n"
        "   |\n"
        " 3 | closed: {note: broken}\n"
        "   | ^^^^^^ their whereabouts are unaccounted from here on\n"
        "   = see diary/2026-01-01 a.md:3:1: `x` last present here, on 2026-01-01\n"
        "   = help: write down where they went, or `left: {young: some}`"
    )


def test_closed_tank__takes_no_animals() -> None:
    whole, book, findings = kept(
        X10,
        event("closed", on="2026-02-01", tank="b"),
        event("moved", on="2026-02-05", tank="a", group="x", to="b"),
    )

    assert numbers(book) == {"x in a": "10"}
    assert told(whole, findings) == (
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
    _, book, findings = kept(
        X10,
        event("closed", on="2026-02-01", tank="b"),
        event("moved", on="2026-02-05", tank="a", group="x", to="b"),
        event(work, on="2026-02-05", tank="b", note="new"),
    )

    assert numbers(book) == {"x in b": "10"}
    assert findings == ()


def test_closed_tank__of_animals_left_behind_gives_them_back_with_a_note() -> None:
    _, book, findings = kept(
        X10,
        event("closed", on="2026-02-01", tank="a", left={"young": "some"}),
        event("moved", on="2026-02-09", tank="a", group="x", to="b", count=2),
    )

    assert numbers(book) == {"x in b": "2"}
    assert codes(findings) == ["L201"]
    assert book.count(book.differences[0].number).exact == 2


def test_closed_tank__counted_later_holds_what_was_counted() -> None:
    _, book, findings = kept(
        X10,
        event("closed", on="2026-02-01", tank="a", left={"young": "some"}),
        event("counted", on="2026-02-09", tank="a", how="emptied", count=2),
        event("moved", on="2026-02-10", from_="a", to="b"),
    )

    assert numbers(book) == {"x in b": "2"}
    assert codes(findings) == ["L201"]


COLONY = event("present", on="2026-01-01", tank="a", group="c", count="~40", colony=True)


def test_colony__has_an_open_end_and_is_never_impossible() -> None:
    _, book, findings = kept(
        COLONY,
        event("sold", on="2026-02-01", tank="a", group="c", count=60),
        event("counted", on="2026-03-01", tank="a", group="c", how="netted", count=100),
        event("died", on="2026-04-01", tank="a", count=150),
    )

    assert numbers(book, "2026-01-10") == {"c in a": "39+"}
    assert numbers(book, "2026-03-10") == {"c in a": "100+"}
    assert book.number_of("c", END).high is None
    assert findings == ()


def test_colony__counted_whole_has_that_number_that_day_or_more_later() -> None:
    _, book, findings = kept(
        COLONY,
        event("counted", on="2026-02-01", tank="a", group="c", how="emptied", count=50),
        event("counted", on="2026-03-01", tank="a", group="c", how="emptied", count=70),
    )

    assert numbers(book, "2026-02-10") == {"c in a": "50+"}
    assert numbers(book, "2026-03-10") == {"c in a": "70+"}
    assert findings == ()


def test_colony__counted_whole_below_the_book_misses_animals() -> None:
    _, book, findings = kept(
        COLONY, event("counted", on="2026-02-01", tank="a", group="c", how="emptied", count=30)
    )

    assert numbers(book) == {"c in a": "30+"}
    assert codes(findings) == ["L204"]


def test_colony__later_births_do_not_make_it_larger_before() -> None:
    _, book, _ = kept(COLONY, event("sold", on="2026-06-01", tank="a", group="c", count=300))

    assert numbers(book, "2026-01-10") == {"c in a": "39+"}


def test_colony__breeds_in_every_tank_it_is_moved_to() -> None:
    _, book, findings = kept(
        COLONY,
        event("moved", on="2026-02-01", tank="a", group="c", to="b", count=5),
        event("died", on="2026-05-01", tank="b", group="c", count=9),
    )

    assert codes(findings) == []
    assert book.number_in([("c", "b")], day("2026-02-02")).text == "5+"


def test_colony__moved_as_a_new_group_is_a_group_like_any_other() -> None:
    _, book, findings = kept(
        COLONY,
        event("moved", on="2026-02-01", tank="a", group="c", to="b", as_="picked", count=5),
        event("died", on="2026-05-01", tank="b", group="picked", count=9),
    )

    assert book.number_of("picked", END).exact == 5
    assert codes(findings) == ["L101"]


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
    _, book, _ = kept(
        X10,
        event("moved", on="2026-01-05", tank="a", group="x", to="b"),
        event("bought", on="2026-01-10", tank="a", group="y", count="0-3"),
    )

    assert book.groups_in("a", day(first), day(last)) == groups


def test_groups_in__knows_nothing_of_a_tank_that_was_never_named() -> None:
    _, book, _ = kept(X10)

    assert book.groups_in("d", day("2026-01-01"), END) == ()
    assert book.number_of("nobody", END).exact == 0

"""What the book makes of windows of days, and of the order within one."""

import random
from collections.abc import Callable, Iterable, Sequence
from itertools import permutations
from typing import Any

import pytest

from filialog.findings import Finding
from filialog.journal.events import Event
from filialog.journal.ledger import keep_book
from filialog.journal.names import names_of
from filialog.journal.records import Journal
from tools.books import END, X10, codes, kept, numbers
from tools.journals import day, event, journal, line_of
from tools.worlds import Worlds


def test_window__is_booked_on_its_last_day_and_covers_both_cases_before() -> None:
    _, book, findings = kept(X10, event("died", on="2026-02-01/2026-02-09", group="x", count=4))

    assert numbers(book, "2026-01-31") == {"x in a": "10"}
    assert numbers(book, "2026-02-01") == {"x in a": "6-10"}
    assert numbers(book, "2026-02-08") == {"x in a": "6-10"}
    assert numbers(book, "2026-02-09") == {"x in a": "6"}
    assert findings == ()


def test_window__of_a_move_covers_both_tanks_and_leaves_the_group_exact() -> None:
    _, book, _ = kept(X10, event("moved", on="2026-02-01/2026-02-09", tank="a", group="x", to="b"))

    assert numbers(book, "2026-02-05") == {"x in a": "0-10", "x in b": "0-10"}
    assert book.number_of("x", day("2026-02-05")).exact == 10
    assert book.groups_in("b", day("2026-02-03"), day("2026-02-04")) == ("x",)
    assert book.groups_in("b", day("2026-01-03"), day("2026-01-04")) == ()


def test_window__is_booked_on_its_first_day_where_its_last_does_not_work() -> None:
    _, book, findings = kept(
        X10,
        event("moved", on="2026-02-01/2026-02-09", tank="a", group="x", to="b", count=10),
        event("closed", on="2026-02-05", tank="a"),
        event("sold", on="2026-02-20", tank="b", group="x", count=6),
    )

    assert findings == ()
    assert numbers(book, "2026-02-01") == {"x in a": "0-10", "x in b": "0-10"}
    assert numbers(book, "2026-02-05") == {"x in b": "10"}


def test_window__is_booked_on_its_first_day_where_something_else_needs_it() -> None:
    _, book, findings = kept(
        event("bought", on="2026-02-01/2026-02-09", tank="a", group="x", count=5),
        event("sold", on="2026-02-04", tank="a", group="x", count=3),
    )

    assert findings == ()
    assert numbers(book, "2026-02-02") == {"x in a": "0-5"}
    assert numbers(book, "2026-02-04") == {"x in a": "2"}
    assert numbers(book, "2026-02-09") == {"x in a": "2"}


def test_window__leaves_out_days_on_which_there_were_too_few() -> None:
    _, book, findings = kept(
        event("bought", on="2026-01-01", tank="a", group="x", count=2),
        event("bought", on="2026-02-05", tank="a", group="x", count=5),
        event("died", on="2026-02-01/2026-02-09", tank="a", group="x", count=3),
    )

    assert findings == ()
    assert numbers(book, "2026-02-03") == {"x in a": "2"}
    assert numbers(book, "2026-02-06") == {"x in a": "4-7"}


def test_window__that_fits_nowhere_is_one_finding() -> None:
    _, _, findings = kept(
        event("bought", on="2026-02-10", tank="a", group="x", count=5),
        event("sold", on="2026-02-01/2026-02-04", tank="a", group="x", count=3),
    )

    assert codes(findings) == ["L103"]


def test_window__open_on_the_day_the_book_ends_covers_both_cases() -> None:
    events = (X10, event("died", on="2026-02-01/2026-02-09", tank="a", group="x", count=4))
    _, book, _ = kept(*events, as_of=day("2026-02-05"))

    assert numbers(book, "2026-02-05") == {"x in a": "6-10"}


def test_as_of__leaves_out_what_comes_later() -> None:
    _, book, _ = kept(
        X10,
        event("died", on="2026-02-01", tank="a", group="x", count=4),
        as_of=day("2026-01-15"),
    )

    assert numbers(book, "2026-02-05") == {"x in a": "10"}


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
        whole, book, findings = kept(X10, *events)
        found = sorted(
            (one.groups, one.found, book.count(one.number).text) for one in book.differences
        )
        seen.append((numbers(book), found, _signs(whole, findings)))

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
        whole, book, findings = kept(*start, *order)
        seen.append((numbers(book), _signs(whole, findings)))

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

    _, _, findings = kept(*start, *said)

    assert (codes(findings) == []) == works


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

    assert codes(findings) == ["L101"]
    assert set(numbers(book).values()) == {"4"}

"""The numbers of the book against every way in which things can have gone.

`tools.worlds` follows all worlds of small random diaries, one whole number after another. The
book must give the same least and greatest number for every group, tank and cell, on every day,
in the light of everything that was written down later too.
"""

import random
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from datetime import date, timedelta
from itertools import count
from typing import Any

import pytest

from filialog.journal.events import Event
from filialog.journal.ledger import Book, keep_book
from filialog.journal.ledger.unknowns import Sum
from filialog.journal.names import names_of
from tools.journals import event, journal
from tools.worlds import TooManyWorldsError, Worlds

TANKS = ("a", "b", "c")
GROUPS = ("w", "x", "y", "z")
FIRST = date(2026, 3, 1)


class _Diary:
    """A random diary that mostly makes sense."""

    def __init__(self, seed: int, *, open_counts: bool = False, windows: bool = False) -> None:
        self.random = random.Random(seed)
        self.tanks = TANKS[: self.random.randint(2, 3)]
        self.groups = GROUPS[: self.random.randint(2, 4)]
        self.open_counts = open_counts
        self.windows = windows
        self.events: list[Event] = []
        self.alive: list[str] = []

    def any_of(self, things: Sequence[str]) -> str:
        return self.random.choice(things)

    def number(self, most: int = 4) -> str:
        low = self.random.randint(1, most)
        ways = [str(low)] * 3 + [f"{low}-{low + self.random.randint(1, 2)}"] * 2
        return self.any_of([*ways, "some", f"{low}+"] if self.open_counts else ways)

    def told(self, **said: object) -> dict[str, Any]:
        """Leave out what is empty."""
        return {key: value for key, value in said.items() if value is not None}

    def appears(self, on: str) -> Event:
        group = self.any_of(self.groups)
        self.alive.append(group)
        kind = self.any_of(("present", "bought", "hatched"))
        said = self.told(count=self.number(), **{"brood" if kind == "hatched" else "group": group})
        tank = self.any_of(self.tanks)
        return event(kind, on=on, tank=tank, **said)

    def leaves(self, on: str) -> Event:
        kind = self.any_of(("died", "died", "sold"))
        tank = self.any_of(self.tanks)
        count = self.number(2)
        match self.random.randrange(4):
            case 0:
                return event(kind, on=on, tank=tank, group=self.any_of(self.alive), count=count)
            case 1:
                return event(kind, on=on, group=self.any_of(self.alive), count=count)
            case 2 if len(set(self.alive)) > 1:
                of = self.random.sample(sorted(set(self.alive)), 2)
                where = self.random.choice((tank, None))
                return event(kind, on=on, tank=where, of=of, count=count)
            case _:
                return event(kind, on=on, tank=tank, count=count)

    def moves(self, on: str) -> Event:
        start, end = self.random.sample(self.tanks, 2)
        count = self.random.choice((None, self.number(3)))
        new = self.any_of(self.groups) if self.random.random() < 0.4 else None
        said = self.told(to=end, count=count, as_=new)
        if new:
            self.alive.append(new)
            if self.random.random() < 0.3:
                said.pop("to")
        match self.random.randrange(4):
            case 0:
                return event("moved", on=on, from_=start, **said)
            case 1:
                group = self.any_of(self.alive)
                return event("moved", on=on, tank=start, group=group, **said)
            case 2:
                return event("moved", on=on, group=self.any_of(self.alive), **said)
            case _:
                return event("moved", on=on, tank=start, **said)

    def sorts(self, on: str) -> Event:
        source = self.any_of(self.alive)
        names = self.random.sample(self.groups, self.random.randint(1, 2))
        self.alive.extend(names)
        tank = self.random.choice((None, self.any_of(self.tanks)))
        if self.random.random() < 0.3:
            return event(
                "chosen", on=on, tank=tank, from_=source, into=names[0], count=self.number(2)
            )
        into = {name: self.number(2) for name in names}
        return event("sorted", on=on, tank=tank, from_=source, into=into)

    def joins(self, on: str) -> Event:
        parts = self.random.sample(sorted(set(self.alive)), min(2, len(set(self.alive))))
        into = self.any_of(self.groups)
        self.alive.append(into)
        said = self.told(count=self.number(5) if self.random.random() < 0.3 else None)
        if into in parts:
            said.pop("count", None)
        return event(
            "joined",
            on=on,
            tank=self.random.choice((None, self.any_of(self.tanks))),
            parts={part: self.random.choice(("all", self.number(2))) for part in parts},
            into=into,
            **said,
        )

    def counts(self, on: str) -> Event:
        tank = self.any_of(self.tanks)
        how = self.any_of(("emptied", "emptied", "netted", "looked", "photo"))
        if self.random.random() < 0.2:
            return event("counted", on=on, tank=tank, count=self.number(6), all=True)
        match self.random.randrange(3):
            case 0:
                group = self.any_of(self.alive)
                return event(
                    "counted", on=on, tank=tank, group=group, how=how, count=self.number(4)
                )
            case 1:
                group = self.any_of(self.alive)
                return event("counted", on=on, group=group, how=how, count=self.number(5))
            case _:
                return event("counted", on=on, tank=tank, how=how, count=self.number(6))

    def closes(self, on: str) -> Event:
        return event("closed", on=on, tank=self.any_of(self.tanks))

    def written(self) -> list[Event]:
        makers: list[Callable[[str], Event]] = [self.appears, self.joins, self.closes]
        makers.extend([self.leaves] * 5)
        makers.extend([self.moves] * 4)
        makers.extend([self.counts] * 5)
        makers.extend([self.sorts] * 2)
        length = self.random.randint(4, 9)
        for number in range(length):
            on = FIRST + timedelta(days=4 * number)
            make = self.appears if number < 2 else self.random.choice(makers)
            written = on.isoformat()
            if self.windows and number >= 2 and self.random.random() < 0.35:
                written = f"{on - timedelta(days=self.random.randint(1, 9))}/{on}"
            self.events.append(make(written))
        return self.events


def _book_and_worlds(
    events: list[Event], *, cap: int, most_worlds: int = 4_000
) -> tuple[Book, Worlds]:
    named = {one.tank for one in events} | {
        one.text(key) for one in events for key in ("to", "from")
    }
    tanks = [tank for tank in TANKS if tank in named]
    whole = journal(*events, tanks=tanks)
    placed = sorted(whole.events(), key=lambda one: one.when.latest)
    worlds = Worlds(tanks=tuple(tanks), cap=cap, most_worlds=most_worlds)
    for one in placed:
        worlds.follow(one, one.when.latest)
    book, _ = keep_book(whole, names_of(whole), as_of=date(2026, 12, 31))
    return book, worlds


def _questions(worlds: Worlds) -> dict[str, list[tuple[str, str | None]]]:
    cells = worlds.cells
    asked = {f"{cell[0]} in {cell[1]}": [cell] for cell in cells}
    for group in sorted({cell[0] for cell in cells}):
        asked[f"all {group}"] = [cell for cell in cells if cell[0] == group]
    for tank in sorted({cell[1] or "" for cell in cells}):
        asked[f"tank {tank}"] = [cell for cell in cells if (cell[1] or "") == tank]
    return asked


def _days(worlds: Worlds) -> list[date]:
    found = {day for one in worlds.days for day in (one, one + timedelta(days=2))}
    return sorted({*found, FIRST - timedelta(days=1)})


def _told(events: Sequence[Event]) -> str:
    return "\n".join(
        f"{one.when.text} {one.kind_name} {one.tank or '-'} {dict(one.values)}" for one in events
    )


def _bounds(low: int, highs: tuple[int, int]) -> tuple[int, int | None]:
    """Read the greatest numbers under two caps: one that grows with the cap is open."""
    return low, highs[0] if highs[0] == highs[1] else None


def _diaries(seed: int, **kinds: bool) -> Iterator[list[Event]]:
    """Give diaries until one has few enough worlds to follow."""
    return (_Diary(seed + 10_000 * attempt, **kinds).written() for attempt in count())


def _assert_as_every_world(diaries: Iterator[list[Event]], caps: tuple[int, int]) -> None:
    for events in diaries:
        with suppress(TooManyWorldsError):
            book, worlds = _book_and_worlds(events, cap=caps[0])
            wider = _book_and_worlds(events, cap=caps[1])[1] if worlds.open_ended else worlds
            break
    for day in _days(worlds):
        for name, cells in _questions(worlds).items():
            number = book.number_in(cells, day)
            low, high = worlds.bounds(cells, day)
            assert (number.low, number.high) == _bounds(low, (high, wider.bounds(cells, day)[1])), (
                f"{name} on {day}\n{_told(events)}"
            )
    assert [one.event.entry for one in book.differences] == [
        one.id.entry for one, _, _ in worlds.differences
    ]
    for difference, (one, position, known) in zip(
        book.differences, worlds.differences, strict=True
    ):
        gap = book.count(difference.number)
        told = f"{one.id}\n{_told(events)}"
        if known is not None:
            assert (gap.low, gap.high, difference.found) == (known.low, known.high, True), told
            continue
        (low, high), wider_gap = worlds.gap(position), wider.gap(position)
        assert difference.found == (low > 0), told
        if difference.found:
            assert (gap.low, gap.high) == _bounds(low, (high, wider_gap[1])), told
        else:
            assert (gap.low, gap.high) == _bounds(-high, (-low, -wider_gap[0])), told


@pytest.mark.parametrize("seed", range(500))
def test_book__equals_every_world(seed: int) -> None:
    _assert_as_every_world(_diaries(seed), (11, 12))


@pytest.mark.parametrize("seed", range(1000, 1100))
def test_book__equals_every_world_where_counts_are_open(seed: int) -> None:
    _assert_as_every_world(_diaries(seed, open_counts=True), (14, 15))


@pytest.mark.parametrize("seed", range(2000, 2200))
def test_book__covers_both_sides_of_a_window(seed: int) -> None:
    """Inside a window the bounds hold either way, and are no wider than both ways together."""
    for diary in _diaries(seed, windows=True):
        events = diary
        with suppress(TooManyWorldsError):
            book, worlds = _book_and_worlds(events, cap=11, most_worlds=600)
            while worlds.refused:  # a window of what cannot be is a case of its own
                refused = {one.id.entry for one in worlds.refused}
                events = [one for one in events if one.id.entry not in refused]
                book, worlds = _book_and_worlds(events, cap=11, most_worlds=600)
            break
    windows = [
        (number, one.when.earliest)
        for number, one in enumerate(sorted(events, key=lambda one: one.when.latest))
        if one.when.exact is None
    ]
    for day in _days(worlds):
        for name, cells in _questions(worlds).items():
            number = book.number_in(cells, day)
            inner = worlds.bounds_with_windows(cells, day, windows, feasible=True)
            outer = worlds.bounds_with_windows(cells, day, windows, feasible=False)
            told = f"{name} on {day}: {number}\n{_told(events)}"
            assert outer[0] <= number.low <= inner[0], told
            if number.high is not None:
                assert inner[1] <= number.high <= outer[1], told


@pytest.mark.parametrize("seed", range(200))
def test_animals__that_came_are_there_or_left_or_unaccounted(seed: int) -> None:
    """Appeared and found animals are those that left, are present or are unaccounted."""
    events = _Diary(seed, open_counts=seed % 3 == 0, windows=seed % 2 == 0).written()
    whole = journal(*events, tanks=TANKS)
    book, _ = keep_book(whole, names_of(whole), as_of=date(2026, 12, 31))
    came, went, passed_on = Sum(), Sum(), Sum()
    for group, postings in book.postings.items():
        balance = Sum()
        for one, after in zip(postings, (*postings[1:], None), strict=True):
            assert one.change is not None
            sign = 1 if one.gained else -1
            if one.kind_name in _APPEARS or (one.unaccounted and one.gained):
                came = came.plus(one.change)
            elif one.kind_name in _LEAVES or one.unaccounted:
                went = went.plus(one.change)
            elif one.kind_name == "moved" and not one.gained and one.other_group is None:
                sign = 0  # to another tank, in the same group
            else:
                passed_on = passed_on.plus(one.change, sign)
            balance = balance.plus(one.change, sign)
            if after is None or after.event != one.event:
                assert book.unknowns.bounds(balance.plus(one.after, -1)) == (0, 0), _told(events)
        present = Sum.of(book.stands[cell][-1].number for cell in book.cells_of[group])
        assert book.unknowns.bounds(balance.plus(present, -1)) == (0, 0), _told(events)
    every = Sum.of(stands[-1].number for stands in book.stands.values())

    assert book.unknowns.bounds(passed_on) == (0, 0)
    assert book.unknowns.bounds(came.plus(went, -1).plus(every, -1)) == (0, 0)


_APPEARS = ("present", "bought", "hatched")
_LEAVES = ("died", "sold")

"""The counts of the example journal are those that chance drew, and its book adds up."""

import re
from datetime import date
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest
import yaml

from simulation.draw_counts import BROODS, VIABILITY_GG, Tally, draw, table

SITE = Path(__file__).parents[2] / "example_site"
DRAWN = draw()
COUNTS = [row for row in DRAWN.tallies if row.how in {"looked", "netted", "emptied"}]
BIRTHS = {name: hatched for name, hatched, _ in DRAWN.alive}

EARLIEST_ADULT_DAYS = 75
"""Nur & Christianus 2013, at 27 °C (abstract): 75 d to an adult."""

INCUBATION_DAYS = (15, 24)
"""230 / (T - 12.5) at 28 °C and 22 °C, computed from published points."""


class Happening(NamedTuple):
    """One event of the example, as a plain mapping."""

    day: date
    tank: str
    kind: str
    says: dict[str, object]

    def name(self, key: str) -> str:
        return str(self.says.get(key, ""))

    def number(self, key: str = "count") -> int:
        value = self.says[key]
        assert isinstance(value, int), (self.day, self.kind, key)
        return value

    def numbers(self, key: str) -> dict[str, int]:
        value = self.says.get(key, {})
        assert isinstance(value, dict)
        return {str(name): int(number) for name, number in value.items()}


def front_matter(path: Path) -> dict[str, object]:
    text = path.read_text(encoding="utf-8")
    if not text.startswith("---\n"):
        return {}
    head = text.split("---\n", 2)[1]
    # The product's own reader is under test elsewhere; a second reader keeps this check apart.
    read = yaml.load(head, Loader=yaml.CSafeLoader)  # noqa: TID251 - see the line above
    assert isinstance(read, dict)
    return read


def diary() -> list[Path]:
    return sorted((SITE / "diary").rglob("*.md"))


def _happenings_of(path: Path) -> list[Happening]:
    day, tank = date.fromisoformat(path.stem[:10]), path.stem[11:]
    found: list[Happening] = []

    def collect(events: dict[str, object], place: str) -> None:
        for kind, value in events.items():
            if kind in {"title", "tanks", "private"}:
                continue
            for item in value if isinstance(value, list) else [value]:
                says = item if isinstance(item, dict) else {"bare": item}
                found.append(Happening(day, str(says.get("tank", place)), kind, says))

    head = front_matter(path)
    by_tank = head.get("tanks", {})
    assert isinstance(by_tank, dict)
    for place, events in by_tank.items():
        collect(events, str(place))
    collect(head, tank)
    return found


@cache
def happenings() -> tuple[Happening, ...]:
    return tuple(event for path in diary() for event in _happenings_of(path))


def of_kind(kind: str) -> list[Happening]:
    return [event for event in happenings() if event.kind == kind]


def tallies_written() -> list[Happening]:
    return [event for event in of_kind("counted") if "looks" in event.says]


@pytest.mark.parametrize("row", COUNTS, ids=lambda row: f"{row.brood} {row.date}")
def test_tally__is_the_one_drawn(row: Tally) -> None:
    day = date.fromisoformat(row.date)
    (written,) = [
        event
        for event in tallies_written()
        if event.name("brood") == row.brood and event.day == day
    ]
    drawn = dict(row.numbers)
    unsorted_drawn = drawn.pop("unsorted")

    assert written.numbers("looks") == {look: n for look, n in drawn.items() if n}
    assert written.says.get("unsorted", 0) == unsorted_drawn
    assert written.name("how") == row.how
    assert written.name("age") == f"{row.age_days} d"


def test_tallies__no_other_is_written() -> None:
    written = [(event.name("brood"), event.day.isoformat()) for event in tallies_written()]

    assert sorted(written) == sorted((row.brood, row.date) for row in COUNTS)


def test_hatching__says_at_least_what_was_glimpsed() -> None:
    drawn = {row.brood: f"{row.total}+" for row in DRAWN.tallies if row.how == "hatching"}
    days = {brood.name: brood.hatched for brood in BROODS}

    assert {event.name("brood"): event.name("count") for event in of_kind("hatched")} == drawn
    assert {event.name("brood"): str(event.day) for event in of_kind("hatched")} == days


def test_sexing__is_the_one_drawn() -> None:
    drawn = {
        row.brood: (row.date, row.number("females"), row.number("males"))
        for row in DRAWN.tallies
        if row.how == "sexed"
    }

    assert drawn == {
        event.name("group"): (str(event.day), event.number("females"), event.number("males"))
        for event in of_kind("sexed")
    }


def test_ages__are_days_since_hatching() -> None:
    hatched = {brood.name: date.fromisoformat(brood.hatched) for brood in BROODS}

    for row in COUNTS:
        days = (date.fromisoformat(row.date) - hatched[row.brood]).days
        assert days == row.age_days, row


def test_broods__no_dam_spawns_before_she_is_adult() -> None:
    hatched = {brood.name: date.fromisoformat(brood.hatched) for brood in BROODS}
    youngest_f1 = max(hatched["hazel-01"], hatched["alder-01"])

    for brood in BROODS:
        if brood.dams == "F1":
            first_spawning = (hatched[brood.name] - youngest_f1).days - INCUBATION_DAYS[1]
            assert first_spawning >= EARLIEST_ADULT_DAYS, brood.name
    (late,) = [e for e in of_kind("berried") if e.says.get("of") == ["marl", "silt"]]
    assert (late.day - hatched["alder-02"]).days > EARLIEST_ADULT_DAYS


@pytest.mark.parametrize(
    ("brood", "berried_on", "tank"),
    [
        ("hazel-01", "2026-03-07", "alder"),
        ("alder-01", "2026-03-13", "alder"),
        ("sedge-01", "2026-03-26", "sedge"),
        ("rowan-01", "2026-06-22", "rowan"),
        ("hazel-02", "2026-06-23", "alder"),
        ("alder-02", "2026-07-01", "alder"),
        ("rowan-02", "2026-07-19", "rowan"),
        ("alder-03", "2026-07-19", "alder"),
    ],
)
def test_brood__hatches_one_incubation_after_its_dam_was_berried(
    brood: str, berried_on: str, tank: str
) -> None:
    hatched = {b.name: date.fromisoformat(b.hatched) for b in BROODS}
    low, high = INCUBATION_DAYS

    assert low <= (hatched[brood] - date.fromisoformat(berried_on)).days <= high
    assert (berried_on, tank) in {(str(e.day), e.tank) for e in of_kind("berried")}


class Book:
    """The most animals that can be in each group, and the dead whose group is not known."""

    def __init__(self) -> None:
        self.most: dict[str, int] = {}
        self.where: dict[str, str] = {}
        self.unnamed: list[tuple[str, set[str]]] = []

    def appear(self, group: str, number: int, tank: str) -> None:
        assert group not in self.most, group
        self.most[group], self.where[group] = number, tank

    def take(self, group: str, number: int) -> None:
        assert number <= self.most[group], (group, number, self.most[group])
        self.most[group] -= number

    def in_tank(self, tank: str) -> int:
        here = sum(n for group, n in self.most.items() if self.where[group] == tank)
        return here - sum(place == tank for place, _ in self.unnamed)

    def settle(self, group: str) -> None:
        """A total of one group says how many of the unnamed dead were its own."""
        for _, candidates in self.unnamed:
            candidates.discard(group)
        self.unnamed = [
            (tank, candidates)
            for tank, candidates in self.unnamed
            if any(self.most[name] for name in candidates)
        ]

    def split(self, source: str, into: str, number: int, tank: str) -> None:
        self.take(source, number)
        self.appear(into, number, tank)

    def write(self, event: Happening) -> None:
        getattr(self, f"_{event.kind}", lambda _: None)(event)
        assert all(self.in_tank(tank) >= 0 for tank in ("alder", "hazel", "rowan", "sedge")), event

    def _bought(self, event: Happening) -> None:
        assert event.number() == event.number("females") + event.number("males")
        self.appear(event.name("group"), event.number(), event.tank)

    def _hatched(self, event: Happening) -> None:
        self.appear(event.name("brood"), BIRTHS[event.name("brood")], event.tank)

    def _counted(self, event: Happening) -> None:
        group = event.name("brood") or event.name("group")
        found = sum(event.numbers("looks").values()) + int(str(event.says.get("unsorted", 0)))
        found = found or event.number()
        assert found <= self.most[group], event
        assert self.where[group] == event.tank, event
        if event.name("how") == "emptied":
            self.most[group] = found
            self.settle(group)

    def _moved(self, event: Happening) -> None:
        source = event.name("group") or event.name("from")
        if new := event.name("as"):
            self.split(source, new, event.number(), event.name("to"))
            return
        assert event.says.get("count", self.most[source]) == self.most[source], event
        assert self.where[source] != event.name("to"), event
        self.where[source] = event.name("to")

    def _sorted(self, event: Happening) -> None:
        source, into = event.name("from"), event.says["into"]
        assert isinstance(into, dict)
        for new, part in into.items():
            self.split(source, new, part["count"], self.where[source])
        assert self.most[source] == 0, event

    def _chosen(self, event: Happening) -> None:
        source = event.name("from")
        assert event.number("out-of") == self.most[source], event
        self.split(source, event.name("into"), event.number(), self.where[source])

    def _joined(self, event: Happening) -> None:
        parts = event.numbers("parts")
        (tank,) = {self.where[group] for group in parts}
        for group, number in parts.items():
            assert number == self.most[group], event
            self.take(group, number)
        self.appear(event.name("into"), sum(parts.values()), tank)

    def _died(self, event: Happening) -> None:
        if group := event.name("group"):
            assert self.where[group] == event.tank, event
            self.take(group, event.number())
        else:
            of = event.says.get("of", [g for g, n in self.most.items() if n])
            assert isinstance(of, list)
            here = {name for name in of if self.where[name] == event.tank}
            assert len(here) > 1, event
            self.unnamed += [(event.tank, set(here)) for _ in range(event.number())]

    def _sold(self, event: Happening) -> None:
        self.take(event.name("group"), event.number())

    def _given(self, event: Happening) -> None:
        self.take(event.name("group"), event.number())

    def _graded(self, event: Happening) -> None:
        assert sum(event.numbers("values").values()) == self.most[event.name("group")], event


def book_before(day: date) -> Book:
    book = Book()
    for event in happenings():
        if event.day < day:
            book.write(event)
    return book


def test_book__nothing_leaves_that_is_not_there() -> None:
    end = book_before(date(2027, 1, 1))

    assert {group: n for group, n in end.most.items() if n} == {
        "alder-03": 6,
        "glim": 5,
        "lamp": 2,
        "marl": 7,
        "pane": 2,
        "pane-m": 2,
        "peat": 15,
        "sedge-01": 5,
        "silt": 12,
        "taper": 10,
        "taper-best": 3,
        "turf": 16,
    }


def test_book__sedge_is_two_short_when_it_is_emptied() -> None:
    day = date(2026, 8, 29)
    found = [e for e in of_kind("counted") if e.day == day and e.tank == "sedge"]

    assert book_before(day).in_tank("sedge") == 9
    assert [e.says.get("count") or sum(e.numbers("looks").values()) for e in found] == [2, 5]


def test_journal__is_large_and_varied_enough_to_show_the_work() -> None:
    bare = [path for path in diary() if not front_matter(path)]

    assert len(diary()) >= 40
    assert len(bare) == 2
    assert {"alder", "hazel", "rowan", "sedge"} == {
        path.stem for path in (SITE / "tanks").iterdir()
    }


def test_journal__links_lead_to_names_that_exist() -> None:
    book = book_before(date(2027, 1, 1))
    pages = {path.stem for folder in ("tanks", "lines") for path in (SITE / folder).iterdir()}
    prose = sorted(SITE.rglob("*.md"))

    linked = {
        name for path in prose for name in re.findall(r"\[\[([^\]]+)\]\]", path.read_text("utf-8"))
    }

    assert linked
    assert linked <= {*book.most, *pages}
    assert not any("![" in path.read_text("utf-8") for path in prose)


def test_draw__is_the_same_every_time() -> None:
    assert table(draw()) == table(DRAWN)
    assert 0.0 < VIABILITY_GG <= 1.0

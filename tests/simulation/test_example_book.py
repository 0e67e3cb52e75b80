"""The book of the example adds up: a second, simpler bookkeeping than the product's own."""

import re
from datetime import date

from simulation.diary import SITE, Happening, happenings, of_kind
from simulation.draw_counts import draw

BIRTHS = {name: hatched for name, hatched, _ in draw().alive}
TANKS = {"alder", "bracken", "hazel", "larch", "rowan", "sedge", "willow"}
AFTER_THE_LAST = date(2028, 1, 1)


class Book:
    """The most animals that can be in each group, and the dead whose group is not known."""

    def __init__(self) -> None:
        self.most: dict[str, int] = {}
        self.where: dict[str, str] = {}
        self.colonies: set[str] = set()
        """Groups that breed unrecorded, left out of the numbers."""
        self.never_counted: set[str] = set()
        """Broods of which nobody has seen all at once yet."""
        self.unlike: dict[str, int] = {}
        """Young that fit no look, and may stay behind at a sorting."""
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
        if event.name("group") in self.colonies:
            return
        getattr(self, f"_{event.kind}", lambda _: None)(event)
        assert all(self.in_tank(tank) >= 0 for tank in TANKS), event

    def _present(self, event: Happening) -> None:
        assert event.says["colony"] is True
        self.colonies.add(event.name("group"))

    def _bought(self, event: Happening) -> None:
        sexes = [int(str(event.says.get(sex, 0))) for sex in ("females", "males")]
        assert event.number() == sum(sexes)
        self.appear(event.name("group"), event.number(), event.tank)

    def _hatched(self, event: Happening) -> None:
        self.appear(event.name("brood"), BIRTHS[event.name("brood")], event.tank)
        self.never_counted.add(event.name("brood"))

    def _counted(self, event: Happening) -> None:
        group = event.name("brood") or event.name("group")
        if "looks" in event.says:
            found = sum(event.numbers("looks").values()) + event.others()
            found += int(str(event.says.get("unsorted", 0)))
        else:
            found = event.number()
        if not found and self.where[group] != event.tank:
            return  # none of them stayed behind
        assert found <= self.most[group], event
        assert self.where[group] == event.tank, event
        self.unlike[group] = event.others()
        if event.name("how") == "emptied":
            self.most[group] = found
            self.never_counted.discard(group)
            self.settle(group)

    def _moved(self, event: Happening) -> None:
        source = event.name("group") or event.name("from")
        if new := event.name("as"):
            self.split(source, new, event.number(), event.name("to"))
            return
        count = event.says.get("count", self.most[source])
        assert isinstance(count, int)
        if source in self.never_counted:
            assert count <= self.most[source], event
            self.most[source] = count  # a later count says that nobody was left
        assert count == self.most[source], event
        assert self.where[source] != event.name("to"), event
        self.where[source] = event.name("to")

    def _sorted(self, event: Happening) -> None:
        source, into = event.name("from"), event.says["into"]
        assert isinstance(into, dict)
        for new, part in into.items():
            self.split(source, new, part["count"], self.where[source])
        assert self.most[source] in {0, self.unlike.get(source, 0)}, event

    def _chosen(self, event: Happening) -> None:
        source = event.name("from")
        assert event.number("out-of") == self.most[source], event
        self.split(source, event.name("into"), event.number(), self.where[source])

    def _joined(self, event: Happening) -> None:
        parts, into = event.numbers("parts"), event.name("into")
        (tank,) = {self.where[group] for group in parts}
        for group, number in parts.items():
            assert number == self.most[group], event
            self.take(group, number)
        if into not in self.most:
            self.appear(into, 0, tank)
        assert self.where[into] == tank, event
        self.most[into] += sum(parts.values())

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

    def _culled(self, event: Happening) -> None:
        self.take(event.name("group"), event.number())

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
    end = book_before(AFTER_THE_LAST)

    assert {group: n for group, n in end.most.items() if n} == {
        "alder-06": 20,
        "beacon": 13,
        "best-f": 1,
        "bracken-01": 8,
        "bracken-03": BIRTHS["bracken-03"],
        "cinder": 2,
        "ember": 2,
        "glim": 2,
        "hazel-03": 12,
        "hinge": 1,
        "lamp": 2,
        "pane": 2,
        "rowan-04": 20,
        "sedge-02": 6,
        "sedge-03": 14,
        "stowaway": 1,
        "taper": 6,
        "taper-f": 2,
        "tinder": 2,
    }
    assert not end.unnamed
    assert end.colonies == {"leftovers"}


def test_book__sedge_is_two_short_when_it_is_emptied() -> None:
    day = date(2026, 8, 29)
    found = [e for e in of_kind("counted") if e.day == day and e.tank == "sedge"]

    assert book_before(day).in_tank("sedge") == 9
    assert [e.says.get("count") or sum(e.numbers("looks").values()) for e in found] == [2, 5]


def test_journal__links_lead_to_names_that_exist() -> None:
    book = book_before(AFTER_THE_LAST)
    pages = {path.stem for folder in ("tanks", "lines") for path in (SITE / folder).iterdir()}
    prose = sorted(SITE.rglob("*.md"))

    linked = {
        name for path in prose for name in re.findall(r"\[\[([^\]]+)\]\]", path.read_text("utf-8"))
    }

    assert linked
    assert linked <= {*book.most, *book.colonies, *pages}

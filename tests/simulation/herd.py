"""Groups of grown animals: who dies when, who is found, which sex, which grade.

Every drawing has a stream of its own, named after the group, the day and what is drawn.
"""

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from random import Random

from simulation.animals import SEED, Animal, Tally

__all__ = ["SCORES", "Herd"]

DEATHS_A_MONTH = 0.035
"""Chance that a grown animal dies within thirty days; none published for a tank."""

DEATHS_A_MONTH_OLD = 0.2
"""The same for bought animals past their first year with the keeper."""

BODY_FOUND = 0.5
"""Chance that a body is found before the snails are done with it."""

SCORES = ("broken", "thin", "full")
"""The saddle scale, worst first."""


class Herd:
    """All groups, and the rows that were drawn of them."""

    def __init__(self) -> None:
        self.groups: dict[str, list[Animal]] = {}
        self.rows: list[Tally] = []

    def note(self, group: str, day: str, how: str, numbers: tuple[tuple[str, int], ...]) -> None:
        """Write a row of the table."""
        self.rows.append(Tally(brood=group, date=day, age_days=None, how=how, numbers=numbers))

    def add(self, group: str, animals: Sequence[Animal]) -> None:
        """Let animals become a group, or join one."""
        self.groups.setdefault(group, []).extend(animals)

    def of(self, *groups: str, female: bool | None = None) -> tuple[Animal, ...]:
        """Return the members of groups, of one sex where it is given."""
        return tuple(
            animal
            for group in groups
            for animal in self.groups[group]
            if female is None or animal.female is female
        )

    def live(self, *groups: str, since: str, until: str, old: bool = False) -> None:
        """Draw who dies from one day to another, and on which days bodies are found."""
        first = date.fromisoformat(since)
        days = (date.fromisoformat(until) - first).days
        monthly = DEATHS_A_MONTH_OLD if old else DEATHS_A_MONTH
        for group in groups:
            stream = Random(f"{SEED}:{group}:{until}:live")
            left: list[Animal] = []
            for animal in self.groups[group]:
                if stream.random() < (1.0 - monthly) ** (days / 30):
                    left.append(animal)
                elif stream.random() < BODY_FOUND:
                    day = first + timedelta(days=1 + int(stream.random() * (days - 1)))
                    self.note(group, day.isoformat(), "body", (("dead", 1),))
            self.groups[group] = left

    def lose(self, *groups: str, day: str, chance: float) -> None:
        """Draw how many die together of one cause, and are all found."""
        for group in groups:
            stream = Random(f"{SEED}:{group}:{day}:lose")
            left = [animal for animal in self.groups[group] if stream.random() >= chance]
            dead = len(self.groups[group]) - len(left)
            self.groups[group] = left
            self.note(group, day, "body", (("dead", dead),))

    def count(self, *groups: str, day: str, found: float = 1.0) -> None:
        """Draw how many of a group are found at a count."""
        for group in groups:
            stream = Random(f"{SEED}:{group}:{day}:count")
            number = sum(stream.random() < found for _ in self.groups[group])
            self.note(group, day, "counted", (("animals", number),))

    def sex(self, *groups: str, day: str) -> None:
        """Say how many of each sex there are."""
        for group in groups:
            females = len(self.of(group, female=True))
            numbers = (("females", females), ("males", len(self.groups[group]) - females))
            self.note(group, day, "sexed", numbers)

    def split(self, group: str, into: str, wanted: Callable[[Animal], bool]) -> None:
        """Make a group of all members of a kind."""
        self.add(into, [animal for animal in self.groups[group] if wanted(animal)])
        self.groups[group] = [animal for animal in self.groups[group] if not wanted(animal)]

    def take(self, group: str, into: str, number: int, *, female: bool | None = None) -> None:
        """Make a group of so many members, blind to all but sex."""
        stream = Random(f"{SEED}:{group}:{into}:take")
        for _ in range(number):
            places = [
                place
                for place, animal in enumerate(self.groups[group])
                if female is None or animal.female is female
            ]
            place = places[int(stream.random() * len(places))]
            self.add(into, [self.groups[group].pop(place)])

    def grade(self, group: str, day: str, *, shares: tuple[float, float, float]) -> None:
        """Draw the saddle of each member; shares are those of the scores, worst first."""
        stream = Random(f"{SEED}:{group}:{day}:grade")
        numbers = dict.fromkeys(SCORES, 0)
        for _ in self.groups[group]:
            drawn = stream.random()
            place = 0 if drawn < shares[0] else 1 if drawn < shares[0] + shares[1] else 2
            numbers[SCORES[place]] += 1
        self.note(group, day, "graded", tuple(numbers.items()))

"""Which groups can hold animals of a sex that were old enough to breed on a day."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from filialog.journal.births import first_births
from filialog.journal.descent import Descent
from filialog.journal.events import Event
from filialog.journal.kinds import Books
from filialog.journal.ledger import Book
from filialog.journal.names import Names, Origin
from filialog.journal.parentage.occupancy import Occupancy
from filialog.journal.parents import sides_of
from filialog.journal.quantities import Count
from filialog.journal.records import Journal

__all__ = ["Breeders", "Side"]

Side = Literal["dams", "sires"]

_Most = int | None
"""Most animals; None where there is no bound."""


@dataclass(frozen=True, slots=True)
class _State:
    """The most females and males of a group from a day on."""

    since: date
    females: _Most
    males: _Most


@dataclass(frozen=True, slots=True)
class _Said:
    """What an event says of the sexes of some animals."""

    females: Count | None
    males: Count | None
    whole: Count | None


_States = dict[str, tuple[_State, ...]]


class Breeders:
    """Ages and sexes of all groups, with what can be revised later kept open."""

    def __init__(
        self,
        journal: Journal,
        names: Names,
        descent: Descent,
        book: Book,
        occupancy: Occupancy,
        *,
        unseen_days: int,
    ) -> None:
        self._births = first_births(names, descent)
        species = journal.species
        self.maturity_days = species.earliest_maturity_days if species is not None else 0
        self._unseen = timedelta(days=unseen_days)
        self._book = book
        changes = _changes_by_group(journal.events(), names)
        self._written: _States = {}
        """What was written of sexes."""
        self._fill(self._written, journal, names, descent, changes)
        pairings = _pairings_of_unsexed(journal, names, descent, changes, occupancy)
        self._states = self._written
        """With what pairings tell of animals whose sex was not written."""
        if pairings:
            for group, some in pairings.items():
                changes[group] = [*changes.get(group, []), *some]
            self._states = {}
            self._fill(self._states, journal, names, descent, changes)

    def adult_from(self, group: str) -> date:
        """Return the first day on which animals of a group can have been of age."""
        birth = self._births.get(group)
        if birth is None:
            return date.min
        return birth[0] - self._unseen + timedelta(days=self.maturity_days)

    def most_of(self, group: str, side: Side, since: date) -> _Most:
        """Return the most animals of a sex from a day on, as far as sexes were written down.

        What was written later counts as well: it may be put right, or be of those that were left.
        """
        return _most(self._states.get(group, ()), side, since)

    def can_be(self, group: str, side: Side, since: date) -> bool:
        """Say whether a group can hold animals of a sex from a day on, by what was written.

        Pairings do not count here: they name animals, and the keeper may name them otherwise.
        """
        return _most(self._written.get(group, ()), side, since) != 0

    def can_breed(self, group: str, side: Side, *, first: date, last: date) -> bool:
        """Say whether a group can hold animals of a sex that were of age in a window."""
        return self.adult_from(group) <= last and self.most_of(group, side, first) != 0

    def _fill(
        self,
        states: _States,
        journal: Journal,
        names: Names,
        descent: Descent,
        changes: Mapping[str, list["_Change"]],
    ) -> None:
        for group in descent.order:
            if (fixed := _of_page(journal, group)) is not None:
                states[group] = (_State(date.min, *fixed),)
            else:
                states[group] = self._states_of(
                    group, names.origins[group], changes.get(group, []), states
                )

    def _states_of(
        self,
        group: str,
        origins: Iterable[Origin],
        changes: Iterable["_Change"],
        earlier: _States,
    ) -> tuple[_State, ...]:
        came = [
            _Change(when=origin.event.when.earliest, event=origin.event, origin=origin)
            for origin in origins
        ]
        every = [*came, *changes]
        every.sort(key=lambda one: (one.when, one.origin is None, one.event.id))
        states: list[_State] = []
        for change in every:
            now = states[-1] if states else _State(date.min, 0, 0)
            if change.origin is not None:
                females, males = _of_origin(group, change.origin, earlier)
                new = (_plus(now.females, females), _plus(now.males, males))
            elif change.event.kind_name == "sexed":
                number = self._book.number_of(group, change.when).high
                new = _sexed(now, change.event, number)
            elif change.put_as is not None:
                new = (now.females, 0) if change.put_as == "dams" else (0, now.males)
            else:
                said = change.said
                new = (
                    _less(now.females, said.females if said else None),
                    _less(now.males, said.males if said else None),
                )
            states.append(_State(change.when, *new))
        return tuple(states)


def _of_page(journal: Journal, group: str) -> tuple[_Most, _Most] | None:
    page = journal.groups.get(group)
    return {"female": (None, 0), "male": (0, None)}.get(page.sex or "") if page else None


def _most(states: Sequence[_State], side: Side, since: date) -> _Most:
    first = max((at for at, one in enumerate(states) if one.since <= since), default=0)
    found = [one.females if side == "dams" else one.males for one in states[first:]]
    return None if None in found else max((one for one in found if one is not None), default=0)


def _of_origin(group: str, origin: Origin, states: _States) -> tuple[_Most, _Most]:
    said = _said_of_new(origin.event, group)
    if said is not None:
        return _bounds(said)
    if not origin.sources:
        return (None, None)
    since = origin.event.when.earliest
    females: _Most = 0
    males: _Most = 0
    for source in origin.sources:
        if source not in states:  # a loop that was cut open
            return (None, None)
        females = _plus(females, _most(states[source], "dams", since))
        males = _plus(males, _most(states[source], "sires", since))
    return (females, males)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Change:
    """Something that changes what is known of the sexes of a group."""

    when: date
    event: Event
    origin: Origin | None = None
    said: _Said | None = None
    put_as: Side | None = None
    """As what a pairing named all of them."""


def _changes_by_group(events: Iterable[Event], names: Names) -> dict[str, list[_Change]]:
    """Collect sexings, and animals of a named sex that left a group, by group."""
    found: dict[str, list[_Change]] = {}
    for event in events:
        group = event.text("group")
        if event.kind_name == "moved" and group is None:
            source = event.text("from")
            group = source if source in names.groups and source not in names.tanks else None
        if event.kind_name in ("sorted", "chosen"):
            group = event.text("from") or group
        if group is None:
            continue
        for said in _said_of_leaving(event):
            # Of a window of days the last counts: until then they can have been there.
            day = event.when.earliest if event.kind_name == "sexed" else event.when.latest
            found.setdefault(group, []).append(_Change(when=day, event=event, said=said))
    return found


def _pairings_of_unsexed(
    journal: Journal,
    names: Names,
    descent: Descent,
    changes: Mapping[str, Sequence[_Change]],
    occupancy: Occupancy,
) -> Mapping[str, Sequence[_Change]]:
    """Collect pairings that tell the sex of a group: of all its animals, and nobody wrote it.

    Who was in another tank, or came later, was not put together with anyone; and of a group of
    which females and males are on record the keeper means those of the one sex.
    """
    sexed = _sexed_groups(journal, names, descent, changes)
    found: dict[str, list[_Change]] = {}
    for event in journal.events():
        if event.kind_name != "paired" or event.tank is None:
            continue
        dams, sires = sides_of(event)
        sides: tuple[tuple[Side, tuple[str, ...], tuple[str, ...]], ...] = (
            ("dams", dams, sires),
            ("sires", sires, dams),
        )
        for side, put, others in sides:
            said = event.parents(side)
            if said is None or said.count is not None:
                continue  # paired within itself, or some of them only
            for group in put:
                if (
                    group in names.groups
                    and group not in sexed
                    and group not in others
                    and _all_in(event.tank, group, event, occupancy)
                ):
                    change = _Change(when=event.when.latest, event=event, put_as=side)
                    found.setdefault(group, []).append(change)
    return found


def _sexed_groups(
    journal: Journal,
    names: Names,
    descent: Descent,
    changes: Mapping[str, Sequence[_Change]],
) -> frozenset[str]:
    """Return the groups of which, or of the sources of which, any sex was written down."""
    found: set[str] = set()
    for group in descent.order:
        if (
            group in changes
            or _of_page(journal, group) is not None
            or any(
                _said_of_new(one.event, group) is not None or not found.isdisjoint(one.sources)
                for one in names.origins[group]
            )
        ):
            found.add(group)
    return frozenset(found)


def _all_in(tank: str, group: str, event: Event, occupancy: Occupancy) -> bool:
    """Say whether all animals of a group are in a tank once an event is over."""
    day = timedelta(days=1)
    first, last = event.when.earliest + day, event.when.latest + day
    cells = occupancy.cells_of(group)
    return (group, tank) in cells and all(
        cell[1] == tank or occupancy.stay(cell, first, last) is None for cell in cells
    )


def _said_of_leaving(event: Event) -> Iterator[_Said]:
    females, males = event.count("females"), event.count("males")
    if event.kind_name == "sorted":
        for one in event.sortings():
            if one.females is not None or one.males is not None:
                yield _Said(one.females, one.males, one.count)
    elif females is None and males is None:
        return
    elif (
        event.kind_name in ("sexed", "chosen")
        or event.kind.books is Books.LEAVES
        or (event.kind_name == "moved" and event.text("as") is not None)
    ):
        yield _Said(females, males, event.count())


def _said_of_new(event: Event, group: str) -> _Said | None:
    """Return what the event that brings animals into a group says of their sexes."""
    if event.kind_name == "sorted":
        for one in event.sortings():
            if one.group == group and (one.females is not None or one.males is not None):
                return _Said(one.females, one.males, one.count)
        return None
    females, males = event.count("females"), event.count("males")
    if event.kind_name == "hatched" or (females is None and males is None):
        return None
    return _Said(females, males, event.count())


def _bounds(said: _Said) -> tuple[_Most, _Most]:
    """Return the most females and males; what is not sexed can be either."""
    rest: _Most = 0
    if said.whole is not None:
        sexed = sum(one.low for one in (said.females, said.males) if one is not None)
        rest = None if said.whole.high is None else max(said.whole.high - sexed, 0)
    return (_plus(_high(said.females), rest), _plus(_high(said.males), rest))


def _sexed(now: _State, event: Event, number: _Most) -> tuple[_Most, _Most]:
    """Read a sexing: what it does not name can be either, as far as there are more animals."""
    females, males = event.count("females"), event.count("males")
    sexed = sum(one.low for one in (females, males) if one is not None)
    rest = None if number is None else max(number - sexed, 0)
    most_females, most_males = _plus(_high(females), rest), _plus(_high(males), rest)
    if rest != 0:
        # Part of them only: what was known of the rest still holds where it is the narrower.
        most_females = _narrower(most_females, now.females, written=females)
        most_males = _narrower(most_males, now.males, written=males)
    return (most_females, most_males)


def _narrower(new: _Most, old: _Most, *, written: Count | None) -> _Most:
    least = written.low if written is not None else 0
    if old is None or old < least:
        return new
    return old if new is None else min(new, old)


def _high(count: Count | None) -> _Most:
    return 0 if count is None else count.high


def _plus(one: _Most, other: _Most) -> _Most:
    return None if one is None or other is None else one + other


def _less(most: _Most, gone: Count | None) -> _Most:
    return most if most is None or gone is None else max(most - gone.low, 0)

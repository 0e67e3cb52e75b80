"""What was seen of females: with eggs, without, moulting, losing them."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from filialog.journal.events import Event

__all__ = ["Remark", "RemarkKind", "Remarks"]


class RemarkKind(StrEnum):
    """What was seen."""

    BERRIED = "berried"
    NOT_BERRIED = "not-berried"
    MOULT = "moult"
    DROPPED = "eggs-dropped"


_OF_SEEN = {
    "not-berried": RemarkKind.NOT_BERRIED,
    "moult": RemarkKind.MOULT,
    # Copulation follows the moult within minutes in a related shrimp (Bauer & Abdalla 2001).
    "mating": RemarkKind.MOULT,
    "eggs-dropped": RemarkKind.DROPPED,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """Something seen of one or more females."""

    kind: RemarkKind
    event: Event
    groups: tuple[str, ...]
    """Groups they can have been of; empty where any of the tank can be meant."""
    tank: str | None
    number: int | None
    """How many at least; None where all that are named are meant."""


class Remarks:
    """The remarks of a journal, by day within a group or a tank."""

    def __init__(self, events: Iterable[Event]) -> None:
        self._by_subject: dict[tuple[str, str], list[Remark]] = {}
        for event in events:
            # A date that may not be shown would be told by the window that rests on it.
            if event.withheld:
                continue
            for one in _remarks_of(event):
                subjects = [("group", name) for name in one.groups]
                if not one.groups and one.tank is not None:
                    subjects = [("tank", one.tank)]
                for subject in subjects:
                    self._by_subject.setdefault(subject, []).append(one)
        for found in self._by_subject.values():
            found.sort(key=_day)

    def between(
        self, groups: Iterable[str], tanks: Iterable[str], first: date, last: date
    ) -> Iterator[Remark]:
        """Give the remarks on some groups, and on all animals of some tanks, each once."""
        subjects = [("group", name) for name in sorted(set(groups))]
        subjects += [("tank", name) for name in sorted(set(tanks))]
        told: set[tuple[object, RemarkKind]] = set()
        for subject in subjects:
            found = self._by_subject.get(subject, ())
            start = bisect_left(found, first, key=_day)
            for one in found[start : bisect_right(found, last, key=_day)]:
                if (one.event.id, one.kind) not in told:
                    told.add((one.event.id, one.kind))
                    yield one


def _day(remark: Remark) -> date:
    return remark.event.when.earliest


def _remarks_of(event: Event) -> Iterator[Remark]:
    count = event.count()
    named = event.text("animal") or event.text("group")
    groups = (named,) if named is not None else event.names("of")
    if event.kind_name == "berried":
        kinds = [RemarkKind.BERRIED]
    elif event.kind_name == "seen":
        kinds = [_OF_SEEN[what] for what in event.names("what") if what in _OF_SEEN]
    else:
        return
    for kind in kinds:
        number = count.low if count is not None else None
        if number is None and kind is not RemarkKind.NOT_BERRIED:
            number = 1
        yield Remark(kind=kind, event=event, groups=groups, tank=event.tank, number=number)

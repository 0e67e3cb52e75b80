"""How many young of a brood were alive between its first counts and its last full one."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta

from filialog.analysis.line_rows import SurvivalRow, WhyNot
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD
from filialog.analysis.tallies import TALLIES
from filialog.journal.events import EventId
from filialog.journal.quantities import When
from filialog.statistics import wilson_interval

__all__ = ["SURVIVAL", "survival_of_all"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Seen:
    """A count, with the young that had left alive before it."""

    event: EventId
    when: When
    number: int
    """At least so many were alive, with those that had left."""
    total: bool


def _survival(reader: Reader, brood: str) -> SurvivalRow | WhyNot:
    row = reader.get(BROOD, brood)
    if row is None:
        return WhyNot.ONE_COUNT
    seen: list[_Seen] = []
    if row.count is not None and row.count.low:
        seen.append(
            _Seen(event=row.event, when=row.when, number=row.count.low,
                  total=row.count.exact is not None)
        )  # fmt: skip
    for tally in reader.get(TALLIES, brood):
        left = _left_alive(reader, brood, tally.when)
        if left is None:
            return WhyNot.NOT_EXACT
        # A tank that was emptied holds the whole brood only while none of it is elsewhere.
        exact = (
            tally.total
            and tally.number.exact is not None
            and not _elsewhere(reader, brood, tally.tank, tally.when)
        )
        seen.append(
            _Seen(event=tally.event, when=tally.when, number=tally.number.low + left, total=exact)
        )
    last = max((at for at, one in enumerate(seen) if one.total and at), default=None)
    if last is None:
        return WhyNot.ONE_COUNT
    base = max(seen[:last], key=lambda one: (one.number, one.total))
    if not base.number:
        return WhyNot.ONE_COUNT
    survivors = seen[last].number
    if survivors > base.number:
        return WhyNot.LATER_HIGHER
    return _row(base.number, survivors, total=base.total, events=(base.event, seen[last].event))


SURVIVAL: NodeKind[SurvivalRow | WhyNot] = NodeKind("survival", _survival)
"""Survival of a brood, or what is missing for it."""


def _row(base: int, survivors: int, *, total: bool, events: Sequence[EventId]) -> SurvivalRow:
    interval = wilson_interval(seen=survivors, counted=base)
    return SurvivalRow(
        base=base,
        base_total=total,
        survivors=survivors,
        low=interval.low,
        high=interval.high,
        events=tuple(dict.fromkeys(events)),
    )


def survival_of_all(rows: Sequence[SurvivalRow]) -> SurvivalRow | None:
    """Return the survival of several broods together; None without any."""
    if not rows:
        return None
    return _row(
        sum(row.base for row in rows),
        sum(row.survivors for row in rows),
        total=all(row.base_total for row in rows),
        events=[event for row in rows for event in row.events],
    )


def _elsewhere(reader: Reader, brood: str, tank: str | None, when: When) -> bool:
    """Say whether young of a brood can have been in another tank than the one counted."""
    if tank is None:
        return False
    book = reader.journal(f"book of {brood}").book
    cells = [cell for cell in book.cells_of.get(brood, ()) if cell[1] != tank]
    # The evening before: what is moved on the day of a count is moved after it.
    return book.number_in(cells, when.earliest - timedelta(days=1)).high != 0


def _left_alive(reader: Reader, brood: str, when: When) -> int | None:
    """Count the young that had left a brood alive before a day; None where that is not known.

    On the day of a count they leave after it: whoever empties a tank counts before sorting.
    """
    book = reader.journal(f"book of {brood}").book
    left = 0
    for posting in book.postings.get(brood, ()):
        if posting.when.latest >= when.earliest or posting.unaccounted or posting.change is None:
            continue
        if posting.gained:
            if posting.kind_name != "hatched":
                return None
            continue
        moved_on = posting.kind_name == "moved" and posting.other_group is None
        if posting.kind_name in {"died", "counted"} or moved_on:
            continue
        exact = book.count(posting.change).exact
        if exact is None:
            return None
        left += exact
    return left

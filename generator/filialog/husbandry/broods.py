"""When a brood is due, and how many broods of a female went unseen."""

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import pairwise

from filialog.domain_error import DomainError
from filialog.husbandry.incubation import NEOCARIDINA_DAVIDI, ThermalLaw, incubation_range
from filialog.husbandry.maturity import DateRange
from filialog.husbandry.provenance import Basis, Provenance, Sourced

__all__ = ["PAUSE_DAYS", "broods_missed", "hatching_dates"]

PAUSE_DAYS: Sourced[int] = Sourced(
    value=7,
    sources=(
        Provenance(
            source="five to seven days from hatching to the next eggs", basis=Basis.COMMON_PRACTICE
        ),
    ),
)
"""Days from the hatching of one brood to the eggs of the next."""


def hatching_dates(
    *,
    last_seen_without: date | None,
    first_seen_with: date,
    temperatures_c: Sequence[float],
    law: ThermalLaw = NEOCARIDINA_DAVIDI,
) -> DateRange:
    """Return the days between which the eggs of a female hatch.

    Parameters
    ----------
    last_seen_without
        Last day on which she was seen without eggs; None where she never was.
    first_seen_with
        First day on which she was seen with eggs.
    temperatures_c
        Mean water temperature in °C of one day after the other, from the laying on.
    law
        How fast eggs of the species develop.

    Returns
    -------
    DateRange
        From the fewest days after the earliest laying to the most days after the latest; never
        before `first_seen_with`. Where it is not known when she had no eggs yet, the laying is
        taken to be at most one incubation before.

    Raises
    ------
    DomainError
        If she was seen without eggs on or after the first day with eggs, or as for
        `incubation_range`.

    Examples
    --------
    >>> found = hatching_dates(
    ...     last_seen_without=date(2031, 3, 1),
    ...     first_seen_with=date(2031, 3, 4),
    ...     temperatures_c=[24.0] * 40,
    ... )
    >>> found.earliest, found.latest
    (datetime.date(2031, 3, 17), datetime.date(2031, 3, 28))
    """
    days = incubation_range(temperatures_c, law=law)
    earliest_laying = last_seen_without
    if earliest_laying is None:
        earliest_laying = first_seen_with - timedelta(days=days.high_days)
    elif not earliest_laying < first_seen_with:
        raise DomainError(
            "day last seen without eggs", earliest_laying.isoformat(), f"before {first_seen_with}"
        )
    return DateRange(
        earliest=max(earliest_laying + timedelta(days=days.low_days), first_seen_with),
        latest=first_seen_with + timedelta(days=days.high_days),
    )


def broods_missed(
    seen_with_eggs: Sequence[date], *, incubation_days: int, pause_days: int = PAUSE_DAYS.value
) -> int:
    """Return how many broods can have come and gone between those that were seen.

    Parameters
    ----------
    seen_with_eggs
        First day with eggs of each brood of one female that was seen, in order.
    incubation_days
        Most days she carries eggs, one or more.
    pause_days
        Most days from hatching to the next eggs, zero or more.

    Returns
    -------
    int
        Whole cycles that fit between one seen brood and the next beyond the one that is needed.
        An upper bound of what a healthy female does: a pause looks the same as an unseen brood.

    Raises
    ------
    DomainError
        If a day is not after the one before or a number is too small. Two broods within one
        incubation are no finding of this function: the eggs may have been dropped.

    Examples
    --------
    >>> days = [date(2031, 3, 1), date(2031, 3, 29), date(2031, 6, 1)]
    >>> broods_missed(days, incubation_days=21)
    1
    """
    if not incubation_days >= 1:
        raise DomainError("days of carrying eggs", incubation_days, "1 or more")
    if not pause_days >= 0:
        raise DomainError("days between hatching and eggs", pause_days, "0 or more")
    cycle = incubation_days + pause_days
    missed = 0
    for before, after in pairwise(seen_with_eggs):
        if not before < after:
            raise DomainError("day first seen with eggs", after.isoformat(), f"after {before}")
        missed += max((after - before).days // cycle - 1, 0)
    return missed

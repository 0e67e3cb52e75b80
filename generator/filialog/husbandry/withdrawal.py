"""How long animals are held back from sale after a treatment."""

from collections.abc import Sequence
from datetime import date, timedelta

from filialog.domain_error import DomainError
from filialog.husbandry.provenance import Basis, Provenance, Sourced

__all__ = ["WITHDRAWAL_DAYS", "first_day_for_sale"]

WITHDRAWAL_DAYS: Sourced[int] = Sourced(
    value=14,
    sources=(
        Provenance(
            source="14 days after the last dose; no law sets a time for ornamental animals",
            basis=Basis.COMMON_PRACTICE,
        ),
    ),
)
"""Days after the last dose during which nothing is sold from the tank."""


def first_day_for_sale(
    doses: Sequence[date], *, wait_days: Sourced[int] = WITHDRAWAL_DAYS
) -> Sourced[date] | None:
    """Return the first day on which treated animals may be sold again.

    Parameters
    ----------
    doses
        Days on which a dose was given, in any order.
    wait_days
        Days to wait after the last dose, zero or more. The leaflet of the remedy and a vet go
        before this number.

    Returns
    -------
    Sourced[date] or None
        The day, with the source of the wait; None where nothing was given.

    Raises
    ------
    DomainError
        If the wait is negative.

    Examples
    --------
    >>> found = first_day_for_sale([date(2031, 3, 1), date(2031, 3, 8)])
    >>> found.value
    datetime.date(2031, 3, 22)
    """
    if not wait_days.value >= 0:
        raise DomainError("days to wait after a treatment", wait_days.value, "0 or more")
    if not doses:
        return None
    return Sourced(value=max(doses) + timedelta(days=wait_days.value), sources=wait_days.sources)

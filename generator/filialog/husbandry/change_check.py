"""Whether a reading after a water change is what the change should have given."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from filialog.domain_error import DomainError
from filialog.husbandry.bounds import Bounds, within_corners
from filialog.husbandry.guards import above_zero, zero_or_more
from filialog.husbandry.mixing import MASS_BALANCE, after_changes
from filialog.husbandry.provenance import Provenance

__all__ = ["ChangeCheck", "ChangeVerdict", "check_change"]


class ChangeVerdict(StrEnum):
    """What the reading after a change says about the change."""

    AS_EXPECTED = "as expected"
    """The reading fits the volume and the mix."""
    VOLUME_OR_MIX_WRONG = "volume or mix was wrong"
    """No values within the bounds of all the readings fit together."""
    CANNOT_TELL = "cannot tell"
    """Tank and fresh water read too much alike for any change to show."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeCheck:
    """A water change held against the reading after it."""

    expected: Bounds
    """What the reading should be, in its unit."""
    measured: Bounds
    """What it was."""
    verdict: ChangeVerdict
    """What came out."""
    litres_that_would_fit: Bounds | None
    """Litres changed that would explain the reading if the mix was right, within 0 and the net
    litres; None where no volume would, or any would."""
    fresh_that_would_fit: Bounds | None
    """Fresh water that would explain the reading if the volume was right, in the unit of the
    reading; None where none would."""
    sources: tuple[Provenance, ...]
    """What the expectation rests on."""


def check_change(
    *,
    before: Bounds,
    fresh: Bounds,
    measured: Bounds,
    changed_litres: Bounds,
    net_litres: Bounds,
) -> ChangeCheck:
    """Hold the reading after a water change against what the change should have given.

    Parameters
    ----------
    before, fresh, measured
        Readings of the tank before, the water put in and the tank after, in one unit of amount
        per litre (not pH), zero or more, each within the steps of its instrument
        (`reading_bounds`). One instrument for all three is best.
    changed_litres, net_litres
        Litres changed and litres in the tank, above zero.

    Returns
    -------
    ChangeCheck
        What was to be expected, the verdict, and what else would explain the reading.

    Raises
    ------
    DomainError
        If a bound is negative, infinite, or more may have been changed than there is.

    Notes
    -----
    The tolerance is that of the readings alone. Soil that takes up hardness and a pen that drifts
    look like a wrong mix.

    References
    ----------
    .. [1] `MASS_BALANCE`.

    Examples
    --------
    >>> from filialog.husbandry.bounds import exactly, reading_bounds
    >>> found = check_change(
    ...     before=reading_bounds(320.0, resolution=5.0),
    ...     fresh=reading_bounds(180.0, resolution=5.0),
    ...     measured=reading_bounds(295.0, resolution=5.0),
    ...     changed_litres=exactly(9.0),
    ...     net_litres=exactly(21.0),
    ... )
    >>> found.expected
    Bounds(low=255.0, high=265.0)
    >>> print(found.verdict)
    volume or mix was wrong
    """
    _check(before, fresh, measured, changed_litres, net_litres)
    share = Bounds(
        low=changed_litres.low / net_litres.high, high=changed_litres.high / net_litres.low
    )
    expected = within_corners(
        lambda before, fresh, share: after_changes(
            before=before, fresh=fresh, changed_fraction=share
        ),
        before=before,
        fresh=fresh,
        share=share,
    )
    alike = before.overlaps(fresh)
    if not expected.overlaps(measured):
        verdict = ChangeVerdict.VOLUME_OR_MIX_WRONG
    elif alike:
        verdict = ChangeVerdict.CANNOT_TELL
    else:
        verdict = ChangeVerdict.AS_EXPECTED
    return ChangeCheck(
        expected=expected,
        measured=measured,
        verdict=verdict,
        litres_that_would_fit=None if alike else _litres(before, fresh, measured, net_litres),
        fresh_that_would_fit=_fresh(before, measured, share),
        sources=(MASS_BALANCE,),
    )


def _check(
    before: Bounds, fresh: Bounds, measured: Bounds, changed_litres: Bounds, net_litres: Bounds
) -> None:
    """Refuse readings and volumes that cannot be."""
    for quantity, bounds in (
        ("reading before", before),
        ("reading of the fresh water", fresh),
        ("reading after", measured),
    ):
        zero_or_more(quantity, bounds.low)
        zero_or_more(quantity, bounds.high)
    for quantity, bounds in (("litres changed", changed_litres), ("net litres", net_litres)):
        above_zero(quantity, bounds.low)
        above_zero(quantity, bounds.high)
    if changed_litres.high > net_litres.low:
        raise DomainError(
            "litres changed", changed_litres.high, f"at most the {net_litres.low:g} there are"
        )


def _litres(before: Bounds, fresh: Bounds, measured: Bounds, net: Bounds) -> Bounds | None:
    """Return the litres that fit, waters before and fresh not being alike."""

    def share(*, before: float, fresh: float, measured: float) -> float:
        return (before - measured) / (before - fresh)

    found = within_corners(share, before=before, fresh=fresh, measured=measured)
    part = _cut(found, low=0.0, high=1.0)
    if part is None:
        return None
    return Bounds(low=part.low * net.low, high=part.high * net.high)


def _fresh(before: Bounds, measured: Bounds, share: Bounds) -> Bounds | None:
    """Return the fresh water that fits the volume."""

    def water(*, before: float, measured: float, share: float) -> float:
        return before + (measured - before) / share

    solve: Callable[..., float] = water
    found = within_corners(solve, before=before, measured=measured, share=share)
    return _cut(found, low=0.0, high=math.inf)


def _cut(bounds: Bounds, *, low: float, high: float) -> Bounds | None:
    """Return the part of the bounds within two numbers, or None."""
    if bounds.high < low or bounds.low > high:
        return None
    return Bounds(low=max(bounds.low, low), high=min(bounds.high, high))

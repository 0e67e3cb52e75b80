"""What comes of mixing waters and of changing part of the water, by the balance of masses."""

import math
from collections.abc import Sequence

from filialog.domain_error import DomainError
from filialog.husbandry.guards import above_zero, fraction, in_range, zero_or_more
from filialog.husbandry.provenance import Basis, Provenance

__all__ = [
    "MASS_BALANCE",
    "after_changes",
    "change_fraction",
    "changes_needed",
    "fraction_needed",
    "level_after_many_changes",
    "mixed",
    "share_of_first",
]

MASS_BALANCE = Provenance(
    source=(
        "balance of masses of what neither reacts nor evaporates; conductivity follows it nearly,"
        " pH does not"
    ),
    basis=Basis.ARITHMETIC,
)
"""What every result of mixing rests on."""


def mixed(parts: Sequence[tuple[float, float]]) -> float:
    """Return the concentration of several waters poured together.

    Parameters
    ----------
    parts
        Litres and concentration of each, zero or more; the concentrations all in one unit that
        counts an amount per litre (°d, mg/L, µS/cm nearly), not pH.

    Returns
    -------
    float
        The concentration of the mix.

    Raises
    ------
    DomainError
        If there is no water, or a number is negative or not finite.

    References
    ----------
    .. [1] `MASS_BALANCE`.

    Examples
    --------
    >>> mixed([(3.0, 14.0), (7.0, 0.0)])
    4.2
    """
    for litres, concentration in parts:
        zero_or_more("litres", litres)
        zero_or_more("concentration", concentration)
    total = math.fsum(litres for litres, _ in parts)
    above_zero("litres together", total)
    return math.fsum(litres * concentration for litres, concentration in parts) / total


def share_of_first(target: float, *, first: float, second: float) -> float:
    """Return how much of a first water a mix of two needs to reach a target.

    Parameters
    ----------
    target, first, second
        Concentration wanted and those of the two waters, in one unit, zero or more.

    Returns
    -------
    float
        Share of the first water in the mix, 0 to 1.

    Raises
    ------
    DomainError
        If the target lies outside the two waters, both are alike, or a number is negative or not
        finite.

    Notes
    -----
    Two targets (general and carbonate hardness) mostly need two different shares: one mix of two
    waters does not reach both.

    References
    ----------
    .. [1] `MASS_BALANCE`.

    Examples
    --------
    >>> round(share_of_first(5.0, first=14.0, second=0.0), 3)
    0.357
    """
    for quantity, value in (
        ("concentration wanted", target),
        ("concentration of the first water", first),
        ("concentration of the second water", second),
    ):
        zero_or_more(quantity, value)
    if first == second:
        raise DomainError("concentration of the second water", second, f"other than {first:g}")
    in_range("concentration wanted", target, low=min(first, second), high=max(first, second))
    return (target - second) / (first - second)


def change_fraction(*, changed_litres: float, net_litres: float) -> float:
    """Return the part of the water that a change replaces.

    Parameters
    ----------
    changed_litres
        Litres taken out and put back, above zero.
    net_litres
        Litres of water in the tank without soil, stones and the gap at the top, at least as many.

    Returns
    -------
    float
        Fraction above 0, at most 1.

    Raises
    ------
    DomainError
        If a volume is not above zero, or more is changed than there is.

    Examples
    --------
    >>> change_fraction(changed_litres=5.0, net_litres=20.0)
    0.25
    """
    above_zero("net litres", net_litres)
    above_zero("litres changed", changed_litres)
    if changed_litres > net_litres:
        raise DomainError("litres changed", changed_litres, f"at most the {net_litres:g} there are")
    return changed_litres / net_litres


def after_changes(*, before: float, fresh: float, changed_fraction: float, times: int = 1) -> float:
    """Return the concentration after water changes of equal size.

    Parameters
    ----------
    before, fresh
        Concentration in the tank before and in the water put in, in one unit, zero or more.
    changed_fraction
        Part replaced each time, above 0 and at most 1.
    times
        Number of changes, zero or more, with nothing added in between.

    Returns
    -------
    float
        Concentration after the last change.

    Raises
    ------
    DomainError
        If a number is out of range.

    References
    ----------
    .. [1] `MASS_BALANCE`.

    Examples
    --------
    >>> round(after_changes(before=100.0, fresh=0.0, changed_fraction=0.1, times=3), 1)
    72.9
    """
    zero_or_more("concentration before", before)
    zero_or_more("concentration of the fresh water", fresh)
    fraction("fraction changed", changed_fraction)
    if not times >= 0:
        raise DomainError("number of changes", times, "0 or more")
    kept = (1.0 - changed_fraction) ** times
    # As a weighted mean: with everything kept or nothing kept it is exactly one of the two.
    return before * kept + fresh * (1.0 - kept)


def fraction_needed(*, before: float, target: float, fresh: float) -> float:
    """Return the part to replace in one water change to reach a target.

    Parameters
    ----------
    before, target, fresh
        Concentration in the tank, wanted, and in the water put in, in one unit, zero or more.

    Returns
    -------
    float
        Fraction, 0 to 1.

    Raises
    ------
    DomainError
        If the fresh water does not lead there, or a number is negative or not finite.

    References
    ----------
    .. [1] `MASS_BALANCE`.

    Examples
    --------
    >>> round(fraction_needed(before=320.0, target=260.0, fresh=180.0), 3)
    0.429
    """
    return share_of_first(target, first=fresh, second=before)


def changes_needed(*, before: float, target: float, fresh: float, changed_fraction: float) -> float:
    """Return how many equal water changes reach a target.

    Parameters
    ----------
    before, target, fresh
        Concentration in the tank, wanted, and in the water put in, in one unit, zero or more.
    changed_fraction
        Part replaced each time, above 0 and below 1.

    Returns
    -------
    float
        Number of changes, not rounded: with the next whole number the target is reached.

    Raises
    ------
    DomainError
        If the target is the fresh water itself, which changes only come near to, or lies beyond
        it, or a number is out of range.

    References
    ----------
    .. [1] `MASS_BALANCE`.

    Examples
    --------
    >>> round(changes_needed(before=40.0, target=20.0, fresh=0.0, changed_fraction=0.2), 1)
    3.1
    """
    if not 0.0 < changed_fraction < 1.0:
        raise DomainError("fraction changed", changed_fraction, "above 0 and below 1")
    whole = fraction_needed(before=before, target=target, fresh=fresh)
    if whole == 1.0:
        raise DomainError("concentration wanted", target, f"other than the fresh water's {fresh:g}")
    return math.log1p(-whole) / math.log1p(-changed_fraction) + 0.0


def level_after_many_changes(
    *, fresh: float, changed_fraction: float, added_between: float
) -> float:
    """Return what a tank comes to with equal changes and an equal addition between them.

    Parameters
    ----------
    fresh
        Concentration of the water put in, zero or more.
    changed_fraction
        Part replaced each time, above 0 and at most 1.
    added_between
        Rise of the concentration from one change to the next (food, soil, topping up with mineral
        water), in the same unit, zero or more.

    Returns
    -------
    float
        Concentration just after a change; just before the next it is higher by what is added.

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    The sum of the additions and what is left of each after the changes since, a geometric series.

    References
    ----------
    .. [1] `MASS_BALANCE`.

    Examples
    --------
    >>> level_after_many_changes(fresh=180.0, changed_fraction=0.2, added_between=10.0)
    220.0
    """
    zero_or_more("concentration of the fresh water", fresh)
    fraction("fraction changed", changed_fraction)
    zero_or_more("addition between two changes", added_between)
    return fresh + added_between * (1.0 - changed_fraction) / changed_fraction

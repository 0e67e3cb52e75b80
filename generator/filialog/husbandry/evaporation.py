"""What evaporation and topping up do to the water, and what a rise between changes tells."""

from enum import StrEnum

from filialog.domain_error import DomainError
from filialog.husbandry.bounds import Bounds
from filialog.husbandry.guards import above_zero, zero_or_more
from filialog.husbandry.mixing import mixed
from filialog.husbandry.provenance import Basis, Provenance

__all__ = [
    "RISE_RULE",
    "RiseCause",
    "after_evaporation",
    "after_topping_up",
    "cause_of_rise",
]

RISE_RULE = Provenance(
    source=(
        "conductivity rising alone is food and waste; conductivity and general hardness rising"
        " together is topping up with mineral water"
    ),
    basis=Basis.COMMON_PRACTICE,
)
"""What `cause_of_rise` rests on."""


def after_evaporation(concentration: float, *, net_litres: float, lost_litres: float) -> float:
    """Return the concentration after some of the water has evaporated.

    Parameters
    ----------
    concentration
        Concentration before, in any unit of amount per litre, zero or more.
    net_litres
        Litres before, above zero.
    lost_litres
        Litres evaporated, zero or more and fewer than there were.

    Returns
    -------
    float
        Concentration in what is left; nothing dissolved evaporates.

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> round(after_evaporation(180.0, net_litres=23.0, lost_litres=1.5), 1)
    192.6
    """
    zero_or_more("concentration", concentration)
    above_zero("net litres", net_litres)
    zero_or_more("litres evaporated", lost_litres)
    if lost_litres >= net_litres:
        raise DomainError("litres evaporated", lost_litres, f"fewer than the {net_litres:g}")
    return concentration * net_litres / (net_litres - lost_litres)


def after_topping_up(
    concentration: float, *, net_litres: float, lost_litres: float, topping: float
) -> float:
    """Return the concentration once the water evaporated has been replaced.

    Parameters
    ----------
    concentration, net_litres, lost_litres
        As for `after_evaporation`.
    topping
        Concentration of the water used for topping up, zero or more; zero brings the tank back to
        where it was.

    Returns
    -------
    float
        Concentration in the tank when it is full again.

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    Each time the tank rises by ``topping * lost / net`` and nothing takes that out; with water
    changes in between it comes to `level_after_many_changes`.

    Examples
    --------
    >>> round(after_topping_up(180.0, net_litres=23.0, lost_litres=1.5, topping=180.0), 1)
    191.7
    """
    left = after_evaporation(concentration, net_litres=net_litres, lost_litres=lost_litres)
    return mixed([(net_litres - lost_litres, left), (lost_litres, topping)])


class RiseCause(StrEnum):
    """What a rise between two water changes points to."""

    NO_RISE = "no rise"
    """Conductivity may have stayed where it was."""
    FOOD_AND_WASTE = "food and waste"
    """Conductivity rose and general hardness cannot account for it."""
    MINERAL_TOPPING = "topping up with mineral water"
    """Conductivity and general hardness rose, and by parts that can be the same."""
    BOTH_OR_OTHER = "both, or something else"
    """Both rose, by parts that cannot be the same."""
    CANNOT_TELL = "cannot tell"
    """General hardness may or may not have risen as conductivity did."""


def cause_of_rise(
    *,
    conductivity_before_us_per_cm: Bounds,
    conductivity_after_us_per_cm: Bounds,
    hardness_before_dgh: Bounds,
    hardness_after_dgh: Bounds,
) -> RiseCause:
    """Return what a rise between two water changes points to.

    Parameters
    ----------
    conductivity_before_us_per_cm, conductivity_after_us_per_cm
        Conductivity in µS/cm at 25 °C, at the same level of water, above zero.
    hardness_before_dgh, hardness_after_dgh
        General hardness in °dGH on the same two days, zero or more.

    Returns
    -------
    RiseCause
        A pointer, not a proof.

    Raises
    ------
    DomainError
        If a bound is out of range.

    Notes
    -----
    The two parts by which the readings rose are compared as bounds. A drop test of 1 °dGH shows
    no rise of a tenth at 6 °dGH: then the answer is mostly that one cannot tell.

    References
    ----------
    .. [1] `RISE_RULE`.

    Examples
    --------
    >>> from filialog.husbandry.bounds import reading_bounds
    >>> print(
    ...     cause_of_rise(
    ...         conductivity_before_us_per_cm=reading_bounds(250.0, resolution=5.0),
    ...         conductivity_after_us_per_cm=reading_bounds(350.0, resolution=5.0),
    ...         hardness_before_dgh=reading_bounds(6.0, resolution=0.5),
    ...         hardness_after_dgh=reading_bounds(6.0, resolution=0.5),
    ...     )
    ... )
    food and waste
    """
    above_zero("conductivity before (µS/cm)", conductivity_before_us_per_cm.low)
    above_zero("conductivity after (µS/cm)", conductivity_after_us_per_cm.low)
    zero_or_more("general hardness before (°dGH)", hardness_before_dgh.low)
    zero_or_more("general hardness after (°dGH)", hardness_after_dgh.low)
    conductivity = _times(conductivity_before_us_per_cm, conductivity_after_us_per_cm)
    if conductivity.low <= 1.0:
        return RiseCause.NO_RISE
    if hardness_before_dgh.low == 0.0:
        return RiseCause.CANNOT_TELL
    hardness = _times(hardness_before_dgh, hardness_after_dgh)
    rose = hardness.low > 1.0
    if hardness.overlaps(conductivity):
        return RiseCause.MINERAL_TOPPING if rose else RiseCause.CANNOT_TELL
    return RiseCause.BOTH_OR_OTHER if rose else RiseCause.FOOD_AND_WASTE


def _times(before: Bounds, after: Bounds) -> Bounds:
    return Bounds(low=after.low / before.high, high=after.high / before.low)

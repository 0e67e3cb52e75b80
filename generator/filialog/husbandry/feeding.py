"""How much to feed: less in cooler water, in proportion to the stock."""

from filialog.domain_error import DomainError
from filialog.husbandry.guards import above_zero, in_range
from filialog.husbandry.provenance import Basis, Provenance, Sourced

__all__ = ["FEED_Q10", "feed_factor", "feed_portion"]

FEED_Q10: Sourced[float] = Sourced(
    value=2.1,
    sources=(
        Provenance(
            source=(
                "mean Q10 of oxygen uptake of the freshwater prawn Exopalaemon modestus, 12 to"
                " 30 °C: Liu et al. 2010, Chin. J. Ecol."
            ),
            basis=Basis.ABSTRACT_READ,
        ),
    ),
)
"""By how much appetite is multiplied for 10 °C more; single steps there ran from 1.17 to 4.20."""

_LOWEST_C = 10.0
_HIGHEST_C = 30.0


def feed_factor(
    *, temperature_c: float, usual_c: float, q10: Sourced[float] = FEED_Q10
) -> Sourced[float]:
    """Return what part of the usual portion to feed at another temperature.

    Parameters
    ----------
    temperature_c
        Water temperature in °C, 10 to 30.
    usual_c
        Temperature in °C at which the usual portion is eaten up, 10 to 30.
    q10
        By how much appetite is multiplied for 10 °C more, above zero.

    Returns
    -------
    Sourced[float]
        The factor, with the source of `q10`; more than one where the water is warmer than usual.

    Raises
    ------
    DomainError
        If a number is out of its range or not a number.

    Notes
    -----
    Oxygen uptake stands for appetite, and one prawn for all. The study began at 12 °C; between
    10 and 12 °C the factor is a continuation.

    Examples
    --------
    >>> round(feed_factor(temperature_c=15.0, usual_c=24.0).value, 3)
    0.513
    """
    for name, degrees in (("water", temperature_c), ("usual", usual_c)):
        in_range(f"{name} temperature (°C)", degrees, low=_LOWEST_C, high=_HIGHEST_C)
    above_zero("Q10", q10.value)
    return Sourced(
        value=float(q10.value ** ((temperature_c - usual_c) / 10.0)), sources=q10.sources
    )


def feed_portion(
    *,
    usual_amount: float,
    usual_animals: int,
    animals: int,
    usual_c: float,
    temperature_c: float,
) -> Sourced[float]:
    """Return the portion for the animals and the temperature of today.

    Parameters
    ----------
    usual_amount
        The portion that is eaten up, in grams or in the keeper's own measure, above zero.
    usual_animals
        Animals that eat it up, one or more.
    animals
        Animals of today, zero or more.
    usual_c
        Temperature in °C at which it is eaten up, 10 to 30.
    temperature_c
        Water temperature of today in °C, 10 to 30.

    Returns
    -------
    Sourced[float]
        The portion in the same measure, with the source of the temperature factor.

    Raises
    ------
    DomainError
        If a number is out of its range or not a number.

    Examples
    --------
    >>> portion = feed_portion(
    ...     usual_amount=2.0, usual_animals=40, animals=20, usual_c=24.0, temperature_c=24.0
    ... )
    >>> portion.value
    1.0
    """
    above_zero("usual portion", usual_amount)
    if not usual_animals >= 1:
        raise DomainError("animals fed by the usual portion", usual_animals, "1 or more")
    if not animals >= 0:
        raise DomainError("animals to feed", animals, "0 or more")
    factor = feed_factor(temperature_c=temperature_c, usual_c=usual_c)
    return Sourced(
        value=usual_amount * animals / usual_animals * factor.value, sources=factor.sources
    )

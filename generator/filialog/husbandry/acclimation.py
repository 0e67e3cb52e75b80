"""How to bring animals from one water into another, or why not to mix the two."""

import math
from dataclasses import dataclass
from enum import StrEnum

from filialog.domain_error import DomainError
from filialog.husbandry.ammonia import EMERSON_1975, unionised_fraction
from filialog.husbandry.ammonia_limits import UNIONISED_LIMIT_MG_N_PER_L
from filialog.husbandry.guards import above_zero
from filialog.husbandry.provenance import Basis, Provenance
from filialog.husbandry.waters import (
    ACCLIMATION_PRACTICE,
    NO_DRIP_NEEDED,
    TOO_LARGE_FOR_ONE_DAY,
    Gap,
    MoveLimits,
    Water,
    WaterProperty,
    water_gaps,
)

__all__ = [
    "DROP_ML",
    "DROP_VOLUME",
    "Acclimation",
    "Advice",
    "Refusal",
    "drip_minutes",
    "plan_acclimation",
]

DROP_VOLUME = Provenance(
    source="UCUM 2.2, unit [drp]: one drop is 1/20 mL; real drops differ, so count a millilitre",
    basis=Basis.PUBLISHED,
)
"""Source of `DROP_ML`."""
DROP_ML = 0.05
"""Volume of a drop in mL."""
_FLOAT_MINUTES = 20
_FEWEST_DRIP_MINUTES = 90
_MOST_DRIP_MINUTES = 180
_MOST_DROPS_PER_MINUTE = 120.0
_SOURCES = (
    ACCLIMATION_PRACTICE,
    DROP_VOLUME,
    EMERSON_1975,
    UNIONISED_LIMIT_MG_N_PER_L.source,
)


class Advice(StrEnum):
    """What to do with the animals and the two waters."""

    FLOAT_ONLY = "float only"
    """The waters are alike: bring the temperature to that of the tank, then move the animals."""
    DRIP = "drip"
    """Drip water of the tank into that of the animals."""
    DO_NOT_MIX = "do not mix"
    """See the reasons."""
    CANNOT_TELL = "cannot tell"
    """What is not known has to be measured first."""


class Refusal(StrEnum):
    """Why two waters are not to be mixed."""

    AMMONIA = "ammonia becomes poisonous in the new water"
    """pH or temperature rises and the un-ionised ammonia in the bag goes over the limit: bring
    the animals over without their water."""
    GAP_TOO_LARGE = "the waters are too far apart for one day"
    """Bring a tank of its own from one water to the other over days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Acclimation:
    """How to bring animals from one water into another."""

    advice: Advice
    """What to do."""
    reasons: tuple[Refusal, ...]
    """Why not to mix; empty unless that is the advice."""
    gaps: tuple[Gap, ...]
    """The gaps that are known, in the order of `WaterProperty`."""
    unknown: tuple[WaterProperty, ...]
    """What could not be compared."""
    ammonia_unknown: bool
    """Whether total ammonia, or what is needed to judge it, was not given while pH or temperature
    may rise."""
    float_minutes: int
    """Minutes to float the closed bag before anything else; 0 unless floating or dripping."""
    start_ml: float
    """Water to leave around the animals before dripping, mL; the rest of the bag is poured away
    (not into the tank). 0 without steps."""
    steps: int
    """Times the water of the animals is doubled by dripping; half is poured away (not into the
    tank) before each step but the first."""
    step_minutes: float
    """Minutes of each step; 0 without steps."""
    drops_per_minute: float
    """Drip rate; 0 without steps."""
    old_water_left: float
    """Part of the water around the animals at the end that is still the old one; 1 without
    steps."""
    sources: tuple[Provenance, ...]
    """What the plan rests on."""


def drip_minutes(*, bag_ml: float, dilution: float, drops_per_s: float) -> float:
    """Return how long dripping takes to dilute the water of the animals, nothing poured away.

    Parameters
    ----------
    bag_ml
        Water the animals came in, mL, above zero.
    dilution
        How many times as much water there is in the end, 1 or more.
    drops_per_s
        Drops per second, above zero.

    Returns
    -------
    float
        Minutes.

    Raises
    ------
    DomainError
        If a number is out of range.

    References
    ----------
    .. [1] `DROP_VOLUME`.

    Examples
    --------
    >>> round(drip_minutes(bag_ml=500.0, dilution=3.0, drops_per_s=1.0))
    333
    """
    above_zero("water of the animals (mL)", bag_ml)
    above_zero("drops per second", drops_per_s)
    if not 1.0 <= dilution < math.inf:
        raise DomainError("dilution", dilution, "1 or more")
    return bag_ml * (dilution - 1.0) / (DROP_ML * drops_per_s * 60.0)


def plan_acclimation(
    source: Water,
    target: Water,
    *,
    bag_ml: float,
    needs_no_drip: MoveLimits = NO_DRIP_NEEDED,
    too_large: MoveLimits = TOO_LARGE_FOR_ONE_DAY,
) -> Acclimation:
    """Return how to bring animals from one water into another.

    Parameters
    ----------
    source, target
        The water the animals are in and the one they are to come into.
    bag_ml
        Water the animals come in, mL, above zero.
    needs_no_drip, too_large
        Gaps up to which nothing is needed and above which one day is too short.

    Returns
    -------
    Acclimation
        The plan, or "do not mix" with the reasons, or "cannot tell" where too little is known for
        either: temperature, pH, or both conductivity and general hardness.

    Raises
    ------
    DomainError
        If a reading or the volume is out of range.

    Notes
    -----
    Steps: so many doublings that the largest gap in conductivity or hardness, and that in pH, is
    down to what needs no dripping, two at least. pH does not follow dilution, and is counted as
    if it did. Temperature is brought over by floating. Dripping takes 90 minutes where no gap is
    a tenth of one too large for a day, 180 where one is as large as that, and in between in
    proportion; that time is shared evenly by the steps. As much of the bag's water is poured away
    beforehand as would need more than two drops a second.

    Ammonia: the bag's total ammonia at the higher pH and the higher temperature of the two, which
    is the most that can become un-ionised on the way. It speaks against mixing where it is over
    the limit and more than it is in the bag already. A limit meant for long times is used for
    hours: on the side of caution.

    References
    ----------
    .. [1] `ACCLIMATION_PRACTICE`.
    .. [2] `DROP_VOLUME`.
    .. [3] `EMERSON_1975` and `UNIONISED_LIMIT_MG_N_PER_L`.

    Examples
    --------
    >>> bag = Water(conductivity_us_per_cm=250, ph=6.6, temperature_c=21, hardness_dgh=5)
    >>> tank = Water(conductivity_us_per_cm=340, ph=7.1, temperature_c=23, hardness_dgh=7)
    >>> plan = plan_acclimation(bag, tank, bag_ml=500.0)
    >>> print(plan.advice, plan.steps, round(plan.step_minutes), round(plan.drops_per_minute))
    drip 2 57 120
    >>> round(plan.start_ml)
    340
    """
    above_zero("water of the animals (mL)", bag_ml)
    gaps = water_gaps(source, target, needs_no_drip=needs_no_drip, too_large=too_large)
    known = {gap.of for gap in gaps}
    poisonous = _ammonia_rises_over_limit(source, target)
    reasons = _reasons(gaps, poisonous=poisonous is True)
    if reasons:
        advice = Advice.DO_NOT_MIX
    elif _too_little_known(known):
        advice = Advice.CANNOT_TELL
    else:
        advice = Advice.DRIP if _steps(gaps) else Advice.FLOAT_ONLY
    steps = _steps(gaps) if advice is Advice.DRIP else 0
    minutes = _minutes(gaps) / steps if steps else 0.0
    start_ml = min(bag_ml, _MOST_DROPS_PER_MINUTE * DROP_ML * minutes)
    return Acclimation(
        advice=advice,
        reasons=reasons,
        gaps=gaps,
        unknown=tuple(of for of in WaterProperty if of not in known),
        ammonia_unknown=poisonous is None,
        float_minutes=_FLOAT_MINUTES if advice in (Advice.DRIP, Advice.FLOAT_ONLY) else 0,
        start_ml=start_ml,
        steps=steps,
        step_minutes=minutes,
        drops_per_minute=start_ml / DROP_ML / minutes if steps else 0.0,
        old_water_left=math.pow(0.5, steps),
        sources=_SOURCES,
    )


def _reasons(gaps: tuple[Gap, ...], *, poisonous: bool) -> tuple[Refusal, ...]:
    reasons = [Refusal.AMMONIA] if poisonous else []
    if any(abs(gap.difference) > gap.too_large for gap in gaps):
        reasons.append(Refusal.GAP_TOO_LARGE)
    return tuple(reasons)


def _too_little_known(known: set[WaterProperty]) -> bool:
    minerals = {WaterProperty.CONDUCTIVITY, WaterProperty.GENERAL_HARDNESS}
    return not known >= {WaterProperty.PH, WaterProperty.TEMPERATURE} or not known & minerals


def _steps(gaps: tuple[Gap, ...]) -> int:
    """Return the doublings after which every gap is as small as one that needs none."""
    largest = max(
        abs(gap.difference) / gap.needs_no_drip
        for gap in gaps
        if gap.of is not WaterProperty.TEMPERATURE
    )
    return max(math.ceil(math.log2(largest)), 2) if largest > 1.0 else 0


def _minutes(gaps: tuple[Gap, ...]) -> float:
    largest = max(abs(gap.difference) / gap.too_large for gap in gaps)
    part = min(max((largest - 0.1) / 0.9, 0.0), 1.0)
    return _FEWEST_DRIP_MINUTES + part * (_MOST_DRIP_MINUTES - _FEWEST_DRIP_MINUTES)


def _ammonia_rises_over_limit(source: Water, target: Water) -> bool | None:
    """Return whether ammonia of the source speaks against mixing; None where that is not known."""
    total = source.total_ammonia_mg_n_per_l
    if total == 0.0:
        return False
    if (
        source.ph is None
        or target.ph is None
        or source.temperature_c is None
        or target.temperature_c is None
    ):
        return None
    if target.ph <= source.ph and target.temperature_c <= source.temperature_c:
        return False
    if total is None:
        return None
    worst = total * unionised_fraction(
        ph=max(source.ph, target.ph),
        temperature_c=max(source.temperature_c, target.temperature_c),
    )
    return worst > UNIONISED_LIMIT_MG_N_PER_L.amount

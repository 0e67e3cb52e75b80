"""What deaths and counts of a tank say: survival, and whether more die than usual."""

from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.husbandry.guards import above_zero
from filialog.statistics import Interval, wilson_interval

__all__ = ["LossAlarm", "Survival", "loss_alarm", "survival_between"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Survival:
    """Share of a group alive at a second count."""

    share: float
    """Share of the first count, 0 to 1."""
    interval: Interval
    """Wilson interval of the share."""
    share_of_month: float
    """Share that survives thirty days at the same even rate, 0 to 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LossAlarm:
    """Whether the deaths of the last days are more than the tank's own history explains."""

    expected: float
    """Deaths the history would give in the recent days."""
    p_value: float
    """Chance of as many recent deaths or more, given all deaths, if the rate never changed."""
    false_alarm_rate: float
    """Highest chance of an alarm at one look where nothing has changed."""
    alarm: bool
    """True where the p-value is at most the rate of false alarms."""


def survival_between(
    *, counted_before: int, counted_after: int, days: int, confidence: float = 0.95
) -> Survival:
    """Return the share of a closed group that lived from one count to the next.

    Parameters
    ----------
    counted_before
        Animals at the first count, one or more.
    counted_after
        Animals at the second, not more than at the first; none added or taken out between.
    days
        Days between the counts, one or more.
    confidence
        Confidence of the interval, between 0 and 1.

    Returns
    -------
    Survival
        The share, its interval, and the same as a share of thirty days.

    Raises
    ------
    DomainError
        If a number is out of its range. More animals than before were born, or brought in, or
        overlooked: no survival is computed from such counts.

    Notes
    -----
    Wilson E.B. (1927) J. Am. Stat. Assoc. 22:209-212 for the interval. Both counts are taken as
    exact, and animals as dying independently.

    Examples
    --------
    >>> found = survival_between(counted_before=20, counted_after=18, days=60)
    >>> found.share, round(found.share_of_month, 3)
    (0.9, 0.949)
    """
    if not counted_before >= 1:
        raise DomainError("animals at the first count", counted_before, "1 or more")
    if not 0 <= counted_after <= counted_before:
        raise DomainError("animals at the second count", counted_after, f"0 to {counted_before}")
    if not days >= 1:
        raise DomainError("days between the counts", days, "1 or more")
    share = counted_after / counted_before
    return Survival(
        share=share,
        interval=wilson_interval(seen=counted_after, counted=counted_before, confidence=confidence),
        share_of_month=float(share ** (30 / days)),
    )


def loss_alarm(
    *,
    deaths_before: int,
    animal_days_before: float,
    deaths_now: int,
    animal_days_now: float,
    false_alarm_rate: float = 0.01,
) -> LossAlarm:
    """Tell whether more die now than the history of the tank explains.

    Parameters
    ----------
    deaths_before
        Deaths in the history, before the recent days.
    animal_days_before
        Animals times days of the history, above zero.
    deaths_now
        Deaths in the recent days.
    animal_days_now
        Animals times days of the recent days, above zero.
    false_alarm_rate
        Chance of an alarm at one look where nothing has changed, between 0 and 1. With one look
        at fresh days every week there are at most 52 times as many false alarms in a year.

    Returns
    -------
    LossAlarm
        The chance of what was seen, and whether it is an alarm.

    Raises
    ------
    DomainError
        If a number is out of its range.

    Notes
    -----
    Given all deaths together, those of the recent days are binomial with the recent share of the
    animal days if the rate has not changed, whatever the rate is. The test is exact and holds its
    rate of false alarms with any numbers, at the price of rarely reaching it. Bodies that were
    eaten are not counted, so that true losses are higher both before and now.

    References
    ----------
    .. [1] Przyborowski J. & Wilenski H. (1940) Homogeneity of results in testing samples from
       Poisson series, Biometrika 31:313-323 (from memory).

    Examples
    --------
    >>> found = loss_alarm(
    ...     deaths_before=3, animal_days_before=2700.0, deaths_now=4, animal_days_now=210.0
    ... )
    >>> round(found.expected, 2), round(found.p_value, 5), found.alarm
    (0.23, 0.00079, True)
    """
    from scipy.stats import binom  # noqa: PLC0415 - takes long to load

    for name, number in (("before", deaths_before), ("now", deaths_now)):
        if not number >= 0:
            raise DomainError(f"deaths {name}", number, "0 or more")
    for name, days in (("before", animal_days_before), ("now", animal_days_now)):
        above_zero(f"animal days {name}", days)
    if not 0.0 < false_alarm_rate < 1.0:
        raise DomainError("rate of false alarms", false_alarm_rate, "between 0 and 1")
    share = animal_days_now / (animal_days_before + animal_days_now)
    p_value = float(binom.sf(deaths_now - 1, deaths_before + deaths_now, share))
    return LossAlarm(
        expected=deaths_before * animal_days_now / animal_days_before,
        p_value=p_value,
        false_alarm_rate=false_alarm_rate,
        alarm=deaths_now > 0 and p_value <= false_alarm_rate,
    )

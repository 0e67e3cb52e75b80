"""When young animals can breed: the last day to part siblings, the days they grow up."""

from dataclasses import dataclass
from datetime import date, timedelta

from filialog.domain_error import DomainError
from filialog.husbandry.provenance import Basis, Provenance, Sourced

__all__ = [
    "BEE_SHRIMP_MATURITY",
    "NEOCARIDINA_DAVIDI_MATURITY",
    "DateRange",
    "MaturityAges",
    "adult_dates",
    "separation_deadline",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class DateRange:
    """The first and the last day something can happen on."""

    earliest: date
    """First day."""
    latest: date
    """Last day, the first or later."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MaturityAges:
    """Ages at which a species can breed, counted from hatching."""

    part_days: int
    """Age in days at which siblings are parted, before the earliest can breed."""
    adult_low_days: int
    """Lowest age in days at which animals have been adult."""
    adult_high_days: int
    """Highest age in days at which first breeding has been reported, the lowest or more."""
    sources: tuple[Provenance, ...]
    """Where the ages come from."""


NEOCARIDINA_DAVIDI_MATURITY = MaturityAges(
    part_days=60,
    adult_low_days=75,
    adult_high_days=213,
    sources=(
        Provenance(
            source=(
                "60 days until the sexes can be told, adult at 75 days, 27 °C: Nur & Christianus"
                " 2013, Asian J. Anim. Vet. Adv. 8:108-115"
            ),
            basis=Basis.ABSTRACT_READ,
        ),
        Provenance(
            source=(
                "eggs about 7 months after hatching: Schoolmann & Arndt 2018, Limnologica 71:1-7"
            ),
            basis=Basis.ABSTRACT_READ,
        ),
    ),
)
"""*Neocaridina davidi*: the sources differ by a factor of three, so the window is wide."""

BEE_SHRIMP_MATURITY = MaturityAges(
    part_days=100,
    adult_low_days=122,
    adult_high_days=274,
    sources=(
        Provenance(
            source=(
                "about 4, 7 or 9 months by stream, for Caridina cantonensis of the wild, a related"
                " species: Yam & Dudgeon 2005, Freshwater Biol. 50:2114-2128"
            ),
            basis=Basis.ABSTRACT_READ,
        ),
        Provenance(
            source="parted at about 100 days, four months less a margin",
            basis=Basis.COMMON_PRACTICE,
        ),
    ),
)
"""*Caridina logemanni* and *C. mariae*: no study is known, numbers of a related species."""


def separation_deadline(first_hatched: date, *, ages: MaturityAges) -> Sourced[date]:
    """Return the day by which brothers and sisters must be apart.

    Parameters
    ----------
    first_hatched
        Earliest day on which one of them can have hatched.
    ages
        Ages of the species.

    Returns
    -------
    Sourced[date]
        The day, counted from the earliest maturity and not from the usual one: the first brother
        that is grown can sire with every sister.

    Raises
    ------
    DomainError
        If the ages of the species are not in order.

    Examples
    --------
    >>> separation_deadline(date(2031, 3, 1), ages=NEOCARIDINA_DAVIDI_MATURITY).value
    datetime.date(2031, 4, 30)
    """
    _check(ages)
    return Sourced(value=first_hatched + timedelta(days=ages.part_days), sources=ages.sources)


def adult_dates(hatched: DateRange, *, ages: MaturityAges) -> Sourced[DateRange]:
    """Return the days between which animals can become adult.

    Parameters
    ----------
    hatched
        Days between which they hatched.
    ages
        Ages of the species.

    Returns
    -------
    Sourced[DateRange]
        From the earliest age after the first day to the highest age after the last.

    Raises
    ------
    DomainError
        If the ages of the species or the days of hatching are not in order.

    Examples
    --------
    >>> day = date(2031, 3, 1)
    >>> found = adult_dates(
    ...     DateRange(earliest=day, latest=day), ages=NEOCARIDINA_DAVIDI_MATURITY
    ... )
    >>> found.value.earliest, found.value.latest
    (datetime.date(2031, 5, 15), datetime.date(2031, 9, 30))
    """
    _check(ages)
    if not hatched.earliest <= hatched.latest:
        raise DomainError(
            "latest day of hatching", hatched.latest.isoformat(), f"{hatched.earliest} or later"
        )
    return Sourced(
        value=DateRange(
            earliest=hatched.earliest + timedelta(days=ages.adult_low_days),
            latest=hatched.latest + timedelta(days=ages.adult_high_days),
        ),
        sources=ages.sources,
    )


def _check(ages: MaturityAges) -> None:
    """Refuse ages that are not in order."""
    if not 1 <= ages.part_days <= ages.adult_low_days <= ages.adult_high_days:
        raise DomainError(
            "ages of maturity (d)",
            (ages.part_days, ages.adult_low_days, ages.adult_high_days),
            "1 or more, each at least the one before",
        )

"""Whether a new tank is ready for animals, and what is still missing."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from filialog.domain_error import DomainError
from filialog.husbandry.guards import zero_or_more
from filialog.husbandry.provenance import Basis, Provenance

__all__ = [
    "CYCLING_SOURCES",
    "NitrogenTest",
    "Readiness",
    "StillMissing",
    "TankStart",
    "tank_readiness",
]

_HIGHEST_TAN_MG_PER_L = 0.25
_HIGHEST_NITRITE_N_MG_PER_L = 0.05
_DOSED_TESTS = 3
_LEACHING_DAYS = 28
_CALM_DAYS = 14
_FRESH_DAYS = 7

CYCLING_SOURCES = (
    Provenance(
        source=(
            "dosed tank: total ammonia nitrogen 0.25 mg/L or less and nitrite nitrogen 0.05 mg/L"
            " or less on three tests in a row, nitrate rising"
        ),
        basis=Basis.COMMON_PRACTICE,
    ),
    Provenance(
        source=(
            "active soil: four weeks at the least, then two weeks of such tests; no animals while"
            " it gives off ammonium"
        ),
        basis=Basis.COMMON_PRACTICE,
    ),
    Provenance(
        source="newest test not older than a week: our own choice",
        basis=Basis.COMMON_PRACTICE,
    ),
)


class TankStart(StrEnum):
    """How a new tank is brought to turning ammonia into nitrate."""

    DOSED = "dosed with ammonia"
    """Ammonia is added until a day suffices to turn it over."""
    ACTIVE_SOIL = "active soil"
    """The soil gives off ammonium of its own; nothing is added."""


class StillMissing(StrEnum):
    """One thing that stands between a new tank and its animals."""

    TESTS = "tests"
    """Too few tests of ammonia and nitrite."""
    FRESH_TEST = "fresh test"
    """The newest test is too old."""
    AMMONIA_LOW = "ammonia low"
    """Ammonia was too high in one of the last tests."""
    NITRITE_LOW = "nitrite low"
    """Nitrite was too high in one of the last tests."""
    NITRATE_RISING = "nitrate rising"
    """Nitrate was not seen to rise, or was not measured twice."""
    DAYS = "days"
    """The tank has not run long enough."""
    CALM_DAYS = "calm days"
    """The row of good tests does not span enough days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NitrogenTest:
    """One test of a new tank; a value below detection is given as the detection limit."""

    day: int
    """Day, counted from the day the tank was begun."""
    tan_mg_per_l: float
    """Total ammonia as nitrogen, in mg/L."""
    nitrite_n_mg_per_l: float
    """Nitrite as nitrogen, in mg/L."""
    nitrate_n_mg_per_l: float | None = None
    """Nitrate as nitrogen, in mg/L; None where it was not measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Readiness:
    """Whether a tank can take animals."""

    missing: tuple[StillMissing, ...]
    """What is missing, in the order of `StillMissing`; empty where the tank is ready."""
    good_tests: int
    """Tests in a row, up to the newest, with ammonia and nitrite low."""
    sources: tuple[Provenance, ...]
    """What the rules rest on."""

    @property
    def is_ready(self) -> bool:
        """True where nothing is missing."""
        return not self.missing


def tank_readiness(
    tests: Sequence[NitrogenTest], *, today: int, start: TankStart = TankStart.DOSED
) -> Readiness:
    """Return what a new tank still lacks before animals go in.

    Parameters
    ----------
    tests
        Tests since the tank was begun, in order of days; in a dosed tank each of them a day
        after a dose. A kit whose detection limit is above a limit of the rules can not pass it.
    today
        Day of the question, counted from the day the tank was begun.
    start
        How the tank is brought in.

    Returns
    -------
    Readiness
        What is missing, with the sources of the rules.

    Raises
    ------
    DomainError
        If days are out of order, before the beginning or after `today`, or a reading is
        negative, infinite or not a number.

    Notes
    -----
    Dosed: the last three tests good, nitrate rising over all tests. Active soil: four weeks, and
    good tests in a row over two weeks, three at the least. Both: newest test within a week.

    Examples
    --------
    >>> good = [
    ...     NitrogenTest(day=day, tan_mg_per_l=0.1, nitrite_n_mg_per_l=0.01)
    ...     for day in (30, 32, 34)
    ... ]
    >>> [one.value for one in tank_readiness(good, today=34).missing]
    ['nitrate rising']
    """
    _check(tests, today)
    soil = start is TankStart.ACTIVE_SOIL
    good = 0
    for test in reversed(tests):
        if not (_ammonia_low(test) and _nitrite_low(test)):
            break
        good += 1
    last = tests[-_DOSED_TESTS:]
    first_good_day = tests[-good].day if good else today
    lacks = {
        StillMissing.TESTS: len(tests) < _DOSED_TESTS,
        StillMissing.FRESH_TEST: bool(tests) and today - tests[-1].day > _FRESH_DAYS,
        StillMissing.AMMONIA_LOW: not all(_ammonia_low(test) for test in last),
        StillMissing.NITRITE_LOW: not all(_nitrite_low(test) for test in last),
        StillMissing.NITRATE_RISING: not soil and not _nitrate_rises(tests),
        StillMissing.DAYS: soil and today < _LEACHING_DAYS,
        StillMissing.CALM_DAYS: soil and (not tests or tests[-1].day - first_good_day < _CALM_DAYS),
    }
    return Readiness(
        missing=tuple(one for one in StillMissing if lacks[one]),
        good_tests=good,
        sources=CYCLING_SOURCES,
    )


def _check(tests: Sequence[NitrogenTest], today: int) -> None:
    """Refuse impossible readings and days out of order."""
    zero_or_more("day of the question", today)
    before = 0
    for test in tests:
        if not before <= test.day <= today:
            raise DomainError("day of a test", test.day, f"{before} to {today}, in order")
        before = test.day
        for name, value in (
            ("total ammonia", test.tan_mg_per_l),
            ("nitrite", test.nitrite_n_mg_per_l),
            ("nitrate", test.nitrate_n_mg_per_l),
        ):
            if value is not None:
                zero_or_more(f"{name} as nitrogen (mg/L)", value)


def _ammonia_low(test: NitrogenTest) -> bool:
    """Tell whether ammonia is low enough."""
    return test.tan_mg_per_l <= _HIGHEST_TAN_MG_PER_L


def _nitrite_low(test: NitrogenTest) -> bool:
    """Tell whether nitrite is low enough."""
    return test.nitrite_n_mg_per_l <= _HIGHEST_NITRITE_N_MG_PER_L


def _nitrate_rises(tests: Sequence[NitrogenTest]) -> bool:
    """Tell whether the last nitrate is above the first."""
    found = [one.nitrate_n_mg_per_l for one in tests if one.nitrate_n_mg_per_l is not None]
    return len(found) >= 2 and found[-1] > found[0]

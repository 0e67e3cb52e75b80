"""When a brood can have hatched and when its eggs can have been fertilised."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from filialog.domain_error import DomainError
from filialog.husbandry import NEOCARIDINA_DAVIDI, ThermalLaw, daily_temperatures, incubation_range
from filialog.journal.events import Event, EventId
from filialog.journal.quantities import Reading
from filialog.journal.records import Species

__all__ = ["LONGEST_DAYS", "UNSEEN_DAYS", "Incubation", "Incubations", "Window", "hatching_of"]

UNSEEN_DAYS = 3
"""Days for which young can have been there before they are first seen.

Common practice, no source: they are two millimetres long and hide; who looks less often gives the
hatching a window of days.
"""

LONGEST_DAYS = 45
"""Most days that eggs are ever taken to be carried, whatever the species and the temperature."""

_UNRECORDED = (14, 42)
"""Fewest and most days from mating to hatching where the species is not known.

Common practice, no source: hobby pages on dwarf shrimp quote 14 to 40 days.
"""

_AROUND_DAYS = 14
"""How far from the days wanted a temperature reading can lie and still be used; our own choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Some days, both ends included."""

    first: date
    last: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Incubation:
    """How many days eggs were carried."""

    low_days: int
    high_days: int
    measured: bool
    """True where the temperatures of the water gave it, false where it is that of the species."""
    events: tuple[EventId, ...] = ()
    """The readings it rests on."""


def hatching_of(hatched: Event) -> Window:
    """Return the days on which young that were first seen can have hatched."""
    first = hatched.when.earliest - timedelta(days=UNSEEN_DAYS)
    return Window(first=first, last=hatched.when.latest)


class Incubations:
    """The temperatures of all tanks, and what they make of the eggs carried there."""

    def __init__(self, events: Iterable[Event], species: Species | None) -> None:
        self._law: ThermalLaw | None = None
        self._of_species = _UNRECORDED
        if species is not None:
            self._of_species = (species.incubation_low_days, species.incubation_high_days)
            if species.name == _FITTED_FOR:
                self._law = NEOCARIDINA_DAVIDI
        self._readings: dict[str, list[tuple[int, float, EventId]]] = {}
        for event in events:
            if event.kind_name != "measured" or event.tank is None:
                continue
            value = _celsius(event.reading("temperature"))
            day = event.when.exact
            if value is not None and day is not None:
                self._readings.setdefault(event.tank, []).append((day.toordinal(), value, event.id))
        for found in self._readings.values():
            found.sort(key=lambda one: (one[0], one[2]))

    def of(self, hatched: Event, tanks: Iterable[str | None]) -> Incubation:
        """Return the days eggs can have been carried in whichever of some tanks."""
        each = [self._in_tank(hatched, tank) for tank in sorted(set(tanks), key=lambda t: t or "")]
        if not each:
            each = [self._in_tank(hatched, None)]
        return Incubation(
            low_days=min(one.low_days for one in each),
            high_days=min(max(one.high_days for one in each), LONGEST_DAYS),
            measured=all(one.measured for one in each),
            events=tuple(dict.fromkeys(event for one in each for event in one.events)),
        )

    def _in_tank(self, hatched: Event, tank: str | None) -> Incubation:
        low, high = self._of_species
        plain = Incubation(low_days=low, high_days=high, measured=False)
        readings = self._readings.get(tank, []) if tank is not None else []
        last = hatched.when.earliest.toordinal()
        start = bisect_left(readings, last - LONGEST_DAYS - _AROUND_DAYS, key=lambda one: one[0])
        stop = bisect_right(readings, last + _AROUND_DAYS, key=lambda one: one[0])
        used = readings[start:stop]
        if self._law is None or not used:
            return plain
        days = self._days(used, last)
        if days is None:
            return plain
        return Incubation(
            low_days=days[0],
            high_days=days[1],
            measured=True,
            events=tuple(event for day, _, event in used if last - days[1] <= day <= last),
        )

    def _days(
        self, readings: list[tuple[int, float, EventId]], last: int
    ) -> tuple[int, int] | None:
        """Return the fewest and most days back from a hatching; None where that is not known."""
        assert self._law is not None
        temperatures: list[float] = []
        series = [(day, value) for day, value, _ in readings]
        for back in range(LONGEST_DAYS):
            try:
                temperatures += daily_temperatures(
                    series, days=[last - back], longest_gap_days=_AROUND_DAYS
                )
            except DomainError:
                break
        try:
            found = incubation_range(temperatures, law=self._law)
        except DomainError:
            return None
        return (found.low_days, found.high_days)


_FITTED_FOR = "Neocaridina davidi"
"""The one species for which days by temperature were found."""


def _celsius(reading: Reading | None) -> float | None:
    if reading is None or reading.unit not in ("°C", "") or reading.low is None:
        return None
    return reading.low if reading.high is None else (reading.low + reading.high) / 2

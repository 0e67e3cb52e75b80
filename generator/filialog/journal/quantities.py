"""Counts, dates, ages and readings as bounds: what a keeper knows, and how well."""

from dataclasses import dataclass
from datetime import date

__all__ = ["Age", "Count", "Reading", "When", "bounds_text"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """A number of animals between two bounds."""

    low: int
    """Fewest, zero or more."""
    high: int | None
    """Most, `low` or more; None where no upper bound is known."""
    text: str
    """The keeper's own writing: `12`, `~12`, `10-14`, `12+`, `some`."""

    @property
    def exact(self) -> int | None:
        """The number itself where both bounds agree, else None."""
        return self.low if self.low == self.high else None

    @classmethod
    def of(cls, number: int) -> "Count":
        """Return an exactly known count."""
        return cls(low=number, high=number, text=str(number))

    def __add__(self, other: "Count") -> "Count":
        low = self.low + other.low
        high = None if self.high is None or other.high is None else self.high + other.high
        return Count(low=low, high=high, text=bounds_text(low, high))


def bounds_text(low: int, high: int | None) -> str:
    """Write bounds as a keeper would: `12`, `10-14`, `12+`."""
    if high is None:
        return f"{low}+" if low else "some"
    return str(low) if low == high else f"{low}-{high}"


@dataclass(frozen=True, slots=True, kw_only=True)
class When:
    """A day, known exactly or to lie between two days."""

    earliest: date
    """First day it can have been."""
    latest: date
    """Last day it can have been, `earliest` or later."""
    text: str
    """The keeper's own writing: an ISO date, an EDTF date, a week or a window."""
    about: bool = False
    """True for an approximate date (`~`): the bounds are then a convention, not a certainty."""

    @property
    def exact(self) -> date | None:
        """The day where it is known, else None."""
        return self.earliest if self.earliest == self.latest else None

    @classmethod
    def on(cls, day: date) -> "When":
        """Return an exactly known day."""
        return cls(earliest=day, latest=day, text=day.isoformat())


@dataclass(frozen=True, slots=True, kw_only=True)
class Age:
    """A length of time in days, between two bounds."""

    low_days: int
    """Fewest days, zero or more."""
    high_days: int
    """Most days, `low_days` or more."""
    text: str
    """The keeper's own writing: `45 d`, `6 weeks`, `~2 months`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A measured value between two bounds, with its unit."""

    low: float | None
    """Lower bound; None where the instrument only gives an upper one."""
    high: float | None
    """Upper bound; None where the instrument only gives a lower one."""
    unit: str
    """The unit as the trade writes it: `°C`, `mg/L`, `µS/cm`; empty for pH."""
    text: str
    """The keeper's own writing, unit included."""

    @property
    def value(self) -> float | None:
        """The value where both bounds agree, else None."""
        return self.low if self.low == self.high else None

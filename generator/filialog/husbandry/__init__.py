"""Husbandry as arithmetic: what a tank's readings mean for the animals in it.

In: plain numbers with their units. Out: plain numbers, or a refusal (`DomainError`) where a
formula does not hold. Knows no journal, no file and no clock.
"""

from filialog.husbandry.incubation import (
    NEOCARIDINA_DAVIDI,
    DayRange,
    ThermalLaw,
    daily_temperatures,
    days_to_hatching,
    incubation_range,
)

__all__ = [
    "NEOCARIDINA_DAVIDI",
    "DayRange",
    "ThermalLaw",
    "daily_temperatures",
    "days_to_hatching",
    "incubation_range",
]

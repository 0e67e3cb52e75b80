"""How well the alert for worn-out soil does on tanks whose pH is drawn, not measured.

    python tests/simulation/soil_figures.py [tank-years]

prints how often the alert came three to eight weeks before the top of the target range was left,
how often it cried wolf, and how often the interval of the projected end held the true one.
"""

import random
import sys
from dataclasses import dataclass

from filialog.husbandry.soil_ph import FEWEST_READINGS, ph_trend, soil_state

__all__ = ["FRESH", "PLATEAU", "SHORT", "STILL", "Figures", "SoilWorld", "figures"]

NOISE_PH = 0.1
HIGHEST_PH = 6.8


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilWorld:
    """How the soils of a simulation behave; each number is drawn evenly from its range."""

    title: str
    creep_per_week: tuple[float, float]
    """Rise of pH per week; 0 and 0 for soils that never wear out."""
    room_ph: tuple[float, float]
    """From the pH of fresh soil up to the top of the target range."""
    plateau_weeks: tuple[float, float] = (0.0, 0.0)
    """Weeks before the creep begins."""


FRESH = SoilWorld(
    title="creep from the first day, pH 5.4 to 5.7 up to 6.8",
    creep_per_week=(0.02, 0.06),
    room_ph=(1.1, 1.4),
)
"""22 to 70 weeks of life at the fastest and the slowest creep: what keepers quote for soils."""
SHORT = SoilWorld(
    title="creep from the first day, pH 5.8 to 6.2 up to 6.8",
    creep_per_week=(0.02, 0.06),
    room_ph=(0.6, 1.0),
)
PLATEAU = SoilWorld(
    title="up to half a year even, then creep, pH 5.4 to 5.7 up to 6.8",
    creep_per_week=(0.02, 0.06),
    room_ph=(1.1, 1.4),
    plateau_weeks=(0.0, 26.0),
)
STILL = SoilWorld(
    title="no creep at all, pH 0.3 to 1.4 below 6.8",
    creep_per_week=(0.0, 0.0),
    room_ph=(0.3, 1.4),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Sums over the soils of a simulation."""

    world: SoilWorld
    tank_years: float
    soils: int
    """Soils whose range was left within the simulation."""
    first_in_time: int
    """Of these, first alert ever raised three to eight weeks before."""
    in_time: int
    """Of these, an alert standing at a reading three to eight weeks before."""
    late: int
    """Of these, first alert less than three weeks before, or none."""
    false_alarms: int
    """Times an alert was raised more than eight weeks before, or on soil that never ends."""
    intervals: int
    """Intervals of the projected end, at the readings of the first alerts."""
    held: int
    """Of these, with the true end inside."""

    def __str__(self) -> str:
        """Say the figures in a few lines."""
        lines = [
            self.world.title,
            f"  {self.tank_years:.0f} tank-years, {self.soils} soils worn out; false alarms:"
            f" {self.false_alarms} ({self.false_alarms / self.tank_years:.3f} a tank-year)",
        ]
        if self.soils:
            lines += [
                f"  first alert 3 to 8 weeks before: {self.first_in_time / self.soils:.1%};"
                f" an alert standing then: {self.in_time / self.soils:.1%};"
                f" first alert later or never: {self.late / self.soils:.1%}",
                f"  interval of the end held it: {self.held / self.intervals:.1%}",
            ]
        return "\n".join(lines)


@dataclass(slots=True)
class _Soil:
    """One soil under the eyes of the alert."""

    end_day: float
    raised: list[int]
    standing: list[int]


def _watch(
    world: SoilWorld, *, days: float, draw: random.Random
) -> tuple[_Soil, list[tuple[int, float]]]:
    """Read one soil twice a fortnight until its range is left or the days are over."""
    creep = draw.uniform(*world.creep_per_week) / 7
    room = draw.uniform(*world.room_ph)
    plateau = 7 * draw.uniform(*world.plateau_weeks)
    soil = _Soil(
        end_day=plateau + room / creep if creep > 0 else float("inf"), raised=[], standing=[]
    )
    readings: list[tuple[int, float]] = []
    alert = False
    week = 0
    while True:
        day = 7 * week + draw.choice([0, 1, 2])
        week += 1
        if day > min(days, soil.end_day):
            return soil, readings
        true = HIGHEST_PH - room + creep * max(day - plateau, 0.0)
        readings.append((day, round(draw.gauss(true, NOISE_PH), 2)))
        before, alert = alert, soil_state(readings, highest_ph=HIGHEST_PH).is_alert
        if alert:
            soil.standing.append(len(readings))
        if alert and not before:
            soil.raised.append(len(readings))


def figures(world: SoilWorld, *, tank_years: int, seed: int) -> Figures:
    """Watch tanks for a year each of soil time in a row, laid anew whenever the range is left."""
    draw = random.Random(seed)
    left = 365.25 * tank_years
    soils = first_in_time = in_time = late = false_alarms = intervals = held = 0
    while left > 7 * FEWEST_READINGS:
        soil, readings = _watch(world, days=min(left, 3 * 365.25), draw=draw)
        lead = {number: soil.end_day - readings[number - 1][0] for number in soil.standing}
        false_alarms += sum(lead[number] > 56 for number in soil.raised)
        if soil.raised and soil.end_day < float("inf"):
            trend = ph_trend(readings[: soil.raised[0]], highest_ph=HIGHEST_PH)
            assert trend.end_low_day is not None
            intervals += 1
            held += trend.end_low_day <= soil.end_day and (
                trend.end_high_day is None or soil.end_day <= trend.end_high_day
            )
        if soil.end_day <= min(left, 3 * 365.25):
            first = lead[soil.raised[0]] if soil.raised else 0.0
            soils += 1
            first_in_time += 21 <= first <= 56
            late += first < 21
            in_time += any(21 <= one <= 56 for one in lead.values())
        left -= min(soil.end_day, left, 3 * 365.25)
    return Figures(
        world=world,
        tank_years=tank_years,
        soils=soils,
        first_in_time=first_in_time,
        in_time=in_time,
        late=late,
        false_alarms=false_alarms,
        intervals=intervals,
        held=held,
    )


if __name__ == "__main__":
    years = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    for one in (FRESH, SHORT, PLATEAU, STILL):
        print(figures(one, tank_years=years, seed=1968), flush=True)

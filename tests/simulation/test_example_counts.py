"""The counts of the example journal are those that chance drew."""

from datetime import date
from itertools import pairwise

import pytest

from simulation.animals import VIABILITY_GG, Tally
from simulation.diary import SITE, Happening, diary, front_matter, happenings, of_kind
from simulation.draw_counts import draw, table
from simulation.first_year import BROODS as FIRST_YEAR_BROODS
from simulation.second_year_broods import SECOND_YEAR_BROODS

DRAWN = draw()
BROODS = (*FIRST_YEAR_BROODS, *SECOND_YEAR_BROODS.values())
COUNTS = [row for row in DRAWN.tallies if row.how in {"looked", "netted", "emptied"}]
TANKS = {"alder", "bracken", "hazel", "larch", "rowan", "sedge", "willow"}
SECOND_YEAR = date(2026, 10, 16)
"""From here on grown animals are drawn too."""

EARLIEST_ADULT_DAYS = 75
"""Nur & Christianus 2013, at 27 °C (abstract): 75 d to an adult."""

INCUBATION_DAYS = (15, 24)
"""230 / (T - 12.5) at 28 °C and 22 °C, computed from published points."""


def rows_of(how: str) -> list[Tally]:
    return [row for row in DRAWN.tallies if row.how == how]


def tallies_written() -> list[Happening]:
    return [event for event in of_kind("counted") if "looks" in event.says]


@pytest.mark.parametrize("row", COUNTS, ids=lambda row: f"{row.brood} {row.date}")
def test_tally__is_the_one_drawn(row: Tally) -> None:
    day = date.fromisoformat(row.date)
    (written,) = [
        event
        for event in tallies_written()
        if event.name("brood") == row.brood and event.day == day
    ]
    drawn = dict(row.numbers)
    unsorted_drawn, other_drawn = drawn.pop("unsorted"), drawn.pop("other", 0)

    assert written.numbers("looks") == {look: n for look, n in drawn.items() if n}
    assert written.says.get("unsorted", 0) == unsorted_drawn
    assert written.others() == other_drawn
    assert written.name("how") == row.how
    assert written.name("age") == f"{row.age_days} d"


def test_tallies__no_other_is_written() -> None:
    written = [(event.name("brood"), event.day.isoformat()) for event in tallies_written()]

    assert sorted(written) == sorted((row.brood, row.date) for row in COUNTS)


def test_hatching__says_at_least_what_was_glimpsed() -> None:
    drawn = {row.brood: f"{row.total}+" for row in rows_of("hatching")}
    days = {brood.name: brood.hatched for brood in BROODS}

    assert {event.name("brood"): event.name("count") for event in of_kind("hatched")} == drawn
    assert {event.name("brood"): str(event.day) for event in of_kind("hatched")} == days


def test_sexing__is_the_one_drawn() -> None:
    drawn = sorted(
        (row.brood, row.date, row.number("females"), row.number("males"))
        for row in rows_of("sexed")
    )

    assert drawn == sorted(
        (
            event.name("group"),
            str(event.day),
            *(int(str(event.says.get(sex, 0))) for sex in ("females", "males")),
        )
        for event in of_kind("sexed")
    )


@pytest.mark.parametrize("row", rows_of("graded"), ids=lambda row: row.brood)
def test_grading__is_the_one_drawn(row: Tally) -> None:
    (written,) = [event for event in of_kind("graded") if event.name("group") == row.brood]

    assert written.numbers("values") == dict(row.numbers)
    assert str(written.day) == row.date


def test_gradings__no_other_is_written_in_the_second_year() -> None:
    written = {event.name("group") for event in of_kind("graded") if event.day >= SECOND_YEAR}

    assert written == {row.brood for row in rows_of("graded")}


@pytest.mark.parametrize("row", rows_of("counted"), ids=lambda row: f"{row.brood} {row.date}")
def test_count_of_a_group__is_the_one_drawn(row: Tally) -> None:
    kinds = {"counted", "moved"}  # the colony's way home is a move, and the count of it
    numbers = [
        event.says["count"]
        for event in happenings()
        if event.kind in kinds
        and event.name("group") == row.brood
        and str(event.day) == row.date
        and "count" in event.says
    ]

    assert numbers
    assert set(numbers) == {row.number("animals")}


def test_colony__begins_as_drawn_and_leaves_some_behind() -> None:
    (began,) = of_kind("present")
    (estimate,) = rows_of("estimate")
    left = [dict(row.numbers).get("left behind", 0) for row in rows_of("counted")]

    assert began.name("count") == f"~{estimate.total}"
    assert str(began.day) == estimate.date
    assert max(left) >= 1, "one of them is found alive later"


def test_bodies__are_those_drawn() -> None:
    drawn: dict[date, dict[str, int]] = {}
    for row in rows_of("body"):
        if row.total:
            drawn.setdefault(date.fromisoformat(row.date), {})[row.brood] = row.total
    dead = [event for event in of_kind("died") if event.written >= SECOND_YEAR]

    for day, groups in drawn.items():
        on_the_day = [event for event in dead if day in (event.day, event.written)]
        named = [
            event
            for event in on_the_day
            if groups.keys() <= {event.name("group"), *event.names("of")}
        ]
        assert [event.number() for event in named] == [sum(groups.values())], day
    assert sum(event.number() for event in dead) == sum(row.total for row in rows_of("body"))


def test_stray__shows_in_one_brood_only() -> None:
    slate = {
        row.brood: row.number("slate")
        for row in COUNTS
        if "amberglass × " in _cross_of(row.brood) and "slate" in dict(row.numbers)
    }
    all_amber = {name for name in slate if _cross_of(name).startswith("BC1 amberglass")}

    assert slate["bracken-02"] > 0
    assert all(slate[name] == 0 for name in all_amber - {"bracken-02"})
    (strayed, cleared) = [e for e in of_kind("strayed") if e.name("to") == "bracken"]
    assert strayed.day < date.fromisoformat(SECOND_YEAR_BROODS["bracken-02"].hatched)
    assert strayed.written > date.fromisoformat(SECOND_YEAR_BROODS["bracken-02"].counts[0].date)
    assert cleared.says["cleared"] is True


def _cross_of(name: str) -> str:
    return next(brood.cross for brood in BROODS if brood.name == name)


def test_ages__are_days_since_hatching() -> None:
    hatched = {brood.name: date.fromisoformat(brood.hatched) for brood in BROODS}

    for row in COUNTS:
        days = (date.fromisoformat(row.date) - hatched[row.brood]).days
        assert days == row.age_days, row


def test_broods__no_dam_spawns_before_she_is_adult() -> None:
    hatched = {brood.name: date.fromisoformat(brood.hatched) for brood in BROODS}
    youngest_f1 = max(hatched["hazel-01"], hatched["alder-01"])

    for brood in BROODS:
        if brood.dams == "F1":
            first_spawning = (hatched[brood.name] - youngest_f1).days - INCUBATION_DAYS[1]
            assert first_spawning >= EARLIEST_ADULT_DAYS, brood.name
    (late,) = [e for e in of_kind("berried") if e.says.get("of") == ["marl", "silt"]]
    assert (late.day - hatched["alder-02"]).days > EARLIEST_ADULT_DAYS


@pytest.mark.parametrize(
    ("brood", "dams_from"),
    [
        ("rowan-03", "rowan-02"),
        ("hazel-03", "alder-03"),
        ("sedge-02", "rowan-02"),
        ("alder-05", "hazel-02"),
        ("larch-01", "hazel-02"),
        ("bracken-01", "alder-03"),
        ("alder-06", "hazel-03"),
        ("rowan-04", "larch-01"),
        ("sedge-03", "sedge-02"),
    ],
)
def test_brood_of_the_second_year__its_dam_was_adult_when_she_spawned(
    brood: str, dams_from: str
) -> None:
    hatched = {one.name: date.fromisoformat(one.hatched) for one in BROODS}

    days = (hatched[brood] - hatched[dams_from]).days - INCUBATION_DAYS[0]
    assert days >= EARLIEST_ADULT_DAYS


@pytest.mark.parametrize(
    ("brood", "berried_on", "tank"),
    [
        ("hazel-01", "2026-03-07", "alder"),
        ("alder-01", "2026-03-13", "alder"),
        ("sedge-01", "2026-03-26", "sedge"),
        ("rowan-01", "2026-06-22", "rowan"),
        ("hazel-02", "2026-06-23", "alder"),
        ("alder-02", "2026-07-01", "alder"),
        ("rowan-02", "2026-07-19", "rowan"),
        ("alder-03", "2026-07-19", "alder"),
        ("alder-04", "2026-10-08", "alder"),
        ("rowan-03", "2026-10-19", "rowan"),
        ("sedge-02", "2026-11-14", "sedge"),
        ("alder-05", "2026-12-09", "alder"),
        ("larch-01", "2027-01-03", "alder"),
        ("bracken-01", "2027-01-11", "bracken"),
        ("bracken-02", "2027-02-27", "bracken"),
        ("alder-06", "2027-03-28", "alder"),
        ("rowan-04", "2027-04-26", "rowan"),
        ("bracken-03", "2027-05-09", "bracken"),
    ],
)
def test_brood__hatches_one_incubation_after_its_dam_was_berried(
    brood: str, berried_on: str, tank: str
) -> None:
    hatched = {b.name: date.fromisoformat(b.hatched) for b in BROODS}
    low, high = INCUBATION_DAYS

    assert low <= (hatched[brood] - date.fromisoformat(berried_on)).days <= high
    assert (berried_on, tank) in {(str(e.day), e.tank) for e in of_kind("berried")}


def test_journal__is_large_and_varied_enough_to_show_the_work() -> None:
    bare = [path for path in diary() if not front_matter(path)]
    days = sorted(event.written for event in happenings())

    assert len(diary()) >= 150
    assert (days[-1] - days[0]).days >= 18 * 30.4
    assert len(bare) >= 2
    assert {path.stem for path in (SITE / "tanks").iterdir()} == TANKS
    assert {event.kind for event in happenings()} >= {
        *("away", "closed", "culled", "cycle", "dosed", "joined", "offered", "present"),
        *("quarantine", "reserved", "sick", "soil", "sold", "strayed", "treated", "withdrawn"),
    }


@pytest.mark.parametrize("tank", sorted(TANKS - {"larch"}))
def test_readings__no_tank_in_use_goes_two_months_without_one(tank: str) -> None:
    days = [event.day for event in of_kind("measured") if event.tank == tank]

    gaps = [(later - earlier).days for earlier, later in pairwise(days)]
    assert max(gaps) <= 61


def test_draw__is_the_same_every_time() -> None:
    assert table(draw()) == table(DRAWN)
    assert 0.0 < VIABILITY_GG <= 1.0

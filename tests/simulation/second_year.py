"""The story of the example from October 2026 to August 2027, day by day, as it is drawn."""

from random import Random
from typing import NamedTuple

from simulation.animals import SEED, Animal, Tally, draw_brood, pick
from simulation.first_year import FirstYear
from simulation.herd import Herd
from simulation.second_year_broods import SECOND_YEAR_BROODS

__all__ = ["SecondYear", "draw_second_year"]

LOST_TO_FOOD = 0.35
"""Chance that a grown animal dies where a tank is overfed for a week."""

COLONY_DEATHS_A_MONTH = 0.08
"""Chance that an animal of the colony dies in a month."""

COLONY_YOUNG_A_FEMALE = 0.5
"""Grown young of a female in a month, in a crowded tank."""


class SecondYear(NamedTuple):
    """What was drawn of the second year."""

    tallies: tuple[Tally, ...]
    """Rows of the table, in the order drawn."""
    alive: tuple[tuple[str, int, int], ...]
    """By brood: young hatched, and young alive at its last count."""


class _Story:
    """The second year while it is told."""

    def __init__(self, first: FirstYear) -> None:
        self.first = first
        self.herd = Herd()
        self.tallies: list[Tally] = []
        self.alive: list[tuple[str, int, int]] = []

    def hatch(
        self,
        name: str,
        *,
        dams: tuple[Animal, ...],
        sires: tuple[Animal, ...],
        stray: Animal | None = None,
    ) -> None:
        """Draw a brood, and let the living of its last count be a group."""
        rows, hatched, living = draw_brood(
            SECOND_YEAR_BROODS[name], dams=dams, sires=sires, stray=stray
        )
        self.tallies.extend(rows)
        self.alive.append((name, hatched, len(living)))
        self.herd.add(name, living)

    def begin(self) -> None:
        """Put everybody where October 2026 finds them."""
        for brood, amber, slate in (
            ("rowan-01", "lamp", "peat"),
            ("rowan-02", "glim", "turf"),
            ("hazel-02", "wick", "marl"),
            ("alder-02", "spill", "silt"),
        ):
            self.herd.add(brood, self.first.living[brood])
            self.herd.split(brood, amber, is_amber)
            self.herd.split(brood, slate, lambda _: True)
        self.herd.add("taper", self.herd.of("wick", "spill"))
        self.herd.take("taper", "lost in September", 1)
        self.herd.take("taper", "taper-best", 3)
        self.herd.add("alder-03", self.first.living["alder-03"])
        self.herd.add("sedge-01", self.first.living["sedge-01"])
        amber_male = Animal(genotype="g/g", female=False)
        self.herd.add("pane-m", [amber_male] * 2)
        self.herd.add("pane", [amber_male, Animal(genotype="g/g", female=True)])
        stream = Random(f"{SEED}:2026-09-23")
        old = ("pane", "pane-m", "sedge-01")
        self.herd.take(old[int(stream.random() * 3)], "lost in September", 1)


def is_amber(animal: Animal) -> bool:
    """Say whether an animal shows amberglass, whole or not."""
    return animal.look == "amberglass"


def is_female(animal: Animal) -> bool:
    """Say whether it is a female."""
    return animal.female


def _autumn(story: _Story) -> None:
    herd = story.herd
    amber_males = herd.of("pane", "pane-m", "sedge-01", female=False)
    brothers = herd.of("marl", "silt", female=False)
    story.hatch(
        "alder-04", dams=herd.of("marl", "silt", female=True), sires=(*amber_males, *brothers)
    )
    story.hatch(
        "rowan-03",
        dams=herd.of("peat", "turf", female=True),
        sires=herd.of("peat", "turf", female=False),
    )
    # The second reshuffle, 21 November.
    herd.live("marl", "silt", "alder-03", "sedge-01", since="2026-10-15", until="2026-11-21")
    herd.live("pane", "pane-m", since="2026-10-15", until="2026-11-21", old=True)
    herd.count("marl", "silt", "pane", "pane-m", "sedge-01", day="2026-11-21")
    slate = sum(not is_amber(animal) for animal in herd.of("alder-03"))
    amber = len(herd.of("alder-03")) - slate
    story.tallies.append(
        Tally(
            brood="alder-03",
            date="2026-11-21",
            age_days=106,
            how="emptied",
            numbers=(("slate", slate), ("amberglass", amber), ("unsorted", 0)),
        )
    )
    herd.sex("marl", "silt", "sedge-01", day="2026-11-21")
    herd.split("marl", "marl-f", is_female)
    herd.split("silt", "silt-f", is_female)
    herd.split("sedge-01", "ember", lambda animal: not animal.female)
    herd.split("alder-03", "spark", is_amber)
    herd.live("taper", "taper-best", since="2026-10-15", until="2026-12-13")
    story.hatch(
        "hazel-03",
        dams=herd.of("taper", "taper-best", female=True),
        sires=herd.of("taper", "taper-best", female=False),
    )
    herd.live("lamp", "glim", since="2026-10-15", until="2026-12-01")
    story.hatch(
        "sedge-02", dams=herd.of("glim", female=True), sires=herd.of("lamp", "glim", female=False)
    )
    # Into bracken, 13 December.
    herd.add("taper", herd.of("spark"))
    herd.count("taper", "taper-best", day="2026-12-13")
    herd.sex("taper", "taper-best", day="2026-12-13")
    # Everything plain goes, 27 December.
    herd.live("peat", "turf", since="2026-10-15", until="2026-12-27")
    herd.count("peat", "turf", day="2026-12-27")
    herd.sex("peat", day="2026-12-27")
    herd.split("rowan-03", "chalk", lambda animal: animal.unusual == "milky")
    herd.split("rowan-03", "tinder", is_amber)
    herd.live("chalk", since="2026-12-27", until="2027-01-17", old=True)
    herd.count("chalk", day="2027-01-17")


def _winter(story: _Story) -> None:
    herd = story.herd
    herd.split("taper-best", "best-f", is_female)
    herd.take("taper", "taper-f", 3, female=True)
    herd.live("marl-f", "ember", since="2026-11-21", until="2026-12-09")
    herd.live("pane", "pane-m", since="2026-11-21", until="2026-12-09", old=True)
    amber_males = herd.of("pane", "pane-m", "ember", female=False)
    story.hatch("alder-05", dams=herd.of("marl-f"), sires=amber_males)
    herd.take("marl-f", "sill", 1)
    story.hatch("larch-01", dams=herd.of("sill"), sires=amber_males)
    herd.add("cinder", [Animal(genotype="g/g", female=False)] * 2)
    herd.live("best-f", "taper-f", since="2026-12-13", until="2027-01-11")
    story.hatch("bracken-01", dams=herd.of("best-f", "taper-f"), sires=herd.of("cinder"))
    herd.live("marl-f", "ember", since="2026-12-09", until="2027-02-20")
    herd.live("pane", "pane-m", since="2026-12-09", until="2027-02-20", old=True)
    herd.count("marl-f", "ember", "pane", "pane-m", day="2027-02-20")
    herd.live("lamp", "glim", since="2026-12-01", until="2027-01-16")
    herd.live("tinder", since="2026-12-27", until="2027-01-16")
    herd.count("lamp", "glim", "tinder", day="2027-01-16")
    herd.live("sedge-02", since="2027-01-16", until="2027-03-13")
    herd.grade("sedge-02", "2027-03-13", shares=(0.3, 0.45, 0.25))
    herd.live("hazel-03", since="2026-12-19", until="2027-03-14")
    herd.grade("hazel-03", "2027-03-14", shares=(0.25, 0.45, 0.3))


def _spring(story: _Story) -> None:
    herd = story.herd
    plain_males = tuple(
        animal
        for animal in herd.of("rowan-03", female=False)
        if not is_amber(animal) and not animal.unusual
    )
    stray = pick(Random(f"{SEED}:stowaway"), plain_males)
    herd.live("best-f", "taper-f", since="2027-01-11", until="2027-02-27")
    story.hatch(
        "bracken-02", dams=herd.of("best-f", "taper-f"), sires=herd.of("cinder"), stray=stray
    )
    herd.live("best-f", "taper-f", "cinder", since="2027-02-27", until="2027-04-25")
    herd.count("best-f", "taper-f", "cinder", day="2027-04-25")
    herd.split("larch-01", "hinge", lambda animal: animal.unusual == "halves")
    herd.sex("hinge", day="2027-05-16")
    herd.split("alder-05", "gleam", is_amber)
    herd.split("larch-01", "glow", is_amber)
    herd.add("beacon", herd.of("gleam", "glow"))
    herd.live("beacon", since="2027-03-06", until="2027-04-10")
    herd.grade("beacon", "2027-04-10", shares=(0.2, 0.45, 0.35))
    story.hatch(
        "rowan-04", dams=herd.of("beacon", female=True), sires=herd.of("beacon", female=False)
    )
    amber_males = herd.of("ember", "pane", "hazel-03", female=False)
    story.hatch("alder-06", dams=herd.of("hazel-03", female=True), sires=amber_males)
    herd.take("sedge-02", "posted in April", 13)
    old = herd.of("lamp", "glim", "tinder", "sedge-02", female=False)
    story.hatch("sedge-03", dams=herd.of("sedge-02", female=True), sires=old)
    story.hatch("bracken-03", dams=herd.of("best-f", "taper-f"), sires=herd.of("cinder"))


def _summer(story: _Story) -> None:
    herd = story.herd
    herd.live("taper", "taper-best", since="2026-12-13", until="2027-07-03")
    herd.live("bracken-01", since="2027-03-23", until="2027-07-03")
    herd.lose("taper", "taper-best", "bracken-01", day="2027-07-25", chance=LOST_TO_FOOD)
    herd.count("taper", "taper-best", "bracken-01", day="2027-07-25")
    herd.live("hazel-03", since="2027-03-14", until="2027-05-30")
    herd.live("ember", since="2027-02-20", until="2027-05-30")
    herd.live("pane", since="2027-02-20", until="2027-05-30", old=True)
    herd.count("hazel-03", "ember", "pane", day="2027-05-30")
    herd.live("lamp", "glim", "tinder", since="2027-01-16", until="2027-08-14")
    herd.live("sedge-02", since="2027-04-19", until="2027-08-14")
    herd.count("lamp", "glim", "tinder", "sedge-02", day="2027-08-14")
    herd.live("beacon", since="2027-04-10", until="2027-06-20")
    herd.count("beacon", day="2027-06-20")
    herd.grade("rowan-04", "2027-08-15", shares=(0.15, 0.45, 0.4))


def _colony(story: _Story) -> None:
    """Draw the leftovers in the bathroom window, month by month."""
    stream = Random(f"{SEED}:leftovers")
    alive = 16 + int(stream.random() * 9)
    story.herd.note("leftovers", "2026-02-15", "estimate", (("animals", 5 * round(alive / 5)),))

    def live_months(alive: int, months: int) -> int:
        for _ in range(months):
            dead = sum(stream.random() < COLONY_DEATHS_A_MONTH for _ in range(alive))
            grown = sum(stream.random() < COLONY_YOUNG_A_FEMALE for _ in range(alive // 2))
            alive += (grown if alive < 60 else 0) - dead
        return alive

    alive = live_months(alive, 9)
    seen = sum(stream.random() < 0.7 for _ in range(alive))
    story.herd.note("leftovers", "2026-11-15", "counted", (("animals", seen),))
    alive = live_months(alive, 4)
    story.herd.note("leftovers", "2027-03-07", "counted", (("animals", alive),))
    alive = live_months(alive, 1)
    left = sum(stream.random() < 0.08 for _ in range(alive))
    story.herd.note(
        "leftovers", "2027-04-11", "counted", (("animals", alive - left), ("left behind", left))
    )
    alive = live_months(alive - left, 4)
    seen = sum(stream.random() < 0.8 for _ in range(alive))
    story.herd.note("leftovers", "2027-08-08", "counted", (("animals", seen),))


def draw_second_year(first: FirstYear) -> SecondYear:
    """Draw the second year from what the first left behind; the same every time."""
    story = _Story(first)
    story.begin()
    for chapter in (_autumn, _winter, _spring, _summer, _colony):
        chapter(story)
    return SecondYear(tallies=(*story.tallies, *story.herd.rows), alive=tuple(story.alive))

"""Draw the counts of the example journal by chance, so that nobody chose them.

The crosses of the story are data in `first_year` and `second_year`. For each brood the script
draws how many young hatch, the genotype of each by Mendel's first law from its own dam and sire,
its sex, whether it lives to each count, and whether the keeper's eye or net finds it; for groups
of grown animals it draws deaths, bodies found, sexes and grades. It prints the table that the
diaries in `example_site/` quote; `test_example_counts.py` draws again and compares.

Every brood and every event has a stream of its own, so that a new brood changes no other one.
"""

from simulation.animals import SEED, VIABILITY_GG, Drawing
from simulation.first_year import draw_first_year
from simulation.second_year import draw_second_year

__all__ = ["draw", "table"]


def draw() -> Drawing:
    """Draw the whole story; the same every time."""
    first = draw_first_year()
    second = draw_second_year(first)
    return Drawing(tallies=(*first.tallies, *second.tallies), alive=(*first.alive, *second.alive))


def table(drawing: Drawing) -> str:
    """Write what was drawn as a Markdown table."""
    lines = [
        f"Seed {SEED}; relative viability of g/g young {VIABILITY_GG}.",
        "",
        "| brood or group | date | age in days | how | numbers | total |",
        "| --- | --- | --- | --- | --- | --- |",
    ]
    for row in drawing.tallies:
        numbers = ", ".join(f"{name} {number}" for name, number in row.numbers)
        age = "" if row.age_days is None else str(row.age_days)
        lines.append(f"| {row.brood} | {row.date} | {age} | {row.how} | {numbers} | {row.total} |")
    lines += ["", "| brood | hatched | alive at the last count |", "| --- | --- | --- |"]
    lines += [f"| {name} | {hatched} | {living} |" for name, hatched, living in drawing.alive]
    return "\n".join(lines)


if __name__ == "__main__":
    print(table(draw()))

"""Sex chromosomes, linkage, maternal effect and penetrance from a diary to its tables."""

import pytest

from filialog.analysis import JournalResults
from filialog.analysis.rows import Assumption, Table
from tools.diaries import results_of

MEDAKA = """\
sex: XY
loci:
  r: {alleles: [R, r]}
linkage:
  - {loci: [sex, r], recombination: {dam: 0, sire: 2 %}}
looks:
  - {look: red female, when: {sex: female, r: has R}}
  - {look: white female, when: {sex: female}}
  - {look: red male, when: {r: has R}}
  - {look: white male}
"""
COILING = """\
loci:
  d: {alleles: [D, d]}
looks:
  - {look: right, when: {d: has D}}
  - {look: left}
by: dam
"""
LINKED = """\
loci:
  a: {alleles: [A, a]}
  b: {alleles: [B, b]}
linkage:
  - {loci: [a, b], recombination: 10 %}
looks:
  - {look: both, when: {a: has A, b: has B}}
  - {look: one, when: {a: has A}}
  - {look: other, when: {b: has B}}
  - {look: bare}
"""
SHY = """\
loci:
  g: {alleles: [G, g]}
looks:
  - {look: glowing, when: {g: hom g}, share: 80 %, otherwise: dull}
  - {look: dull}
viability:
  - {when: {g: hom g}, share: 1/2}
"""


def results(diary: str, traits: str) -> JournalResults:
    return results_of(diary, traits={"own": traits})


def shares(found: JournalResults, brood: str = "young") -> dict[str, tuple[float, float]]:
    return {look: (low, high) for look, low, high in found.table(brood).expected}


def table_of(found: JournalResults) -> Table:
    table = found.table("young").table
    assert table is not None, found.table("young").why_none
    return table


def test_sex_linked__sons_follow_their_y() -> None:
    # Aida (1921, from memory): X r/Y R by X r/X r; here with 2 % crossing over in the sire.
    found = results(
        """
        2026-01-01 fen | bought: {group: pale, count: 4, genotype: X r/X r}
        2026-01-01 fen | bought: {group: bright, count: 4, genotype: X r/Y R}
        2026-03-01 fen | hatched: {brood: young, dams: pale, sires: bright}
        2026-04-01 fen | counted: {brood: young, looks: {white female: 24, red male: 22}}
        """,
        MEDAKA,
    )

    assert shares(found) == {
        "red female": (0.01, 0.01),
        "white female": (0.49, 0.49),
        "red male": (0.49, 0.49),
        "white male": (0.01, 0.01),
    }
    assert {row.genotype for row in found.group("young").genotypes} == {
        "X/X R/r", "X/X r/r", "X/Y r/r", "X r/Y R",
    }  # fmt: skip


def test_sex_linked__a_dam_of_a_brood_is_a_female_of_it() -> None:
    found = results(
        """
        2026-01-01 fen | bought: {group: pale, count: 4, genotype: X r/X r}
        2026-01-01 fen | bought: {group: bright, count: 4, genotype: X R/Y R}
        2026-03-01 fen | hatched: {brood: first, dams: pale, sires: bright}
        2026-06-01 fen | hatched: {brood: young, dams: first, sires: first}
        2026-07-01 fen | counted: {brood: young, looks: {red female: 12, red male: 12}}
        """,
        MEDAKA,
    )
    first = {row.genotype for row in found.group("first").genotypes}

    assert first == {"X/X R/r", "X r/Y R"}
    # Dams X R/X r by sires X r/Y R: half of the 0.49 with the sire's X r, and the 0.01 with X R.
    assert shares(found)["red female"] == pytest.approx((0.255, 0.255))
    assert shares(found)["white male"] == pytest.approx((0.005, 0.005))


def test_shown_by_dam__a_brood_looks_like_its_dams_genotype() -> None:
    found = results(
        """
        2026-01-01 fen | bought: {group: lefty, count: 1, genotype: d/d}
        2026-01-01 fen | bought: {group: righty, count: 1, genotype: D/D}
        2026-03-01 fen | hatched: {brood: first, dams: lefty, sires: righty}
        2026-06-01 fen | hatched: {brood: young, dams: first, sires: first}
        2026-07-01 fen | counted: {brood: young, looks: {right: 12, left: 0}}
        """,
        COILING,
    )

    assert shares(found, "first") == {"right": (0.0, 0.0), "left": (1.0, 1.0)}
    assert shares(found) == {"right": (1.0, 1.0), "left": (0.0, 0.0)}
    # The genotype of the young is D/d: it says nothing of their own look.
    assert [(row.genotype, row.look) for row in found.group("first").genotypes] == [("D/d", None)]


def test_shown_by_dam__a_look_of_a_brood_speaks_of_its_dam() -> None:
    found = results(
        """
        2026-01-01 fen | bought: {group: lefty, count: 1, genotype: d/d}
        2026-01-01 fen | bought: {group: other, count: 1, genotype: D/d}
        2026-03-01 fen | hatched: {brood: young, dams: [lefty, other], sires: lefty}
        2026-04-01 fen | sorted: {from: young, into: {kept: {count: 4, look: right}}}
        """,
        COILING,
    )

    # Sorting by a look that the dam gives tells the young of one brood nothing apart.
    assert {row.genotype: row.probability for row in found.group("kept").genotypes} == (
        {row.genotype: row.probability for row in found.group("young").genotypes}
    )


@pytest.mark.parametrize(
    ("genotype", "both"),
    [
        pytest.param("A B/a b", 0.7025, id="coupling"),
        pytest.param("A b/a B", 0.5025, id="repulsion"),
    ],
)
def test_linked__phase_is_read_and_kept(genotype: str, both: float) -> None:
    # (2 + (1 - r)²) / 4 and (2 + r²) / 4 with r = 1/10.
    found = results(
        f"""
        2026-01-01 fen | bought: {{group: dusk, count: 9, genotype: {genotype}}}
        2026-03-01 fen | hatched: {{brood: young, dams: dusk, sires: dusk}}
        2026-04-01 fen | counted: {{brood: young, looks: {{both: 20, one: 3, other: 4, bare: 5}}}}
        """,
        LINKED,
    )

    assert [row.genotype for row in found.group("dusk").genotypes] == [genotype]
    assert shares(found)["both"] == (both, both)


def test_linked__genotype_without_phase_says_so() -> None:
    diary = """
        2026-01-01 fen | bought: {group: dusk, count: 9, genotype: GENOTYPE}
    """
    both = results(diary.replace("GENOTYPE", "A/a B/b"), LINKED).group("dusk")
    told = results(diary.replace("GENOTYPE", "A B/a b"), LINKED).group("dusk")

    assert {row.genotype: row.probability for row in both.genotypes} == {
        "A B/a b": 0.5,
        "A b/a B": 0.5,
    }
    assert Assumption.EITHER_PHASE in both.assumptions
    assert Assumption.EITHER_PHASE not in told.assumptions


def test_penetrance_and_viability__enter_the_expected_share() -> None:
    found = results(
        """
        2026-01-01 fen | bought: {group: dusk, count: 9, genotype: G/g}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dusk}
        2026-04-01 fen | counted: {brood: young, looks: {glowing: 3, dull: 25}}
        """,
        SHY,
    )
    glowing = found.look("glowing")

    # Of 3 : 1/2 living young a seventh is g/g, and 80 % of them show it.
    assert shares(found)["glowing"] == pytest.approx((4 / 35, 4 / 35))
    assert Assumption.EQUAL_VIABILITY not in table_of(found).assumptions
    assert [genotype for _, genotype in glowing.genotypes] == ["g/g"]
    assert [genotype for _, genotype in found.look("dull").genotypes] == ["G/G", "G/g", "g/g"]
    rows = {row.genotype: row.look for row in found.group("young").genotypes}
    assert rows == {"G/G": "dull", "G/g": "dull", "g/g": None}

"""What the young of a pairing would be, against numbers worked out by hand."""

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.analysis.forecast_rows import ForecastRow, Obstacle
from filialog.analysis.forecasts import young_to_see_one
from filialog.analysis.rows import Assumption, Level
from filialog.genetics import Sex
from tools.diaries import GLOW, results_of

_WHOLE = Fraction(1)

_TWO = """\
name: two
says: Two unlinked loci, both recessives seen; made up.
loci:
  a: {alleles: [A, a]}
  b: {alleles: [B, b]}
looks:
  - {look: plain, when: {a: has A, b: has B}}
  - {look: pale, when: {a: hom a, b: has B}}
  - {look: striped, when: {a: has A, b: hom b}}
  - {look: both, when: {a: hom a, b: hom b}}
source: made up
"""
_LETHAL = """\
name: fatal
says: Two copies of the dominant allele kill; made up.
loci:
  k: {alleles: [K, k]}
looks:
  - {look: dark, when: {k: has K}}
  - {look: light}
lethal:
  - {k: hom K}
source: made up
"""
_SEXED = """\
name: sexed
says: A recessive on the X; made up.
sex: XY
loci:
  w: {alleles: [W, w], chromosome: X}
looks:
  - {look: red, when: {w: has W}}
  - {look: white}
source: made up
"""
_OF_DAM = """\
name: eggs
says: The dam's genotype gives the look; made up.
by: dam
loci:
  d: {alleles: [D, d]}
looks:
  - {look: right, when: {d: has D}}
  - {look: left}
source: made up
"""
_F1 = """
    2026-01-01 fen | bought: {group: dusk, genotype: G/G, count: 6, females: 3, males: 3}
    2026-01-01 moss | bought: {group: ember, genotype: g/g, count: 6, females: 3, males: 3}
    2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: ember, count: 20}
"""
_SPECIES = "species: neocaridina-davidi\n"


def _row(
    dams: str,
    sires: str,
    diary: str = _F1,
    *,
    model: str | None = None,
    settings: str = "",
    traits: dict[str, str] | None = None,
) -> ForecastRow:
    results = results_of(diary, traits=traits, settings=settings)
    return results.forecast(dams=dams.split(","), sires=sires.split(","), model=model)


def _shares(row: ForecastRow) -> dict[str, tuple[float, float, float]]:
    return {one.look: (one.low, one.average, one.high) for one in row.looks}


def _genotypes(row: ForecastRow) -> dict[str, float]:
    return {one.genotype: one.probability for one in row.genotypes}


# --- how many young until one is seen -------------------------------------------------------


@pytest.mark.parametrize(
    ("share", "young"),
    [
        pytest.param("1/4", 11, id="ln 0.05 / ln 0.75 = 10.4"),
        pytest.param("1/2", 5, id="ln 0.05 / ln 0.5 = 4.3"),
        pytest.param("1/16", 47, id="ln 0.05 / ln (15/16) = 46.4"),
        pytest.param("19/20", 1, id="just enough"),
        pytest.param("1", 1, id="all"),
        pytest.param("1/1000", 2995, id="ln 0.05 / ln 0.999 = 2994.2"),
    ],
)
def test_young_to_see_one__of_one_kind_of_pair(share: str, young: int) -> None:
    assert young_to_see_one([(_WHOLE, Fraction(share))]) == young


def test_young_to_see_one__is_none_where_many_pairs_never_give_it() -> None:
    assert young_to_see_one([(_WHOLE, Fraction(0))]) is None
    assert (
        young_to_see_one([(Fraction(2, 3), Fraction(1, 2)), (Fraction(1, 3), Fraction(0))]) is None
    )


def test_young_to_see_one__weighs_the_pairs() -> None:
    # None of n young shows it in 0.96 / 2^n + 0.04 of the cases: 0.055 for 6, 0.0475 for 7.
    parts = [(Fraction(96, 100), Fraction(1, 2)), (Fraction(4, 100), Fraction(0))]

    assert young_to_see_one(parts) == 7


def test_young_to_see_one__gives_up_where_the_last_of_the_doubt_stays() -> None:
    parts = [(Fraction(95, 100), Fraction(1, 2)), (Fraction(5, 100), Fraction(0))]

    assert young_to_see_one(parts) is None


@given(st.fractions(min_value=Fraction(1, 3000), max_value=1, max_denominator=3000))
def test_young_to_see_one__is_the_smallest_number(share: Fraction) -> None:
    young = young_to_see_one([(_WHOLE, share)])

    assert young is not None
    assert (1 - share) ** young <= Fraction(1, 20)
    assert young == 1 or (1 - share) ** (young - 1) > Fraction(1, 20)


# --- looks, and what hides behind them ------------------------------------------------------


def test_forecast__intercross_gives_one_two_one_behind_three_to_one() -> None:
    row = _row("young", "young")

    assert row.obstacle is None
    assert _genotypes(row) == {"G/G": 0.25, "G/g": 0.5, "g/g": 0.25}
    assert _shares(row) == {"dull": (0.75, 0.75, 0.75), "glowing": (0.25, 0.25, 0.25)}
    assert [one.young_to_see for one in row.looks] == [3, 11]
    assert [(one.look, one.allele, one.share) for one in row.hidden] == [("dull", "g", 2 / 3)]
    assert row.generation is not None
    assert row.generation.code == "F2"
    assert row.level is Level.INFERRED


def test_forecast__backcross_gives_one_to_one() -> None:
    row = _row("young", "ember")

    assert _genotypes(row) == {"G/g": 0.5, "g/g": 0.5}
    assert [one.young_to_see for one in row.looks] == [5, 5]
    assert [(one.look, one.share) for one in row.hidden] == [("dull", 1.0)]
    assert row.generation is not None
    assert row.generation.code == "BC1"


def test_forecast__two_loci_give_nine_three_three_one() -> None:
    diary = "2026-01-01 fen | bought: {group: mixed, genotype: A/a B/b, count: 9}"
    row = _row("mixed", "mixed", diary, traits={"two": _TWO})

    assert [one.average * 16 for one in row.looks] == [9, 3, 3, 1]
    assert {(one.look, one.allele): one.share for one in row.hidden} == {
        ("plain", "a"): pytest.approx(2 / 3),
        ("plain", "b"): pytest.approx(2 / 3),
        ("pale", "b"): pytest.approx(2 / 3),
        ("striped", "a"): pytest.approx(2 / 3),
    }
    assert len(row.genotypes) == 9


def test_forecast__an_uncertain_parent_gives_a_range() -> None:
    # A plain animal of an intercross is G/G in 1 of 3, G/g in 2 of 3.
    diary = f"""{_F1}
        2026-08-01 fen | hatched: {{brood: next, dams: young, sires: young, count: 20}}
        2026-09-01 fen | sorted: {{from: next, into: {{plain: {{count: 12, look: dull}}}}}}
    """
    row = _row("plain", "ember", diary)

    assert not row.one_expectation
    assert _shares(row)["glowing"] == pytest.approx((0.0, 1 / 3, 0.5))
    assert [one.young_to_see for one in row.looks] == [4, None]
    assert Assumption.ONE_PAIR in row.assumptions


def test_forecast__groups_of_a_set_weigh_by_their_animals() -> None:
    diary = """
        2026-01-01 fen | bought: {group: many, genotype: G/G, count: 9}
        2026-01-01 fen | bought: {group: few, genotype: g/g, count: 3}
    """
    row = _row("many,few", "few", diary)

    assert [one.weight for one in row.dams] == [0.75, 0.25]
    assert _shares(row)["glowing"] == (0.0, 0.25, 1.0)
    assert Assumption.PARENTS_EQUALLY_LIKELY not in row.assumptions


def test_forecast__groups_of_unknown_number_weigh_alike() -> None:
    diary = """
        2026-01-01 fen | bought: {group: many, genotype: G/G, count: 9+}
        2026-01-01 fen | bought: {group: few, genotype: g/g, count: 3}
    """
    row = _row("many,few", "few", diary)

    assert [one.weight for one in row.dams] == [0.5, 0.5]
    assert Assumption.PARENTS_EQUALLY_LIKELY in row.assumptions


def test_forecast__only_the_animals_of_the_sex_weigh() -> None:
    diary = """
        2026-01-01 fen | bought: {group: one, genotype: G/G, count: 4, females: 3, males: 1}
        2026-01-01 fen | bought: {group: two, genotype: g/g, count: 4, females: 1, males: 3}
    """
    row = _row("one,two", "one,two", diary)

    assert [one.weight for one in row.dams] == [0.75, 0.25]
    assert [one.weight for one in row.sires] == [0.25, 0.75]


def test_forecast__a_genotype_can_stand_for_a_parent() -> None:
    row = _row("young", "g/g")

    assert _shares(row)["glowing"] == (0.5, 0.5, 0.5)
    assert row.sires[0].written
    assert row.sires[0].level is Level.CLAIMED
    assert row.generation is None
    assert row.inbreeding is None
    assert row.pairs == ()


# --- sex, death, maternal effect ------------------------------------------------------------


def test_forecast__sex_linked_recessive_shows_in_sons() -> None:
    diary = """
        2026-01-01 fen | bought: {group: carrier, genotype: W/w, count: 3}
        2026-01-01 fen | bought: {group: red, genotype: W/Y, count: 3}
    """
    row = _row("carrier", "red", diary, traits={"sexed": _SEXED})

    assert {one.sex: (one.share, dict(one.looks)) for one in row.sexes} == {
        Sex.FEMALE: (0.5, {"red": 1.0}),
        Sex.MALE: (0.5, {"red": 0.5, "white": 0.5}),
    }


def test_forecast__lethal_genotype_kills_a_quarter_and_leaves_two_to_one() -> None:
    diary = "2026-01-01 fen | bought: {group: dark, genotype: K/k, count: 9}"
    row = _row("dark", "dark", diary, traits={"fatal": _LETHAL})

    assert row.dead_share == 0.25
    assert row.dead == (("K/K", 0.25),)
    assert _shares(row)["light"] == pytest.approx((1 / 3, 1 / 3, 1 / 3))


def test_forecast__young_show_the_genotype_of_their_dam() -> None:
    diary = """
        2026-01-01 fen | bought: {group: lefts, genotype: d/d, count: 3}
        2026-01-01 fen | bought: {group: rights, genotype: D/D, count: 3}
    """
    row = _row("lefts", "rights", diary, traits={"eggs": _OF_DAM})

    assert _shares(row) == {"left": (1.0, 1.0, 1.0)}
    assert _genotypes(row) == {"D/d": 1.0}
    assert all(one.look is None for one in row.hidden)


@pytest.mark.parametrize("kills", [pytest.param(False, id="alike"), pytest.param(True, id="not")])
def test_forecast__says_that_all_live_alike_only_where_they_do(*, kills: bool) -> None:
    weak = "viability: [{when: {g: hom g}, share: 50 %}]\n" if kills else ""
    row = _row("young", "young", traits={"glow": GLOW + weak})

    assert (Assumption.EQUAL_VIABILITY in row.assumptions) is not kills
    # Half of a quarter dies: 1/8 of the eggs, and 1 of 7 that live is glowing.
    assert row.dead_share == (0.125 if kills else 0.0)
    assert _shares(row)["glowing"][1] == pytest.approx(1 / 7 if kills else 1 / 4)


# --- lineage, the size of a brood, what it rests on -----------------------------------------


def test_forecast__full_sibs_of_unrelated_founders_are_inbred_by_a_quarter() -> None:
    diary = """
        2026-01-01 fen | bought: {group: dam, genotype: G/G, count: 1}
        2026-01-01 fen | bought: {group: sire, genotype: g/g, count: 1}
        2026-03-01 fen | hatched: {brood: young, dams: dam, sires: sire, count: 20}
    """
    row = _row("young", "young", diary)

    assert row.inbreeding == pytest.approx((0.25, 0.25))
    assert row.inbreeding_average == pytest.approx(0.25)
    assert row.pairs[0].relation.kinship_high == pytest.approx(0.25)


def test_forecast__brood_is_that_of_the_species() -> None:
    # 21 to 51 young, content/species/neocaridina-davidi.yaml: Nur & Christianus 2013.
    row = _row("young", "young", settings=_SPECIES)
    glowing = row.looks[1]

    assert row.brood_size == (21, 51)
    assert "Nur & Christianus" in row.brood_source
    assert (glowing.brood_low, glowing.brood_high) == (21 / 4, 51 / 4)


def test_forecast__without_species_no_brood_is_reckoned() -> None:
    row = _row("young", "young")

    assert row.brood_size is None
    assert row.looks[0].brood_low is None


def test_forecast__young_that_cannot_breed_yet_say_from_when() -> None:
    row = _row("young", "ember", settings=_SPECIES)

    # Hatched 2026-03-01, first of age after 60 days.
    assert str(row.dams[0].adult_from) == "2026-04-30"
    assert row.sires[0].adult_from is None


def test_forecast__young_that_are_of_age_by_now_say_nothing() -> None:
    diary = f"{_F1}\n    2026-05-01 fen | sexed: {{group: young, females: 9, males: 11}}"

    assert _row("young", "ember", diary, settings=_SPECIES).dams[0].adult_from is None


def test_forecast__rests_on_what_made_parents_and_ancestors() -> None:
    row = _row("young", "young")

    assert [event.entry for event in row.events] == ["003", "001", "002"]


# --- what stands in the way -----------------------------------------------------------------


def test_forecast__nothing_known_of_a_parent() -> None:
    diary = f"{_F1}\n    2026-03-02 fen | bought: {{group: stranger, count: 3}}"
    row = _row("young", "stranger", diary)

    assert row.obstacle is Obstacle.NOTHING_KNOWN
    assert row.concerns == ("stranger",)
    assert row.looks == ()


def test_forecast__no_trait_model() -> None:
    diary = "2026-01-01 fen | bought: {group: dusk, count: 5}"

    assert _row("dusk", "dusk", diary, traits={}).obstacle is Obstacle.NO_MODEL


def test_forecast__the_model_can_be_named() -> None:
    diary = "2026-01-01 fen | bought: {group: mixed, genotype: A/a B/b, count: 9}"
    traits = {"two": _TWO, "fatal": _LETHAL}

    assert _row("mixed", "mixed", diary, traits=traits, model="two").model == "two"


def test_forecast__genotype_that_the_model_does_not_know() -> None:
    row = _row("young", "G/x")

    assert row.obstacle is Obstacle.GENOTYPE_NOT_READ
    assert row.concerns[0] == "G/x"


def test_forecast__males_only_give_no_dam() -> None:
    diary = (
        f"{_F1}\n    2026-03-02 fen | bought: {{group: lads, genotype: g/g, count: 3, males: 3}}"
    )

    assert _row("lads", "ember", diary).obstacle is Obstacle.NOT_A_DAM
    assert _row("young", "lads", diary).obstacle is None


def test_forecast__females_only_give_no_sire() -> None:
    diary = (
        f"{_F1}\n    2026-03-02 fen | bought: {{group: does, genotype: g/g, count: 3, females: 3}}"
    )

    assert _row("young", "does", diary).obstacle is Obstacle.NOT_A_SIRE


def test_forecast__one_animal_is_not_dam_and_sire() -> None:
    diary = f"{_F1}\n    2026-03-02 fen | bought: {{group: lone, genotype: g/g, count: 1}}"

    assert _row("lone", "lone", diary).obstacle is Obstacle.ONE_ANIMAL


def test_forecast__parents_without_living_young() -> None:
    diary = """
        2026-01-01 fen | bought: {group: one, genotype: K/K, count: 9}
        2026-01-01 fen | bought: {group: two, genotype: k/k, count: 9}
    """
    row = _row("one", "two", diary, traits={"fatal": _LETHAL.replace("hom K", "is K/k")})

    assert row.obstacle is Obstacle.BARREN
    assert row.looks == ()


def test_forecast__different_models_of_the_two_sides() -> None:
    diary = """
        2026-01-01 fen | bought: {group: one, look: pale, count: 9}
        2026-01-01 fen | bought: {group: two, look: dark, count: 9}
    """
    row = _row("one", "two", diary, traits={"fatal": _LETHAL, "two": _TWO})

    assert row.obstacle is Obstacle.MODELS_DIFFER
    assert row.concerns == ("fatal", "two")


def test_forecast__group_that_is_not_there_yet() -> None:
    results = results_of(_F1, as_of=date(2026, 2, 1))
    row = results.forecast(dams=["young"], sires=["ember"])

    assert row.obstacle is Obstacle.NOT_YET
    assert row.concerns == ("young",)


def test_forecast__contradiction_names_the_entries() -> None:
    diary = """
        2026-01-01 fen | bought: {group: dusk, genotype: G/G, count: 5}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dusk, count: 20}
        2026-05-01 fen | sorted: {from: young, into: {odd: {count: 2, look: glowing}}}
    """
    row = _row("odd", "young", diary)

    assert row.obstacle is Obstacle.CONTRADICTION
    assert row.concerns == ("odd",)
    assert [event.entry for event in row.contradiction] == ["002", "003"]

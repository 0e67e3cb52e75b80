"""Laws in few words."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.genetics import (
    Condition,
    ConditionKind,
    LawRow,
    Locus,
    LookRule,
    TraitModel,
    certain,
    condition_on_look,
    cross,
    genotype_rows,
    is_lethal,
    law_of,
    living_genotypes,
    parse_genotype,
    pool_law,
    summarise,
    sure_look,
)
from tools.inheritance_models import MODELS


def hom(locus: str, allele: str) -> Condition:
    return Condition(locus=locus, kind=ConditionKind.HOM, alleles=(allele,))


MODEL = TraitModel(
    name="recessive epistasis",
    loci=(Locus(name="eye", alleles=("A", "a")), Locus(name="body", alleles=("B", "m", "b"))),
    looks=(
        LookRule(
            look="dark",
            conditions=(Condition(locus="eye", kind=ConditionKind.HAS, alleles=("A",)),),
        ),
        LookRule(look="blue", conditions=(hom("body", "b"),)),
        LookRule(look="pale"),
    ),
    lethal=((hom("body", "m"),),),
)


def texts(rows: tuple[LawRow, ...]) -> list[tuple[str, str, str | None]]:
    return [(row.text, str(row.probability), row.look) for row in rows]


def test_summarise__f2_of_two_loci() -> None:
    (hybrid,) = parse_genotype("A/a B/b", MODEL)
    f2 = cross(certain(hybrid), certain(hybrid), MODEL).young

    assert texts(summarise(f2, MODEL)) == [
        ("A/- B/B", "3/16", "dark"),
        ("A/- B/b", "3/8", "dark"),
        ("A/- b/b", "3/16", "dark"),
        ("a/a B/B", "1/16", "pale"),
        ("a/a B/b", "1/8", "pale"),
        ("a/a b/b", "1/16", "blue"),
    ]


def test_summarise__leaves_out_a_locus_that_can_be_anything() -> None:
    dark = condition_on_look(pool_law(MODEL), MODEL, ["dark"])

    assert texts(summarise(dark, MODEL)) == [("A/-", "1", "dark")]


def test_summarise__writes_the_exact_genotype_when_a_dash_would_say_no_more() -> None:
    # m/m does not live, so `m/-` could not mean it.
    (carrier,) = parse_genotype("a/a m/b", MODEL)

    assert texts(summarise(certain(carrier), MODEL)) == [("a/a m/b", "1", "pale")]


def test_summarise__does_not_join_over_a_genotype_that_is_excluded() -> None:
    first, second = parse_genotype("A/A B/B", MODEL)[0], parse_genotype("a/a B/B", MODEL)[0]
    law = law_of({first: Fraction(1, 2), second: Fraction(1, 2)})

    assert texts(summarise(law, MODEL)) == [("A/A B/B", "1/2", "dark"), ("a/a B/B", "1/2", "pale")]


def test_genotype_rows__list_every_genotype_in_declared_order() -> None:
    (carrier,) = parse_genotype("a/a m/b", MODEL)
    rows = genotype_rows(cross(certain(carrier), certain(carrier), MODEL).young, MODEL)

    assert texts(rows) == [("a/a m/b", "2/3", "pale"), ("a/a b/b", "1/3", "blue")]


@given(
    st.lists(
        st.tuples(st.sampled_from(living_genotypes(MODEL)), st.integers(1, 5)),
        min_size=1,
        unique_by=lambda pair: pair[0],
    )
)
def test_summarise__rows_mean_the_possible_genotypes_each_once(
    weights: list[tuple[tuple[tuple[str, str], ...], int]],
) -> None:
    total = sum(weight for _, weight in weights)
    law = law_of({genotype: Fraction(weight, total) for genotype, weight in weights})
    meant = []
    for row in summarise(law, MODEL):
        genotypes = [g for g in parse_genotype(row.text, MODEL) if not is_lethal(g, MODEL)]
        assert row.probability == sum(law.probability(g) for g in genotypes)
        assert {sure_look(g, MODEL) for g in genotypes} == {row.look}
        meant += genotypes

    assert sorted(meant) == sorted(law.genotypes())


@pytest.mark.parametrize("model", MODELS)
@given(data=st.data())
@settings(max_examples=10, deadline=None)
def test_summarise__of_linked_and_sex_linked_loci_means_each_genotype_once(
    model: TraitModel, data: st.DataObject
) -> None:
    some = st.lists(st.sampled_from(living_genotypes(model)), min_size=1, unique=True)
    chosen = data.draw(some)
    law = law_of({genotype: Fraction(1, len(chosen)) for genotype in chosen})
    meant = []
    for row in summarise(law, model):
        genotypes = [g for g in parse_genotype(row.text, model) if not is_lethal(g, model)]
        assert row.probability == sum(law.probability(g) for g in genotypes)
        assert {sure_look(g, model) for g in genotypes} == {row.look}
        meant += genotypes

    assert sorted(meant) == sorted(law.genotypes())

"""Laws over genotypes: exactness, conditioning, contradictions."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.genetics import (
    CoarseLook,
    Condition,
    ConditionKind,
    ContradictionError,
    Genotype,
    GenotypeLaw,
    Locus,
    LookRule,
    TraitModel,
    certain,
    condition_on_genotypes,
    condition_on_look,
    law_of,
    look_shares,
    mixture,
    parse_genotype,
    pool_law,
)

AA: Genotype = (("A", "A"),)
Aa: Genotype = (("A", "a"),)
aa: Genotype = (("a", "a"),)
GENE = Locus(name="gene", alleles=("A", "a"))
PALE = Condition(locus="gene", kind=ConditionKind.HOM, alleles=("a",))
MODEL = TraitModel(
    name="one",
    loci=(GENE,),
    looks=(LookRule(look="pale", conditions=(PALE,)), LookRule(look="dark")),
    coarse=(CoarseLook(name="any", looks=("pale", "dark")),),
)
LETHAL = TraitModel(name="lethal", loci=(GENE,), looks=(LookRule(look="dark"),), lethal=((PALE,),))


def q(numerator: int, denominator: int = 1) -> Fraction:
    return Fraction(numerator, denominator)


laws = (
    st.lists(st.integers(0, 9), min_size=3, max_size=3)
    .filter(any)
    .map(lambda w: law_of({g: Fraction(p, sum(w)) for g, p in zip((AA, Aa, aa), w, strict=True)}))
)


def test_law_of__drops_zeros_and_sorts_so_that_equal_laws_are_equal() -> None:
    one = law_of({aa: q(1, 2), AA: q(1, 2), Aa: q(0)})
    other = law_of({AA: q(1, 2), aa: q(1, 2)})

    assert one == other
    assert hash(one) == hash(other)
    assert one.genotypes() == (AA, aa)
    assert one.probability(Aa) == 0


@pytest.mark.parametrize(
    "probabilities",
    [
        pytest.param({}, id="nothing"),
        pytest.param({AA: q(1, 2)}, id="below one"),
        pytest.param({AA: q(3, 2), aa: q(-1, 2)}, id="negative"),
    ],
)
def test_law_of__refuses(probabilities: dict[Genotype, Fraction]) -> None:
    with pytest.raises(DomainError, match="probabilit"):
        law_of(probabilities)


def test_pool_law__is_hardy_weinberg() -> None:
    # Published form p², 2pq, q²: Hardy (1908), with q = 1/5.
    law = pool_law(MODEL, {"gene": {"A": q(4, 5), "a": q(1, 5)}})

    assert law == law_of({AA: q(16, 25), Aa: q(8, 25), aa: q(1, 25)})


def test_pool_law__allele_left_out_is_absent_and_locus_left_out_is_even() -> None:
    assert pool_law(MODEL, {"gene": {"A": q(1)}}) == certain(AA)
    assert pool_law(MODEL) == law_of({AA: q(1, 4), Aa: q(1, 2), aa: q(1, 4)})


def test_pool_law__of_two_loci_multiplies() -> None:
    two = TraitModel(name="two", loci=(GENE, Locus(name="tail", alleles=("T", "t", "s"))), looks=())
    law = pool_law(two, {"gene": {"A": q(4, 5), "a": q(1, 5)}})

    assert law.probability((("A", "a"), ("T", "s"))) == q(8, 25) * q(2, 9)
    assert sum(p for _, p in law.probabilities) == 1


def test_pool_law__holds_living_animals_only() -> None:
    law = pool_law(LETHAL, {"gene": {"A": q(4, 5), "a": q(1, 5)}})

    assert law == law_of({AA: q(2, 3), Aa: q(1, 3)})
    with pytest.raises(ContradictionError):
        pool_law(LETHAL, {"gene": {"a": q(1)}})


@pytest.mark.parametrize(
    ("frequencies", "message"),
    [
        pytest.param({"tail": {"A": q(1)}}, "locus is 'tail'", id="unknown locus"),
        pytest.param({"gene": {"X": q(1)}}, "one of A, a", id="unknown allele"),
        pytest.param({"gene": {"A": q(1, 2)}}, "sum of the allele", id="below one"),
        pytest.param({"gene": {"A": q(2), "a": q(-1)}}, "between 0 and 1", id="out of range"),
    ],
)
def test_pool_law__refuses(frequencies: dict[str, dict[str, Fraction]], message: str) -> None:
    with pytest.raises(DomainError, match=message):
        pool_law(MODEL, frequencies)


@given(laws, laws, st.integers(0, 10))
def test_mixture__averages(one: GenotypeLaw, other: GenotypeLaw, tenths: int) -> None:
    weight = q(tenths, 10)
    law = mixture([(weight, one), (1 - weight, other)])

    for genotype in (AA, Aa, aa):
        expected = weight * one.probability(genotype) + (1 - weight) * other.probability(genotype)
        assert law.probability(genotype) == expected


@pytest.mark.parametrize("weights", [[], [q(1, 2)], [q(3, 2), q(-1, 2)]])
def test_mixture__refuses(weights: list[Fraction]) -> None:
    with pytest.raises(DomainError, match="weight"):
        mixture([(weight, certain(AA)) for weight in weights])


def test_condition_on_look__plain_f2_is_a_carrier_with_two_thirds() -> None:
    # Textbook prior of a normal sib of a recessive: 2/3.
    law = condition_on_look(pool_law(MODEL), MODEL, ["dark"])

    assert law == law_of({AA: q(1, 3), Aa: q(2, 3)})


@given(laws)
def test_condition_on_look__weighted_by_look_gives_the_law_back(law: GenotypeLaw) -> None:
    parts = [
        (share, condition_on_look(law, MODEL, [look]))
        for look, share in look_shares(law, MODEL)
        if share > 0
    ]

    assert mixture(parts) == law


@given(laws)
def test_condition_on_look__of_every_look_changes_nothing(law: GenotypeLaw) -> None:
    assert condition_on_look(law, MODEL, ["any"]) == law
    assert condition_on_look(law, MODEL, ["pale", "dark"]) == law


def test_condition_on_look__names_a_contradiction() -> None:
    with pytest.raises(ContradictionError, match="look is 'pale'; expected one of dark"):
        condition_on_look(certain(AA), MODEL, ["pale"])


def test_condition_on_look__refuses_an_unknown_look() -> None:
    with pytest.raises(DomainError, match="one of pale, dark, any") as caught:
        condition_on_look(certain(AA), MODEL, ["blue"])
    assert not isinstance(caught.value, ContradictionError)


def test_condition_on_genotypes__keeps_the_written_ones() -> None:
    law = condition_on_genotypes(pool_law(MODEL), parse_genotype("A/-", MODEL))

    assert law == law_of({AA: q(1, 3), Aa: q(2, 3)})
    with pytest.raises(ContradictionError):
        condition_on_genotypes(certain(AA), parse_genotype("a/a", MODEL))


def test_look_shares__lists_every_look_in_the_order_of_the_rules() -> None:
    assert look_shares(certain(AA), MODEL) == (("pale", q(0)), ("dark", q(1)))
    assert look_shares(pool_law(MODEL), MODEL) == (("pale", q(1, 4)), ("dark", q(3, 4)))

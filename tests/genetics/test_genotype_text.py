"""Reading and writing genotypes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.genetics import (
    Locus,
    TraitModel,
    all_genotypes,
    format_genotype,
    parse_genotype,
)

MODEL = TraitModel(
    name="two",
    loci=(Locus(name="coat", alleles=("C", "cch", "c")), Locus(name="eye", alleles=("E", "e"))),
    looks=(),
)


def written(text: str) -> list[str]:
    return [format_genotype(genotype, MODEL) for genotype in parse_genotype(text, MODEL)]


@given(st.sampled_from(all_genotypes(MODEL)))
def test_parse__reads_what_format_writes(genotype: tuple[tuple[str, str], ...]) -> None:
    assert parse_genotype(format_genotype(genotype, MODEL), MODEL) == (genotype,)


def test_parse__puts_alleles_and_loci_in_declared_order() -> None:
    assert written("e/E c/cch") == ["cch/c E/e"]


def test_parse__a_dash_is_any_allele() -> None:
    assert written("cch/- e/e") == ["C/cch e/e", "cch/cch e/e", "cch/c e/e"]
    assert written("-/cch e/e") == written("cch/- e/e")


def test_parse__a_locus_left_out_can_be_anything() -> None:
    assert written("C/C") == ["C/C E/E", "C/C E/e", "C/C e/e"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        pytest.param("", "pairs of alleles such as", id="empty"),
        pytest.param("  ", "pairs of alleles such as", id="blank"),
        pytest.param("C", "a pair of alleles such as", id="one allele"),
        pytest.param("C/", "a pair of alleles such as", id="half a pair"),
        pytest.param("C/c/c", "a pair of alleles such as", id="three alleles"),
        pytest.param("C/x", r"allele in `C/x` is 'x'; expected one of C, cch, c \(coat\); E, e",
                     id="unknown allele"),
        pytest.param("C/e", "two alleles of the same locus", id="two loci in one pair"),
        pytest.param("C/c C/C", "locus coat named once only", id="locus twice"),
        pytest.param("-/-", "at least one allele", id="no allele"),
    ],
)  # fmt: skip
def test_parse__refuses_and_says_why(text: str, message: str) -> None:
    with pytest.raises(DomainError, match=message):
        parse_genotype(text, MODEL)

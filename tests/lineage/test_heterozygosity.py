import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.lineage import (
    AnimalPedigree,
    chance_allele_is_founded,
    founding_heterozygosity,
    gene_diversity,
    generations_until,
    heterozygosity_forecast,
    heterozygosity_kept,
    inbreeding_forecast,
    mean_kinship_of,
)

SIZES = st.floats(0.5, 1e5)


@pytest.mark.parametrize("founders", [1, 2, 7])
def test_founding__is_the_gene_diversity_of_unrelated_founders(founders: int) -> None:
    nothing = (None,) * founders
    kinship = mean_kinship_of(AnimalPedigree(dams=nothing, sires=nothing))

    assert founding_heterozygosity(founders) == pytest.approx(gene_diversity(kinship))


@pytest.mark.parametrize("wrong", [0, -1])
def test_founding__without_founders_is_refused(wrong: int) -> None:
    with pytest.raises(DomainError, match="number of founders"):
        founding_heterozygosity(wrong)


def test_allele_founded__agrees_with_seeded_samples() -> None:
    draws = np.random.default_rng(20).binomial(2 * 4, 0.1, size=40_000)

    share = float((draws > 0).mean())
    assert chance_allele_is_founded(frequency=0.1, founders=4) == pytest.approx(share, abs=0.01)


def test_allele_founded__at_the_ends() -> None:
    assert chance_allele_is_founded(frequency=0.0, founders=9) == 0.0
    assert chance_allele_is_founded(frequency=1.0, founders=1) == 1.0
    assert chance_allele_is_founded(frequency=1.0, founders=0) == 0.0
    assert chance_allele_is_founded(frequency=0.5, founders=1) == pytest.approx(0.75)


@pytest.mark.parametrize(("frequency", "founders"), [(-0.1, 2), (1.1, 2), (math.nan, 2), (0.5, -1)])
def test_allele_founded__impossible_numbers_are_refused(frequency: float, founders: int) -> None:
    with pytest.raises(DomainError):
        chance_allele_is_founded(frequency=frequency, founders=founders)


def test_kept__without_a_generation_is_all() -> None:
    assert heterozygosity_kept([]) == 1.0


def test_kept__one_selfed_animal_halves() -> None:
    assert heterozygosity_kept([1, 1, 1]) == 0.125


@given(st.lists(SIZES, max_size=6), st.lists(SIZES, max_size=6))
def test_kept__multiplies_over_stretches_of_time(first: list[float], second: list[float]) -> None:
    assert heterozygosity_kept(first + second) == pytest.approx(
        heterozygosity_kept(first) * heterozygosity_kept(second)
    )


@pytest.mark.parametrize("wrong", [0.0, 0.4, math.nan, math.inf])
def test_kept__an_impossible_size_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="effective size"):
        heterozygosity_kept([10.0, wrong])
    with pytest.raises(DomainError, match="effective size"):
        heterozygosity_forecast(effective_size=wrong, generations=3)


@given(size=SIZES, generations=st.integers(0, 50), start=st.floats(0, 1))
def test_forecast__ends_with_what_is_kept(size: float, generations: int, start: float) -> None:
    path = heterozygosity_forecast(effective_size=size, generations=generations, start=start)

    assert len(path) == generations + 1
    assert path[0] == start
    assert path[-1] == pytest.approx(start * heterozygosity_kept([size] * generations))


def test_forecast__agrees_with_seeded_random_mating() -> None:
    size, generations, loci = 8, 10, 40_000
    random = np.random.default_rng(7)
    frequency = np.full(loci, 0.5)
    for _ in range(generations):
        frequency = random.binomial(2 * size, frequency) / (2 * size)
    left = float((2 * frequency * (1 - frequency)).mean()) / 0.5

    path = heterozygosity_forecast(effective_size=size, generations=generations)
    assert path[-1] == pytest.approx(left, abs=0.01)


def test_inbreeding_forecast__is_what_heterozygosity_lacks() -> None:
    inbred = inbreeding_forecast(effective_size=5, generations=3, start=0.2)
    left = heterozygosity_forecast(effective_size=5, generations=3, start=0.8)

    assert inbred == pytest.approx([1 - share for share in left])
    assert inbred[0] == pytest.approx(0.2)


@pytest.mark.parametrize("wrong", [-0.1, 1.1, math.nan])
def test_forecasts__an_impossible_start_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="heterozygosity now"):
        heterozygosity_forecast(effective_size=5, generations=1, start=wrong)
    with pytest.raises(DomainError, match="inbreeding now"):
        inbreeding_forecast(effective_size=5, generations=1, start=wrong)


def test_forecasts__a_negative_time_is_refused() -> None:
    with pytest.raises(DomainError, match="number of generations"):
        heterozygosity_forecast(effective_size=5, generations=-1)
    with pytest.raises(DomainError, match="number of generations"):
        inbreeding_forecast(effective_size=5, generations=-1)


@given(kept=st.floats(0.01, 1.0), size=st.floats(0.6, 1e4))
def test_generations_until__is_when_the_forecast_gets_there(kept: float, size: float) -> None:
    generations = generations_until(kept=kept, effective_size=size)

    assert (1 - 1 / (2 * size)) ** generations == pytest.approx(kept)


@pytest.mark.parametrize(
    ("kept", "size"), [(0.0, 5.0), (1.1, 5.0), (math.nan, 5.0), (0.5, 0.5), (0.5, math.nan)]
)
def test_generations_until__impossible_numbers_are_refused(kept: float, size: float) -> None:
    with pytest.raises(DomainError):
        generations_until(kept=kept, effective_size=size)


@pytest.mark.parametrize("wrong", [-0.1, 1.1, math.nan])
def test_gene_diversity__an_impossible_kinship_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="mean kinship"):
        gene_diversity(wrong)

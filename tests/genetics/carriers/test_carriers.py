"""Laws of hidden carriers against the enumeration of every world, and by hand."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.genetics import certain, pool_law
from filialog.genetics.carriers import (
    Assumption,
    CarrierPool,
    ContradictoryEvidenceError,
    Declared,
    Evidence,
    Parents,
    SeenLook,
    TallyEvidence,
    posterior,
)
from genetics.carriers.journals import SHADES, RandomJournal, brood, founders, shares
from genetics.carriers_oracle import enumerate_worlds


@settings(max_examples=30, deadline=None)
@given(seed=st.integers(min_value=0, max_value=100_000))
def test_posterior__equals_the_enumeration_of_every_world(seed: int) -> None:
    journal = RandomJournal(seed, most=5)
    expected = enumerate_worlds(SHADES, journal.pools, journal.evidence)

    found = posterior(SHADES, journal.pools, journal.evidence)

    assert found.exact
    assert math.exp(found.log_evidence) == pytest.approx(expected.evidence, rel=1e-11)
    for name, law in expected.laws.items():
        computed = found.law_of(name)
        for genotype, probability in law.items():
            assert computed.probability(genotype) == pytest.approx(probability, abs=1e-12), name


CLEAR, CARRIER, PALE = (("A", "A"),), (("A", "a"),), (("a", "a"),)
EVEN = pool_law(SHADES)


def test_several_sires__are_integrated_exactly_against_the_urn_of_assignments() -> None:
    pools = [
        founders("doe", 1, certain(PALE)),
        founders("one", 1, EVEN),
        founders("other", 1, EVEN),
        brood("young", shares("doe"), shares("one", "other"), 4, Parents.SEVERAL),
    ]
    tally = TallyEvidence(label="t", pool="young", looks=(("pale", 3), ("mid", 1), ("dark", 0)))
    expected = enumerate_worlds(SHADES, pools, [tally])

    found = posterior(SHADES, pools, [tally])

    assert found.exact
    assert math.exp(found.log_evidence) == pytest.approx(expected.evidence, rel=1e-12)
    for name, law in expected.laws.items():
        for genotype, probability in law.items():
            assert found.law_of(name).probability(genotype) == pytest.approx(probability, abs=1e-12)


def test_pair_law__counts_that_dam_and_sire_are_two_brood_mates() -> None:
    pools = [
        founders("doe", 1, certain(CARRIER)),
        founders("buck", 1, EVEN),
        brood("young", shares("doe"), shares("buck"), 3),
        brood("next", shares("young"), shares("buck"), 1),
    ]
    seen = SeenLook(label="next", pool="next", look="pale")
    expected = enumerate_worlds(SHADES, pools, [seen], pairs=[("young", "young")])

    law = dict(posterior(SHADES, pools, [seen]).pair_law("young", "young"))

    wanted = {pair: p for pair, p in expected.pairs["young", "young"].items() if p}
    assert law.keys() == wanted.keys()
    for pair, probability in wanted.items():
        assert law[pair] == pytest.approx(probability, abs=1e-12)


def test_unknown_mating__is_a_range_that_holds_both_answers() -> None:
    def pools(mating: Parents) -> list[CarrierPool]:
        return [
            founders("doe", 1, certain(PALE)),
            founders("one", 1, EVEN),
            founders("other", 1, certain(CLEAR)),
            brood("young", shares("doe"), shares("one", "other"), 8, mating),
        ]

    tally = TallyEvidence(label="t", pool="young", looks=(("pale", 1), ("coloured", 7)))
    one, several = (
        posterior(SHADES, pools(mating), [tally]).law_of("one").probability(CARRIER)
        for mating in (Parents.ONE, Parents.SEVERAL)
    )

    unknown = posterior(SHADES, pools(Parents.UNKNOWN), [tally])

    assert one != pytest.approx(several, abs=0.01)
    assert unknown.range_of("one", [CARRIER]) == pytest.approx(sorted((one, several)), abs=1e-12)
    assert Assumption.EITHER_MATING in unknown.assumptions


def test_contradiction__names_a_minimal_set() -> None:
    pools = [founders("doe", 1, EVEN), founders("buck", 1, EVEN)]
    pools.append(brood("young", shares("doe"), shares("buck"), 6))
    evidence: list[Evidence] = [
        Declared(label="doe is A/A", pool="doe", genotypes=(CLEAR,)),
        SeenLook(label="buck is pale", pool="buck", look="pale"),
        TallyEvidence(label="tally", pool="young", looks=(("pale", 1), ("mid", 4))),
    ]

    with pytest.raises(ContradictoryEvidenceError) as caught:
        posterior(SHADES, pools, evidence)

    assert caught.value.labels == ("doe is A/A", "tally")


def test_two_draws_from_a_pool__coincide_by_its_number() -> None:
    def carrier_of_second(size: int | None) -> float:
        pools = [
            founders("does", size, EVEN),
            founders("buck", 1, certain(PALE)),
            brood("first", shares("does"), shares("buck"), 1),
            brood("second", shares("does"), shares("buck"), 1),
        ]
        seen = SeenLook(label="first", pool="first", look="pale")
        return posterior(SHADES, pools, [seen]).law_of("second").probability(PALE)

    # Alone 1/2; of the same doe, who is A/a or a/a as 1 to 1, it is 3/4.
    assert carrier_of_second(None) == pytest.approx(1 / 2, abs=1e-12)
    assert carrier_of_second(1) == pytest.approx(3 / 4, abs=1e-12)
    assert carrier_of_second(4) == pytest.approx(1 / 2 + 1 / 16, abs=1e-12)


@pytest.mark.parametrize(
    ("pools", "evidence"),
    [
        pytest.param([founders("a", 0, EVEN)], [], id="no animals"),
        pytest.param([founders("a", 1, EVEN)] * 2, [], id="a name twice"),
        pytest.param([brood("a", shares("b"), shares("b"))], [], id="unlisted source"),
        pytest.param([brood("a", shares("a"), shares("a"))], [], id="its own source"),
        pytest.param(
            [founders("a", 2, EVEN)],
            [TallyEvidence(label="t", pool="a", looks=(("pale", 3),))],
            id="more counted than there are",
        ),
        pytest.param(
            [founders("a", 2, EVEN)],
            [TallyEvidence(label="t", pool="a", looks=(("green", 1),))],
            id="unknown look",
        ),
        pytest.param(
            [founders("a", 2, EVEN)],
            [TallyEvidence(label="t", pool="a", looks=(("pale", -1),))],
            id="negative count",
        ),
        pytest.param(
            [founders("a", 2, EVEN)],
            [SeenLook(label="t", pool="b", look="pale")],
            id="evidence of an unlisted pool",
        ),
    ],
)
def test_posterior__refuses_what_does_not_fit(
    pools: list[CarrierPool], evidence: list[Evidence]
) -> None:
    with pytest.raises(DomainError):
        posterior(SHADES, pools, evidence)


def test_empty_tally__tells_nothing() -> None:
    tally = TallyEvidence(label="t", pool="a", looks=(("pale", 0),))

    law = posterior(SHADES, [founders("a", 5, EVEN)], [tally]).law_of("a")

    assert law.probability(CARRIER) == pytest.approx(0.5, abs=1e-15)

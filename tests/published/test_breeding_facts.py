"""Facts of breeding arithmetic, each with where its number comes from."""

from fractions import Fraction

import pytest

from filialog.genetics import (
    Condition,
    ConditionKind,
    GenotypeLaw,
    Locus,
    LookRule,
    TraitModel,
    brood_components,
    certain,
    condition_on_look,
    cross,
    look_shares,
    mixture,
    parse_genotype,
)
from filialog.statistics import (
    chi_square_test,
    exact_test,
    log_likelihood,
    shares_of_ratio,
    single,
    wilson_interval,
    young_to_see,
)

EYE = Locus(name="eye", alleles=("A", "a"))
BODY = Locus(name="body", alleles=("B", "b"))


def hom(locus: str, allele: str) -> Condition:
    return Condition(locus=locus, kind=ConditionKind.HOM, alleles=(allele,))


ONE = TraitModel(
    name="one locus",
    loci=(EYE,),
    looks=(LookRule(look="fancy", conditions=(hom("eye", "a"),)), LookRule(look="plain")),
)
TWO = TraitModel(
    name="two loci",
    loci=(EYE, BODY),
    looks=(
        LookRule(look="double fancy", conditions=(hom("eye", "a"), hom("body", "b"))),
        LookRule(look="other"),
    ),
)


def law(text: str, model: TraitModel = ONE) -> GenotypeLaw:
    (genotype,) = parse_genotype(text, model)
    return certain(genotype)


def fancy_share(dam: GenotypeLaw, sire: GenotypeLaw) -> Fraction:
    return dict(look_shares(cross(dam, sire, ONE).young, ONE))["fancy"]


def test_intercross__quarter_recessive_seen_among_eleven() -> None:
    # Ratio: Mendel (1866). Number of young: computed, 1 - (3/4)^n >= 0.95.
    share = fancy_share(law("A/a"), law("A/a"))

    assert share == Fraction(1, 4)
    assert young_to_see(share=float(share), confidence=0.95) == 11


def test_backcross__half_recessive_seen_among_five_or_seven() -> None:
    # Computed, 1 - (1/2)^n >= 0.95 and 0.99.
    share = fancy_share(law("a/a"), law("A/a"))

    assert share == Fraction(1, 2)
    assert young_to_see(share=float(share), confidence=0.95) == 5
    assert young_to_see(share=float(share), confidence=0.99) == 7


def test_two_loci__double_recessive_seen_among_forty_seven() -> None:
    # Computed, 1 - (15/16)^n >= 0.95.
    hybrid = law("A/a B/b", TWO)
    share = dict(look_shares(cross(hybrid, hybrid, TWO).young, TWO))["double fancy"]

    assert share == Fraction(1, 16)
    assert young_to_see(share=float(share), confidence=0.95) == 47


def test_test_mating__strict_numbers_for_a_known_carrier() -> None:
    # Computed: (3/4)^16 = 0.01002 and (3/4)^24 = 0.001003 fall just short, so that
    # tables that print 16 and 24 are not strict. The 11 is a textbook number (from
    # memory: Van Vleck, Pollak & Oltenacu, Genetics for the Animal Sciences).
    numbers = [young_to_see(share=0.25, confidence=c) for c in (0.95, 0.99, 0.999)]

    assert numbers == [11, 17, 25]


def test_plain_f2__is_a_carrier_with_one_seventeenth_after_five_plain_young() -> None:
    # Computed by Bayes' theorem: prior 2/3, (1/2)^5 for a carrier; printed 0.0588.
    f2 = condition_on_look(cross(law("A/a"), law("A/a"), ONE).young, ONE, ["plain"])
    recessive = law("a/a")
    weight = {}
    for genotype, prior in f2.probabilities:
        plain = dict(look_shares(cross(recessive, certain(genotype), ONE).young, ONE))["plain"]
        weight[genotype] = prior * plain**5
    posterior = weight[(("A", "a"),)] / sum(weight.values())

    assert posterior == Fraction(1, 17)
    assert float(posterior) == pytest.approx(0.0588, abs=0.0005)


def test_wilson__seven_of_thirty() -> None:
    # Wilson E.B. (1927) JASA 22:209-212 (method); limits computed, printed to four places.
    interval = wilson_interval(seen=7, counted=30)

    assert interval.low == pytest.approx(0.1179, abs=0.00005)
    assert interval.high == pytest.approx(0.4093, abs=0.00005)


def test_carrier_dam__mates_half_recessive_half_carrier() -> None:
    # Computed: the mean of one half (sire a/a) and one quarter (sire A/a).
    half = Fraction(1, 2)
    sire = mixture([(half, law("a/a")), (half, law("A/a"))])

    assert fancy_share(law("A/a"), sire) == Fraction(3, 8)


def test_goldfish__counts_fit_three_to_one() -> None:
    # Counts 4325 non-blue : 1383 blue from a secondary page (after Chen 1934, J. Genet. 29;
    # citation from memory); chi-square and p computed.
    fit = chi_square_test([4325, 1383], shares_of_ratio([3, 1]))

    assert fit.statistic == pytest.approx(1.809, abs=0.0005)
    assert fit.p_value == pytest.approx(0.18, abs=0.005)


def test_one_unknown_sire__brood_is_a_mixture_and_not_an_average() -> None:
    # Computed: a recessive dam, one of three sires (A/A, A/a, A/a, 1/3 each), 8 young,
    # none fancy: 1/3 + 2/3 (1/2)^8 = 0.336; the average share 1/3 would give 0.039.
    sire = mixture([(Fraction(1, 3), law("A/A")), (Fraction(2, 3), law("A/a"))])
    components = brood_components(law("a/a"), sire, ONE)
    average = fancy_share(law("a/a"), sire)

    of_mixture = exact_test([0, 8], components)
    of_average = exact_test([0, 8], single((average, 1 - average)))
    assert of_mixture.observed_probability == pytest.approx(0.336, abs=0.0005)
    assert of_mixture.observed_probability == pytest.approx(1 / 3 + 2 / 3 / 2**8, rel=1e-12)
    assert of_average.observed_probability == pytest.approx(0.039, abs=0.0005)
    assert log_likelihood([0, 8], components) > log_likelihood(
        [0, 8], single((average, 1 - average))
    )

"""Draws from a pool that may be one animal: all of them, fewer where trees get too large."""

import math
from dataclasses import replace
from importlib import import_module

import pytest

from filialog.genetics import Genotype, certain, pool_law
from filialog.genetics.carriers import (
    Assumption,
    CarrierPool,
    Evidence,
    JoinedOf,
    Posterior,
    TallyEvidence,
    posterior,
)
from filialog.genetics.inference import Limits, TooLargeError
from genetics.carriers.journals import SHADES, brood, founders, shares
from genetics.carriers_oracle import enumerate_worlds

EVEN = pool_law(SHADES)
MODULE = import_module("filialog.genetics.carriers.posterior")
NOTHING_FITS = Limits(cells=1, only_trees=True)


def mated(size: int, looks: str, **sexes: int) -> tuple[list[CarrierPool], list[Evidence]]:
    """Return does of which one has a young of each look."""
    pools = [founders("does", size, EVEN, **sexes), founders("buck", 1, certain((("A", "a"),)))]
    evidence: list[Evidence] = []
    for place, look in enumerate(looks.split()):
        pools.append(brood(f"b{place}", shares("does"), shares("buck"), 1))
        if look != "-":
            tally = TallyEvidence(label=f"t{place}", pool=f"b{place}", looks=((look, 1),))
            evidence.append(tally)
    return pools, evidence


def largest_difference(
    found: Posterior, expected: dict[str, dict[Genotype, float]], *names: str
) -> float:
    return max(
        abs(found.law_of(name).probability(genotype) - probability)
        for name in names or expected
        for genotype, probability in expected[name].items()
    )


def oracle(pools: list[CarrierPool], evidence: list[Evidence]) -> dict[str, dict[Genotype, float]]:
    laws = enumerate_worlds(SHADES, pools, evidence).laws
    return {name: dict(law) for name, law in laws.items()}


def test_draws__that_fit_are_joined_exactly() -> None:
    pools, evidence = mated(2, "pale pale dark mid")

    found = posterior(SHADES, pools, evidence)

    assert found.exact
    assert found.error == 0
    assert largest_difference(found, oracle(pools, evidence)) < 1e-12


@pytest.mark.parametrize("size", [2, 3])
def test_draws__taken_apart_differ_by_less_than_the_error(
    size: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(MODULE, "_LADDER", NOTHING_FITS)
    pools, evidence = mated(size, "pale pale dark")

    found = posterior(SHADES, pools, evidence)

    difference = largest_difference(found, oracle(pools, evidence))
    assert not found.exact
    assert Assumption.SOME_DRAWS in found.assumptions
    assert 1e-3 < difference < found.error < 1
    assert found.error == pytest.approx(1 - (1 - 1 / size) ** 2)


def test_draws__apart_are_each_a_member_of_the_pool(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(MODULE, "_LADDER", NOTHING_FITS)
    pools, evidence = mated(2, "pale pale")

    law = posterior(SHADES, pools, evidence).law_of("does")

    # A/a to a/a is 2/4 * 1/4 to 1/4 * 2/4, and no doe is left of whom nothing is known.
    assert law.probability((("A", "A"),)) == pytest.approx(0, abs=1e-12)
    assert law.probability((("A", "a"),)) == pytest.approx(1 / 2)


def test_draws__apart_are_of_the_kinds_that_were_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(MODULE, "_LADDER", NOTHING_FITS)
    pools = [founders("does", 4, EVEN), founders("buck", 1, certain((("A", "A"),)))]
    counted = TallyEvidence(label="does", pool="does", looks=(("pale", 3), ("dark", 1)))
    pools += [brood(name, shares("does"), shares("buck"), 4) for name in ("b0", "b1")]
    empty = [TallyEvidence(label=n, pool=n, looks=(("pale", 0),)) for n in ("b0", "b1")]

    found = posterior(SHADES, pools, [counted, *empty])

    # Of a pale doe all young are A/a; a dark one is A/A or A/a as 1/4 to 2/4 * 1/4.
    share = 3 / 4 + 1 / 4 * 1 / 3 * 1 / 2
    assert not found.exact
    for name in ("b0", "b1"):
        assert found.law_of(name).probability((("A", "a"),)) == pytest.approx(share)


def test_draws__beyond_the_fifth_are_named_and_have_an_error() -> None:
    pools, evidence = mated(30, "pale pale dark mid dark pale")

    found = posterior(SHADES, pools, evidence)

    assert not found.exact
    assert found.error == pytest.approx(1 - (29 / 30) ** 5)


def test_draws__only_in_the_tree_that_is_too_large_are_taken_apart(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    large = [founders("many does", 4, EVEN), founders("many bucks", 4, EVEN)]
    large += [brood(f"l{place}", shares("many does"), shares("many bucks")) for place in range(5)]
    small, evidence = mated(2, "pale pale dark mid dark")
    of_large = [TallyEvidence(label=p.name, pool=p.name, looks=(("pale", 3),)) for p in large[2:]]
    monkeypatch.setattr(MODULE, "_LADDER", Limits(cells=100_000, only_trees=True))

    found = posterior(SHADES, [*large, *small], [*of_large, *evidence])

    assert not found.exact
    assert largest_difference(found, oracle(small, evidence)) < 1e-12


def test_draws__that_nothing_tells_of_cost_nothing_and_stay_exact() -> None:
    pools, evidence = mated(2, "- pale - - -")
    more = mated(2, "- pale" + " -" * 40)[0]

    found, of_many = posterior(SHADES, pools, evidence), posterior(SHADES, more, evidence)

    assert found.exact
    assert of_many.exact
    expected = oracle(pools[:4], evidence)
    assert largest_difference(found, expected) < 1e-12
    for place in range(2, 42):
        assert largest_difference(of_many, {f"b{place}": expected["b0"]}) < 1e-12
    assert largest_difference(of_many, expected, "b0", "b1", "does") < 1e-12


def test_draws__of_which_relatives_meet_again_stay_joined() -> None:
    pools, _ = mated(2, "- -")
    pools.append(brood("inbred", shares("b0"), shares("b1"), 1))

    found = posterior(SHADES, pools, [])

    assert found.exact
    assert largest_difference(found, oracle(pools, [])) < 1e-12


def test_draws__from_a_mixture_of_unknown_size_may_be_many() -> None:
    parts = [founders("clear", None, certain((("A", "A"),))), founders("pale", None, EVEN)]
    pools = [*parts, CarrierPool(name="all", origin=JoinedOf(parts=shares("clear", "pale")))]
    pools.append(founders("buck", 1, certain((("a", "a"),))))
    pools += [brood(f"b{place}", shares("all"), shares("buck"), 1) for place in range(14)]
    seen = [
        TallyEvidence(label=str(place), pool=f"b{place}", looks=(("pale", 1),))
        for place in range(14)
    ]

    found = posterior(SHADES, pools, list(seen))

    # A dam is one of the even ones with 1/2, and then passes a on with 1/2.
    assert found.exact
    assert found.log_evidence == pytest.approx(14 * math.log(1 / 4))


def test_draws__that_no_tree_holds_are_refused_where_only_trees_may_be_used(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    pools, evidence = mated(2, "pale pale dark mid dark")
    small = Limits(cells_in_clique=2, cells=2, only_trees=True)
    monkeypatch.setattr(MODULE, "_LADDER", small)
    monkeypatch.setattr(
        MODULE, "Limits", lambda *, only_trees: replace(small, only_trees=only_trees)
    )

    with pytest.raises(TooLargeError):
        posterior(SHADES, pools, evidence, only_trees=True)

"""What a pedigree accepts, in which order it keeps pools, and what it refuses."""

from fractions import Fraction

import pytest
from hypothesis import given

from filialog.domain_error import DomainError
from filialog.lineage import (
    Blend,
    Brood,
    Founder,
    Part,
    Pedigree,
    Pool,
    Share,
    equal_shares,
    parentage_cycle,
)
from tools.pedigrees import brood, pedigree, pedigrees


def _half(*names: str, weight: float | Fraction = Fraction(1, 2)) -> tuple[Share, ...]:
    # A float stands for what a careless caller might pass.
    return tuple(Share(pool=name, weight=weight) for name in names)  # type: ignore[arg-type]


@given(pedigrees())
def test_pedigree__keeps_every_source_before_what_came_from_it(lines: Pedigree) -> None:
    backwards = Pedigree(pools=lines.pools[::-1])
    seen: set[str] = set()
    for pool in backwards.ordered:
        match pool.origin:
            case Brood(dams=dams, sires=sires):
                sources = {share.pool for share in (*dams, *sires)}
            case Blend(parts=parts):
                sources = {share.pool for share in parts}
            case Part(of=of):
                sources = {of}
            case Founder():
                sources = set()
        assert sources <= seen
        seen.add(pool.name)

    assert seen == {pool.name for pool in lines.pools}


def test_pedigree__orders_by_the_longest_chain_of_links_then_as_given() -> None:
    lines = pedigree(
        {
            "young": brood("right", "old"),
            "left": Part(of="other"),
            "old": "blue",
            "right": Part(of="old"),
            "other": "blue",
            "late": brood("other", "young"),
        }
    )

    assert [pool.name for pool in lines.ordered] == [
        *("old", "other"),
        *("left", "right"),
        "young",
        "late",
    ]


def test_pedigree__of_nothing_is_accepted() -> None:
    assert Pedigree(pools=()).ordered == ()


def test_pedigree__computes_a_result_once() -> None:
    calls: list[Pedigree] = []
    lines = pedigree({"old": "blue"})

    def count(given: Pedigree) -> int:
        calls.append(given)
        return len(given.pools)

    assert [lines.once(count), lines.once(count)] == [1, 1]
    assert calls == [lines]


def test_pedigree__results_do_not_count_in_comparison() -> None:
    one, two = pedigree({"old": "blue"}), pedigree({"old": "blue"})
    one.once(lambda lines: len(lines.pools))

    assert one == two
    assert hash(one) == hash(two)


def test_pedigree__refuses_a_name_used_twice() -> None:
    pool = Pool(name="old", origin=Founder(strain="blue"))
    with pytest.raises(DomainError, match="name of a pool is 'old'; expected a name used once"):
        Pedigree(pools=(pool, pool))


@pytest.mark.parametrize(
    "origin",
    [brood("gone", None), brood(None, "gone"), Part(of="gone"), Blend(parts=_half("old", "gone"))],
    ids=["dam", "sire", "part", "blend"],
)
def test_pedigree__refuses_a_source_that_is_not_there(origin: Brood | Part | Blend) -> None:
    with pytest.raises(DomainError, match="source of young is 'gone'"):
        pedigree({"old": "blue", "young": origin})


@pytest.mark.parametrize(
    ("shares", "message"),
    [
        pytest.param(_half("a"), "sum of weights in the dam set of y is '1/2'", id="half"),
        pytest.param(_half("a", "b", "c"), "sum of weights .* is '3/2'", id="too much"),
        pytest.param(_half("a", "a"), "each pool once", id="twice"),
        pytest.param(_half("a", weight=Fraction(0)), "expected above 0", id="zero"),
        pytest.param(_half("a", weight=Fraction(-1)), "expected above 0", id="negative"),
        pytest.param(_half("a", weight=float("nan")), "expected above 0", id="not a number"),
    ],
)
def test_pedigree__refuses_weights_that_are_no_probabilities(
    shares: tuple[Share, ...], message: str
) -> None:
    with pytest.raises(DomainError, match=message):
        pedigree({"a": "A", "b": "A", "c": "A", "y": Brood(dams=shares)})


def test_pedigree__refuses_wrong_weights_of_sires_and_of_a_blend() -> None:
    with pytest.raises(DomainError, match="sire set of y"):
        pedigree({"a": "A", "y": Brood(sires=_half("a"))})
    with pytest.raises(DomainError, match="parts of y"):
        pedigree({"a": "A", "y": Blend(parts=_half("a"))})


def test_pedigree__refuses_an_empty_blend() -> None:
    with pytest.raises(DomainError, match=r"parts of y is .*at least one pool"):
        pedigree({"y": Blend(parts=())})


def test_pedigree__refuses_a_group_of_no_animals() -> None:
    with pytest.raises(DomainError, match="number of animals in old is 0"):
        pedigree({"old": "blue"}, {"old": 0})


@pytest.mark.parametrize("numbers", [{"females": 0}, {"males": 0}, {"females": -1}])
def test_pedigree__refuses_a_group_without_animals_of_a_sex(numbers: dict[str, int]) -> None:
    sex = next(iter(numbers))
    with pytest.raises(DomainError, match=f"{sex} in blue"):
        Pedigree(pools=(Pool(name="blue", origin=Founder(strain="blue"), **numbers),))


def test_pedigree__refuses_more_females_and_males_than_animals() -> None:
    blue = Founder(strain="blue")
    with pytest.raises(DomainError, match="at most 4"):
        Pedigree(pools=(Pool(name="blue", origin=blue, size=4, females=3, males=2),))

    Pedigree(pools=(Pool(name="blue", origin=blue, size=5, females=3, males=2),))
    Pedigree(pools=(Pool(name="blue", origin=blue, size=1, females=1, males=1),))


def test_pedigree__refuses_a_cycle_and_names_it() -> None:
    with pytest.raises(DomainError, match="ancestry is 'a -> c -> b -> a'; expected no circle"):
        pedigree({"b": Part(of="c"), "c": brood(None, "a"), "a": brood("b", None)})


def test_pedigree__knows_no_pool_of_another_name() -> None:
    with pytest.raises(DomainError, match="name of a pool is 'gone'"):
        pedigree({"old": "blue"}).pool("gone")


def test_parentage_cycle__does_not_depend_on_the_order_of_pools() -> None:
    pools = [
        Pool(name="d", origin=brood("b", "old")),
        Pool(name="c", origin=brood("d e", None)),
        Pool(name="b", origin=Blend(parts=equal_shares("old", "c"))),
        Pool(name="e", origin=brood("c", None)),
        Pool(name="old", origin=Founder(strain="A")),
    ]
    found = {
        parentage_cycle(pools[start:] + pools[:start][::step])
        for start in range(5)
        for step in (1, -1)
    }

    assert len(found) == 1
    assert found <= {("b", "d", "c"), ("c", "e")}


def test_parentage_cycle__finds_a_pool_that_is_its_own_source() -> None:
    assert parentage_cycle([Pool(name="a", origin=brood("a", None))]) == ("a",)


def test_parentage_cycle__is_empty_for_sound_pools_and_passes_over_missing_ones() -> None:
    assert parentage_cycle([Pool(name="a", origin=brood("gone", None))]) == ()


def test_equal_shares__of_nothing_is_the_unknown_set() -> None:
    assert equal_shares() == ()

"""What broods should show, computed a second time by going through all individuals.

The slow way: every animal that matters is an individual with one of the genotypes of one locus,
every union of an egg and a sperm is gone through, and what was seen of an animal rules
genotypes out. A drawn member of a pool is a new individual; a group of one is always the same.
"""

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.analysis import JournalResults
from filialog.analysis.carriers import LAW
from filialog.analysis.looks import PRIOR_LAW
from filialog.analysis.rows import Assumption
from filialog.analysis.tables import EXPECTATION
from tools.diaries import results_of

_Pair = tuple[str, str]
_World = dict[object, _Pair]
"""Genotype by individual; an individual is whatever names it."""


def _shown(pair: _Pair) -> str:
    return "dull" if "G" in pair else "glowing"


def _put(world: _World, name: object, one: str, other: str) -> _World:
    return {**world, name: (min(one, other), max(one, other))}


class _Worlds:
    """All worlds, each with its probability; drawing an animal multiplies them."""

    def __init__(self) -> None:
        self.now: list[tuple[Fraction, _World]] = [(Fraction(1), {})]
        self.known: set[object] = set()
        self._number = 0

    def fresh(self) -> object:
        self._number += 1
        return self._number

    def founder(self, name: object) -> None:
        self._branch(name, lambda _: product("Gg", "Gg"))

    def young(self, name: object, dam: object, sire: object) -> None:
        self._branch(name, lambda world: product(world[dam], world[sire]))

    def one_of(self, name: object, choices: list[tuple[Fraction, object]]) -> None:
        self.now = [
            (p * weight, {**world, name: world[choice]})
            for p, world in self.now
            for weight, choice in choices
        ]

    def seen(self, name: object, *pairs: _Pair) -> None:
        kept = [(p, world) for p, world in self.now if world[name] in pairs]
        whole = sum(p for p, _ in kept)
        self.now = [(p / whole, world) for p, world in kept]

    def each(self, draw: Callable[["_Worlds"], object], pairs: tuple[_Pair, ...]) -> object:
        """Draw a member that shows a look, world by world.

        The sort says of the parents only that they can have such young at all.
        """
        after: list[tuple[Fraction, _World]] = []
        who: object = None
        number = self._number
        for p, world in self.now:
            one = _Worlds()
            one.now, one.known, one._number = [(Fraction(1), world)], set(self.known), number
            who = draw(one)
            self._number = one._number
            if any(world[who] in pairs for _, world in one.now):
                one.seen(who, *pairs)
                after.extend((p * q, world) for q, world in one.now)
        whole = sum(p for p, _ in after)
        self.now = [(p / whole, world) for p, world in after]
        return who

    def _branch(self, name: object, unions: Callable[[_World], Iterator[tuple[str, str]]]) -> None:
        merged: dict[tuple[tuple[object, _Pair], ...], Fraction] = defaultdict(Fraction)
        for p, world in self.now:
            for one, other in unions(world):
                after = _put(world, name, one, other)
                merged[tuple(after.items())] += p / 4
        self.now = [(p, dict(items)) for items, p in merged.items()]


@dataclass(frozen=True)
class _Founders:
    look: str | None
    genotype: _Pair | None
    single: bool = False


@dataclass(frozen=True)
class _Brood:
    dams: tuple[str, ...]
    sires: tuple[str, ...]


@dataclass(frozen=True)
class _Sorted:
    source: str
    look: str


@dataclass(frozen=True)
class _Joined:
    parts: tuple[tuple[str, int], ...]


_Group = _Founders | _Brood | _Sorted | _Joined

_PAIRS: tuple[_Pair, ...] = (("G", "G"), ("G", "g"), ("g", "g"))


def _draw(worlds: _Worlds, groups: dict[str, _Group], name: str) -> object:
    """Draw a member of a group; give the individual."""
    match groups[name]:
        case _Founders(look=look, genotype=genotype, single=single):
            who = ("single", name) if single else worlds.fresh()
            if who in worlds.known:
                return who
            worlds.known.add(who)
            worlds.founder(who)
            if look is not None:
                worlds.seen(who, *(pair for pair in _PAIRS if _shown(pair) == look))
            if genotype is not None:
                worlds.seen(who, genotype)
        case _Brood():
            who = worlds.fresh()
            dam, sire = _parents(worlds, groups, name)
            worlds.young(who, dam, sire)
        case _Sorted(source=source, look=look):
            _prepare(worlds, groups, source)
            who = worlds.each(
                lambda one: _draw(one, groups, source),
                tuple(pair for pair in _PAIRS if _shown(pair) == look),
            )
        case _Joined(parts=parts):
            who = worlds.fresh()
            whole = sum(number for _, number in parts)
            worlds.one_of(
                who,
                [(Fraction(number, whole), _draw(worlds, groups, part)) for part, number in parts],
            )
    return who


def _prepare(worlds: _Worlds, groups: dict[str, _Group], name: str) -> None:
    """Draw what all members of a group share: the parents of its broods."""
    match groups[name]:
        case _Brood():
            _parents(worlds, groups, name)
        case _Sorted(source=source):
            _prepare(worlds, groups, source)
        case _Joined(parts=parts):
            for part, _ in parts:
                _prepare(worlds, groups, part)
        case _Founders():
            pass


def _parents(worlds: _Worlds, groups: dict[str, _Group], brood: str) -> tuple[object, object]:
    """Give the dam and the sire of a brood, the same for all its young."""
    made = groups[brood]
    assert isinstance(made, _Brood)
    found = []
    for side, names in (("dam", made.dams), ("sire", made.sires)):
        who = (side, brood)
        if who not in worlds.known:
            worlds.known.add(who)
            share = Fraction(1, len(names))
            worlds.one_of(who, [(share, _draw(worlds, groups, name)) for name in names])
        found.append(who)
    return found[0], found[1]


def _slow_law(groups: dict[str, _Group], name: str) -> dict[str, Fraction]:
    worlds = _Worlds()
    who = _draw(worlds, groups, name)
    law: dict[str, Fraction] = defaultdict(Fraction)
    for p, world in worlds.now:
        law["/".join(world[who])] += p
    return law


def _slow_components(groups: dict[str, _Group], brood: str) -> dict[Fraction, Fraction]:
    """Return by share of glowing young how probable it is that a whole brood has it."""
    worlds = _Worlds()
    dam, sire = _parents(worlds, groups, brood)
    found: dict[Fraction, Fraction] = defaultdict(Fraction)
    for p, world in worlds.now:
        glowing = sum(
            _shown((min(one, other), max(one, other))) == "glowing"
            for one, other in product(world[dam], world[sire])
        )
        found[Fraction(glowing, 4)] += p
    return found


_MANY = 10**6
"""Animals of a group, so that it never runs out."""


def _quick_law(results: JournalResults, name: str) -> dict[str, float]:
    law = results.evaluator.get(PRIOR_LAW, f"glow/{name}").law
    assert law is not None
    return {"/".join(pair): float(share) for (pair,), share in law.probabilities}


def _diary(groups: dict[str, _Group]) -> str:
    lines = []
    for number, (name, made) in enumerate(groups.items()):
        day = f"{2000 + number}-01-01 fen"
        match made:
            case _Founders(look=look, genotype=genotype, single=single):
                said = f", look: {look}" if look else ""
                said += f", genotype: {'/'.join(genotype)}" if genotype else ""
                count = 1 if single else _MANY
                lines.append(f"{day} | bought: {{group: {name}, count: {count}{said}}}")
            case _Brood(dams=dams, sires=sires):
                lines.append(
                    f"{day} | hatched: {{brood: {name}, count: {_MANY}, mating: one,"
                    f" dams: {{of: [{', '.join(dams)}]}}, sires: {{of: [{', '.join(sires)}]}}}}"
                )
            case _Sorted(source=source, look=look):
                lines.append(
                    f"{day} | sorted: {{from: {source}, into: {{{name}: {{look: {look}}}}}}}"
                )
            case _Joined(parts=parts):
                taken = ", ".join(f"{part}: {count}" for part, count in parts)
                lines.append(f"{day} | joined: {{parts: {{{taken}}}, into: {name}}}")
    return "\n".join(lines)


def _agree(groups: dict[str, _Group], results: JournalResults, brood: str) -> None:
    expectation = results.evaluator.get(EXPECTATION, brood)
    slow = _slow_components(groups, brood)
    assert expectation is not None
    assert expectation.looks == ("dull", "glowing")
    quick = {shares[1]: weight for weight, shares in expectation.components}
    assert quick.keys() == slow.keys()
    for share, weight in slow.items():
        assert float(quick[share]) == pytest.approx(float(weight), abs=1e-12)
    average = sum(share * weight for share, weight in slow.items())
    assert float(expectation.average[1]) == pytest.approx(float(average), abs=1e-12)


_DULL = _Founders("dull", None)
_CARRIER = _Founders("dull", ("G", "g"))
_PURE = _Founders("dull", ("G", "G"))
_SHINE = _Founders("glowing", None)
_ANY = _Founders(None, None)


@pytest.mark.parametrize(
    "groups",
    [
        pytest.param(
            {"a": _PURE, "b": _SHINE, "f1": _Brood(("a",), ("b",)), "f2": _Brood(("f1",), ("f1",)),
             "keep": _Sorted("f2", "dull"), "test": _Brood(("keep",), ("b",))},
            id="test cross of sorted second generation",
        ),
        pytest.param(
            {"a": _DULL, "b": _SHINE, "c": _ANY, "y": _Brood(("a", "b"), ("b", "c"))},
            id="sets of parents",
        ),
        pytest.param(
            {"a": _CARRIER, "b": _SHINE, "y": _Brood(("a",), ("a",)), "z": _Brood(("b",), ("b",)),
             "mix": _Joined((("y", 30), ("z", 10))), "keep": _Sorted("mix", "dull"),
             "t": _Brood(("keep",), ("b",))},
            id="split, sort, join, sort",
        ),
        pytest.param(
            {"a": _DULL, "b": _ANY, "c": _DULL, "d": _ANY, "x": _Brood(("a",), ("b",)),
             "y": _Brood(("c",), ("d",)), "z": _Brood(("x",), ("y",)),
             "zs": _Sorted("z", "glowing"), "e": _SHINE, "w": _Brood(("zs",), ("e",))},
            id="grandparents without relation",
        ),
    ],
)  # fmt: skip
def test_expectation__equals_going_through_all_individuals(groups: dict[str, _Group]) -> None:
    results = results_of(_diary(groups))

    for name, made in groups.items():
        slow = _slow_law(groups, name)
        quick = _quick_law(results, name)
        assert quick == pytest.approx({text: float(p) for text, p in slow.items() if p}, abs=1e-12)
        if isinstance(made, _Brood):
            _agree(groups, results, name)


def test_expectation__of_brood_mates_with_uncertain_parents_says_it_is_no_exact_one() -> None:
    """Both mates carry the plain allele together or not at all; independent draws miss that."""
    groups: dict[str, _Group] = {
        "a": _DULL,
        "b": _PURE,
        "y": _Brood(("a",), ("b",)),
        "z": _Brood(("y",), ("y",)),
    }
    results = results_of(_diary(groups))

    slow = _slow_components(groups, "z")
    expectation = results.evaluator.get(EXPECTATION, "z")
    assert expectation is not None
    quick = {shares[1]: weight for weight, shares in expectation.components}
    # A dull founder is a carrier in two of three; then half of its young are.
    assert slow == {Fraction(0): Fraction(5, 6), Fraction(1, 4): Fraction(1, 6)}
    assert quick == {Fraction(0): Fraction(8, 9), Fraction(1, 4): Fraction(1, 9)}
    assert Assumption.ONE_BY_ONE in expectation.assumptions
    assert Assumption.ONE_BY_ONE in results.evaluator.get(PRIOR_LAW, "glow/z").assumptions
    # What the page of the group says takes all mates together: 1/4 of 1/6 glow.
    law = results.evaluator.get(LAW, "glow/z").law
    assert law is not None
    assert float(law.probability((("g", "g"),))) == pytest.approx(1 / 24)
    assert Assumption.ONE_BY_ONE not in results.group("z").assumptions


def test_law__of_a_sort_from_uncertain_parents_takes_the_whole_brood_into_account() -> None:
    """A pair of two carriers has fewer dull young; one by one that would be missed."""
    groups: dict[str, _Group] = {
        "a": _DULL,
        "b": _DULL,
        "y": _Brood(("a",), ("b",)),
        "ys": _Sorted("y", "dull"),
    }
    results = results_of(_diary(groups))

    slow = _slow_law(groups, "ys")
    quick = {row.genotype: row.probability for row in results.group("ys").genotypes}
    one_by_one = results.evaluator.get(PRIOR_LAW, "glow/ys")
    # Two carriers (4 in 9) have dull young of 1:2; one carrier (4 in 9) of 1:1; else all G/G.
    assert slow["G/g"] == Fraction(4, 9) * Fraction(2, 3) + Fraction(4, 9) * Fraction(1, 2)
    assert quick["G/g"] == pytest.approx(float(slow["G/g"]))
    assert Assumption.ONE_BY_ONE not in results.group("ys").assumptions
    # By weight of dull young, (4/9 * 2/4 + 4/9 * 1/2) of 8/9.
    assert _quick_law(results, "ys")["G/g"] == pytest.approx(1 / 2)
    assert Assumption.ONE_BY_ONE in one_by_one.assumptions


def test_expectation__of_a_single_animal_and_its_young_says_it_is_no_exact_one() -> None:
    groups: dict[str, _Group] = {
        "a": _Founders("dull", None, single=True),
        "b": _SHINE,
        "y": _Brood(("a",), ("b",)),
        "w": _Brood(("y",), ("a",)),
    }
    results = results_of(_diary(groups))

    expectation = results.evaluator.get(EXPECTATION, "w")
    assert expectation is not None
    quick = {shares[1]: weight for weight, shares in expectation.components}
    assert quick != _slow_components(groups, "w")
    assert Assumption.ONE_BY_ONE in expectation.assumptions
    _agree(groups, results, "y")


@st.composite
def _shelves(draw: st.DrawFn) -> dict[str, _Group]:
    groups: dict[str, _Group] = {}
    for name in "abc"[: draw(st.integers(1, 3))]:
        look, genotype = draw(
            st.sampled_from(
                [("dull", None), ("glowing", None), (None, None), *((None, one) for one in _PAIRS)]
            )
        )
        groups[name] = _Founders(look, genotype, single=draw(st.booleans()))
    broods = 0
    for number in range(draw(st.integers(1, 4))):
        known = sorted(groups)
        kind = draw(st.sampled_from(["brood", "brood", "sorted", "joined"]))
        name = f"g{number}"
        large = [one for one in known if not getattr(groups[one], "single", False)]
        if kind == "brood" and broods < 2:
            broods += 1
            sides = [
                tuple(draw(st.lists(st.sampled_from(known), min_size=1, max_size=2, unique=True)))
                for _ in range(2)
            ]
            groups[name] = _Brood(sides[0], sides[1])
        elif kind == "sorted" and large:
            look = draw(st.sampled_from(["dull", "glowing"]))
            source = draw(st.sampled_from(large))
            slow = _slow_law(groups, source)
            if any(p and _shown((text[0], text[2])) == look for text, p in slow.items()):
                groups[name] = _Sorted(source, look)
        elif kind == "joined" and len(large) > 1:
            parts = draw(st.permutations(large))[:2]
            number_joined = 10 ** (5 - number)  # less each time, so that no group runs out
            groups[name] = _Joined(((parts[0], 2 * number_joined), (parts[1], number_joined)))
    return groups


@given(_shelves())
@settings(max_examples=60, deadline=None)
def test_expectation__that_does_not_say_otherwise_is_exact(groups: dict[str, _Group]) -> None:
    results = results_of(_diary(groups))

    for name, made in groups.items():
        by_descent = results.evaluator.get(PRIOR_LAW, f"glow/{name}")
        if Assumption.ONE_BY_ONE not in by_descent.assumptions:
            slow = {text: float(p) for text, p in _slow_law(groups, name).items() if p}
            quick = _quick_law(results, name)
            assert quick == pytest.approx(slow, abs=1e-12)
        if isinstance(made, _Brood):
            expectation = results.evaluator.get(EXPECTATION, name)
            assert expectation is not None
            if Assumption.ONE_BY_ONE not in expectation.assumptions:
                _agree(groups, results, name)

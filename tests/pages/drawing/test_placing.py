"""Spreading, crossings, and the width of words."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.pages.drawing.letters import shortened, text_width, wrapped
from filialog.pages.drawing.pedigree_order import Item, crossings
from filialog.pages.drawing.spread import spread


def test_spread__pushes_two_apart_evenly() -> None:
    assert spread([10.0, 10.0], [4.0]) == [8.0, 12.0]


def test_spread__heavier_moves_less() -> None:
    assert spread([0.0, 0.0], [4.0], weights=[3.0, 1.0]) == [-1.0, 3.0]


def test_spread__keeps_what_fits() -> None:
    assert spread([0.0, 10.0, 30.0], [4.0, 4.0]) == [0.0, 10.0, 30.0]


def test_spread__nothing() -> None:
    assert spread([], []) == []


@settings(deadline=None)
@given(st.lists(st.floats(-100, 100), min_size=1, max_size=20), st.floats(0, 5))
def test_spread__keeps_gaps_and_bounds(wanted: list[float], gap: float) -> None:
    places = spread(wanted, [gap] * (len(wanted) - 1), low=-100.0, high=100.0)

    assert all(b - a >= gap - 1e-9 for a, b in itertools.pairwise(places))
    assert places[0] >= -100 - 1e-9
    assert places[-1] <= 100 + 1e-9


@settings(deadline=None)
@given(st.lists(st.integers(-20, 20).map(float), min_size=2, max_size=3))
def test_spread__is_the_least_squares_answer(wanted: list[float]) -> None:
    """Against trying every whole and half place near by."""
    places = spread(wanted, [3.0] * (len(wanted) - 1))
    cost = sum((place - want) ** 2 for place, want in zip(places, wanted, strict=True))
    steps = [want + by / 2 for want in wanted for by in range(-14, 15)]
    tries = itertools.combinations(sorted(set(steps)), len(wanted))
    best = min(
        sum((place - want) ** 2 for place, want in zip(trial, wanted, strict=True))
        for trial in tries
        if all(b - a >= 3 for a, b in itertools.pairwise(trial))
    )

    assert cost <= best + 1e-9


def _item(column: int, index: int) -> Item:
    return Item(column, f"{index}", "")


@settings(deadline=None)
@given(st.sets(st.tuples(st.integers(0, 5), st.integers(0, 5)), max_size=20))
def test_crossings__equal_a_count_over_all_pairs(edges: set[tuple[int, int]]) -> None:
    columns = [[_item(c, i) for i in range(6)] for c in (0, 1)]
    rights = {item: [_item(1, b) for a, b in sorted(edges) if _item(0, a) == item]
              for item in columns[0]}  # fmt: skip
    plain = sum(
        (a - c) * (b - d) < 0 for (a, b), (c, d) in itertools.combinations(sorted(edges), 2)
    )

    assert crossings(columns, rights) == plain


@pytest.mark.parametrize("words", ["", "N", "N-F3-07", "wild sire", "ЖШЩ", "水草", "e\u0301"])
def test_shortened__leaves_what_fits(words: str) -> None:
    assert shortened(words, width=text_width(words, size=12), size=12) == words


@settings(deadline=None)
@given(st.text(max_size=80), st.integers(20, 200))
def test_wrapped__every_line_fits(words: str, width: int) -> None:
    lines = wrapped(words, width=width, size=12, bold=True)

    assert 1 <= len(lines) <= 2
    assert all(text_width(line, size=12, bold=True) <= width for line in lines)


def test_wrapped__breaks_at_signs_and_keeps_all_words() -> None:
    assert wrapped("quiet pond sires", width=80, size=12) == ("quiet pond", "sires")
    assert wrapped("M-F3-sires-second", width=80, size=12) == ("M-F3-sires-", "second")

"""Warmth and the sexes: a flag between the points of one study, and nothing beyond."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.warm_broods import (
    FEMALE_SHARE_POINTS,
    expected_female_share,
    sex_ratio_is_suspect,
)


@given(st.floats(20.0, 26.0), st.floats(20.0, 26.0))
def test_share__falls_with_warmth(one: float, other: float) -> None:
    cool, warm = sorted((one, other))

    found = expected_female_share(cool)

    assert 0.18 - 1e-12 <= expected_female_share(warm).value <= found.value + 1e-12 <= 0.8 + 2e-12
    assert found.sources == FEMALE_SHARE_POINTS.sources


def test_share__halfway_by_hand() -> None:
    assert expected_female_share(24.5).value == pytest.approx(0.34)


@pytest.mark.parametrize("bad", [19.9, 26.1, math.nan, math.inf])
def test_share__refuses_what_was_not_studied(bad: float) -> None:
    with pytest.raises(DomainError, match="water temperature"):
        expected_female_share(bad)
    with pytest.raises(DomainError, match="water temperature"):
        sex_ratio_is_suspect(bad)


@pytest.mark.parametrize(
    ("degrees", "suspect"), [(20.0, True), (21.4, True), (22.0, False), (24.0, False), (25.0, True)]
)
def test_suspect__either_sex_may_be_rare(degrees: float, *, suspect: bool) -> None:
    assert sex_ratio_is_suspect(degrees) is suspect


@pytest.mark.parametrize("bad", [0.4, 1.1, math.nan])
def test_suspect__refuses_a_bound(bad: float) -> None:
    with pytest.raises(DomainError, match="lopsided"):
        sex_ratio_is_suspect(23.0, lopsided=bad)

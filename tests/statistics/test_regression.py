import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from filialog.domain_error import DomainError
from filialog.statistics import SlopeFit, line_fit, line_fit_through_origin

NUMBERS = st.integers(-50, 50)
POINTS = st.lists(st.tuples(NUMBERS, NUMBERS), min_size=3, max_size=12)


@given(POINTS)
def test_line__agrees_with_scipy(points: list[tuple[int, int]]) -> None:
    x, y = [first for first, _ in points], [second for _, second in points]
    fit = line_fit(x, y, confidence=0.9)
    if len(set(x)) == 1:
        assert fit.slope is None
        return
    if len(set(y)) == 1:
        assert (fit.slope, fit.standard_error, fit.low, fit.high) == (0.0, 0.0, None, None)
        return
    known = stats.linregress(x, y)
    reach = stats.t.ppf(0.95, len(x) - 2) * known.stderr

    assert fit.slope == pytest.approx(float(known.slope), abs=1e-9)
    assert fit.intercept == pytest.approx(float(known.intercept), abs=1e-9)
    assert fit.standard_error == pytest.approx(float(known.stderr), abs=1e-6)
    if fit.low is not None:
        assert fit.low == pytest.approx(float(known.slope - reach), abs=1e-4)
        assert fit.high == pytest.approx(float(known.slope + reach), abs=1e-4)
    else:
        assert float(known.stderr) == pytest.approx(0.0, abs=1e-6)


@given(POINTS)
def test_line_through_origin__has_least_squares_and_its_error(
    points: list[tuple[int, int]],
) -> None:
    x, y = [first for first, _ in points], [second for _, second in points]
    fit = line_fit_through_origin(x, y)
    if not any(x):
        assert fit.slope is None
        return
    design = np.array(x, dtype=float)[:, None]
    solved, *_ = np.linalg.lstsq(design, np.array(y, dtype=float), rcond=None)
    used = sum(first != 0 or second != 0 for first, second in points)

    assert fit.slope == pytest.approx(float(solved[0]), abs=1e-9)
    assert fit.intercept == 0.0
    assert fit.points == used
    if used > 1 and fit.low is not None:
        scatter = float(((design[:, 0] * solved[0] - y) ** 2).sum()) / (used - 1)
        error = math.sqrt(scatter / float((design**2).sum()))
        assert fit.standard_error == pytest.approx(error, abs=1e-9)
        assert fit.high == pytest.approx(
            float(solved[0]) + float(stats.t.ppf(0.975, used - 1)) * error, abs=1e-9
        )
    elif used > 1:
        assert design[:, 0] * solved[0] == pytest.approx(y, abs=1e-9)
    else:
        assert fit.standard_error is None


def test_lines__points_on_a_line_have_no_interval() -> None:
    for fit in (line_fit, line_fit_through_origin):
        found = fit([1, 2, 3], [0.1, 0.2, 0.3])
        assert found.slope == pytest.approx(0.1)
        assert found.standard_error == pytest.approx(0.0, abs=1e-12)
        assert (found.low, found.high) == (None, None)
    assert line_fit([1, 2, 3], [0.1, 0.2, 0.3000001]).low is not None


def test_line__covers_the_true_slope_as_often_as_it_says() -> None:
    random = np.random.default_rng(3)
    x = [0.0, 1.0, 2.0, 4.0, 5.0]
    hits = 0
    for _ in range(2000):
        y = [
            0.4 * value + float(noise)
            for value, noise in zip(x, random.normal(size=5), strict=True)
        ]
        fit = line_fit(x, y, confidence=0.8)
        assert fit.low is not None
        assert fit.high is not None
        hits += fit.low <= 0.4 <= fit.high

    assert hits / 2000 == pytest.approx(0.8, abs=0.03)


@pytest.mark.parametrize(
    ("x", "y", "points"),
    [
        pytest.param([], [], 0, id="no point"),
        pytest.param([1.0], [2.0], 1, id="one point"),
        pytest.param([1.0, 1.0, 1.0], [2.0, 3.0, 4.0], 3, id="all points above one another"),
    ],
)
def test_line__without_two_places_there_is_no_slope(
    x: list[float], y: list[float], points: int
) -> None:
    assert line_fit(x, y) == SlopeFit(
        points=points, slope=None, intercept=None, standard_error=None, low=None, high=None
    )


def test_line__two_points_give_a_slope_without_interval() -> None:
    fit = line_fit([0, 2], [1, 2])

    assert (fit.slope, fit.intercept) == (0.5, 1.0)
    assert (fit.standard_error, fit.low, fit.high) == (None, None, None)


@pytest.mark.parametrize("points", [[], [(0.0, 0.0)], [(0.0, 1.0)]])
def test_line_through_origin__without_a_place_beside_it_there_is_no_slope(
    points: list[tuple[float, float]],
) -> None:
    fit = line_fit_through_origin([x for x, _ in points], [y for _, y in points])

    assert (fit.slope, fit.standard_error) == (None, None)


def test_line_through_origin__the_origin_is_no_measurement() -> None:
    with_start = line_fit_through_origin([0, 1, 2], [0, 2, 3])

    assert with_start == line_fit_through_origin([1, 2], [2, 3])
    assert line_fit_through_origin([0, 2], [0, 3]).standard_error is None


@pytest.mark.parametrize("fit", [line_fit, line_fit_through_origin])
@pytest.mark.parametrize(
    ("x", "y", "confidence"),
    [
        pytest.param([1.0, 2.0], [1.0], 0.95, id="lengths"),
        pytest.param([1.0, math.nan], [1.0, 2.0], 0.95, id="nan x"),
        pytest.param([1.0, 2.0], [1.0, math.inf], 0.95, id="infinite y"),
        pytest.param([1.0, 2.0], [1.0, 2.0], 1.0, id="certainty"),
        pytest.param([1.0, 2.0], [1.0, 2.0], math.nan, id="nan confidence"),
    ],
)
def test_lines__impossible_points_are_refused(
    fit: object, x: list[float], y: list[float], confidence: float
) -> None:
    assert callable(fit)
    with pytest.raises(DomainError):
        fit(x, y, confidence=confidence)

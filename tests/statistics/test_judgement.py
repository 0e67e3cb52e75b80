"""Verdicts on tallies: each branch of the rule by name, and its long-run behaviour."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from filialog.domain_error import DomainError
from filialog.statistics import (
    EXACT_OUTCOMES,
    Method,
    Verdict,
    exact_test,
    g_test,
    judge,
    log_likelihood,
    single,
)

INTERCROSS = (0.75, 0.25)
BACKCROSS = (0.5, 0.5)
ALL_PLAIN = (1.0, 0.0)
ALL_FANCY = (0.0, 1.0)
RIVALS = [ALL_PLAIN, INTERCROSS, BACKCROSS, ALL_FANCY]


def test_judge__fits_when_every_rival_is_refuted() -> None:
    judgement = judge([60, 20], single(INTERCROSS), RIVALS)

    assert judgement.verdict is Verdict.FITS
    assert judgement.method is Method.EXACT
    assert judgement.best_rival == 2
    assert judgement.best_rival_log_ratio == pytest.approx(
        log_likelihood([60, 20], single(BACKCROSS)) - log_likelihood([60, 20], single(INTERCROSS))
    )
    assert judgement.more_needed is judgement.nearest_rival is None


def test_judge__does_not_fit_when_the_count_is_too_odd() -> None:
    judgement = judge([20, 20], single(INTERCROSS), RIVALS)

    assert judgement.verdict is Verdict.DOES_NOT_FIT
    assert judgement.p_value == exact_test([20, 20], single(INTERCROSS)).p_value < 0.01
    assert judgement.best_rival == 2
    assert judgement.best_rival_log_ratio is not None
    assert judgement.best_rival_log_ratio > 0


def test_judge__does_not_fit_the_impossible() -> None:
    judgement = judge([9, 1], single(ALL_PLAIN), RIVALS)

    assert (judgement.verdict, judgement.p_value) == (Verdict.DOES_NOT_FIT, 0.0)
    assert judgement.best_rival == 1
    assert judgement.best_rival_log_ratio == math.inf


def test_judge__a_rival_that_cannot_give_the_count_either_explains_nothing() -> None:
    observed, expectation, rival = [0, 0, 3], (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
    judgement = judge(observed, single(expectation), [rival, (0.5, 0.0, 0.5)])

    assert judgement.verdict is Verdict.DOES_NOT_FIT
    assert judgement.best_rival == 1
    assert judge(observed, single(expectation), [rival]).best_rival is None


def test_judge__cannot_tell_while_a_rival_stands() -> None:
    judgement = judge([7, 3], single(INTERCROSS), RIVALS)

    assert judgement.verdict is Verdict.CANNOT_TELL
    assert judgement.nearest_rival == judgement.best_rival == 2
    # 10 young, log ratio 7 ln 1.5 + 3 ln 0.5 = 0.759; (ln 20 - 0.759) / 0.1308 = 17.1.
    assert judgement.more_needed == 18


def test_judge__nothing_counted_still_plans() -> None:
    judgement = judge([0, 0], single(INTERCROSS), RIVALS)

    assert judgement.verdict is Verdict.NOTHING_COUNTED
    assert judgement.p_value == 1.0
    assert judgement.best_rival is judgement.best_rival_log_ratio is None
    assert (judgement.nearest_rival, judgement.more_needed) == (2, 23)


def test_judge__one_animal() -> None:
    judgement = judge([0, 1], single(INTERCROSS), RIVALS)

    assert judgement.verdict is Verdict.CANNOT_TELL
    assert judgement.p_value == pytest.approx(0.25)
    assert judgement.best_rival == 3


def test_judge__one_class_and_no_rival_fits() -> None:
    judgement = judge([4], single((1,)), [(1,)])

    assert (judgement.verdict, judgement.p_value) == (Verdict.FITS, 1.0)
    assert judgement.best_rival is None


def test_judge__all_plain_needs_enough_plain_ones() -> None:
    # ln 20 / ln (4/3) = 10.4.
    ten = judge([10, 0], single(ALL_PLAIN), RIVALS)
    eleven = judge([11, 0], single(ALL_PLAIN), RIVALS)

    assert (ten.verdict, ten.more_needed) == (Verdict.CANNOT_TELL, 1)
    assert eleven.verdict is Verdict.FITS


def test_judge__a_rival_equal_to_a_component_is_no_rival() -> None:
    mixture = [(0.5, ALL_PLAIN), (0.5, BACKCROSS)]
    judgement = judge([30, 0], mixture, [ALL_PLAIN, BACKCROSS, ALL_FANCY])

    assert judgement.verdict is Verdict.FITS
    assert judgement.best_rival is None


def test_judge__the_average_of_a_mixture_is_a_rival() -> None:
    mixture = [(0.5, ALL_PLAIN), (0.5, BACKCROSS)]

    assert judge([8, 0], mixture, [INTERCROSS]).best_rival == 0


def test_judge__mixture_looks_ahead_from_the_favoured_component() -> None:
    # Six plain ones favour the all-plain component: the log ratio so far is
    # ln(0.5 + 0.5 / 64) - 6 ln 0.75 and each further plain one adds ln(4/3).
    judgement = judge([6, 0], [(0.5, ALL_PLAIN), (0.5, BACKCROSS)], [INTERCROSS])
    so_far = math.log(0.5 + 0.5 / 64) - 6 * math.log(0.75)

    assert judgement.more_needed == math.ceil((math.log(20) - so_far) / math.log(4 / 3))


def test_judge__more_needed_covers_every_standing_rival() -> None:
    near, far = (0.7, 0.3), (0.5, 0.5)
    both = judge([3, 1], single(INTERCROSS), [far, near])
    alone = judge([3, 1], single(INTERCROSS), [near])

    assert both.nearest_rival == 1
    assert both.more_needed == alone.more_needed
    assert both.more_needed is not None
    assert both.more_needed > 400


def test_judge__takes_the_g_test_when_there_are_too_many_outcomes() -> None:
    observed, shares = [95, 33, 30, 10], (0.5625, 0.1875, 0.1875, 0.0625)
    fit = g_test(observed, shares, williams=True)
    judgement = judge(observed, single(shares), [])

    assert math.comb(sum(observed) + 3, 3) > EXACT_OUTCOMES
    assert judgement.method is Method.G_WILLIAMS
    assert (judgement.p_value, judgement.statistic, judgement.df) == (
        fit.p_value,
        fit.statistic,
        fit.df,
    )


def test_judge__g_test_of_a_mixture_takes_the_component_that_fits_best() -> None:
    shares, other = (0.5625, 0.1875, 0.1875, 0.0625), (0.25, 0.25, 0.25, 0.25)
    observed = [95, 33, 30, 10]
    judgement = judge(observed, [(0.5, other), (0.5, shares)], [])

    assert judgement.p_value == g_test(observed, shares, williams=True).p_value
    assert judgement.verdict is Verdict.FITS


def test_judge__g_test_of_the_impossible() -> None:
    observed = [95, 33, 30, 10, 1]
    judgement = judge(observed, single((0.25, 0.25, 0.25, 0.25, 0.0)), [])

    assert judgement.verdict is Verdict.DOES_NOT_FIT
    assert judgement.p_value == 0.0


def test_judge__g_test_is_close_to_the_exact_test_near_the_limit() -> None:
    # The two put outcomes in different orders, so they agree only roughly.
    observed, shares = [69, 18, 13, 3], (0.5625, 0.1875, 0.1875, 0.0625)
    judgement = judge(observed, single(shares), [])

    assert judgement.method is Method.EXACT
    assert judgement.p_value == pytest.approx(
        g_test(observed, shares, williams=True).p_value, abs=0.05
    )


def test_judge__fails_a_right_expectation_no_more_often_than_alpha() -> None:
    # Exact over all counts of 40 young: the size of the test.
    for alpha in (0.01, 0.05):
        size = sum(
            float(stats.binom.pmf(fancy, 40, 0.25))
            for fancy in range(41)
            if judge([40 - fancy, fancy], single(INTERCROSS), [], alpha=alpha).verdict
            is Verdict.DOES_NOT_FIT
        )
        assert 0.0 < size < alpha


def test_judge__says_fits_wrongly_no_more_often_than_one_in_twenty() -> None:
    # Under the rival, odds of 20 for the expectation come up with a chance of at most 1/20.
    for young in (10, 23, 40, 80):
        wrong = sum(
            float(stats.binom.pmf(fancy, young, 0.5))
            for fancy in range(young + 1)
            if judge([young - fancy, fancy], single(INTERCROSS), [BACKCROSS]).verdict
            is Verdict.FITS
        )
        assert wrong <= 1 / 20


@given(st.integers(0, 30), st.integers(0, 30))
def test_judge__ignores_the_order_of_classes(plain: int, fancy: int) -> None:
    one = judge([plain, fancy], single(INTERCROSS), RIVALS)
    other = judge([fancy, plain], single(INTERCROSS[::-1]), [rival[::-1] for rival in RIVALS])

    assert (one.verdict, one.more_needed) == (other.verdict, other.more_needed)
    assert one.p_value == pytest.approx(other.p_value, rel=1e-9)


@given(st.integers(0, 30), st.integers(0, 30))
def test_judge__verdict_follows_the_stated_rule(plain: int, fancy: int) -> None:
    observed = [plain, fancy]
    judgement = judge(observed, single(INTERCROSS), RIVALS)
    own = log_likelihood(observed, single(INTERCROSS))
    refuted = all(
        own - log_likelihood(observed, single(rival)) >= math.log(20)
        for rival in (ALL_PLAIN, BACKCROSS, ALL_FANCY)
    )

    if plain + fancy == 0:
        expected = Verdict.NOTHING_COUNTED
    elif exact_test(observed, single(INTERCROSS)).p_value < 0.01:
        expected = Verdict.DOES_NOT_FIT
    else:
        expected = Verdict.FITS if refuted else Verdict.CANNOT_TELL
    assert judgement.verdict is expected
    assert (judgement.more_needed is None) == (expected in {Verdict.FITS, Verdict.DOES_NOT_FIT})


@pytest.mark.parametrize(
    ("odds", "alpha"), [(1.0, 0.01), (20.0, 0.0), (20.0, 1.0), (20.0, math.nan)]
)
def test_judge__refuses(odds: float, alpha: float) -> None:
    with pytest.raises(DomainError):
        judge([1, 1], single(INTERCROSS), [], odds=odds, alpha=alpha)


def test_judge__refuses_a_rival_with_other_classes() -> None:
    with pytest.raises(DomainError, match="number of shares"):
        judge([1, 1], single(INTERCROSS), [(0.5, 0.25, 0.25)])

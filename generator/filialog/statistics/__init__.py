"""Tests of fit, evidence and intervals.

In come counts by class and expected shares as plain numbers; out go frozen values
with named states, so that a table without animals or an impossible class is a
result and not an accident. Nothing here knows of genes, journals or pages.
"""

from filialog.statistics.counts import (
    Component,
    Components,
    Share,
    Shares,
    shares_of_ratio,
    single,
)
from filialog.statistics.evidence import (
    log_likelihood,
    log_likelihood_ratio,
    more_needed,
    young_needed,
    young_to_see,
)
from filialog.statistics.exact_test import MAX_OUTCOMES, ExactFit, exact_test, outcome_count
from filialog.statistics.goodness_of_fit import (
    FitState,
    FitTest,
    Method,
    chi_square_test,
    g_test,
)
from filialog.statistics.heterogeneity import BroodHeterogeneity, Part, brood_heterogeneity
from filialog.statistics.intervals import Interval, clopper_pearson_interval, wilson_interval
from filialog.statistics.judgement import EXACT_OUTCOMES, Judgement, Verdict, judge

__all__ = [
    "EXACT_OUTCOMES",
    "MAX_OUTCOMES",
    "BroodHeterogeneity",
    "Component",
    "Components",
    "ExactFit",
    "FitState",
    "FitTest",
    "Interval",
    "Judgement",
    "Method",
    "Part",
    "Share",
    "Shares",
    "Verdict",
    "brood_heterogeneity",
    "chi_square_test",
    "clopper_pearson_interval",
    "exact_test",
    "g_test",
    "judge",
    "log_likelihood",
    "log_likelihood_ratio",
    "more_needed",
    "outcome_count",
    "shares_of_ratio",
    "single",
    "wilson_interval",
    "young_needed",
    "young_to_see",
]

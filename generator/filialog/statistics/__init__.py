"""Tests of fit, evidence and intervals.

In come counts by class and expected shares as plain numbers; out go frozen values
with named states, so that a table without animals or an impossible class is a
result and not an accident. Nothing here knows of genes, journals or pages.
"""

from filialog.statistics.binomial_tails import BinomialTails, binomial_tails
from filialog.statistics.counts import (
    Component,
    Components,
    Share,
    Shares,
    shares_of_ratio,
    single,
)
from filialog.statistics.differences import ShareDifference, share_difference
from filialog.statistics.evidence import (
    break_even_share,
    log_likelihood,
    log_likelihood_ratio,
    more_needed,
    young_needed,
    young_to_see,
)
from filialog.statistics.exact_test import (
    MAX_OUTCOMES,
    ExactFit,
    exact_test,
    exact_test_by_distance,
)
from filialog.statistics.family_sizes import (
    CutoffDesign,
    chance_to_reject,
    cutoff_design,
    normal_family_size,
    young_to_reject,
)
from filialog.statistics.goodness_of_fit import (
    FitState,
    FitTest,
    Method,
    chi_square_test,
    g_test,
)
from filialog.statistics.heterogeneity import BroodHeterogeneity, Part, brood_heterogeneity
from filialog.statistics.intervals import (
    Interval,
    agresti_coull_interval,
    clopper_pearson_interval,
    jeffreys_interval,
    wilson_interval,
)
from filialog.statistics.judgement import EXACT_OUTCOMES, MISFIT_BELOW, Judgement, Verdict, judge
from filialog.statistics.many_tests import (
    Discoveries,
    benjamini_hochberg,
    benjamini_hochberg_adjusted,
    bonferroni_adjusted,
    holm_adjusted,
)
from filialog.statistics.means import MeanInterval, mean_interval
from filialog.statistics.misclassification import (
    CorrectedShare,
    corrected_share,
    share_as_sorted,
    shares_as_sorted,
)
from filialog.statistics.outcomes import outcome_count
from filialog.statistics.regression import SlopeFit, line_fit, line_fit_through_origin
from filialog.statistics.rivals import (
    FittedRival,
    Rival,
    RivalOdds,
    foreign_share,
    relative_survival,
    rival_odds,
)
from filialog.statistics.sequential import (
    StoppingTime,
    chance_to_settle,
    stopping_time,
    young_that_suffice,
)
from filialog.statistics.unseen import rule_of_three, unseen_share
from filialog.statistics.unsorted import MAX_ALLOCATIONS, Unsorted, UnsortedBounds, unsorted_bounds

__all__ = [
    "EXACT_OUTCOMES",
    "MAX_ALLOCATIONS",
    "MAX_OUTCOMES",
    "MISFIT_BELOW",
    "BinomialTails",
    "BroodHeterogeneity",
    "Component",
    "Components",
    "CorrectedShare",
    "CutoffDesign",
    "Discoveries",
    "ExactFit",
    "FitState",
    "FitTest",
    "FittedRival",
    "Interval",
    "Judgement",
    "MeanInterval",
    "Method",
    "Part",
    "Rival",
    "RivalOdds",
    "Share",
    "ShareDifference",
    "Shares",
    "SlopeFit",
    "StoppingTime",
    "Unsorted",
    "UnsortedBounds",
    "Verdict",
    "agresti_coull_interval",
    "benjamini_hochberg",
    "benjamini_hochberg_adjusted",
    "binomial_tails",
    "bonferroni_adjusted",
    "break_even_share",
    "brood_heterogeneity",
    "chance_to_reject",
    "chance_to_settle",
    "chi_square_test",
    "clopper_pearson_interval",
    "corrected_share",
    "cutoff_design",
    "exact_test",
    "exact_test_by_distance",
    "foreign_share",
    "g_test",
    "holm_adjusted",
    "jeffreys_interval",
    "judge",
    "line_fit",
    "line_fit_through_origin",
    "log_likelihood",
    "log_likelihood_ratio",
    "mean_interval",
    "more_needed",
    "normal_family_size",
    "outcome_count",
    "relative_survival",
    "rival_odds",
    "rule_of_three",
    "share_as_sorted",
    "share_difference",
    "shares_as_sorted",
    "shares_of_ratio",
    "single",
    "stopping_time",
    "unseen_share",
    "unsorted_bounds",
    "wilson_interval",
    "young_needed",
    "young_that_suffice",
    "young_to_reject",
    "young_to_see",
]

"""Worked cases of tests of fit, computed through the public functions."""

from fractions import Fraction

from filialog.statistics import (
    FitState,
    Part,
    binomial_tails,
    brood_heterogeneity,
    chi_square_test,
    g_test,
    shares_of_ratio,
)
from tools.worked_cases import Case


def goodness_of_fit(inputs: Case) -> Case:
    observed, shares = inputs["observed"], shares_of_ratio(inputs["ratio"])
    chi_square = chi_square_test(observed, shares)
    plain, corrected = g_test(observed, shares), g_test(observed, shares, williams=True)
    assert chi_square.state is FitState.TESTED
    return {
        "n": sum(observed),
        "expected_counts": chi_square.expected_counts,
        "chi2": chi_square.statistic,
        "df": chi_square.df,
        "p_chi2": chi_square.p_value,
        "G": plain.statistic,
        "p_G": plain.p_value,
        "williams_q": plain.statistic / corrected.statistic,
        "G_williams": corrected.statistic,
        "p_G_williams": corrected.p_value,
        "ratio_to_one": observed[0] / observed[1] if observed[1] else None,
    }


def heterogeneity(inputs: Case) -> Case:
    result = brood_heterogeneity(inputs["broods"], shares_of_ratio(inputs["ratio"]))
    computed: Case = {"pooled_counts": result.pooled_counts}
    parts: dict[str, Part | None] = {
        "total_chi2": result.total_chi_square,
        "pooled_chi2": result.pooled_chi_square,
        "het_chi2": result.heterogeneity_chi_square,
        "total_G": result.total_g,
        "pooled_G": result.pooled_g,
        "het_G": result.heterogeneity_g,
        "contingency_chi2": result.contingency_chi_square,
    }
    for name, part in parts.items():
        assert part is not None
        computed[name] = part.statistic
        computed[f"p_{name}"] = part.p_value
        computed[f"{name.split('_')[0]}_df"] = part.df
    computed["p_contingency"] = computed["p_contingency_chi2"]
    return computed


def exact_binomial(inputs: Case) -> Case:
    tails = binomial_tails(seen=inputs["x"], counted=inputs["n"], share=Fraction(inputs["p"]))
    return {
        "p_two_sided_small_p": tails.two_sided,
        "p_less": tails.at_most,
        "p_greater": tails.at_least,
        "p_doubled": tails.doubled,
        "p_mid": tails.mid,
    }

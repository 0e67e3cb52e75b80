"""Trait models, genotypes and crosses.

In come a trait model (loci, linkage, sex chromosomes, which genotype shows which look,
what dies) and what is known of the parents; out go exact probabilities of genotypes and
looks as fractions. Callers pass laws and the model and never take gametes apart.

Beside these stand the formulas of graded traits: heritability with its interval, selection
and its response, breeding values.
"""

from filialog.genetics.ascertainment import share_without_singles, truncated_share
from filialog.genetics.breeding_values import (
    SelectionIndex,
    accuracy_of_full_sibs,
    accuracy_of_half_sibs,
    accuracy_of_own_records,
    accuracy_of_young,
    breeding_value,
    breeding_value_from_young,
    expected_young,
    selection_index,
)
from filialog.genetics.broods import (
    BroodComponents,
    MatingShares,
    brood_components,
    mating_shares,
    one_of_several,
)
from filialog.genetics.chromosomes import (
    Haplotype,
    Parent,
    genotype_count,
    linkage_groups,
)
from filialog.genetics.clearing import (
    MateValue,
    YoungNeeded,
    animals_to_keep,
    carrier_after_plain_young,
    chance_of_all_plain,
    rank_mates,
    young_to_clear,
)
from filialog.genetics.clouds import (
    cloud_components,
    cloud_probability,
)
from filialog.genetics.crosses import (
    Cross,
    cross,
    gametes,
)
from filialog.genetics.genotype_law import (
    ContradictionError,
    GenotypeLaw,
    as_parent,
    certain,
    condition_on_genotypes,
    condition_on_look,
    condition_on_sex,
    law_of,
    look_shares,
    mixture,
)
from filialog.genetics.genotype_text import (
    ANY_ALLELE,
    format_genotype,
    parse_genotype,
)
from filialog.genetics.hardy_weinberg import HardyWeinberg, hardy_weinberg_test
from filialog.genetics.heritability import (
    RealisedHeritability,
    SelectionStep,
    heritability_by_midparents,
    heritability_by_one_parent,
    realised_heritability,
    selection_step,
)
from filialog.genetics.intensity import (
    Truncation,
    selection_intensity,
    selection_intensity_of_few,
    truncation_selection,
)
from filialog.genetics.law_summary import (
    LawRow,
    genotype_rows,
    summarise,
)
from filialog.genetics.map_distance import (
    haldane_distance_cm,
    haldane_recombination,
    kosambi_distance_cm,
    kosambi_recombination,
)
from filialog.genetics.model_problems import (
    MOST_GENOTYPES,
    ModelProblem,
    ProblemKind,
    model_problems,
)
from filialog.genetics.model_tables import (
    all_genotypes,
    living_genotypes,
)
from filialog.genetics.pools import (
    pool_law,
)
from filialog.genetics.recombination import (
    F2Linkage,
    LinkageInTestCross,
    recombination_from_f2,
    recombination_from_test_cross,
)
from filialog.genetics.selection import (
    additive_variance_after_selection,
    correlated_response,
    differential_of_both_sexes,
    forecast_means,
    response_by_intensity,
    response_per_time,
    response_to_selection,
)
from filialog.genetics.sex_systems import (
    SEX_SYSTEMS,
    sex_system,
)
from filialog.genetics.showing import (
    is_lethal,
    look_chances,
    sex_of,
    sure_look,
    survival,
)
from filialog.genetics.sibs import SibCorrelation, heritability_from_sibs, sib_correlation
from filialog.genetics.three_points import ThreePoints, order_of_three
from filialog.genetics.trait_model import (
    CoarseLook,
    Condition,
    ConditionKind,
    Genotype,
    LinkageGroup,
    Locus,
    LookRule,
    Sex,
    SexSystem,
    ShownBy,
    TraitModel,
    Viability,
    looks_in_class,
    looks_of_model,
)
from filialog.genetics.transmission import (
    Transmission,
    genotype_in_group,
    transmission,
)
from filialog.genetics.viability_estimates import (
    EggCheck,
    LinkedViability,
    RelativeViability,
    check_deaths_by_eggs,
    relative_viability,
    viability_of_linked,
)

__all__ = [
    "ANY_ALLELE",
    "MOST_GENOTYPES",
    "SEX_SYSTEMS",
    "BroodComponents",
    "CoarseLook",
    "Condition",
    "ConditionKind",
    "ContradictionError",
    "Cross",
    "EggCheck",
    "F2Linkage",
    "Genotype",
    "GenotypeLaw",
    "Haplotype",
    "HardyWeinberg",
    "LawRow",
    "LinkageGroup",
    "LinkageInTestCross",
    "LinkedViability",
    "Locus",
    "LookRule",
    "MateValue",
    "MatingShares",
    "ModelProblem",
    "Parent",
    "ProblemKind",
    "RealisedHeritability",
    "RelativeViability",
    "SelectionIndex",
    "SelectionStep",
    "Sex",
    "SexSystem",
    "ShownBy",
    "SibCorrelation",
    "ThreePoints",
    "TraitModel",
    "Transmission",
    "Truncation",
    "Viability",
    "YoungNeeded",
    "accuracy_of_full_sibs",
    "accuracy_of_half_sibs",
    "accuracy_of_own_records",
    "accuracy_of_young",
    "additive_variance_after_selection",
    "all_genotypes",
    "animals_to_keep",
    "as_parent",
    "breeding_value",
    "breeding_value_from_young",
    "brood_components",
    "carrier_after_plain_young",
    "certain",
    "chance_of_all_plain",
    "check_deaths_by_eggs",
    "cloud_components",
    "cloud_probability",
    "condition_on_genotypes",
    "condition_on_look",
    "condition_on_sex",
    "correlated_response",
    "cross",
    "differential_of_both_sexes",
    "expected_young",
    "forecast_means",
    "format_genotype",
    "gametes",
    "genotype_count",
    "genotype_in_group",
    "genotype_rows",
    "haldane_distance_cm",
    "haldane_recombination",
    "hardy_weinberg_test",
    "heritability_by_midparents",
    "heritability_by_one_parent",
    "heritability_from_sibs",
    "is_lethal",
    "kosambi_distance_cm",
    "kosambi_recombination",
    "law_of",
    "linkage_groups",
    "living_genotypes",
    "look_chances",
    "look_shares",
    "looks_in_class",
    "looks_of_model",
    "mating_shares",
    "mixture",
    "model_problems",
    "one_of_several",
    "order_of_three",
    "parse_genotype",
    "pool_law",
    "rank_mates",
    "realised_heritability",
    "recombination_from_f2",
    "recombination_from_test_cross",
    "relative_viability",
    "response_by_intensity",
    "response_per_time",
    "response_to_selection",
    "selection_index",
    "selection_intensity",
    "selection_intensity_of_few",
    "selection_step",
    "sex_of",
    "sex_system",
    "share_without_singles",
    "sib_correlation",
    "summarise",
    "sure_look",
    "survival",
    "transmission",
    "truncated_share",
    "truncation_selection",
    "viability_of_linked",
    "young_to_clear",
]

"""Trait models, genotypes and crosses.

In come a trait model (loci, which genotype shows which look, what is lethal) and
what is known of the parents; out go exact probabilities of genotypes and looks as
fractions. Today the loci are autosomal and unlinked. Callers pass laws and the model
and never take gametes apart, so linkage, sex chromosomes, incomplete penetrance and
viability can be added behind the same functions.
"""

from filialog.genetics.crosses import (
    Cross,
    Gamete,
    MatingShares,
    brood_components,
    cross,
    gametes,
    mating_shares,
)
from filialog.genetics.genotype_law import (
    ContradictionError,
    GenotypeLaw,
    certain,
    condition_on_genotypes,
    condition_on_look,
    law_of,
    look_shares,
    mixture,
    pool_law,
)
from filialog.genetics.genotype_text import ANY_ALLELE, format_genotype, parse_genotype
from filialog.genetics.law_summary import LawRow, genotype_rows, summarise
from filialog.genetics.model_problems import ModelProblem, ProblemKind, model_problems
from filialog.genetics.trait_model import (
    CoarseLook,
    Condition,
    ConditionKind,
    Genotype,
    Locus,
    LookRule,
    TraitModel,
    all_genotypes,
    is_lethal,
    living_genotypes,
    look_of,
    looks_in_class,
    looks_of_model,
)

__all__ = [
    "ANY_ALLELE",
    "CoarseLook",
    "Condition",
    "ConditionKind",
    "ContradictionError",
    "Cross",
    "Gamete",
    "Genotype",
    "GenotypeLaw",
    "LawRow",
    "Locus",
    "LookRule",
    "MatingShares",
    "ModelProblem",
    "ProblemKind",
    "TraitModel",
    "all_genotypes",
    "brood_components",
    "certain",
    "condition_on_genotypes",
    "condition_on_look",
    "cross",
    "format_genotype",
    "gametes",
    "genotype_rows",
    "is_lethal",
    "law_of",
    "living_genotypes",
    "look_of",
    "look_shares",
    "looks_in_class",
    "looks_of_model",
    "mating_shares",
    "mixture",
    "model_problems",
    "parse_genotype",
    "pool_law",
    "summarise",
]

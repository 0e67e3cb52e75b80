"""Lineage: a pedigree of groups goes in; shares, kinship and generation labels come out.

A `Pedigree` holds named pools of animals, each with its origin. From it are computed the
expected shares of founders and strains, inbreeding and kinship, how two groups are related,
how complete their pedigree is, and the generation label of genetics beside what a seller's
label claims. Sets of possible parents stay sets.

An `AnimalPedigree` holds single animals. From the living among them follow the contributions,
effective numbers and genome equivalents of founders; effective sizes and the heterozygosity
kept are plain formulas.
"""

from filialog.lineage.animal_kinship import (
    animal_kinship_matrix,
    fraternity,
    mean_kinship_of,
    mean_kinships_with,
    relationship_inverse,
)
from filialog.lineage.animal_matings import animal_inbreeding
from filialog.lineage.animal_pedigree import AnimalPedigree, pedigree_of_animals
from filialog.lineage.completeness import Completeness, completeness
from filialog.lineage.effective_size import (
    effective_size_by_family_size,
    effective_size_by_inbreeding_rate,
    effective_size_by_sex,
    effective_size_needed,
    effective_size_of_overlapping_generations,
    effective_size_over_generations,
    effective_size_sex_linked,
    effective_size_with_selfing,
    inbreeding_rate,
)
from filialog.lineage.founders import (
    AncestorContribution,
    EffectiveAncestors,
    FounderContribution,
    effective_ancestors,
    effective_founders,
    founder_contributions,
    founder_genome_equivalents_by_kinship,
)
from filialog.lineage.generation import Generation, GenerationKind
from filialog.lineage.genome_retention import (
    MOST_EXACT_STEPS,
    FounderGenomes,
    FounderRetention,
    founder_genome_equivalents,
)
from filialog.lineage.heterozygosity import (
    chance_allele_is_founded,
    founding_heterozygosity,
    gene_diversity,
    generations_until,
    heterozygosity_forecast,
    heterozygosity_kept,
    inbreeding_forecast,
)
from filialog.lineage.kinship import KinshipRange, KinshipTable, kinship_table
from filialog.lineage.labels import MOST_ALTERNATIVES, generation_label
from filialog.lineage.pedigree import (
    Blend,
    Brood,
    Founder,
    Mating,
    Origin,
    Part,
    Pedigree,
    Pool,
    Share,
    equal_shares,
    parentage_cycle,
)
from filialog.lineage.relationship import (
    CommonAncestor,
    Relationship,
    RelationshipKind,
    Relative,
    relationship,
    relatives,
)
from filialog.lineage.seller_labels import (
    LabelClaim,
    LabelVerdict,
    claims_of_label,
    seller_label_conflict,
)
from filialog.lineage.sex_linked_kinship import sex_linked_kinship_matrix
from filialog.lineage.shares import founder_shares, strain_shares
from filialog.lineage.uncertain_kinship import (
    Candidate,
    CandidateParents,
    expected_kinship_matrix,
)

__all__ = [
    "MOST_ALTERNATIVES",
    "MOST_EXACT_STEPS",
    "AncestorContribution",
    "AnimalPedigree",
    "Blend",
    "Brood",
    "Candidate",
    "CandidateParents",
    "CommonAncestor",
    "Completeness",
    "EffectiveAncestors",
    "Founder",
    "FounderContribution",
    "FounderGenomes",
    "FounderRetention",
    "Generation",
    "GenerationKind",
    "KinshipRange",
    "KinshipTable",
    "LabelClaim",
    "LabelVerdict",
    "Mating",
    "Origin",
    "Part",
    "Pedigree",
    "Pool",
    "Relationship",
    "RelationshipKind",
    "Relative",
    "Share",
    "animal_inbreeding",
    "animal_kinship_matrix",
    "chance_allele_is_founded",
    "claims_of_label",
    "completeness",
    "effective_ancestors",
    "effective_founders",
    "effective_size_by_family_size",
    "effective_size_by_inbreeding_rate",
    "effective_size_by_sex",
    "effective_size_needed",
    "effective_size_of_overlapping_generations",
    "effective_size_over_generations",
    "effective_size_sex_linked",
    "effective_size_with_selfing",
    "equal_shares",
    "expected_kinship_matrix",
    "founder_contributions",
    "founder_genome_equivalents",
    "founder_genome_equivalents_by_kinship",
    "founder_shares",
    "founding_heterozygosity",
    "fraternity",
    "gene_diversity",
    "generation_label",
    "generations_until",
    "heterozygosity_forecast",
    "heterozygosity_kept",
    "inbreeding_forecast",
    "inbreeding_rate",
    "kinship_table",
    "mean_kinship_of",
    "mean_kinships_with",
    "parentage_cycle",
    "pedigree_of_animals",
    "relationship",
    "relationship_inverse",
    "relatives",
    "seller_label_conflict",
    "sex_linked_kinship_matrix",
    "strain_shares",
]

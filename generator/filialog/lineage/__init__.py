"""Lineage: a pedigree of groups goes in; shares, kinship and generation labels come out.

A `Pedigree` holds named pools of animals, each with its origin. From it are computed the
expected shares of founders and strains, inbreeding and kinship, the generation label of
genetics, and the list of ancestors. Sets of possible parents stay sets.
"""

from filialog.lineage.ancestors import Ancestor, SourceRole, ancestors
from filialog.lineage.generation import Generation, GenerationKind
from filialog.lineage.kinship import inbreeding, kinship_between
from filialog.lineage.labels import MOST_ALTERNATIVES, generation_label
from filialog.lineage.pedigree import (
    Blend,
    Brood,
    Founder,
    Origin,
    Part,
    Pedigree,
    Pool,
    Share,
    equal_shares,
    parentage_cycle,
)
from filialog.lineage.shares import founder_shares, strain_shares

__all__ = [
    "MOST_ALTERNATIVES",
    "Ancestor",
    "Blend",
    "Brood",
    "Founder",
    "Generation",
    "GenerationKind",
    "Origin",
    "Part",
    "Pedigree",
    "Pool",
    "Share",
    "SourceRole",
    "ancestors",
    "equal_shares",
    "founder_shares",
    "generation_label",
    "inbreeding",
    "kinship_between",
    "parentage_cycle",
    "strain_shares",
]

"""The parents of broods: who the book, the keeper and what was seen leave as dam and sire.

In: a journal with its names, named parents, descent and book. Out: for each brood a set of dams
and a set of sires, each with how well it is known and on which grounds; and the named parents
that the book rules out.

A set holds everyone who is not ruled out. What is not known (a place, a count, an age, a sex)
never rules anyone out.
"""

from filialog.journal.parentage.breeders import Side
from filialog.journal.parentage.claims import Claim, Ground, GroundKind, ParentSet
from filialog.journal.parentage.parents_of_broods import BroodParents, Parentage
from filialog.journal.parentage.ruled_out import RuledOut

__all__ = [
    "BroodParents",
    "Claim",
    "Ground",
    "GroundKind",
    "ParentSet",
    "Parentage",
    "RuledOut",
    "Side",
]

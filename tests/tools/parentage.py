"""Parents of a brood, from a journal of a few lines."""

from collections.abc import Sequence

from filialog.journal.parentage import (
    BroodParents,
    Ground,
    GroundKind,
    ParentSet,
)
from tools.diaries import checked, diary_files

__all__ = ["PAIR", "SPECIES", "ground", "kinds", "parents_of"]

SPECIES = "species: neocaridina-davidi\n"
# 60 days to maturity, 15 to 31 days to hatching. Young seen on 1 March hatched from 26 February
# on; their eggs were fertilised from 26 January to 14 February.


def parents_of(
    diary: str, brood: str = "young", *, settings: str = SPECIES, tanks: Sequence[str] = ()
) -> BroodParents:
    found = checked(diary_files(diary, settings=settings, tanks=tanks)).parentage.of(brood)
    assert found is not None
    return found


def ground(parents: ParentSet, kind: GroundKind) -> Ground:
    return next(one for one in parents.grounds if one.kind is kind)


def kinds(parents: ParentSet) -> set[GroundKind]:
    return {one.kind for one in parents.grounds}


PAIR = """
    2026-01-01 fen | bought: {group: dusk, females: 1}
    2026-01-01 fen | bought: {group: dawn, males: 1}
"""

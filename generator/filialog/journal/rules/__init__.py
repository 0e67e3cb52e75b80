"""Rules of sense: each looks at the whole journal and tells what does not hold together.

In: a `Context` with the journal and what was worked out of it. Out: findings. One rule a file;
the order of the table is the order in which they run.
"""

from filialog.journal.rules import (
    addresses_differ,
    genotypes_readable,
    grades_declared,
    groups_known,
    links_known,
    looks_known,
    pages_used,
    parentage_loops,
    parents_adult,
    parents_of_one_sex,
    parents_of_right_sex,
    parents_there,
    tanks_known,
)
from filialog.journal.rules.context import Context, Rule

__all__ = ["RULES", "Context", "Rule"]

RULES: tuple[Rule, ...] = (
    tanks_known.check,
    groups_known.check,
    addresses_differ.check,
    pages_used.check,
    links_known.check,
    looks_known.check,
    grades_declared.check,
    genotypes_readable.check,
    parentage_loops.check,
    parents_adult.check,
    parents_of_right_sex.check,
    parents_there.check,
    parents_of_one_sex.check,
)
"""All rules."""

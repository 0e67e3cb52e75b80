"""Analysis: a checked journal in, result rows out; no HTML.

In: a `CheckedJournal` in the view that is published. Out: `JournalResults`, which gives for
every group, tank, line, cross and brood a row of values with level, bounds and the events they
rest on. Every result is a node that records what it read.
"""

from filialog.analysis.results import JournalResults

__all__ = ["JournalResults"]

"""The journal: frozen records, the book of animals, and the public view.

In: records as read from text. Out: who is where and how many, what does not add up, and the
journal as it may be published.
"""

from filialog.journal.check import CheckedJournal, check_journal
from filialog.journal.public import public_view

__all__ = ["CheckedJournal", "check_journal", "public_view"]

"""The book of animals: double entry with bounds.

In: the events of a journal. Out: for any day, who is in which tank and how many, as exact
integer bounds; what does not add up, as findings; differences between book and count, as
entries of an explicit *unaccounted* account.
"""

from filialog.journal.ledger.book import Book, Difference, Posting
from filialog.journal.ledger.booking import keep_book

__all__ = ["Book", "Difference", "Posting", "keep_book"]

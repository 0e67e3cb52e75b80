"""Text in, records and findings out; Markdown to HTML with link slots that pages fill.

In: the files of a journal as bytes by path. Out: one `ReadResult` with the journal, all
findings in one run, and the lines they point at. Nothing is guessed: what cannot be read is
left out with a finding, and what may have been meant to be private is private.
"""

from filialog.reading.journal_reader import ReadResult, read_journal

__all__ = ["ReadResult", "read_journal"]

"""All codes of findings, by code."""

from filialog.findings.code import Code
from filialog.findings.codes_build import BUILD_CODES
from filialog.findings.codes_journal import JOURNAL_CODES
from filialog.findings.codes_reading import READING_CODES
from filialog.findings.finding import Severity

__all__ = ["CODES", "severity_of"]

CODES: dict[str, Code] = {
    code.code: code for code in (*BUILD_CODES, *READING_CODES, *JOURNAL_CODES)
}
"""Every code there is; the handbook prints them from here."""


def severity_of(code: str) -> Severity:
    """Return how grave a code is."""
    return CODES[code].severity

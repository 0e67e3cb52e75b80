"""Findings: faults and oddities as values, the catalogue of their codes, their text form.

In: what a room has noticed, with places in the keeper's files. Out: ordered text.
"""

from filialog.findings.finding import Finding, Mark, Place, Severity
from filialog.findings.nearest import did_you_mean, nearest_name

__all__ = ["Finding", "Mark", "Place", "Severity", "did_you_mean", "nearest_name"]

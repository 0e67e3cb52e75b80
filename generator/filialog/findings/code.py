"""What is known of a code: how grave it is, what it means, what to write instead."""

from dataclasses import dataclass

from filialog.findings.finding import Severity

__all__ = ["Code"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Code:
    """One kind of finding."""

    code: str
    """A letter for the area and three digits; never used for anything else later."""
    severity: Severity
    """How grave it is."""
    title: str
    """What it is, in a few words."""
    why: str
    """Why it matters, one or two sentences."""
    example: str = ""
    """Text that gives it."""
    better: str = ""
    """The same, put right."""

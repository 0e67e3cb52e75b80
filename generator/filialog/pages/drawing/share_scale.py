"""What the drawings of shares have in common: checked fractions and the marks of a scale."""

from filialog.domain_error import DomainError

__all__ = ["check_range", "check_share", "percent"]


def check_share(quantity: str, value: float | None) -> None:
    """Refuse a share that is no fraction from 0 to 1; None passes."""
    if value is not None and not 0.0 <= value <= 1.0:  # written so that NaN fails too
        raise DomainError(quantity, value, "0 to 1")


def check_range(quantity: str, low: float | None, high: float | None) -> None:
    """Refuse an interval that lacks one end, or whose ends are swapped."""
    check_share(quantity, low)
    check_share(quantity, high)
    if (low is None) != (high is None) or (low is not None and high is not None and low > high):
        raise DomainError(quantity, (low, high), "both ends, the lower one first, or neither")


def percent(share: float) -> str:
    """Return a whole percentage, with the space that the SI brochure (5.4.7) asks for."""
    return f"{share * 100:.0f}\N{NARROW NO-BREAK SPACE}%"

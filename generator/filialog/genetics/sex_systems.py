"""Systems of sex chromosomes by their usual names."""

from filialog.domain_error import DomainError
from filialog.genetics.trait_model import Locus, SexSystem

__all__ = ["SEX_SYSTEMS", "sex_system"]

_Pairs = tuple[tuple[str, str], ...]

SEX_SYSTEMS: dict[str, tuple[tuple[str, ...], _Pairs, _Pairs]] = {
    "XY": (("X", "Y"), (("X", "X"),), (("X", "X"), ("X", "Y"))),
    "ZW": (("Z", "W"), (("Z", "W"), ("W", "W")), (("Z", "Z"), ("Z", "W"))),
    "WXY": (
        ("W", "X", "Y"),
        (("W", "W"), ("W", "X"), ("W", "Y"), ("X", "X")),
        (("W", "X"), ("W", "Y"), ("X", "X"), ("X", "Y"), ("Y", "Y")),
    ),
}
"""Chromosomes, pairs that make a female, and pairs that come about without sex reversal."""


def sex_system(system: str, *, locus: str = "sex") -> tuple[Locus, SexSystem]:
    """Return the locus and the rules of a system of sex chromosomes.

    Parameters
    ----------
    system
        `XY` (X/X female, X/Y male), `ZW` (Z/W female, Z/Z male) or `WXY` (W/X, W/Y
        and X/X female, X/Y and Y/Y male).
    locus
        Name of the locus that decides the sex.

    Returns
    -------
    tuple of Locus and SexSystem
        Both belong into the trait model.

    Raises
    ------
    DomainError
        If the system is none of these.

    Notes
    -----
    Y/Y is taken as male and W/W as female, as sex-reversed parents showed in the
    medaka [1]_; W/X/Y is the system of the platyfish (Gordon; Kallman; from memory).

    References
    ----------
    .. [1] Yamamoto T. (1955) Genetics 40:406-419.

    Examples
    --------
    >>> sex_system("XY")[0].alleles
    ('X', 'Y')
    """
    if system not in SEX_SYSTEMS:
        raise DomainError("system of sex chromosomes", system, f"one of {', '.join(SEX_SYSTEMS)}")
    chromosomes, female, usual = SEX_SYSTEMS[system]
    return (
        Locus(name=locus, alleles=chromosomes),
        SexSystem(locus=locus, female=female, usual=usual),
    )

"""Ammonia, nitrite and nitrate as nitrogen or as the whole ion."""

from enum import StrEnum

from filialog.husbandry.guards import zero_or_more
from filialog.husbandry.provenance import Basis, Provenance

__all__ = ["NITROGEN_FORMS", "NitrogenForm", "mg_n_per_l", "mg_per_l_as"]

NITROGEN_FORMS = Provenance(
    source="IUPAC (2022) Standard atomic weights of the elements 2021, abridged values",
    basis=Basis.ARITHMETIC,
)
"""What the conversions rest on."""

_N, _H, _O = 14.007, 1.008, 15.999


class NitrogenForm(StrEnum):
    """What the milligrams of a test kit are milligrams of."""

    N = "N"
    """Nitrogen alone: NH3-N, TAN, NO2-N, NO3-N."""
    NH3 = "NH3"
    """Ammonia. A kit that says so mostly counts ammonia and ammonium together in it."""
    NH4 = "NH4"
    """Ammonium. A kit that says so mostly counts ammonia and ammonium together in it."""
    NO2 = "NO2"
    """Nitrite."""
    NO3 = "NO3"
    """Nitrate."""


_MG_PER_MG_N = {
    NitrogenForm.N: 1.0,
    NitrogenForm.NH3: (_N + 3.0 * _H) / _N,
    NitrogenForm.NH4: (_N + 4.0 * _H) / _N,
    NitrogenForm.NO2: (_N + 2.0 * _O) / _N,
    NitrogenForm.NO3: (_N + 3.0 * _O) / _N,
}


def mg_n_per_l(value_mg_per_l: float, *, form: NitrogenForm) -> float:
    """Return milligrams of nitrogen per litre from a reading in some form.

    Parameters
    ----------
    value_mg_per_l
        The reading in mg/L of that form, zero or more.
    form
        What the kit counts.

    Returns
    -------
    float
        mg/L as nitrogen.

    Raises
    ------
    DomainError
        If the reading is negative or not finite.

    Notes
    -----
    Total ammonia (TAN) is ammonia and ammonium together. It may be written as N, as NH3 or as
    NH4, and the form here says how it is written, not how much of it is which.

    References
    ----------
    .. [1] IUPAC (2022) Standard atomic weights of the elements 2021, abridged values.

    Examples
    --------
    >>> round(mg_n_per_l(10.0, form=NitrogenForm.NO3), 2)
    2.26
    """
    return zero_or_more(f"reading (mg/L as {form})", value_mg_per_l) / _MG_PER_MG_N[form]


def mg_per_l_as(value_mg_n_per_l: float, *, form: NitrogenForm) -> float:
    """Return milligrams per litre of some form from nitrogen, the reverse of `mg_n_per_l`.

    Parameters
    ----------
    value_mg_n_per_l
        mg/L as nitrogen, zero or more.
    form
        What is to be counted.

    Returns
    -------
    float
        mg/L of that form.

    Raises
    ------
    DomainError
        If the amount is negative or not finite.

    Examples
    --------
    >>> round(mg_per_l_as(1.0, form=NitrogenForm.NO2), 2)
    3.28
    """
    return zero_or_more("nitrogen (mg/L as N)", value_mg_n_per_l) * _MG_PER_MG_N[form]

"""Hardness of water from one unit to another."""

from enum import StrEnum

from filialog.husbandry.guards import zero_or_more
from filialog.husbandry.provenance import Basis, Provenance

__all__ = ["HARDNESS_UNITS", "HardnessUnit", "convert_hardness"]

HARDNESS_UNITS = Provenance(
    source=(
        "definitions of the degrees of hardness (1 °d is 10 mg/L CaO), with IUPAC (2022) Standard"
        " atomic weights of the elements 2021, abridged values; grain and gallons as fixed by law"
    ),
    basis=Basis.ARITHMETIC,
)
"""What the conversions rest on."""

_CA, _C, _O, _H = 40.078, 12.011, 15.999, 1.008
_CAO_G_PER_MOL = _CA + _O
_CACO3_G_PER_MOL = _CA + _C + 3.0 * _O
_HCO3_G_PER_MOL = _H + _C + 3.0 * _O
_MG_PER_GRAIN = 64.79891
_LITRES_PER_IMPERIAL_GALLON = 4.54609
_LITRES_PER_US_GALLON = 3.785411784


class HardnessUnit(StrEnum):
    """A unit for general hardness (calcium and magnesium) or carbonate hardness (alkalinity)."""

    GERMAN_DEGREES = "°d"
    """German degrees: °dGH or °dKH, 10 mg/L of calcium oxide each."""
    MG_CACO3_PER_L = "mg/L CaCO3"
    """Milligrams per litre, counted as calcium carbonate; a hardness in ppm is this."""
    MMOL_PER_L = "mmol/L"
    """Millimoles per litre of calcium and magnesium, or of calcium carbonate."""
    MEQ_PER_L = "meq/L"
    """Milliequivalents per litre, two to the millimole."""
    MG_HCO3_PER_L = "mg/L HCO3"
    """Milligrams per litre of hydrogen carbonate; for carbonate hardness only."""
    FRENCH_DEGREES = "°f"
    """French degrees, 10 mg/L of calcium carbonate each."""
    CLARK_DEGREES = "°e"
    """English (Clark) degrees: one grain of calcium carbonate to the imperial gallon."""
    GRAINS_PER_US_GALLON = "gr/gal (US)"
    """Grains of calcium carbonate to the gallon of the United States."""


_MG_CACO3_PER_L = {
    HardnessUnit.GERMAN_DEGREES: 10.0 * _CACO3_G_PER_MOL / _CAO_G_PER_MOL,
    HardnessUnit.MG_CACO3_PER_L: 1.0,
    HardnessUnit.MMOL_PER_L: _CACO3_G_PER_MOL,
    HardnessUnit.MEQ_PER_L: _CACO3_G_PER_MOL / 2.0,
    HardnessUnit.MG_HCO3_PER_L: _CACO3_G_PER_MOL / (2.0 * _HCO3_G_PER_MOL),
    HardnessUnit.FRENCH_DEGREES: 10.0,
    HardnessUnit.CLARK_DEGREES: _MG_PER_GRAIN / _LITRES_PER_IMPERIAL_GALLON,
    HardnessUnit.GRAINS_PER_US_GALLON: _MG_PER_GRAIN / _LITRES_PER_US_GALLON,
}


def convert_hardness(value: float, *, given: HardnessUnit, wanted: HardnessUnit) -> float:
    """Return a hardness in another unit.

    Parameters
    ----------
    value
        The hardness in the unit `given`, zero or more.
    given, wanted
        The units.

    Returns
    -------
    float
        The hardness in the unit `wanted`.

    Raises
    ------
    DomainError
        If the hardness is negative or not finite.

    Notes
    -----
    General and carbonate hardness are counted alike but are two quantities; one is never the
    other. Magnesium counts as its molar equivalent of calcium, so the result says nothing about
    their ratio.

    References
    ----------
    .. [1] IUPAC (2022) Standard atomic weights of the elements 2021, abridged values.

    Examples
    --------
    >>> degrees, milligrams = HardnessUnit.GERMAN_DEGREES, HardnessUnit.MG_CACO3_PER_L
    >>> round(convert_hardness(1.0, given=degrees, wanted=milligrams), 2)
    17.85
    """
    zero_or_more(f"hardness ({given})", value)
    return value * (_MG_CACO3_PER_L[given] / _MG_CACO3_PER_L[wanted])

"""How much water is in a tank, how much room its animals have, and what it weighs."""

import math

from filialog.domain_error import DomainError
from filialog.husbandry.guards import above_zero, zero_or_more
from filialog.husbandry.provenance import Basis, Provenance, Sourced

__all__ = [
    "SHELF_LOAD_CAUTION",
    "SOIL_POROSITY",
    "displaced_litres",
    "filled_mass_kg",
    "floor_load_kn_per_m2",
    "glass_volume_l",
    "litres_evaporated",
    "net_litres",
    "soil_displaced_litres",
    "stocking_per_dm2",
    "stocking_per_l",
]

SHELF_LOAD_CAUTION = "caution.shelf-load"
"""Key of the text shown beside every mass and load: a structural engineer and the local building
code decide what a shelf or a floor bears."""

SOIL_POROSITY: Sourced[float] = Sourced(
    value=0.5,
    sources=(Provenance(source="half of laid soil is water", basis=Basis.FROM_MEMORY),),
)
"""Share of the volume of laid soil that is water."""

_GLASS_KG_PER_L = 2.5
_STANDARD_GRAVITY = 9.80665


def glass_volume_l(
    *, length_cm: float, width_cm: float, height_cm: float, glass_mm: float, gap_cm: float
) -> float:
    """Return the water in an empty tank of glass, filled to below its rim.

    Parameters
    ----------
    length_cm, width_cm, height_cm
        Outside measures in cm, above zero.
    glass_mm
        Thickness of the panes and of the floor in mm, zero or more.
    gap_cm
        From the rim down to the water in cm, zero or more.

    Returns
    -------
    float
        Litres.

    Raises
    ------
    DomainError
        If a measure is out of its range, or nothing is left inside.

    Examples
    --------
    >>> cube = glass_volume_l(length_cm=30, width_cm=30, height_cm=30, glass_mm=5, gap_cm=2)
    >>> round(cube, 2)
    23.13
    """
    for name, measure in (("length", length_cm), ("width", width_cm), ("height", height_cm)):
        above_zero(f"{name} (cm)", measure)
    zero_or_more("thickness of glass (mm)", glass_mm)
    zero_or_more("gap below the rim (cm)", gap_cm)
    glass_cm = glass_mm / 10.0
    inside = (length_cm - 2 * glass_cm, width_cm - 2 * glass_cm, height_cm - glass_cm - gap_cm)
    if not min(inside) > 0.0:
        raise DomainError("smallest inner measure (cm)", min(inside), "more than 0")
    return math.prod(inside) / 1000.0


def soil_displaced_litres(
    *, length_cm: float, width_cm: float, depth_cm: float, porosity: float = SOIL_POROSITY.value
) -> float:
    """Return the water that laid soil takes the place of.

    Parameters
    ----------
    length_cm, width_cm
        Inner measures of the floor in cm, above zero.
    depth_cm
        Mean depth of the soil in cm, zero or more.
    porosity
        Share of the soil's volume that is water, 0 to 1.

    Returns
    -------
    float
        Litres.

    Raises
    ------
    DomainError
        If a number is out of its range.

    Examples
    --------
    >>> round(soil_displaced_litres(length_cm=29, width_cm=29, depth_cm=4), 1)
    1.7
    """
    above_zero("inner length (cm)", length_cm)
    above_zero("inner width (cm)", width_cm)
    zero_or_more("depth of soil (cm)", depth_cm)
    if not 0.0 <= porosity <= 1.0:
        raise DomainError("porosity of soil", porosity, "0 to 1")
    return length_cm * width_cm * depth_cm * (1.0 - porosity) / 1000.0


def displaced_litres(*, length_cm: float, width_cm: float, rise_cm: float) -> float:
    """Return the volume of stones and wood from the rise of the water they caused.

    Parameters
    ----------
    length_cm, width_cm
        Inner measures of the tank in cm, above zero.
    rise_cm
        By how much the water rose in cm, zero or more.

    Returns
    -------
    float
        Litres.

    Raises
    ------
    DomainError
        If a number is out of its range.

    Examples
    --------
    >>> round(displaced_litres(length_cm=29, width_cm=29, rise_cm=0.8), 2)
    0.67
    """
    return soil_displaced_litres(
        length_cm=length_cm, width_cm=width_cm, depth_cm=rise_cm, porosity=0.0
    )


def litres_evaporated(*, length_cm: float, width_cm: float, drop_cm: float) -> float:
    """Return the water lost to the air from the drop of the level.

    Parameters
    ----------
    length_cm, width_cm
        Inner measures of the tank in cm, above zero.
    drop_cm
        By how much the water sank in cm, zero or more, with nothing taken out.

    Returns
    -------
    float
        Litres; salts stay behind, so that they are replaced by water without any.

    Raises
    ------
    DomainError
        If a number is out of its range.

    Examples
    --------
    >>> round(litres_evaporated(length_cm=29, width_cm=29, drop_cm=1), 2)
    0.84
    """
    return displaced_litres(length_cm=length_cm, width_cm=width_cm, rise_cm=drop_cm)


def net_litres(*, glass_l: float, soil_l: float = 0.0, hardscape_l: float = 0.0) -> float:
    """Return the water in a furnished tank, for doses and stocking.

    Parameters
    ----------
    glass_l
        Water in the empty tank in litres, above zero.
    soil_l
        Water the soil takes the place of in litres, zero or more.
    hardscape_l
        Volume of stones and wood under water in litres, zero or more.

    Returns
    -------
    float
        Litres.

    Raises
    ------
    DomainError
        If a number is out of its range or no water is left.

    Examples
    --------
    >>> round(net_litres(glass_l=23.13, soil_l=1.68, hardscape_l=0.67), 2)
    20.78
    """
    above_zero("water in the empty tank (L)", glass_l)
    zero_or_more("soil (L)", soil_l)
    zero_or_more("stones and wood (L)", hardscape_l)
    left = glass_l - soil_l - hardscape_l
    if not left > 0.0:
        raise DomainError("water left beside soil, stones and wood (L)", left, "more than 0")
    return left


def stocking_per_l(*, animals: int, net_l: float) -> float:
    """Return animals per litre of water.

    Parameters
    ----------
    animals
        Animals in the tank, zero or more.
    net_l
        Net litres, above zero.

    Returns
    -------
    float
        Animals per litre. The one test known to us (juveniles of *Neocaridina davidi*, 90 days)
        had 2.5, 5 and 10: Vazquez et al. 2017, J. Crust. Biol. 37:367-373 (abstract read);
        growth was best at 2.5 (read on a secondary page only).

    Raises
    ------
    DomainError
        If a number is out of its range.

    Examples
    --------
    >>> stocking_per_l(animals=50, net_l=20.0)
    2.5
    """
    _animals(animals)
    above_zero("net litres", net_l)
    return animals / net_l


def stocking_per_dm2(*, animals: int, length_cm: float, width_cm: float) -> float:
    """Return animals per square decimetre of floor: shrimp and snails live on surfaces.

    Parameters
    ----------
    animals
        Animals in the tank, zero or more.
    length_cm, width_cm
        Inner measures of the floor in cm, above zero.

    Returns
    -------
    float
        Animals per dm² (100 cm²).

    Raises
    ------
    DomainError
        If a number is out of its range.

    Examples
    --------
    >>> stocking_per_dm2(animals=45, length_cm=30, width_cm=30)
    5.0
    """
    _animals(animals)
    above_zero("inner length (cm)", length_cm)
    above_zero("inner width (cm)", width_cm)
    return animals * 100.0 / (length_cm * width_cm)


def filled_mass_kg(
    *,
    length_cm: float,
    width_cm: float,
    height_cm: float,
    glass_mm: float,
    water_l: float,
    furnishing_kg: float = 0.0,
) -> float:
    """Return the mass of a filled tank of glass; always shown with `SHELF_LOAD_CAUTION`.

    Parameters
    ----------
    length_cm, width_cm, height_cm
        Outside measures in cm, above zero.
    glass_mm
        Thickness of the panes and of the floor in mm, zero or more.
    water_l
        Water in litres, zero or more.
    furnishing_kg
        Dry mass of soil, stones, lid and equipment in kg, zero or more.

    Returns
    -------
    float
        Kilograms: water 1 kg/L, glass 2.5 kg/L (soda-lime glass, from memory), the rest as given.

    Raises
    ------
    DomainError
        If a number is out of its range.

    Examples
    --------
    >>> mass = filled_mass_kg(
    ...     length_cm=30, width_cm=30, height_cm=30, glass_mm=5, water_l=20.8, furnishing_kg=3
    ... )
    >>> round(mass, 1)
    29.3
    """
    zero_or_more("water (L)", water_l)
    zero_or_more("soil, stones, lid and equipment (kg)", furnishing_kg)
    inside = glass_volume_l(
        length_cm=length_cm, width_cm=width_cm, height_cm=height_cm, glass_mm=glass_mm, gap_cm=0.0
    )
    glass_l = length_cm * width_cm * height_cm / 1000.0 - inside
    return water_l + glass_l * _GLASS_KG_PER_L + furnishing_kg


def floor_load_kn_per_m2(*, mass_kg: float, length_cm: float, width_cm: float) -> float:
    """Return the load a rack puts on the floor; always shown with `SHELF_LOAD_CAUTION`.

    Parameters
    ----------
    mass_kg
        Mass of the rack and all on it in kg, zero or more.
    length_cm, width_cm
        Outer measures of its footprint in cm, above zero.

    Returns
    -------
    float
        Kilonewtons per square metre, spread evenly over the footprint. Whether a floor bears it
        is not for this program to say.

    Raises
    ------
    DomainError
        If a number is out of its range.

    Examples
    --------
    >>> round(floor_load_kn_per_m2(mass_kg=360, length_cm=90, width_cm=45), 1)
    8.7
    """
    zero_or_more("mass (kg)", mass_kg)
    above_zero("length (cm)", length_cm)
    above_zero("width (cm)", width_cm)
    return mass_kg * _STANDARD_GRAVITY / 1000.0 / (length_cm * width_cm / 10_000.0)


def _animals(animals: int) -> None:
    """Refuse a negative number of animals."""
    if not animals >= 0:
        raise DomainError("animals", animals, "0 or more")

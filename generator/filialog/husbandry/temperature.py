"""Temperatures of water between degrees Celsius and Fahrenheit."""

from filialog.husbandry.guards import in_range

__all__ = ["celsius_from_fahrenheit", "fahrenheit_from_celsius"]


def celsius_from_fahrenheit(temperature_f: float) -> float:
    """Return a water temperature in °C.

    Parameters
    ----------
    temperature_f
        Temperature of liquid water in °F, 32 to 212.

    Returns
    -------
    float
        Temperature in °C.

    Raises
    ------
    DomainError
        If water of this temperature is not liquid, or it is not a number. A reading in °C taken
        for °F mostly falls here.

    Notes
    -----
    By definition of the degree Fahrenheit, 1.8 °F to the K and 32 °F at 0 °C.

    Examples
    --------
    >>> celsius_from_fahrenheit(77.0)
    25.0
    """
    in_range("water temperature (°F)", temperature_f, low=32.0, high=212.0)
    return (temperature_f - 32.0) / 1.8


def fahrenheit_from_celsius(temperature_c: float) -> float:
    """Return a water temperature in °F, the reverse of `celsius_from_fahrenheit`.

    Parameters
    ----------
    temperature_c
        Temperature of liquid water in °C, 0 to 100.

    Returns
    -------
    float
        Temperature in °F.

    Raises
    ------
    DomainError
        If water of this temperature is not liquid, or it is not a number.

    Examples
    --------
    >>> fahrenheit_from_celsius(20.0)
    68.0
    """
    in_range("water temperature (°C)", temperature_c, low=0.0, high=100.0)
    return temperature_c * 1.8 + 32.0

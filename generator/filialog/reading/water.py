"""Water readings: the units each quantity can have, and values with their bounds.

Units that differ by a definition alone are brought to one (mS/cm to µS/cm, µg/L to mg/L,
°F to °C); those that differ by chemistry or by an instrument (mg/L CaCO3, mg/L as nitrogen,
ppm of a pen) keep their unit. `~` before a value is a convention: a tenth either way, for
pH 0.2, for temperature 1 °C (common practice, no source).

A bare number takes the unit that journal.yaml declares, else the usual one where there is
one: pH none, hardness °dGH and °dKH, temperature °C, conductivity µS/cm, the rest mg/L. For
dissolved solids there is none: pens show ppm or µS/cm.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from filialog.findings.finding import Place
from filialog.findings.nearest import did_you_mean
from filialog.journal.heads import QUANTITY_NAMES
from filialog.journal.keys import Key
from filialog.journal.quantities import Reading
from filialog.reading.node import Kind, Node
from filialog.reading.scalars import report_slip, scalar_text
from filialog.reading.sheet import Sheet

__all__ = ["canonical_unit", "read_ranges", "read_reading", "unit_names"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Unit:
    """A unit that a reading can be written in."""

    name: str
    """As shown."""
    spellings: tuple[str, ...]
    """Further spellings; case and blanks do not matter."""
    factor: float = 1.0
    """Multiplied with the number written to bring it to the unit `into`."""
    offset: float = 0.0
    """Added to the number written, before the factor."""
    into: str | None = None
    """The unit it is brought to, where it is another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Quantity:
    """What a quantity can be measured in, and between which values it can lie."""

    units: tuple[_Unit, ...]
    """The usual one first."""
    low: float
    """A lower value is impossible; in the first unit."""
    high: float
    """A higher value is taken for a slip; in the first unit."""
    about: float | None = None
    """Half the width that `~` gives; None for a tenth of the value."""
    usual: bool = True
    """Whether a bare number can only be meant in the first unit."""


_MG = _Unit(name="mg/L", spellings=("mg/l", "mgl", "mg/ltr", "ppm"))
_UG = _Unit(name="µg/L", spellings=("ug/l",), factor=0.001, into="mg/L")
_MG_N = _Unit(name="mg/L N", spellings=("mg/ln", "mg/l-n", "mgn/l", "mg-n/l", "mg/lasn"))
_US = _Unit(name="µS/cm", spellings=("us/cm", "µs", "us"))
_MS = _Unit(name="mS/cm", spellings=("ms/cm", "ms"), factor=1000.0, into="µS/cm")
_CACO3 = _Unit(name="mg/L CaCO3", spellings=("mg/lcaco3", "ppmcaco3", "ppm", "mg/l", "mg/lascaco3"))
_MMOL = _Unit(name="mmol/L", spellings=("mmol/l",))
_MEQ = _Unit(name="meq/L", spellings=("meq/l", "mval/l"))
_PPM = _Unit(name="ppm", spellings=("ppm", "mg/l"))
_CELSIUS = _Unit(name="°C", spellings=("°c", "c", "ºc", "degc", "celsius", "°"))
_FAHRENHEIT = _Unit(
    name="°F",
    spellings=("°f", "f", "ºf", "degf", "fahrenheit"),
    factor=1 / 1.8,
    offset=-32.0,
    into="°C",
)
_DGH = _Unit(name="°dGH", spellings=("°dgh", "dgh", "°d", "°dh", "dh", "°gh", "gh", "°"))
_DKH = _Unit(name="°dKH", spellings=("°dkh", "dkh", "°d", "°dh", "dh", "°kh", "kh", "°"))
_PH = _Unit(name="", spellings=("ph",))

_ION = (_MG, _MG_N, _UG)
_QUANTITIES = {
    "ph": _Quantity(units=(_PH,), low=0, high=14, about=0.2),
    "gh": _Quantity(units=(_DGH, _CACO3, _MMOL), low=0, high=100),
    "kh": _Quantity(units=(_DKH, _CACO3, _MEQ, _MMOL), low=0, high=100),
    "ec": _Quantity(units=(_US, _MS), low=0, high=100_000),
    "tds": _Quantity(units=(_PPM, _US, _MS), low=0, high=100_000, usual=False),
    "temperature": _Quantity(units=(_CELSIUS, _FAHRENHEIT), low=0, high=45, about=1.0),
    "nh3": _Quantity(units=_ION, low=0, high=1000),
    "nh4": _Quantity(units=_ION, low=0, high=1000),
    "tan": _Quantity(
        units=(
            _Unit(name="mg/L", spellings=(*_MG.spellings, *_MG_N.spellings, "mg/ln")),
            _UG,
        ),
        low=0,
        high=1000,
    ),
    "no2": _Quantity(units=_ION, low=0, high=1000),
    "no3": _Quantity(units=_ION, low=0, high=5000),
    "o2": _Quantity(units=(_MG, _Unit(name="%", spellings=())), low=0, high=500),
    "cu": _Quantity(units=(_MG, _UG), low=0, high=1000),
}
"""Limits are wide on purpose: they catch slips of the pen, not unusual water."""

_WRITTEN = re.compile(
    r"(?P<sign>[~<>≤≥]?)\s*(?P<low>[-−]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+))"
    r"(?:\s*-\s*(?P<high>(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)))?\s*(?P<unit>.*)",
    re.DOTALL,
)


def unit_names(quantity: str) -> tuple[str, ...]:
    """Return the names of the units that a quantity can have."""
    return tuple(unit.name for unit in _QUANTITIES[quantity].units if unit.name)


def canonical_unit(quantity: str, written: str) -> str | None:
    """Return the unit that readings written in another are kept in; None for no such unit."""
    unit = _find_unit(quantity, written)
    return None if unit is None else unit.into or unit.name


@lru_cache(maxsize=1024)
def _find_unit(name: str, written: str) -> _Unit | None:
    folded = _folded(written)
    for unit in _QUANTITIES[name].units:
        if folded == _folded(unit.name) or folded in map(_folded, unit.spellings):
            return unit
    return None


def _folded(spelling: str) -> str:
    """Drop blanks and case; the micro sign and the Greek letter become one."""
    return "".join(spelling.split()).casefold()


def read_reading(node: Node, key: Key, sheet: Sheet) -> Reading | None:
    """Read a value of the quantity that the key names."""
    written = scalar_text(node, key, sheet)
    return None if written is None else _reading(written.strip(), node, key.name, sheet)


def read_ranges(node: Node, key: Key, sheet: Sheet) -> tuple[tuple[str, Reading], ...] | None:
    """Read target ranges, `{quantity: low-high}`."""
    if node.kind is not Kind.MAP:
        if node.kind is not Kind.REPORTED:
            sheet.fault(
                "R202",
                node,
                f"`{key.name}` needs a mapping",
                helps=(f"write `{key.name}: {{ph: 6.2-6.8, temperature: 21-24}}`",),
            )
        return None
    ranges: list[tuple[str, Reading]] = []
    for name, value in node.pairs:
        if name.text not in _QUANTITIES:
            sheet.fault(
                "R201",
                name,
                f"`{name.text}` is no quantity that water is measured by",
                helps=did_you_mean(name.text, QUANTITY_NAMES, kind="quantity"),
            )
            continue
        written = scalar_text(value, Key(name=name.text, shape=key.shape, says=key.says), sheet)
        if written is None:
            continue
        reading = _reading(written.strip(), value, name.text, sheet)
        if reading is not None:
            ranges.append((name.text, reading))
    return tuple(ranges)


def _reading(text: str, node: Node, name: str, sheet: Sheet) -> Reading | None:
    quantity = _QUANTITIES[name]
    match = _WRITTEN.fullmatch(text)
    if match is None or match["unit"].startswith(","):
        _not_a_reading(text, node, name, sheet)
        return None
    unit = _unit_of(match["unit"].strip(), text, node, name, sheet)
    if unit is None:
        return None
    low = _converted(match["low"], unit)
    high = low if match["high"] is None else _converted(match["high"], unit)
    if high < low:
        sheet.fault(
            "R319",
            node,
            f"the range `{text}` begins with the larger value",
            helps=("write the smaller value first",),
        )
        return None
    if not _possible(low, high, unit, quantity):
        _impossible(text, node, name, low, sheet)
        return None
    bounds = _bounded(match["sign"], low, high, quantity)
    shown = text if match["unit"].strip() or not unit.name else f"{text} {unit.name}"
    return Reading(low=bounds[0], high=bounds[1], unit=unit.into or unit.name, text=shown)


def _converted(number: str, unit: _Unit) -> float:
    value = float(number.replace("−", "-"))
    if unit.into is None:
        return value
    return round((value + unit.offset) * unit.factor, 6)


def _bounded(
    sign: str, low: float, high: float, quantity: _Quantity
) -> tuple[float | None, float | None]:
    if sign in {"<", "≤"}:
        return None, high
    if sign in {">", "≥"}:
        return low, None
    if sign == "~":
        half = quantity.about
        below, above = (low * 0.1, high * 0.1) if half is None else (half, half)
        return max(quantity.low, round(low - below, 6)), round(high + above, 6)
    return low, high


def _possible(low: float, high: float, unit: _Unit, quantity: _Quantity) -> bool:
    """Say whether a value can be; units with another scale only have the lower limit."""
    if low < quantity.low:
        return False
    same_scale = (unit.into or unit.name) == quantity.units[0].name
    return not same_scale or high <= quantity.high


def _impossible(text: str, node: Node, name: str, value: float, sheet: Sheet) -> None:
    quantity = _QUANTITIES[name]
    unit = f" {quantity.units[0].name}" if quantity.units[0].name else ""
    helps: tuple[str, ...] = ()
    if name == "ph" and value > 14:
        digits = re.sub(r"\D", "", text)
        helps = (f"write `{digits[0]}.{digits[1:]}` where the point was left out",)
    elif name == "temperature" and 45 < value <= 113:
        helps = (f"write `{text.split(maxsplit=1)[0]} °F` where it is Fahrenheit",)
    sheet.fault(
        "R311",
        node,
        f"`{name}` cannot be `{text}`",
        notes=(f"it lies between {quantity.low:g} and {quantity.high:g}{unit}",),
        helps=helps,
    )


def _unit_of(written: str, text: str, node: Node, name: str, sheet: Sheet) -> _Unit | None:
    quantity = _QUANTITIES[name]
    if written in {"?", "~"}:
        number = text.rstrip("?~ ")
        sheet.fault(
            "R308",
            node,
            f"`{text}` has `{written}` behind the number",
            helps=(f"write `~{number}` where it is not certain",),
        )
        return None
    if written:
        unit = _find_unit(name, written)
        if unit is None and not report_slip(text, node, sheet):
            names = unit_names(name)
            sheet.fault(
                "R309",
                node,
                f"`{written}` is no unit of `{name}`",
                notes=(
                    f"`{name}` is measured in {', '.join(f'`{unit}`' for unit in names)}"
                    if names
                    else f"`{name}` has no unit",
                ),
            )
        _miss_pen(unit, node, name, sheet)
        return unit
    declared = sheet.desk.units.get(name)
    if declared is not None:
        unit = _find_unit(name, declared)
        _miss_pen(unit, node, name, sheet)
        return unit
    if quantity.usual:
        return quantity.units[0]
    if sheet.desk.settings_read:
        names = unit_names(name)
        sheet.fault(
            "R310",
            node,
            f"`{name}: {text}` has no unit, and more than one is common",
            helps=(
                f"write `{text} {names[0]}` or `{text} {names[1]}`",
                f"or declare it once in journal.yaml, `units: {{{name}: {names[0]}}}`",
            ),
        )
    else:
        sheet.give_up(node)
    return None


def _miss_pen(unit: _Unit | None, node: Node, name: str, sheet: Sheet) -> None:
    """Report once per journal that ppm of a pen mean nothing without its factor."""
    desk = sheet.desk
    if name != "tds" or unit is not _PPM or desk.pens_declared or desk.pen_missed:
        return
    if not desk.settings_read:
        return
    desk.pen_missed = True
    sheet.fault(
        "R322",
        Place(sheet.path, node.line, node.column, node.length),
        "a reading in ppm means nothing without the factor of its pen",
        notes=("pens multiply conductivity by 0.5 to 0.7; said once for the whole journal",),
        helps=(
            "declare the pen in journal.yaml, as in `pens: {pocket pen: 0.5}`",
            "or write what the pen shows as conductivity: `ec: 256 µS/cm`",
        ),
    )


def _not_a_reading(text: str, node: Node, name: str, sheet: Sheet) -> None:
    if report_slip(text, node, sheet):
        return
    if text in {"some", "?", "low", "high", "ok"}:
        sheet.fault(
            "R307",
            node,
            f"`{name}` needs a number, not `{text}`",
            helps=("leave the key out where it was not measured",),
        )
        return
    sheet.fault(
        "R308",
        node,
        f"`{name}` needs a number, not `{text}`",
        helps=("write a number with its unit, a range `21-24`, or `<0.05`",),
    )

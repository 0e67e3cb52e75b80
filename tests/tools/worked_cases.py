"""Worked cases with their sources, read from a YAML file beside the tests."""

from fractions import Fraction
from pathlib import Path
from typing import Any

import yaml

Case = dict[str, Any]


def read_cases(path: Path) -> list[Case]:
    """Read the cases of one file."""
    data = yaml.load(  # noqa: TID251 - test data, not a journal
        path.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader
    )
    cases: list[Case] = data["cases"]
    return cases


def flat(value: object, path: str = "") -> dict[str, Any]:
    """Return the numbers of nested mappings and lists by dotted path."""
    if isinstance(value, dict):
        pairs = [(str(key), part) for key, part in value.items()]
    elif isinstance(value, list | tuple):
        pairs = [(str(key), part) for key, part in enumerate(value)]
    else:
        return {path: value}
    together: dict[str, Any] = {}
    for key, part in pairs:
        together |= flat(part, f"{path}.{key}" if path else key)
    return together


def expected_numbers(case: Case) -> dict[str, float]:
    """Return every expected number of a case by dotted path; at least one."""
    found = {path: float(value) for path, value in flat(case["expected"]).items()}
    assert found
    return found


def exact_numbers(case: Case) -> dict[str, float]:
    """Return the expected numbers that are given as fractions."""
    fractions = flat(case.get("expected_exact", {}))
    return {path: float(Fraction(value)) for path, value in fractions.items()}

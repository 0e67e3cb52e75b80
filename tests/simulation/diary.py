"""The diary of the example, read without the product: a second reader keeps the checks apart."""

import re
from datetime import date
from functools import cache
from pathlib import Path
from typing import NamedTuple

import yaml

__all__ = ["SITE", "Happening", "diary", "front_matter", "happenings", "of_kind"]

SITE = Path(__file__).parents[2] / "example_site"


class Happening(NamedTuple):
    """One event of the example, as a plain mapping."""

    day: date
    written: date
    tank: str
    kind: str
    says: dict[str, object]

    def name(self, key: str) -> str:
        return str(self.says.get(key, ""))

    def names(self, key: str) -> list[str]:
        value = self.says.get(key, [])
        return [str(name) for name in value] if isinstance(value, list) else [str(value)]

    def number(self, key: str = "count") -> int:
        value = self.says[key]
        assert isinstance(value, int), (self.day, self.kind, key)
        return value

    def numbers(self, key: str) -> dict[str, int]:
        value = self.says.get(key, {})
        assert isinstance(value, dict)
        return {str(name): int(number) for name, number in value.items()}

    def others(self) -> int:
        value = self.says.get("other", [])
        assert isinstance(value, list)
        return sum(int(one["count"]) for one in value)


def front_matter(path: Path) -> dict[str, object]:
    text = path.read_text(encoding="utf-8")
    if not text.startswith("---\n"):
        return {}
    head = text.split("---\n", 2)[1]
    # The product's own reader is under test elsewhere; a second reader keeps this check apart.
    read = yaml.load(head, Loader=yaml.CSafeLoader)  # noqa: TID251 - see the line above
    assert isinstance(read, dict)
    return read


def diary() -> list[Path]:
    return sorted((SITE / "diary").rglob("*.md"))


def _day_said(says: dict[str, object], otherwise: date) -> date:
    """Return the last day of `when`, where it names days."""
    match = re.search(r"\d{4}-\d\d-\d\d$", str(says.get("when", "")))
    return date.fromisoformat(match[0]) if match else otherwise


def _happenings_of(path: Path) -> list[Happening]:
    written, tank = date.fromisoformat(path.stem[:10]), path.stem[11:]
    found: list[Happening] = []

    def collect(events: dict[str, object], place: str) -> None:
        for kind, value in events.items():
            if kind in {"title", "tanks", "private"}:
                continue
            for item in value if isinstance(value, list) else [value]:
                says = item if isinstance(item, dict) else {"bare": item}
                day = _day_said(says, written)
                found.append(Happening(day, written, str(says.get("tank", place)), kind, says))

    head = front_matter(path)
    by_tank = head.get("tanks", {})
    assert isinstance(by_tank, dict)
    for place, events in by_tank.items():
        collect(events, str(place))
    collect(head, tank)
    return found


@cache
def happenings() -> tuple[Happening, ...]:
    events = [event for path in diary() for event in _happenings_of(path)]
    return tuple(sorted(events, key=lambda event: event.day))


def of_kind(kind: str) -> list[Happening]:
    return [event for event in happenings() if event.kind == kind]

"""Pictures made by hand, for tests of pages: no file stands behind them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from filialog.journal.quantities import When
from filialog.pages import PictureShown, PictureSource

__all__ = ["FakePictures", "picture"]


def picture(
    path: str,
    *,
    alt: str | None = None,
    caption: str | None = None,
    day: str | None = "2026-08-20",
    side: str | None = None,
    groups: tuple[str, ...] = (),
    tank: str | None = None,
    looks: tuple[str, ...] = (),
) -> PictureShown:
    """Return a picture with three copies in each format."""
    name = f"pictures/{len(path):03}{sum(map(ord, path))}"
    return PictureShown(
        path=path,
        alt=alt,
        caption=caption,
        when=None if day is None else When.on(date.fromisoformat(day)),
        side=side,
        groups=groups,
        tank=tank,
        looks=looks,
        width=960,
        height=640,
        sources=(
            PictureSource(format="avif", copies=tuple((w, f"{name}-{w}.avif") for w in _WIDTHS)),
            PictureSource(format="jpeg", copies=tuple((w, f"{name}-{w}.jpg") for w in _WIDTHS)),
        ),
    )


_WIDTHS = (320, 720, 960)


@dataclass(frozen=True, kw_only=True)
class FakePictures:
    """Pictures by what they show."""

    entries: Mapping[str, tuple[PictureShown, ...]] = field(default_factory=dict)
    groups: Mapping[str, tuple[PictureShown, ...]] = field(default_factory=dict)
    tanks: Mapping[str, tuple[PictureShown, ...]] = field(default_factory=dict)
    lines: Mapping[str, tuple[PictureShown, ...]] = field(default_factory=dict)
    looks: Mapping[str, tuple[PictureShown, ...]] = field(default_factory=dict)
    paths: Mapping[str, PictureShown] = field(default_factory=dict)

    def of_entry(self, identifier: str) -> Sequence[PictureShown]:
        return self.entries.get(identifier, ())

    def of_group(self, name: str) -> Sequence[PictureShown]:
        return self.groups.get(name, ())

    def of_tank(self, name: str) -> Sequence[PictureShown]:
        return self.tanks.get(name, ())

    def of_line(self, name: str) -> Sequence[PictureShown]:
        return self.lines.get(name, ())

    def of_look(self, name: str) -> Sequence[PictureShown]:
        return self.looks.get(name, ())

    def of_path(self, path: str) -> PictureShown | None:
        return self.paths.get(path)

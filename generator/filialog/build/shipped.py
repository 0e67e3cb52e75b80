"""What is shipped with the program: the catalogue and the themes."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from filialog.build.files import Files, Kind

__all__ = ["Shipped", "read_shipped"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shipped:
    """The shipped files that a compile needs."""

    catalogue: Mapping[str, bytes]
    """Trait models and species, by path below `content/`."""
    theme: Mapping[str, str]
    """Templates and style sheets of one theme, by file name."""


def read_shipped(files: Files, theme: str = "plain") -> Shipped:
    """Read the catalogue and a theme, from the wheel or from the source tree."""
    package = Path(__file__).resolve().parents[1]
    root = package / "shipped"
    if not root.is_dir():
        root = package.parents[1]
    catalogue = {
        f"{folder}/{name}": data
        for folder in ("species", "traits")
        for name, data in _files_in(files, root / "content" / folder, (".yaml",))
    }
    templates = {
        name: data.decode("utf-8")
        for name, data in _files_in(files, root / "themes" / theme, (".jinja", ".css"))
    }
    return Shipped(catalogue=catalogue, theme=templates)


def _files_in(
    files: Files, folder: Path, endings: tuple[str, ...]
) -> tuple[tuple[str, bytes], ...]:
    return tuple(
        (entry.name, files.read(folder / entry.name))
        for entry in files.list_folder(folder)
        if entry.stat.kind is Kind.FILE and entry.name.endswith(endings)
    )

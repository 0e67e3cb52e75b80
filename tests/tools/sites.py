"""Compiling a journal as its keeper would, and reading the pages that come out."""

import os
import re
import subprocess
import sys
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from types import MappingProxyType

__all__ = [
    "EXAMPLE",
    "PAGE_KINDS",
    "ROOT",
    "Page",
    "Row",
    "Table",
    "compile_journal",
    "page_of_each_kind",
    "pages_of_kind",
    "read_page",
    "read_pages",
    "run_command",
    "tree_bytes",
    "words_in",
]

ROOT = Path(__file__).resolve().parents[2]
"""The checkout."""

EXAMPLE = ROOT / "example_site"
"""The invented journal that the end-to-end tests compile."""
PICTURES = ROOT / ".pytest_cache" / "pictures"
"""Finished copies of the example's pictures, rendered once and kept from run to run."""

PAGE_KINDS: Mapping[str, str] = MappingProxyType(
    {
        "front": "index.html",
        "group": "groups/",
        "pedigree": "pedigree/",
        "cross": "crosses/",
        "counts": "counts.html",
        "line": "lines/",
        "relatives": "relatives/",
        "tank": "tanks/",
        "entry": "entries/",
        "look": "looks/",
        "offers": "offers.html",
        "about": "about.html",
    }
)
"""Where the pages of each kind lie in a compiled folder: a file, or a folder of pages."""

# Elements without an end tag: HTML Living Standard, "Elements", void elements; from memory.
_VOID = frozenset({"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta"}) | {
    "source",
    "track",
    "wbr",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One look of a table of expected against observed."""

    look: str
    expected: float
    """Animals."""
    observed: int
    """Animals."""
    low: float
    """Lower end of the interval of the observed share, in [0, 1]."""
    high: float
    """Upper end of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table of expected against observed, as a page gives it."""

    p: float | None
    """None where no test was made."""
    method: str
    rows: tuple[Row, ...]


@dataclass(slots=True, kw_only=True)
class Page:
    """A page as text and tags."""

    name: str
    """Path within the compiled folder."""
    texts: list[str] = field(default_factory=list)
    """Every stretch of text that a reader sees, attributes with words included."""
    tags: list[tuple[str, dict[str, str]]] = field(default_factory=list)
    """Every start tag with its attributes, in order."""
    tables: list[Table] = field(default_factory=list)
    """Tables of expected against observed."""

    @property
    def text(self) -> str:
        """All text, one stretch a line."""
        return "\n".join(self.texts)


def run_command(
    *arguments: str | Path, variables: Mapping[str, str] | None = None, folder: Path = ROOT
) -> subprocess.CompletedProcess[str]:
    """Run the command line of the program in this Python; a hang is a failure.

    All compiles of the tests share one folder of finished pictures, for time's sake.
    """
    given = [*map(str, arguments)]
    if given[:1] == ["compile"] and "--pictures" not in given:
        given.extend(("--pictures", str(PICTURES)))
    return subprocess.run(
        [sys.executable, "-m", "filialog", *given],
        cwd=folder,
        env={**os.environ, **(variables or {})},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=300,
        check=False,
    )


def compile_journal(
    journal: Path, output: Path, *options: str, variables: Mapping[str, str] | None = None
) -> Path:
    """Compile a journal that has no errors and return the folder written."""
    done = run_command("compile", journal, "--output", output, *options, variables=variables)
    assert done.returncode == 0, f"exit code {done.returncode}\n{done.stdout}\n{done.stderr}"
    return output


def tree_bytes(folder: Path) -> dict[str, bytes]:
    """Return the content of every file of a folder, hidden ones too, by relative path."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def pages_of_kind(site: Path, kind: str) -> tuple[str, ...]:
    """Return the paths of all pages of one kind, without the list of that kind."""
    where = PAGE_KINDS[kind]
    if not where.endswith("/"):
        return (where,)
    found = (path.relative_to(site).as_posix() for path in (site / where).rglob("*.html"))
    return tuple(sorted(name for name in found if not name.endswith("/index.html")))


def page_of_each_kind(site: Path) -> dict[str, str]:
    """Return by kind the longest page: the one most likely to show what is wrong."""
    chosen = {}
    for kind in PAGE_KINDS:
        pages = pages_of_kind(site, kind)
        assert pages, f"no page of the kind `{kind}` below {PAGE_KINDS[kind]}"
        chosen[kind] = max(pages, key=lambda name: ((site / name).stat().st_size, name))
    return chosen


def read_pages(site: Path) -> tuple[Page, ...]:
    """Read every page of a compiled folder."""
    names = sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))
    assert names, "the folder holds no page"
    return tuple(read_page(site, name) for name in names)


def read_page(site: Path, name: str) -> Page:
    """Read one page of a compiled folder."""
    reader = _Reader(name)
    reader.feed((site / name).read_text(encoding="utf-8"))
    reader.close()
    return reader.page


class _Reader(HTMLParser):
    """Collects text, tags and tables; a table is a section with `data-table`."""

    def __init__(self, name: str) -> None:
        super().__init__(convert_charrefs=True)
        self.page = Page(name=name)
        self._open: list[str] = []
        self._rows: list[Row] = []
        self._table: tuple[int, dict[str, str]] | None = None
        """Depth and attributes of the open table section."""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        self.page.tags.append((tag, values))
        self.page.texts.extend(_words_of(values))
        if tag == "section" and "data-table" in values:
            assert self._table is None, f"{self.page.name}: a table within a table"
            self._table = (len(self._open), values)
        if tag == "tr" and "data-look" in values:
            assert self._table is not None, f"{self.page.name}: a row outside of a table"
            self._rows.append(_row(values))
        if tag not in _VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop() != tag:
            pass  # an end tag that HTML lets be left out
        if self._table is not None and len(self._open) <= self._table[0]:
            values = self._table[1]
            p = values.get("data-p", "")
            self.page.tables.append(
                Table(
                    p=float(p) if p else None,
                    method=values.get("data-method", ""),
                    rows=tuple(self._rows),
                )
            )
            self._table, self._rows = None, []

    def handle_data(self, data: str) -> None:
        if data.strip() and not {"script", "style"} & set(self._open[-1:]):
            self.page.texts.append(re.sub(r"\s+", " ", data).strip())


def _words_of(values: dict[str, str]) -> Iterator[str]:
    for name in ("alt", "aria-label", "title", "content", "value", "placeholder"):
        if values.get(name):
            yield values[name]


def _row(values: dict[str, str]) -> Row:
    return Row(
        look=values["data-look"],
        expected=float(values["data-expected"]),
        observed=int(values["data-observed"]),
        low=float(values["data-low"]),
        high=float(values["data-high"]),
    )


def words_in(texts: Iterable[str], *, at_least: int = 4) -> set[str]:
    """Return the words of some texts, folded to lower case; numbers and short words left out."""
    return {
        word
        for text in texts
        for word in re.findall(r"[^\W\d_]+", text.casefold())
        if len(word) >= at_least
    }

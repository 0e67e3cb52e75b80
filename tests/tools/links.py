"""A strict checker of the references within a compiled folder, on the standard library alone.

Pages are opened from disk as well as from a host, so every reference must be relative, name a
file (never a folder), in exact case, with a fragment that exists. The rules are stricter than
those of general checkers, which ask a server.
"""

import re
import unicodedata
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

__all__ = ["Fault", "check_links"]

_URL_ATTRIBUTES = frozenset({"href", "src", "poster", "data", "action", "formaction", "xlink:href"})
_ID_ATTRIBUTES = frozenset(
    {
        "aria-activedescendant",
        "aria-controls",
        "aria-describedby",
        "aria-details",
        "aria-errormessage",
        "aria-flowto",
        "aria-labelledby",
        "aria-owns",
        "for",
        "form",
        "headers",
        "list",
    }
)
_SCHEMES = frozenset({"http", "https", "mailto"})
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")
_CSS_URL = re.compile(r"""url\(\s*(["']?)(.*?)\1\s*\)|@import\s+(["'])(.*?)\3""")
_REFRESH = re.compile(r"url\s*=\s*['\"]?([^'\"]*)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One reference, or one file name, that breaks a rule."""

    page: str
    """The file, relative to the folder."""
    line: int
    """Line number from 1; 0 for the file as a whole."""
    reference: str
    """The reference as written."""
    reason: str
    """The rule it breaks."""


@dataclass(slots=True)
class _Document:
    """What a file says of itself and of others."""

    ids: set[str] = field(default_factory=set)
    urls: list[tuple[int, str]] = field(default_factory=list)
    id_lists: list[tuple[int, str, str]] = field(default_factory=list)
    faults: list[tuple[int, str, str]] = field(default_factory=list)


def check_links(root: Path) -> tuple[Fault, ...]:
    """Return every fault of a compiled folder, in order of file and line."""
    files = {path.relative_to(root).as_posix(): path for path in root.rglob("*")}
    documents = {
        name: _read(path)
        for name, path in files.items()
        if path.is_file() and _has_references(name)
    }
    names = frozenset(name for name, path in files.items() if path.is_file())
    by_folded = {_folded(name): name for name in sorted(names)}
    faults = set(_collisions(files))
    faults.update(
        Fault(name, 0, name, "a symbolic link") for name, path in files.items() if path.is_symlink()
    )
    for name, document in documents.items():
        faults.update(Fault(name, *fault) for fault in document.faults)
        for line, attribute, identifier in document.id_lists:
            if identifier not in document.ids:
                faults.add(Fault(name, line, identifier, f"no such id for `{attribute}`"))
        for line, url in document.urls:
            reason = _fault_of(name, url, names=names, by_folded=by_folded, documents=documents)
            if reason is not None:
                faults.add(Fault(name, line, url, reason))
    return tuple(sorted(faults))


def _fault_of(
    page: str,
    url: str,
    *,
    names: frozenset[str],
    by_folded: dict[str, str],
    documents: dict[str, _Document],
) -> str | None:
    """Return the rule that a reference breaks, or None."""
    if _SCHEME.match(url):
        scheme = url.partition(":")[0].lower()
        return None if scheme in _SCHEMES else f"scheme `{scheme}` is not allowed"
    parts = urlsplit(url)
    target = _join(page, unquote(parts.path)) if parts.path else page
    shape = _fault_of_shape(url, unquote(parts.path))
    if shape is not None or target is None:
        return shape or "leaves the folder"
    if target not in names:
        near = by_folded.get(_folded(target))
        return f"differs in case or form from `{near}`" if near else "no such file"
    ids = documents[target].ids if target in documents else set()
    return "no such fragment" if "#" in url and unquote(parts.fragment) not in ids else None


def _fault_of_shape(url: str, path: str) -> str | None:
    """Return what is wrong with a reference wherever it leads, or None."""
    if not url or url != url.strip():
        return "empty, or with space around it"
    if url.startswith("/") or "\\" in url:
        return "not relative"
    if path.rpartition("/")[2] in {".", ".."} or path.endswith("/"):
        return "names a folder"
    return None


def _join(page: str, path: str) -> str | None:
    """Return the file that a relative path leads to; None where a step leaves the folder."""
    steps = page.split("/")[:-1]
    for step in path.split("/"):
        if step == "..":
            if not steps:
                return None
            steps.pop()
        elif step not in {"", "."}:
            steps.append(step)
    return "/".join(steps)


def _collisions(names: Iterable[str]) -> Iterator[Fault]:
    same: defaultdict[str, list[str]] = defaultdict(list)
    for name in sorted(names):
        same[_folded(name)].append(name)
    for first, *others in same.values():
        for other in others:
            yield Fault(other, 0, first, "the same name where case and Unicode form do not count")


def _folded(name: str) -> str:
    return unicodedata.normalize("NFC", unicodedata.normalize("NFD", name).casefold())


def _has_references(name: str) -> bool:
    return name.endswith((".html", ".css", ".svg"))


def _read(path: Path) -> _Document:
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".css":
        document = _Document()
        for number, line in enumerate(text.splitlines(), 1):
            document.urls.extend((number, url) for url in _css_urls(line))
        return document
    reader = _Reader()
    reader.feed(text)
    reader.close()
    return reader.document


def _css_urls(text: str) -> Iterator[str]:
    for found in _CSS_URL.finditer(text):
        yield found[2] if found[2] is not None else found[4]


class _Reader(HTMLParser):
    """Collects ids and references of a page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.document = _Document()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        line = self.getpos()[0]
        if tag == "base":
            self.document.faults.append((line, "<base>", "moves every relative reference"))
        values = {name: value or "" for name, value in attrs}
        if tag == "meta" and values.get("http-equiv", "").lower() == "refresh":
            found = _REFRESH.search(values.get("content", ""))
            self.document.urls.extend([(line, found[1])] if found else [])
        for name, value in values.items():
            self._take(tag, name, value, line)

    def _take(self, tag: str, name: str, value: str, line: int) -> None:
        document = self.document
        if name == "id":
            if value in document.ids:
                document.faults.append((line, value, "the id stands twice"))
            document.ids.add(value)
        elif name in _ID_ATTRIBUTES and not (name == "form" and tag == "form"):
            document.id_lists.extend((line, name, identifier) for identifier in value.split())
        elif name in {"srcset", "imagesrcset"}:
            candidates = (candidate.split() for candidate in value.split(","))
            document.urls.extend((line, parts[0] if parts else "") for parts in candidates)
        elif name in _URL_ATTRIBUTES:
            document.urls.append((line, value))
        elif "url(" in value:
            document.urls.extend((line, url) for url in _css_urls(value))

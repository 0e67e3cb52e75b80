"""Walking a journal folder: its texts as bytes, its other files by size, and what was left out.

Nothing is raised: whatever cannot be read is given as a value, so that the keeper is told of all
of it in one run.
"""

import errno
import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from types import MappingProxyType

from filialog.build.files import Entry, Files, Kind, Stat
from filialog.build.names import path_key

__all__ = [
    "MAX_TEXT_BYTES",
    "Found",
    "JournalTexts",
    "Listing",
    "Problem",
    "ProblemKind",
    "list_journal",
    "read_texts",
]

MAX_TEXT_BYTES = 1024 * 1024
"""The longest text that is read, in bytes."""


class ProblemKind(Enum):
    """Why a file or folder of the journal was left out, or needs a look."""

    UNREADABLE = "unreadable"
    """The system did not let it be read."""
    TOO_LARGE = "too large"
    """A text longer than MAX_TEXT_BYTES."""
    LINK = "link"
    """A symbolic link; none is followed."""
    NOT_A_FILE = "not a file"
    """A folder, device or pipe where a file belongs."""
    NOT_A_FOLDER = "not a folder"
    """A file where a folder belongs."""
    NOT_READ = "not read"
    """A file or folder that nothing reads, in a place where a keeper would think it is read."""
    BAD_NAME = "bad name"
    """A name with control characters or a backslash, or that is no Unicode text."""
    COLLISION = "collision"
    """A file whose path is that of another on a file system that ignores case."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing about the journal folder that the keeper should know."""

    path: str
    """Relative path, `.` for the journal itself; unprintable characters as escapes."""
    kind: ProblemKind
    """What is the case."""
    other: str | None = None
    """The other path of a collision."""
    reason: str | None = None
    """The system's name of an error, such as EACCES; the same in every language."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One file of the journal."""

    path: str
    """Relative path with `/`."""
    stat: Stat
    """Size and what else tells whether it changed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """What lies in a journal folder, each part sorted by path."""

    texts: tuple[Found, ...]
    """Files to be read."""
    others: tuple[Found, ...]
    """Pictures, clips and received statements: they are there, and so long."""
    problems: tuple[Problem, ...]
    """What was left out, or needs a look."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JournalTexts:
    """The texts of a journal."""

    texts: Mapping[str, bytes]
    """Content by relative path, in the order of paths; cannot be changed."""
    problems: tuple[Problem, ...]
    """Problems of the listing and of the reading, sorted by path."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """One known folder of the journal."""

    folder: str
    endings: tuple[str, ...] = ()
    """Endings of its texts, in small letters."""
    names: tuple[str, ...] = ()
    """Whole names of its texts, in small letters."""
    deep: bool = False
    """Whether folders in it are walked."""
    keeps_others: bool = False
    """Whether other files belong there."""


_FILES = ("journal.yaml", "trust.yaml")
_PLACES = (
    _Place(folder="diary", endings=(".md", ".txt"), deep=True),
    _Place(folder="tanks", endings=(".md",)),
    _Place(folder="groups", endings=(".md",)),
    _Place(folder="lines", endings=(".md",)),
    _Place(folder="traits", endings=(".yaml",)),
    _Place(folder="photos", names=("album.md",), deep=True, keeps_others=True),
    _Place(folder="received", deep=True, keeps_others=True),
)
_NEAR_MISSES = frozenset({*_FILES, "journal.yml", "trust.yml", *(p.folder for p in _PLACES)})
"""Names that, written otherwise than in the layout, stand for a slip and not for a keeper's own."""

# What editors, office programs and desktops leave behind: common practice, no source.
_LEFT_OVER = re.compile(r"\..*|.*~|~\$.*|#.*#|.*\.sw[a-p]|thumbs\.db|desktop\.ini", re.IGNORECASE)
_UNPRINTABLE = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\\]")


def list_journal(files: Files, journal: Path) -> Listing:
    """List the files of a journal folder without reading them."""
    walk = _Walk(files, journal)
    walk.run()
    texts = tuple(sorted(walk.texts, key=lambda found: found.path))
    others = tuple(sorted(walk.others, key=lambda found: found.path))
    return Listing(
        texts=texts,
        others=others,
        problems=_sorted((*walk.problems, *_collisions((*texts, *others)))),
    )


def read_texts(files: Files, journal: Path, listing: Listing) -> JournalTexts:
    """Read the texts of a listing; what went away or grew since then is a problem too."""
    texts: dict[str, bytes] = {}
    problems = list(listing.problems)
    for found in listing.texts:
        try:
            data = files.read(journal / found.path, at_most=MAX_TEXT_BYTES + 1)
        except OSError as error:
            problems.append(_unreadable(found.path, error))
            continue
        if len(data) > MAX_TEXT_BYTES:
            problems.append(Problem(path=found.path, kind=ProblemKind.TOO_LARGE))
        else:
            texts[found.path] = data
    return JournalTexts(texts=MappingProxyType(texts), problems=_sorted(problems))


class _Walk:
    """The lists that one walk fills."""

    def __init__(self, files: Files, journal: Path) -> None:
        self._files = files
        self._journal = journal
        self.texts: list[Found] = []
        self.others: list[Found] = []
        self.problems: list[Problem] = []

    def run(self) -> None:
        places = {place.folder: place for place in _PLACES}
        for entry in self._list(""):
            name, kind = entry.name, entry.stat.kind
            if name in _FILES:
                self._file(entry, name)
            elif name in places:
                if kind is Kind.FOLDER:
                    self._walk(places[name])
                else:
                    self._misplaced(name, kind, ProblemKind.NOT_A_FOLDER)
            elif path_key(name) in _NEAR_MISSES:
                self._problem(name, ProblemKind.NOT_READ)

    def _walk(self, place: _Place) -> None:
        waiting = [place.folder]
        while waiting:
            folder = waiting.pop()
            for entry in self._list(folder):
                path = f"{folder}/{entry.name}"
                if _LEFT_OVER.fullmatch(entry.name):
                    continue
                if _UNPRINTABLE.search(entry.name):
                    self._problem(path, ProblemKind.BAD_NAME)
                elif entry.stat.kind is Kind.FOLDER:
                    if place.deep:
                        waiting.append(path)
                    else:
                        self._problem(path, ProblemKind.NOT_READ)
                elif entry.stat.kind is not Kind.FILE:
                    self._misplaced(path, entry.stat.kind, ProblemKind.NOT_A_FILE)
                else:
                    self._file_in(place, entry, path)

    def _file_in(self, place: _Place, entry: Entry, path: str) -> None:
        name = entry.name.lower()  # cameras and phones write endings in capitals
        if name in place.names or name.endswith(place.endings):
            self._file(entry, path)
        elif place.keeps_others and not (place.names and name.endswith(".md")):
            self.others.append(Found(path=path, stat=entry.stat))
        else:
            self._problem(path, ProblemKind.NOT_READ)

    def _file(self, entry: Entry, path: str) -> None:
        if entry.stat.kind is not Kind.FILE:
            self._misplaced(path, entry.stat.kind, ProblemKind.NOT_A_FILE)
        elif entry.stat.size > MAX_TEXT_BYTES:
            self._problem(path, ProblemKind.TOO_LARGE)
        else:
            self.texts.append(Found(path=path, stat=entry.stat))

    def _list(self, folder: str) -> tuple[Entry, ...]:
        try:
            return self._files.list_folder(self._journal / folder)
        except OSError as error:
            self.problems.append(_unreadable(folder or ".", error))
            return ()

    def _misplaced(self, path: str, kind: Kind, otherwise: ProblemKind) -> None:
        self._problem(path, ProblemKind.LINK if kind is Kind.LINK else otherwise)

    def _problem(self, path: str, kind: ProblemKind) -> None:
        self.problems.append(Problem(path=_printable(path), kind=kind))


def _collisions(found: tuple[Found, ...]) -> list[Problem]:
    seen: dict[str, str] = {}
    problems: list[Problem] = []
    for path in sorted(file.path for file in found):
        other = seen.setdefault(path_key(path), path)
        if other != path:
            problems.append(Problem(path=path, kind=ProblemKind.COLLISION, other=other))
    return problems


def _unreadable(path: str, error: OSError) -> Problem:
    reason = errno.errorcode.get(error.errno or 0)
    return Problem(path=path, kind=ProblemKind.UNREADABLE, reason=reason)


def _printable(path: str) -> str:
    return _UNPRINTABLE.sub(lambda found: found.group().encode("unicode_escape").decode(), path)


def _sorted(problems: tuple[Problem, ...] | list[Problem]) -> tuple[Problem, ...]:
    return tuple(sorted(problems, key=lambda problem: (problem.path, problem.kind.value)))

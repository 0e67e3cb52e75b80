"""The rooms of the program and the one way in which they may know each other.

Each rule is a function from modules to faults, with one test on the program itself and one on a
made-up module that breaks the rule, so that no rule can fall asleep.
"""

import ast
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "generator" / "filialog"

ORDER = (
    ("cli",),
    ("preview", "desk"),
    ("build",),
    ("reading", "photos", "proof", "pages"),
    ("analysis",),
    ("journal",),
    ("planning",),
    ("genetics", "lineage", "husbandry"),
    ("statistics",),
)
"""A room may import any room of a later row; never one of its own row or of an earlier one."""

RANK = {room: rank for rank, row in enumerate(ORDER) for room in row}
OPEN_TO = {
    "findings": frozenset(room for room, rank in RANK.items() if rank <= RANK["journal"]),
    "messages": frozenset({"pages", "desk", "cli"}),
}
"""Side rooms, and the rooms that may import them. `findings` imports no room; `messages`, which
writes counts and days as words, may know what `pages` may know."""

COMPUTING = frozenset({"statistics", "genetics", "lineage", "husbandry", "planning"})
OPENS_FILES = frozenset({"build", "photos", "proof", "preview", "desk", "cli"})
TO_ALL = frozenset({"", "domain_error"})
"""The package itself, for its version, and the one error of the computing rooms."""

MOST_LINES_OF_A_MODULE = 700
CATALOGUES = ("messages/english.py",)
"""Lists of words: one file each, so that a translation is one file, however long."""
MOST_LINES_OF_A_FUNCTION = 90


@dataclass(frozen=True, slots=True, kw_only=True)
class Module:
    """One source file of the package."""

    path: str
    """Relative to the package, such as `journal/events.py`."""
    source: str

    @property
    def room(self) -> str:
        """The first folder; the name of the file where it lies in none, "" for the package."""
        room = self.path.partition("/")[0].removesuffix(".py")
        return "" if room == "__init__" else room

    @property
    def tree(self) -> ast.Module:
        return ast.parse(self.source, filename=self.path)


@pytest.fixture(scope="module")
def modules() -> tuple[Module, ...]:
    paths = sorted(PACKAGE.rglob("*.py"))
    assert paths, "the package is not where it should be"
    return tuple(
        Module(path=path.relative_to(PACKAGE).as_posix(), source=path.read_text(encoding="utf-8"))
        for path in paths
    )


def _made_up(path: str, source: str) -> tuple[Module, ...]:
    return (Module(path=path, source=source),)


def _imports(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Give line and full dotted name of everything imported, wherever the statement stands."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = "." * node.level + (node.module or "")
            yield from ((node.lineno, f"{start}.{alias.name}") for alias in node.names)


def _calls(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Give line and dotted text of everything called."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            yield node.lineno, ast.unparse(node.func)


def _starts_with(name: str, modules: Iterable[str]) -> bool:
    return any(name == module or name.startswith(f"{module}.") for module in modules)


# --- arrows ---------------------------------------------------------------------------------


def wrong_arrows(modules: Iterable[Module]) -> list[str]:
    """Return the imports that go against the order of the rooms."""
    faults = []
    for module in modules:
        for line, name in _imports(module.tree):
            if name.startswith("."):
                faults.append(f"{module.path}:{line}: relative import {name}")
            if _starts_with(name, ["filialog"]):
                target = name.split(".")[1] if "." in name else ""
                reason = _reason_against(module.room, "" if target.startswith("__") else target)
                if reason:
                    faults.append(f"{module.path}:{line}: {name}: {reason}")
        for line, called in _calls(module.tree):
            if called.endswith("import_module") or called == "__import__":
                faults.append(f"{module.path}:{line}: {called} hides an import from this test")
    return faults


def _reason_against(room: str, target: str) -> str | None:
    if target in TO_ALL or target == room:
        return None
    if room in {"", "domain_error", "findings"}:
        return "it stands beside the rooms and imports none"
    if room == "messages":
        room = "pages"
    if room == "__main__":
        return None if target == "cli" else "it only starts the command line"
    if room not in RANK:
        return f"`{room}` is not in the order of the rooms"
    if target in OPEN_TO:
        return None if room in OPEN_TO[target] else f"`{target}` is not open to `{room}`"
    if target not in RANK:
        return f"`{target}` is not in the order of the rooms"
    return None if RANK[room] < RANK[target] else f"`{room}` may not know `{target}`"


def test_rooms__import_one_way(modules: tuple[Module, ...]) -> None:
    assert wrong_arrows(modules) == []


@pytest.mark.parametrize(
    ("path", "source"),
    [
        ("statistics/a.py", "from filialog.genetics import cross"),
        ("genetics/a.py", "import filialog.lineage.kinship"),
        ("genetics/a.py", "def f():\n    from filialog.planning.x import y"),
        ("journal/a.py", "from filialog import analysis"),
        ("pages/a.py", "from filialog.reading.text import read"),
        ("pages/deep/a.py", "import filialog.build"),
        ("genetics/a.py", "from filialog.findings import Finding"),
        ("analysis/a.py", "from filialog.messages import words"),
        ("findings/a.py", "from filialog.journal.events import Event"),
        ("messages/a.py", "from filialog.pages.page import x"),
        ("messages/a.py", "from filialog.build import x"),
        ("domain_error.py", "from filialog.statistics import judge"),
        ("__init__.py", "from filialog.cli import run"),
        ("__main__.py", "from filialog.build import compile_site"),
        ("attic/a.py", "from filialog.statistics import judge"),
        ("cli/a.py", "from filialog.attic import x"),
        ("journal/a.py", "from . import events"),
        ("journal/a.py", "import importlib\nimportlib.import_module('filialog.pages')"),
    ],
)
def test_wrong_arrows__finds_a_planted_one(path: str, source: str) -> None:
    assert len(wrong_arrows(_made_up(path, source))) == 1


def test_wrong_arrows__lets_the_right_ones_pass() -> None:
    for path, source in (
        ("cli/a.py", "import filialog.statistics\nfrom filialog.messages import words"),
        ("journal/a.py", "from filialog.genetics import x\nfrom filialog.findings import y"),
        ("genetics/a.py", "from filialog.domain_error import DomainError"),
        ("pages/a.py", "from filialog import __version__\nfrom filialog.pages.x import y"),
        ("__main__.py", "from filialog.cli import run"),
    ):
        assert wrong_arrows(_made_up(path, source)) == []


# --- files ----------------------------------------------------------------------------------

_FILE_MODULES = (
    *("ctypes", "fcntl", "fileinput", "glob", "http", "importlib.resources", "linecache"),
    *("mmap", "msvcrt", "os", "pkgutil", "shutil", "socket", "sqlite3", "subprocess"),
    *("tempfile", "urllib.request"),
)
_FILE_NAMES = frozenset(
    {"pathlib.Path", "pathlib.PosixPath", "jinja2.FileSystemLoader", "jinja2.PackageLoader"}
)
_FILE_CALLS = frozenset(
    (
        *("chmod", "expanduser", "glob", "hardlink_to", "is_dir", "is_file", "is_symlink"),
        *("iterdir", "lstat", "mkdir", "open", "read_bytes", "read_text", "rglob", "rmdir"),
        *("samefile", "symlink_to", "touch", "unlink", "write_bytes", "write_text"),
    )
)


def file_access(modules: Iterable[Module]) -> list[str]:
    """Return what touches the file system in a room that is only given text."""
    faults = []
    for module in modules:
        if module.room in OPENS_FILES:
            continue
        for line, name in _imports(module.tree):
            whole_pathlib = name in {"pathlib", "pathlib.*"}
            if _starts_with(name, _FILE_MODULES) or name in _FILE_NAMES or whole_pathlib:
                faults.append(f"{module.path}:{line}: imports {name}")
        for line, called in _calls(module.tree):
            last = called.rpartition(".")[2]
            if called == "open" or ("." in called and last in _FILE_CALLS):
                faults.append(f"{module.path}:{line}: calls {called}")
            if last in {"FileSystemLoader", "PackageLoader"}:
                faults.append(f"{module.path}:{line}: calls {called}")
    return faults


def test_rooms__only_the_file_layer_touches_files(modules: tuple[Module, ...]) -> None:
    assert file_access(modules) == []


@pytest.mark.parametrize(
    "source",
    [
        "import os",
        "import os.path",
        "from os import path",
        "from pathlib import Path",
        "import pathlib",
        "import shutil",
        "from importlib.resources import files",
        "from jinja2 import FileSystemLoader",
        "def f(path):\n    return open(path)",
        "def f(path):\n    return path.read_text()",
        "def f(path):\n    return (path / 'x').open()",
        "import jinja2\nloader = jinja2.FileSystemLoader('themes')",
    ],
)
def test_file_access__finds_a_planted_one(source: str) -> None:
    for path in ("reading/a.py", "pages/a.py", "statistics/a.py", "findings/a.py"):
        assert len(file_access(_made_up(path, source))) == 1
    assert file_access(_made_up("build/a.py", source)) == []


def test_file_access__lets_pure_paths_pass() -> None:
    source = "from pathlib import PurePosixPath\nname = PurePosixPath('a').name.replace('a', 'b')"

    assert file_access(_made_up("reading/a.py", source)) == []


# --- computing rooms ------------------------------------------------------------------------

_NOT_PURE = ("logging", "os", "pathlib", "random", "secrets", "time", "uuid", "warnings")
_NOT_PURE_CALLS = re.compile(
    r"(?:^|\.)(?:now|utcnow|today|default_rng|print|input)$|(?:^|\.)random\.(?!Generator$)\w+$"
)


def impurities(modules: Iterable[Module]) -> list[str]:
    """Return what makes a computation depend on anything but its arguments."""
    faults: list[str] = []
    for module in modules:
        if module.room not in COMPUTING:
            continue
        tree = module.tree
        faults.extend(
            f"{module.path}:{line}: imports {name}"
            for line, name in _imports(tree)
            if _starts_with(name, _NOT_PURE) or _starts_with(name, ["numpy.random"])
        )
        faults.extend(
            f"{module.path}:{line}: calls {called}"
            for line, called in _calls(tree)
            if _NOT_PURE_CALLS.search(called)
        )
        faults.extend(
            f"{module.path}:{node.lineno}: changes a global"
            for node in ast.walk(tree)
            if isinstance(node, ast.Global)
        )
    return faults


def test_computing_rooms__depend_on_their_arguments_alone(modules: tuple[Module, ...]) -> None:
    assert impurities(modules) == []


@pytest.mark.parametrize(
    "source",
    [
        "import os",
        "from pathlib import PurePosixPath",
        "import time",
        "import random",
        "def f():\n    import logging",
        "from numpy.random import default_rng",
        "import datetime\nx = datetime.datetime.now()",
        "from datetime import date\nx = date.today()",
        "import numpy as np\nx = np.random.default_rng()",
        "import numpy as np\nx = np.random.normal()",
        "def f():\n    global x\n    x = 1",
        "def f():\n    print(1)",
    ],
)
def test_impurities__finds_a_planted_one(source: str) -> None:
    for room in COMPUTING:
        assert len(impurities(_made_up(f"{room}/a.py", source))) == 1


# --- what a module says of itself -----------------------------------------------------------


def unexplained_rooms(modules: Iterable[Module]) -> list[str]:
    """Return the rooms whose `__init__` does not say what comes in and what goes out."""
    by_path = {module.path: module for module in modules}
    rooms = sorted({path.partition("/")[0] for path in by_path if "/" in path})
    faults: list[str] = []
    for room in rooms:
        module = by_path.get(f"{room}/__init__.py")
        said = (ast.get_docstring(module.tree) or "") if module else ""
        faults.extend(
            f"{room}/__init__.py: does not say what comes or goes {word}"
            for word in ("in", "out")
            if not re.search(rf"\b{word}\b", said, re.IGNORECASE)
        )
    return faults


def test_rooms__say_what_comes_in_and_what_goes_out(modules: tuple[Module, ...]) -> None:
    assert unexplained_rooms(modules) == []


def test_unexplained_rooms__finds_planted_ones() -> None:
    good = '"""Sums.\n\nIn: numbers. Out: their sum.\n"""'

    assert unexplained_rooms(_made_up("sums/__init__.py", good)) == []
    assert len(unexplained_rooms(_made_up("sums/__init__.py", '"""Sums."""'))) == 2
    assert len(unexplained_rooms(_made_up("sums/__init__.py", '"""In: numbers."""'))) == 1
    assert len(unexplained_rooms(_made_up("sums/add.py", good))) == 2


def _sort_key(name: str) -> tuple[int, list[tuple[int, str]]]:
    """Constants, then classes, then the rest; numbers in names by value, as ruff sorts them."""
    rank = 0 if name.isupper() and len(name) > 1 else 1 if name[:1].isupper() else 2
    parts = re.findall(r"\d+|\D+", name)
    return rank, [(int(part), "") if part.isdigit() else (0, part) for part in parts]


def unsorted_exports(modules: Iterable[Module]) -> list[str]:
    """Return the public modules without `__all__`, or with one out of order."""
    faults = []
    for module in modules:
        name = module.path.rpartition("/")[2]
        tree = module.tree
        private = any(part.startswith("_") for part in module.path.split("/"))
        if private and not (name == "__init__.py" and any(_imports(tree))):
            continue
        lists = [
            node.value
            for node in tree.body
            if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__"
        ]
        if len(lists) != 1:
            faults.append(f"{module.path}: has no `__all__`")
            continue
        names = [str(item) for item in ast.literal_eval(lists[0])]
        if names != sorted(set(names), key=_sort_key):
            faults.append(f"{module.path}: `__all__` is not sorted, or names one thing twice")
    return faults


def test_modules__list_their_names_in_order(modules: tuple[Module, ...]) -> None:
    assert unsorted_exports(modules) == []


@pytest.mark.parametrize(
    ("path", "source"),
    [
        ("journal/a.py", "x = 1"),
        ("journal/a.py", "__all__ = ['b', 'a']"),
        ("journal/a.py", "__all__ = ['a', 'B']"),
        ("journal/a.py", "__all__ = ['Part10', 'Part2']"),
        ("journal/a.py", "__all__ = ['a', 'a']"),
        ("journal/__init__.py", "from filialog.journal.a import b"),
    ],
)
def test_unsorted_exports__finds_a_planted_one(path: str, source: str) -> None:
    assert len(unsorted_exports(_made_up(path, source))) == 1


def test_unsorted_exports__lets_sorted_and_private_ones_pass() -> None:
    for path, source in (
        ("journal/a.py", "__all__ = ['LOOKS', 'MOST', 'Event', 'Part2', 'Part10', 'read']"),
        ("journal/_a.py", "x = 1"),
        ("__main__.py", "x = 1"),
        ("journal/__init__.py", '"""In and out."""'),
    ):
        assert unsorted_exports(_made_up(path, source)) == []


# --- size -----------------------------------------------------------------------------------


def oversized(modules: Iterable[Module]) -> list[str]:
    """Return modules and functions that are too long to be one idea."""
    faults = []
    for module in modules:
        lines = len(module.source.splitlines())
        if lines > MOST_LINES_OF_A_MODULE and module.path not in CATALOGUES:
            faults.append(f"{module.path}: {lines} lines")
        for node in ast.walk(module.tree):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                length = (node.end_lineno or node.lineno) - node.lineno + 1
                if length > MOST_LINES_OF_A_FUNCTION:
                    faults.append(f"{module.path}:{node.lineno}: {node.name} has {length} lines")
    return faults


def test_modules__and_functions_are_short(modules: tuple[Module, ...]) -> None:
    assert oversized(modules) == []


def test_oversized__finds_planted_ones() -> None:
    def function(lines: int) -> str:
        return "def f():\n" + "    x = 1\n" * (lines - 1)

    assert oversized(_made_up("journal/a.py", function(MOST_LINES_OF_A_FUNCTION))) == []
    assert len(oversized(_made_up("journal/a.py", function(MOST_LINES_OF_A_FUNCTION + 1)))) == 1
    assert oversized(_made_up("journal/a.py", "x = 1\n" * MOST_LINES_OF_A_MODULE)) == []
    assert len(oversized(_made_up("journal/a.py", "x = 1\n" * (MOST_LINES_OF_A_MODULE + 1)))) == 1

"""The writer when the file system fails, or the process is killed, at every single operation."""

import errno
import os
import signal
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from filialog.build.files import Files
from filialog.build.marker import ASIDE_NAME
from tools.faulty_files import FaultyFiles
from tools.page_sets import clean_tree, names_in, pages_in, publish, tree_in

OLD = {
    "index.html": "old front",
    "a.html": "a",
    "gone/b.html": "b",
    "page": "was a page",
    "c.css": "old",
}
NEW = {"index.html": "new front", "a.html": "a", "page/d.html": "d", "e.html": "e", "c.css": "NEW"}
OLDER = {"index.html": "older front", "f.html": "f", "c.css": "old"}
FOREIGN = {"CNAME": "name", "own/x.txt": "mine"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Scenario:
    """What lies there before the run, and what file system it meets."""

    before: tuple[Mapping[str, str], ...]
    foreign: Mapping[str, str]
    can_exchange: bool = True
    can_link: bool = True
    mount: bool = False
    verify: bool = False

    def prepare(self, folder: Path) -> None:
        folder.mkdir()
        if self.mount:
            (folder / "site").mkdir()
        for texts in self.before:
            publish(folder, texts, files=self.files(folder))
        for path, text in self.foreign.items():
            (folder / "site" / path).parent.mkdir(exist_ok=True)
            (folder / "site" / path).write_text(text)

    def files(
        self,
        folder: Path,
        *,
        fail_at: int | None = None,
        number: int = errno.ENOSPC,
        for_good: bool = False,
        kill: bool = False,
    ) -> FaultyFiles:
        return FaultyFiles(
            fail_at=fail_at,
            number=number,
            for_good=for_good,
            kill=kill,
            can_exchange=self.can_exchange,
            can_link=self.can_link,
            foreign_mount=folder / "site" if self.mount else None,
        )


SCENARIOS = {
    "first": Scenario(before=(), foreign={}),
    "update": Scenario(before=(OLD,), foreign={}),
    "update-of-two": Scenario(before=(OLDER, OLD), foreign={}),
    "update-verified": Scenario(before=(OLDER, OLD), foreign={}, verify=True),
    "update-with-foreign": Scenario(before=(OLDER, OLD), foreign=FOREIGN),
    "copies": Scenario(before=(OLDER, OLD), foreign={}, can_link=False),
    "pages": Scenario(before=(OLDER, OLD), foreign=FOREIGN, can_exchange=False),
    "pages-copies": Scenario(before=(OLD,), foreign={}, can_exchange=False, can_link=False),
    "pages-mount": Scenario(before=(OLD,), foreign=FOREIGN, can_exchange=False, mount=True),
}
EACH = pytest.mark.parametrize("scenario", SCENARIOS.values(), ids=list(SCENARIOS))
# The writer must treat them alike; which one meets which operation changes with its number.
NUMBERS = (errno.ENOSPC, errno.EROFS, errno.EACCES, errno.EIO)


def _pages_of(folder: Path) -> dict[str, str] | None:
    """Give the pages that are published, None where there is no site; foreign files left out."""
    if not (folder / "site").exists():
        return None
    names = pages_in(folder / "site")
    hidden = {ASIDE_NAME}
    return {
        path: text
        for path, text in names.items()
        if path not in FOREIGN and path not in hidden and not path.endswith("/")
    }


def _check_site(scenario: Scenario, folder: Path, *, succeeded: bool) -> None:
    """The output is the whole old or new set; page by page, every page is whole old or new."""
    old = dict(scenario.before[-1]) if scenario.before else None
    pages = _pages_of(folder)
    if succeeded:
        assert pages == NEW
    elif scenario.can_exchange or pages is None or old is None:
        assert pages in (old, NEW)
    else:
        for path, text in pages.items():
            assert text in {old.get(path), NEW.get(path)}
        assert pages.keys() >= old.keys() & NEW.keys()
        if pages["index.html"] == NEW["index.html"]:
            assert pages.items() >= NEW.items()


def _check_foreign(scenario: Scenario, folder: Path) -> None:
    """What is not ours exists once, with its content."""
    tree = tree_in(folder)
    for path, text in scenario.foreign.items():
        places = [tree[name] for name in (f"site/{path}", f".site.filialog-next/{path}")
                  if name in tree]  # fmt: skip
        assert places == [text.encode()]


def _check_recovery(
    scenario: Scenario, folder: Path, clean: dict[str, bytes], *, back: bool
) -> None:
    """The next run equals a clean one, and leaves nothing lying about."""
    files: Files = scenario.files(folder)
    if back:  # to pages of which some have the size of the new ones
        publish(folder, OLD, files=files)
        assert _pages_of(folder) == OLD
    publish(folder, NEW, files=files)
    foreign = {path: text.encode() for path, text in scenario.foreign.items()}
    assert tree_in(folder / "site") == clean | foreign
    assert set(names_in(folder)) <= {"site", ".site.filialog-next"}
    again = publish(folder, NEW, files=files)
    assert (again.new, again.changed, again.removed) == ((), (), ())


def _at_every_operation(
    scenario: Scenario, quick_path: Path, run: Callable[[Path, int], bool | None]
) -> int:
    """Run with a fault at operation 1, 2, … until it is not reached; gives how many there were.

    `run` tells whether the run succeeded, None when the fault was not reached.
    """
    clean = clean_tree(quick_path / "clean", NEW)
    number = 0
    while True:
        number += 1
        folder = quick_path / f"at-{number}"
        scenario.prepare(folder)
        succeeded = run(folder, number)
        _check_site(scenario, folder, succeeded=succeeded is not False)
        _check_foreign(scenario, folder)
        _check_recovery(scenario, folder, clean, back=number % 2 == 0)
        if succeeded is None:
            return number - 1


@EACH
@pytest.mark.parametrize("for_good", [True, False], ids=["for-good", "once"])
def test_write__a_fault_at_any_operation_leaves_a_whole_site(
    quick_path: Path, scenario: Scenario, for_good: bool
) -> None:
    def run(folder: Path, fail_at: int) -> bool | None:
        number = NUMBERS[fail_at % len(NUMBERS)]
        files = scenario.files(folder, fail_at=fail_at, number=number, for_good=for_good)
        try:
            publish(folder, NEW, files=files, verify=scenario.verify)
        except OSError as error:
            assert error.errno == number  # noqa: PT017 - most operations raise, a few are caught
            return False
        return True if files.failed else None

    assert _at_every_operation(scenario, quick_path, run) > 15


@EACH
def test_write__a_kill_at_any_operation_leaves_a_whole_site(
    quick_path: Path, scenario: Scenario
) -> None:
    def run(folder: Path, fail_at: int) -> bool | None:
        child = os.fork()
        if child == 0:
            files = scenario.files(folder, fail_at=fail_at, kill=True)
            try:
                publish(folder, NEW, files=files, verify=scenario.verify)
            finally:
                os._exit(0)
        _, status = os.waitpid(child, 0)
        if os.WIFSIGNALED(status):
            assert os.WTERMSIG(status) == signal.SIGKILL
            return False
        return None

    assert _at_every_operation(scenario, quick_path, run) > 15

"""Publishing a site: readers find the whole old set of pages or the whole new one.

The new site is made in a hidden folder beside the published one, which is the site before last
and so differs by little. Then both folders are exchanged in one step. Where the file system
cannot do that, pages are replaced one by one, those that others rest on first.
"""

import errno
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from filialog.build.files import Files, Stat, exists, write_aside
from filialog.build.marker import ASIDE_NAME, MARKER_NAME, Known, Marker, write_marker
from filialog.build.names import check_names, folders_above, path_key
from filialog.build.output_place import Place, find_place
from filialog.build.refusals import OutputBusy, OutputRefused, Refusal
from filialog.build.shaping import (
    Page,
    claim_paths,
    clear_tree,
    make_folders,
    remove_folders,
    shape_tree,
)
from filialog.build.tree import Tree, content_digest, examine_tree

__all__ = ["Page", "Written", "content_digest", "write_site"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What writing a site did."""

    new: tuple[str, ...]
    """Paths that the site did not have, sorted."""
    changed: tuple[str, ...]
    """Paths that had another content, or were damaged by hand, sorted."""
    unchanged: int
    """How many pages stayed as they were."""
    removed: tuple[str, ...]
    """Paths that the site has no longer, sorted."""
    foreign: tuple[str, ...]
    """Files and folders in the output that are not ours; they were kept, sorted."""
    in_one_step: bool
    """Whether no reader could see a mixture; always so where nothing was written."""


def write_site(
    files: Files,
    *,
    pages: Mapping[str, Page],
    output: Path,
    journal: Path,
    edition: str,
    verify: bool = False,
) -> Written:
    """Make the output folder hold exactly these pages, beside foreign files, which are kept.

    Files of the right size are taken as right; with `verify` all are read. Raises OutputError
    where the folder or a name is refused or another compile is at work, and OSError where the
    file system fails; the published site is then the old one, or the new one (page by page,
    where folders cannot be exchanged), and the next run completes it.
    """
    check_names(pages, reserved=frozenset({path_key(MARKER_NAME), path_key(ASIDE_NAME)}))
    place = find_place(files, output=output, journal=journal)
    files.make_folder(place.output.parent)
    lock = files.lock(place.beside("lock"))
    if lock is None:
        raise OutputBusy(place.output.name)
    with lock:
        return _Writer(files, place, pages, edition, verify=verify).write()


class _Writer:
    """One run: what it was given, so that the steps need not pass it along."""

    def __init__(
        self,
        files: Files,
        place: Place,
        pages: Mapping[str, Page],
        edition: str,
        *,
        verify: bool,
    ) -> None:
        self._files = files
        self._place = place
        self._pages = pages
        self._folders = folders_above(pages)
        self._edition = edition
        self._verify = verify

    def write(self) -> Written:
        site, hidden = self._examine()
        if site.marked and site.marker.edition != self._edition:
            raise OutputRefused(Refusal.OTHER_EDITION, site.marker.edition)
        if site.stat is not None and hidden.foreign:
            # A killed run had exchanged the folders and not yet moved these.
            self._carry(hidden.foreign, source=hidden.root, target=site.root)
            site, hidden = self._examine()
        foreign = site.foreign if site.stat is not None else hidden.foreign
        self._check_ways(foreign)
        wrong = {
            path
            for path, page in self._pages.items()
            if (known := site.as_written(path)) is None or known.digest != page.digest
        }
        gone = site.marker.pages.keys() - self._pages.keys()
        in_one_step = True
        if wrong or gone or not site.marked:
            in_one_step = self._publish(site, hidden, wrong)
        new = wrong - site.marker.pages.keys()
        return Written(
            new=tuple(sorted(new)),
            changed=tuple(sorted(wrong - new)),
            unchanged=len(self._pages) - len(wrong),
            removed=tuple(sorted(gone)),
            foreign=foreign,
            in_one_step=in_one_step,
        )

    def _examine(self) -> tuple[Tree, Tree]:
        site = self._examine_one(self._place.output, Refusal.NOT_EMPTY)
        return site, self._examine_one(self._place.beside("next"), Refusal.WORK_FOLDER_TAKEN)

    def _examine_one(self, root: Path, otherwise: Refusal) -> Tree:
        return examine_tree(
            self._files,
            root,
            edition=self._edition,
            shared=self._folders,
            otherwise=otherwise,
            verify=self._verify,
        )

    def _check_ways(self, foreign: Iterable[str]) -> None:
        """Raise where a page would take the place of a foreign file."""
        page_keys = {path_key(path) for path in self._pages}
        taken = page_keys | {path_key(folder) for folder in self._folders}
        for path in foreign:
            above = {path_key(folder) for folder in folders_above([path])}
            if path_key(path) in taken or above & page_keys:
                raise OutputRefused(Refusal.FOREIGN_IN_THE_WAY, path)

    def _carry(self, foreign: Iterable[str], *, source: Path, target: Path) -> None:
        """Move what is foreign to the other folder; nothing there is replaced."""
        for path in foreign:
            goal = target / path
            self._files.make_folder(goal.parent)
            count = 0
            while exists(self._files, goal):
                count += 1
                goal = target / f"{path}.kept-{count}"
            self._files.replace(source / path, goal)

    def _publish(self, site: Tree, hidden: Tree, wrong: set[str]) -> bool:
        """Bring the pages into the output folder; tells whether it was in one step."""
        whole = site.stat is None or self._can_exchange(site.stat)
        wanted = self._pages if whole else {path: self._pages[path] for path in wrong}
        self._files.make_folder(hidden.root)
        if site.stat is not None:  # before anything is written: the folder may be a closed one
            self._files.set_mode(hidden.root, site.stat.mode)
        staged = shape_tree(self._files, hidden, wanted=wanted, donor=site, edition=self._edition)
        self._files.sync(hidden.root)
        if site.stat is None:
            self._files.replace(hidden.root, site.root)
            return True
        if whole and self._files.exchange(hidden.root, site.root):
            self._after_exchange(site, hidden)
            return True
        self._publish_by_page(site, hidden, staged=staged, wrong=wrong)
        clear_tree(self._files, self._examine_one(hidden.root, Refusal.WORK_FOLDER_TAKEN))
        return False

    def _can_exchange(self, site: Stat) -> bool:
        """Try with two empty folders, so that a whole site is not made aside in vain."""
        if self._files.stat(self._place.output.parent).device != site.device:
            return False
        folder = self._place.beside("probe")
        one, other = folder / "one", folder / "other"
        self._files.make_folder(one)
        self._files.make_folder(other)
        possible = self._files.exchange(one, other)
        for path in (one, other, folder):
            self._files.remove_folder(path)
        return possible

    def _after_exchange(self, site: Tree, hidden: Tree) -> None:
        """Bring foreign files over from the old site, which now lies in the hidden folder."""
        self._carry(site.foreign, source=hidden.root, target=site.root)
        emptied = site.folders - folders_above(site.marker.pages)
        for folder in sorted(emptied, reverse=True):
            self._files.remove_folder(hidden.root / folder)

    def _publish_by_page(
        self, site: Tree, hidden: Tree, *, staged: Marker, wrong: set[str]
    ) -> None:
        """Replace page by page: styles and pictures first, the front page last, then removals."""
        right = {
            path: known
            for path in self._pages.keys() - wrong
            if (known := site.as_written(path)) is not None
        }
        files = self._files
        claim_paths(files, site, wanted=self._pages, trusted=right, edition=self._edition)
        gone = sorted(site.files.keys() - self._pages.keys())
        in_the_way = [path for path in gone if self._is_in_the_way(path)]
        for path in in_the_way:
            files.remove_file(site.root / path)
        blocking = {folder for folder in site.folders if folder in self._pages}
        blocking |= {folder for folder in site.folders if folders_above([folder]) & blocking}
        remove_folders(files, site, blocking)
        make_folders(files, site, self._folders)
        for path in sorted(wrong, key=_publishing_order):
            self._put(hidden.root / path, site.root / path, aside=site.root / ASIDE_NAME)
        for path in gone:
            if path not in in_the_way:
                files.remove_file(site.root / path)
        remove_folders(files, site, site.folders - self._folders - blocking)
        pages: dict[str, Known | None] = {**right, **{path: staged.pages[path] for path in wrong}}
        write_marker(files, site.root, Marker(edition=self._edition, pages=pages))

    def _is_in_the_way(self, path: str) -> bool:
        """Tell whether an old page lies where a folder must be, or in a folder that must go."""
        return path in self._folders or not folders_above([path]).isdisjoint(self._pages)

    def _put(self, source: Path, target: Path, *, aside: Path) -> None:
        try:
            self._files.replace(source, target)
        except OSError as error:
            if error.errno != errno.EXDEV:
                raise
            # The output folder is a file system of its own.
            write_aside(self._files, target, self._files.read(source), aside=aside)


def _publishing_order(path: str) -> tuple[bool, bool, str]:
    """Sort so that what a page rests on is there before the page, and the front page is last."""
    return path.endswith(".html"), path == "index.html", path

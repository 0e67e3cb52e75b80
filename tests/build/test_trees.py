"""What the writer leaves in the output folder, run after run."""

import errno
import os
import threading
from pathlib import Path

import pytest

from filialog.build.files import RealFiles
from filialog.build.marker import ASIDE_NAME, MARKER_NAME
from filialog.build.refusals import NameFault, NameRefused, OutputBusy, OutputRefused, Refusal
from filialog.build.trees import Page, content_digest, write_site
from tools.faulty_files import FaultyFiles
from tools.page_sets import clean_tree, names_in, pages_in, publish, tree_in

OLD = {"index.html": "old front", "a.html": "a", "tanks/fen.html": "fen", "style.css": "old"}
NEW = {"index.html": "new front", "a.html": "a", "lines/x.html": "x", "style.css": "NEW"}

MODES = pytest.mark.parametrize("can_exchange", [True, False], ids=["exchange", "pages"])
LINKS = pytest.mark.parametrize("can_link", [True, False], ids=["links", "copies"])


def test_write__first_run_makes_the_pages(tmp_path: Path) -> None:
    done = publish(tmp_path, OLD)

    assert pages_in(tmp_path / "site") == OLD
    assert done.new == tuple(sorted(OLD))
    assert (done.changed, done.unchanged, done.removed, done.foreign) == ((), 0, (), ())
    assert done.in_one_step
    assert names_in(tmp_path) == ["site"]


@MODES
@LINKS
def test_write__update_equals_a_clean_run(
    tmp_path: Path, can_exchange: bool, can_link: bool
) -> None:
    expected = clean_tree(tmp_path / "clean", NEW)
    home = tmp_path / "kept"
    for texts in (OLD, NEW, OLD):
        publish(home, texts, files=FaultyFiles(can_exchange=can_exchange, can_link=can_link))
    done = publish(home, NEW, files=FaultyFiles(can_exchange=can_exchange, can_link=can_link))

    assert tree_in(home / "site") == expected
    assert done.new == ("lines/x.html",)
    assert done.changed == ("index.html", "style.css")
    assert done.removed == ("tanks/fen.html",)
    assert done.unchanged == 1
    assert done.in_one_step is can_exchange


def test_write__a_run_with_nothing_to_do_changes_nothing(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    publish(tmp_path, NEW)
    files = FaultyFiles()
    done = publish(tmp_path, NEW, files=files)

    assert (done.new, done.changed, done.removed, done.unchanged) == ((), (), (), 4)
    changing = ("write", "replace", "link", "exchange", "remove", "set_mode", "sync")
    assert [step for step in files.operations if step.startswith(changing)] == []


def test_write__an_unchanged_page_is_linked_and_never_asked_for(tmp_path: Path) -> None:
    publish(tmp_path, OLD)

    def refuse() -> bytes:
        raise AssertionError("the content of an unchanged page was asked for")

    pages = {path: Page(digest=content_digest(text.encode()), content=refuse)
             for path, text in OLD.items()}  # fmt: skip
    pages["b.html"] = Page(digest=content_digest(b"b"), content=b"b")
    before = (tmp_path / "site/a.html").stat().st_ino
    done = write_site(
        RealFiles(), pages=pages, output=tmp_path / "site", journal=tmp_path / "j", edition="public"
    )

    assert done.new == ("b.html",)
    assert (tmp_path / "site/a.html").stat().st_ino == before


def test_write__content_that_is_not_of_its_digest_is_refused(tmp_path: Path) -> None:
    pages = {"a.html": Page(digest=content_digest(b"a"), content=b"b")}
    with pytest.raises(ValueError, match="digest"):
        write_site(
            RealFiles(),
            pages=pages,
            output=tmp_path / "site",
            journal=tmp_path / "j",
            edition="public",
        )
    assert not (tmp_path / "site").exists()


@MODES
def test_write__no_pages_is_an_empty_site(tmp_path: Path, can_exchange: bool) -> None:
    files = FaultyFiles(can_exchange=can_exchange)
    publish(tmp_path, {}, files=files)
    assert set(tree_in(tmp_path / "site")) == {MARKER_NAME}
    publish(tmp_path, OLD, files=files)
    publish(tmp_path, {}, files=files)
    assert set(tree_in(tmp_path / "site")) == {MARKER_NAME}


@MODES
def test_write__an_empty_folder_is_taken(tmp_path: Path, can_exchange: bool) -> None:
    (tmp_path / "kept/site").mkdir(parents=True)
    publish(tmp_path / "kept", OLD, files=FaultyFiles(can_exchange=can_exchange))

    assert tree_in(tmp_path / "kept/site") == clean_tree(tmp_path / "clean", OLD)


@MODES
def test_write__a_page_becomes_a_folder_and_back(tmp_path: Path, can_exchange: bool) -> None:
    files = FaultyFiles(can_exchange=can_exchange)
    flat, deep = {"a": "flat", "b.html": "b"}, {"a/c/d.html": "deep", "a/e": "e", "b.html": "b"}
    for texts in (flat, deep, flat, deep):
        publish(tmp_path / "kept", texts, files=files)
        assert pages_in(tmp_path / "kept/site") == texts


@MODES
def test_write__damage_by_hand_is_put_right(tmp_path: Path, can_exchange: bool) -> None:
    files = FaultyFiles(can_exchange=can_exchange)
    home, site = tmp_path / "kept", tmp_path / "kept/site"
    publish(home, OLD, files=files)
    publish(home, NEW, files=files)
    (site / "a.html").write_text("longer than before")
    (site / "style.css").unlink()
    (site / "index.html").unlink()
    (site / "index.html").symlink_to(site / "a.html")
    done = publish(home, NEW, files=files)

    assert tree_in(site) == clean_tree(tmp_path / "clean", NEW)
    assert not (site / "index.html").is_symlink()
    assert done.changed == ("a.html", "index.html", "style.css")


@MODES
def test_write__verify_finds_a_change_of_the_same_size_in_both_trees(
    tmp_path: Path, can_exchange: bool
) -> None:
    files = FaultyFiles(can_exchange=can_exchange)
    home, site = tmp_path / "kept", tmp_path / "kept/site"
    publish(home, OLD, files=files)
    publish(home, NEW, files=files)
    # Written in place, so that the linked file in the hidden tree changes with it.
    with (site / "a.html").open("r+b") as file:
        file.write(b"Z")
    assert publish(home, NEW, files=files).changed == ()
    done = publish(home, NEW, files=files, verify=True)

    assert done.changed == ("a.html",)
    assert pages_in(site) == NEW
    # The damaged file must not come back from the hidden tree by an ordinary run.
    for texts in (OLD, NEW):
        publish(home, texts, files=files)
        assert pages_in(site) == texts


def test_write__what_verify_found_is_remembered_when_the_run_then_dies(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    (tmp_path / "site/a.html").write_text("Z")
    total = FaultyFiles()
    with pytest.raises(OSError, match="space"):
        publish(tmp_path, OLD, files=_failing("exchange site"), verify=True)
    done = publish(tmp_path, OLD, files=total)

    assert done.changed == ("a.html",)
    assert pages_in(tmp_path / "site") == OLD


class _failing(FaultyFiles):  # noqa: N801 - used as a function
    """Fails for good from the first operation of this name."""

    def __init__(self, operation: str) -> None:
        super().__init__()
        self._operation = operation

    def _due(self, operation: str, path: Path, *, changes: bool = True) -> bool:
        super()._due(operation, path, changes=changes)
        return f"{operation} {path.name}" == self._operation


@MODES
def test_write__foreign_files_are_kept_and_reported(tmp_path: Path, can_exchange: bool) -> None:
    files = FaultyFiles(can_exchange=can_exchange)
    site = tmp_path / "site"
    publish(tmp_path, OLD, files=files)
    (site / "CNAME").write_text("name")
    (site / ".git/refs").mkdir(parents=True)
    (site / ".git/HEAD").write_text("ref")
    (site / "tanks/note.txt").write_text("mine")
    (site / "away").symlink_to(tmp_path)
    foreign = {".git/HEAD": "ref", ".git/refs/": "", "CNAME": "name", "tanks/note.txt": "mine"}
    foreign["away"] = str(tmp_path)

    for texts in (NEW, OLD, NEW):
        done = publish(tmp_path, texts, files=files)
        assert pages_in(site) == texts | foreign
    assert done.foreign == (".git", "CNAME", "away", "tanks/note.txt")
    assert not (site / ".git").is_symlink()
    (site / "CNAME").unlink()
    publish(tmp_path, OLD, files=files)
    assert "CNAME" not in pages_in(site)


def test_write__a_folder_of_the_keepers_own_may_get_pages(tmp_path: Path) -> None:
    site = tmp_path / "site"
    publish(tmp_path, OLD)
    (site / "lines").mkdir()
    (site / "lines/mine.txt").write_text("mine")
    for texts in (NEW, OLD, NEW):
        publish(tmp_path, texts)
        assert pages_in(site) == texts | {"lines/mine.txt": "mine"}


@pytest.mark.parametrize(
    "path", ["lines/x.html", "lines", "LINES", "Lines/X.html", "lines/x.html/f"]
)
@MODES
def test_write__a_foreign_file_in_the_way_is_refused(
    tmp_path: Path, path: str, can_exchange: bool
) -> None:
    site = tmp_path / "site"
    publish(tmp_path, OLD)
    (site / path).parent.mkdir(parents=True, exist_ok=True)
    (site / path).write_text("mine")
    before = tree_in(tmp_path)
    with pytest.raises(OutputRefused) as caught:
        publish(tmp_path, NEW, files=FaultyFiles(can_exchange=can_exchange))

    assert caught.value.reason is Refusal.FOREIGN_IN_THE_WAY
    assert tree_in(tmp_path) == before


def test_write__a_folder_with_files_and_no_marker_is_refused(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "site/mine.txt").write_text("mine")
    with pytest.raises(OutputRefused) as caught:
        publish(tmp_path, OLD)

    assert caught.value.reason is Refusal.NOT_EMPTY
    assert tree_in(tmp_path) == {"site/mine.txt": b"mine"}


def test_write__a_hidden_folder_of_others_is_refused(tmp_path: Path) -> None:
    (tmp_path / ".site.filialog-next").mkdir()
    (tmp_path / ".site.filialog-next/mine.txt").write_text("mine")
    with pytest.raises(OutputRefused) as caught:
        publish(tmp_path, OLD)

    assert caught.value.reason is Refusal.WORK_FOLDER_TAKEN
    assert tree_in(tmp_path) == {".site.filialog-next/mine.txt": b"mine"}


def test_write__a_hidden_link_is_refused(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / ".site.filialog-next").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(OutputRefused) as caught:
        publish(tmp_path, OLD)
    assert caught.value.reason is Refusal.WORK_FOLDER_TAKEN


def test_write__the_other_edition_is_refused(tmp_path: Path) -> None:
    publish(tmp_path, OLD, edition="public")
    before = tree_in(tmp_path)
    with pytest.raises(OutputRefused) as caught:
        publish(tmp_path, NEW, edition="keeper")

    assert caught.value.reason is Refusal.OTHER_EDITION
    assert caught.value.detail == "public"
    assert tree_in(tmp_path) == before


def test_write__pages_of_the_other_edition_do_not_stay_in_the_hidden_folder(tmp_path: Path) -> None:
    publish(tmp_path, {"secret.html": "buyer"}, edition="keeper")
    publish(tmp_path, {"secret.html": "buyer 2"}, edition="keeper")
    (tmp_path / "site").rename(tmp_path / "moved")
    publish(tmp_path, OLD, edition="public")
    assert pages_in(tmp_path / "site") == OLD


@pytest.mark.parametrize(
    "marker",
    [
        b"",
        b"{",
        b"[]",
        b"\xff",
        b'{"format":1,"program":"other","edition":"public","pages":{}}',
        b'{"format":2,"program":"filialog","edition":"public","pages":{}}',
        b'{"format":1,"program":"filialog","edition":3,"pages":{}}',
        b'{"format":1,"program":"filialog","edition":"public","pages":[]}',
        b'{"format":1,"program":"filialog","edition":"public","pages":{"a":["x"]}}',
        b'{"format":1,"program":"filialog","edition":"public","pages":{"a":["x",true]}}',
        b"[" * 100_000,
    ],
)
def test_write__a_damaged_marker_is_refused(tmp_path: Path, marker: bytes) -> None:
    publish(tmp_path, OLD)
    (tmp_path / "site" / MARKER_NAME).write_bytes(marker)
    before = tree_in(tmp_path)
    with pytest.raises(OutputRefused) as caught:
        publish(tmp_path, NEW)

    assert caught.value.reason is Refusal.MARKER_UNREADABLE
    assert tree_in(tmp_path) == before


@MODES
def test_write__a_marker_that_lists_paths_outside_removes_nothing_there(
    tmp_path: Path, can_exchange: bool
) -> None:
    publish(tmp_path, {"a.html": "a"})
    (tmp_path / "victim.txt").write_text("mine")
    (tmp_path / "site/link").symlink_to(tmp_path)
    text = '"../victim.txt":null,"link/victim.txt":null,"/etc/passwd":null,"a.html"'
    marker = tmp_path / "site" / MARKER_NAME
    marker.write_text(marker.read_text().replace('"a.html"', text))
    publish(tmp_path, {"b.html": "b"}, files=FaultyFiles(can_exchange=can_exchange))

    assert (tmp_path / "victim.txt").read_text() == "mine"
    assert pages_in(tmp_path / "site") == {"b.html": "b", "link": str(tmp_path)}


@pytest.mark.parametrize("name", [MARKER_NAME, ASIDE_NAME, MARKER_NAME.upper() + "/x.html"])
def test_write__our_own_names_are_no_pages(tmp_path: Path, name: str) -> None:
    with pytest.raises(NameRefused) as caught:
        publish(tmp_path, {name: "x"})
    assert caught.value.fault is NameFault.RESERVED


def test_write__a_second_run_at_once_is_told_so(tmp_path: Path) -> None:
    lock = RealFiles().lock(tmp_path / ".site.filialog-lock")
    assert lock is not None
    with lock, pytest.raises(OutputBusy):
        publish(tmp_path, OLD)
    publish(tmp_path, OLD)
    assert names_in(tmp_path) == ["site"]


def test_write__marker_names_no_machine_and_is_sorted(tmp_path: Path) -> None:
    publish(tmp_path / "one", OLD)
    publish(tmp_path / "two", dict(reversed(OLD.items())))
    text = (tmp_path / "one/site" / MARKER_NAME).read_text()

    assert text == (tmp_path / "two/site" / MARKER_NAME).read_text()
    assert str(tmp_path) not in text
    assert text.index('"a.html"') < text.index('"index.html"') < text.index('"style.css"')


@pytest.mark.parametrize(("mask", "file_mode", "folder_mode"), [(0o022, 0o644, 0o755),
                                                                (0o077, 0o600, 0o700)])  # fmt: skip
def test_write__modes_follow_the_umask(
    tmp_path: Path, mask: int, file_mode: int, folder_mode: int
) -> None:
    before = os.umask(mask)
    try:
        publish(tmp_path, OLD)
        publish(tmp_path, NEW)
    finally:
        os.umask(before)
    for path in (tmp_path / "site").rglob("*"):
        assert path.stat().st_mode & 0o777 == (folder_mode if path.is_dir() else file_mode)


def test_write__a_closed_output_folder_stays_closed(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    (tmp_path / "site").chmod(0o700)
    publish(tmp_path, NEW)

    assert (tmp_path / "site").stat().st_mode & 0o777 == 0o700
    assert (tmp_path / ".site.filialog-next").stat().st_mode & 0o777 == 0o700


def test_write__an_output_that_is_a_mount_point_is_written_page_by_page(tmp_path: Path) -> None:
    site = tmp_path / "kept/site"
    site.mkdir(parents=True)
    files = FaultyFiles(can_exchange=False, foreign_mount=site)
    for texts in (OLD, NEW):
        assert not publish(tmp_path / "kept", texts, files=files).in_one_step
        assert pages_in(site) == texts
    assert tree_in(site) == clean_tree(tmp_path / "clean", NEW)


def test_write__on_a_mount_point_no_whole_site_is_made_aside(tmp_path: Path) -> None:
    site = tmp_path / "site"
    site.mkdir()
    publish(tmp_path, OLD, files=FaultyFiles(foreign_mount=site))
    files = FaultyFiles(foreign_mount=site)
    publish(tmp_path, NEW, files=files)

    assert not [step for step in files.operations if step.startswith(("exchange", "link"))]
    assert "write a.html" not in files.operations


def test_write__page_by_page_leaves_no_hidden_folder(tmp_path: Path) -> None:
    for texts in (OLD, NEW):
        publish(tmp_path, texts, files=FaultyFiles(can_exchange=False))
        assert names_in(tmp_path) == ["site"]


@pytest.mark.parametrize("can_exchange", [True, False])
def test_write__all_is_on_the_disk_before_it_is_published(
    tmp_path: Path, can_exchange: bool
) -> None:
    publish(tmp_path, OLD)
    files = FaultyFiles(can_exchange=can_exchange)
    publish(tmp_path, NEW, files=files)
    steps = files.operations
    synced = steps.index("sync .site.filialog-next")

    assert synced > steps.index("write x.html")
    assert synced < steps.index("exchange site" if can_exchange else "replace x.html")


@MODES
def test_write__a_link_as_long_as_the_page_is_put_right(tmp_path: Path, can_exchange: bool) -> None:
    files = FaultyFiles(can_exchange=can_exchange)
    publish(tmp_path, {"a.html": "12345678"}, files=files)
    (tmp_path / "site/a.html").unlink()
    (tmp_path / "site/a.html").symlink_to("/etc/sys")
    assert publish(tmp_path, {"a.html": "12345678"}, files=files).changed == ("a.html",)
    assert pages_in(tmp_path / "site") == {"a.html": "12345678"}


def test_write__a_marker_that_is_a_link_is_refused(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    (tmp_path / "site" / MARKER_NAME).rename(tmp_path / "marker")
    (tmp_path / "site" / MARKER_NAME).symlink_to(tmp_path / "marker")
    with pytest.raises(OutputRefused) as caught:
        publish(tmp_path, NEW)
    assert caught.value.reason is Refusal.MARKER_UNREADABLE


@MODES
def test_write__a_page_in_place_of_a_folder_with_a_foreign_file_is_refused(
    tmp_path: Path, can_exchange: bool
) -> None:
    publish(tmp_path, {"d/a.html": "a"})
    (tmp_path / "site/d/mine.txt").write_text("mine")
    with pytest.raises(OutputRefused) as caught:
        publish(tmp_path, {"d": "d"}, files=FaultyFiles(can_exchange=can_exchange))

    assert caught.value.reason is Refusal.FOREIGN_IN_THE_WAY
    assert pages_in(tmp_path / "site") == {"d/a.html": "a", "d/mine.txt": "mine"}


def test_write__a_stranded_foreign_file_takes_no_other_ones_place(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    publish(tmp_path, NEW)
    (tmp_path / ".site.filialog-next/CNAME").write_text("older")  # as a killed run leaves it
    (tmp_path / "site/CNAME").write_text("newer")
    done = publish(tmp_path, NEW)

    assert pages_in(tmp_path / "site") == NEW | {"CNAME": "newer", "CNAME.kept-1": "older"}
    assert done.foreign == ("CNAME", "CNAME.kept-1")


def test_write__other_errors_of_renaming_are_raised(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    count = FaultyFiles(can_exchange=False)
    publish(tmp_path, NEW, files=count)
    at = next(i for i, step in enumerate(count.operations, 1) if step == "replace index.html")
    publish(tmp_path, OLD)
    with pytest.raises(OSError, match="Permission") as caught:
        publish(
            tmp_path, NEW, files=FaultyFiles(can_exchange=False, fail_at=at, number=errno.EACCES)
        )
    assert caught.value.errno == errno.EACCES


def test_write__pages_come_after_what_they_rest_on_and_the_front_last(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    files = FaultyFiles(can_exchange=False)
    publish(tmp_path, NEW, files=files)
    names = ["style.css", "x.html", "index.html"]
    expected = [*(f"replace {name}" for name in names), "remove_file fen.html"]

    assert [step for step in files.operations if step in expected] == expected


def test_write__a_reader_always_finds_the_page(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    misses: list[str] = []
    seen: set[str] = set()
    done = threading.Event()

    def read() -> None:
        while not done.is_set():
            try:
                seen.add((tmp_path / "site/index.html").read_text())
            except OSError as error:
                misses.append(str(error))

    reader = threading.Thread(target=read)
    reader.start()
    for number in range(40):
        assert publish(tmp_path, NEW if number % 2 == 0 else OLD).in_one_step
    done.set()
    reader.join()

    assert misses == []
    assert seen == {"old front", "new front"}

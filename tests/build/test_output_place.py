"""Folders that a site must never take the place of."""

from pathlib import Path

import pytest

from filialog.build.files import RealFiles
from filialog.build.output_place import find_place
from filialog.build.refusals import OutputRefused, Refusal


def refusal(output: Path, journal: Path) -> Refusal | None:
    try:
        find_place(RealFiles(), output=output, journal=journal)
    except OutputRefused as error:
        return error.reason
    return None


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    folder = tmp_path / "rack" / "journal"
    (folder / "diary").mkdir(parents=True)
    return folder


def test_place__beside_the_journal_is_taken(journal: Path) -> None:
    assert refusal(journal.parent / "site", journal) is None
    assert refusal(journal.parent / "journal-site", journal) is None
    assert refusal(journal.parent / "not" / "there" / "yet", journal) is None


def test_place__the_journal_itself_is_refused(journal: Path) -> None:
    assert refusal(journal, journal) is Refusal.JOURNAL
    assert refusal(journal / "diary" / "..", journal) is Refusal.JOURNAL
    assert refusal(journal / ".." / "journal", journal) is Refusal.JOURNAL


@pytest.mark.parametrize("below", ["site", "diary", "diary/site", "new/site"])
def test_place__inside_the_journal_is_refused(journal: Path, below: str) -> None:
    assert refusal(journal / below, journal) is Refusal.INSIDE_JOURNAL


def test_place__around_the_journal_is_refused(journal: Path) -> None:
    assert refusal(journal.parent, journal) is Refusal.AROUND_JOURNAL
    assert refusal(journal.parent.parent, journal) is Refusal.AROUND_JOURNAL


def test_place__the_journal_is_known_through_a_link(journal: Path, tmp_path: Path) -> None:
    link = tmp_path / "link"
    link.symlink_to(journal)
    assert refusal(journal / "site", link) is Refusal.INSIDE_JOURNAL
    assert refusal(link / "site", journal) is Refusal.INSIDE_JOURNAL
    assert refusal(journal, link) is Refusal.JOURNAL


def test_place__a_journal_of_the_same_inode_is_the_same(
    journal: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # On a file system that ignores case both spellings have one inode; here a link plays that.
    (journal.parent / "JOURNAL").symlink_to(journal)
    monkeypatch.setattr(RealFiles, "resolve", lambda _self, path: path.absolute())
    monkeypatch.setattr(Path, "lstat", Path.stat)
    assert refusal(journal.parent / "JOURNAL" / "site", journal) is Refusal.INSIDE_JOURNAL
    assert refusal(journal.parent / "JOURNAL", journal) is Refusal.JOURNAL


def test_place__home_and_what_lies_around_it_is_refused(
    journal: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    home = tmp_path / "people" / "ann"
    home.mkdir(parents=True)
    monkeypatch.setenv("HOME", str(home))
    assert refusal(home, journal) is Refusal.HOME
    assert refusal(home.parent, journal) is Refusal.HOME
    assert refusal(home / "site", journal) is None


def test_place__the_root_is_refused(journal: Path) -> None:
    assert refusal(Path("/"), journal) is Refusal.ROOT
    assert refusal(Path("/tmp/.."), journal) is Refusal.ROOT


@pytest.mark.parametrize("target", ["there", "nowhere", "site"])
def test_place__a_link_is_refused(journal: Path, tmp_path: Path, target: str) -> None:
    (tmp_path / "there").mkdir()
    (tmp_path / "site").symlink_to(tmp_path / target)
    assert refusal(tmp_path / "site", journal) is Refusal.LINK


def test_place__a_file_is_refused(journal: Path, tmp_path: Path) -> None:
    (tmp_path / "site").write_text("x")
    assert refusal(tmp_path / "site", journal) is Refusal.NOT_A_FOLDER


def test_place__the_working_folder_may_be_the_output(
    journal: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "site").mkdir()
    monkeypatch.chdir(tmp_path / "site")
    place = find_place(RealFiles(), output=Path(), journal=journal)
    assert place.output == (tmp_path / "site").resolve()
    assert place.beside("next") == (tmp_path / ".site.filialog-next").resolve()


def test_place__a_circle_of_links_is_an_os_error(journal: Path, tmp_path: Path) -> None:
    (tmp_path / "one").symlink_to(tmp_path / "two")
    (tmp_path / "two").symlink_to(tmp_path / "one")
    with pytest.raises(OSError, match="symbolic links"):
        refusal(tmp_path / "one" / "site", journal)

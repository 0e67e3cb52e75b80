"""What is found in a journal folder, and what the keeper is told about the rest."""

import errno
import os
from pathlib import Path

import pytest

from filialog.build.files import RealFiles
from filialog.build.walk import (
    MAX_TEXT_BYTES,
    JournalTexts,
    Listing,
    Problem,
    ProblemKind,
    list_journal,
    read_texts,
)
from tools.faulty_files import FaultyFiles

TEXTS = {
    "diary/2026-03-14.md": "one",
    "diary/2026/04/2026-04-01 fen.txt": "two",
    "diary/PHONE.MD": "three",
    "groups/ember.md": "four",
    "journal.yaml": "five",
    "lines/ember.md": "six",
    "photos/2026-03-14-fen/album.md": "seven",
    "photos/album.md": "eight",
    "tanks/fen.md": "nine",
    "traits/eyes.yaml": "ten",
    "trust.yaml": "eleven",
}
OTHERS = {
    "photos/2026-03-14-fen/0231.jpg": "picture",
    "photos/clip.mp4": "clip",
    "photos/readme.txt": "text",
    "received/fen.json": "statement",
    "received/deep/note.md": "note",
}
SKIPPED = {
    ".git/config": "",
    "README.md": "the keeper's own",
    "drafts/x.md": "",
    "diary/.hidden.md": "",
    "diary/.2026-03-14.md.swp": "",
    "diary/2026-03-14.md~": "",
    "diary/2026-03-14.md.swo": "",
    "diary/#2026-03-14.md#": "",
    "diary/.#2026-03-14.md": "",
    "diary/~$notes.docx": "",
    "diary/.trash/old.md": "",
    "photos/Thumbs.db": "",
    "photos/.DS_Store": "",
    "proof/log.md": "read by another part",
}


def make(folder: Path, contents: dict[str, str]) -> None:
    folder.mkdir(exist_ok=True)
    for path, text in contents.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text)


def walk(folder: Path) -> tuple[Listing, JournalTexts]:
    listing = list_journal(RealFiles(), folder)
    return listing, read_texts(RealFiles(), folder, listing)


def problems(folder: Path) -> dict[str, ProblemKind]:
    return {problem.path: problem.kind for problem in walk(folder)[1].problems}


def test_walk__reads_the_layout_in_order_and_nothing_else(tmp_path: Path) -> None:
    make(tmp_path, TEXTS | OTHERS | SKIPPED)
    listing, read = walk(tmp_path)

    assert {path: data.decode() for path, data in read.texts.items()} == TEXTS
    assert list(read.texts) == sorted(TEXTS)
    sizes = {found.path: found.stat.size for found in listing.others}
    assert sizes == {path: len(text) for path, text in OTHERS.items()}
    assert list(sizes) == sorted(OTHERS)
    assert [found.path for found in listing.texts] == sorted(TEXTS)
    assert read.problems == ()


def test_walk__the_texts_cannot_be_changed(tmp_path: Path) -> None:
    make(tmp_path, TEXTS)
    _, read = walk(tmp_path)
    with pytest.raises(TypeError):
        read.texts["new.md"] = b""  # type: ignore[index]


def test_walk__an_empty_journal_has_no_problem(tmp_path: Path) -> None:
    assert walk(tmp_path)[1].problems == ()


def test_walk__a_missing_journal_is_one_problem(tmp_path: Path) -> None:
    assert walk(tmp_path / "none")[1].problems == (
        Problem(path=".", kind=ProblemKind.UNREADABLE, reason="ENOENT"),
    )


@pytest.mark.parametrize(
    "path",
    [
        "diary/2026-03-01.docx",
        "diary/picture.jpg",
        "diary/no-ending",
        "tanks/fen.txt",
        "groups/ember.yaml",
        "lines/ember.markdown",
        "traits/eyes.yml",
        "photos/2026/notes.md",
        "journal.yml",
        "Journal.yaml",
        "TRUST.YML",
    ],
)
def test_walk__a_file_that_nothing_reads_is_told(tmp_path: Path, path: str) -> None:
    make(tmp_path, {path: "x"})
    assert problems(tmp_path) == {path: ProblemKind.NOT_READ}
    assert walk(tmp_path)[1].texts == {}


def test_walk__a_folder_that_nothing_reads_is_told_once(tmp_path: Path) -> None:
    make(tmp_path, {"Diary/a.md": "x", "Diary/b.md": "x", "tanks/old/fen.md": "x"})
    assert problems(tmp_path) == {
        "Diary": ProblemKind.NOT_READ,
        "tanks/old": ProblemKind.NOT_READ,
    }


def test_walk__no_link_is_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    make(outside, {"secret.md": "secret", "deep/secret.jpg": "secret"})
    journal = tmp_path / "journal"
    make(journal, {"diary/2026-03-14.md": "x", "photos/a.jpg": "x"})
    (journal / "diary/secret.md").symlink_to(outside / "secret.md")
    (journal / "diary/loop").symlink_to(journal / "diary")
    (journal / "photos/deep").symlink_to(outside / "deep")
    (journal / "tanks").symlink_to(outside)
    (journal / "journal.yaml").symlink_to(tmp_path / "nowhere")
    (journal / "diary/.#lock").symlink_to("user@host.1")

    listing, read = walk(journal)
    assert list(read.texts) == ["diary/2026-03-14.md"]
    assert [found.path for found in listing.others] == ["photos/a.jpg"]
    links = ("diary/loop", "diary/secret.md", "journal.yaml", "photos/deep", "tanks")
    assert read.problems == tuple(Problem(path=path, kind=ProblemKind.LINK) for path in links)


def test_walk__things_of_the_wrong_sort_are_told(tmp_path: Path) -> None:
    make(tmp_path, {"diary": "a file", "journal.yaml/x": "in a folder"})
    (tmp_path / "photos").mkdir()
    os.mkfifo(tmp_path / "photos/pipe.jpg")
    assert problems(tmp_path) == {
        "diary": ProblemKind.NOT_A_FOLDER,
        "journal.yaml": ProblemKind.NOT_A_FILE,
        "photos/pipe.jpg": ProblemKind.NOT_A_FILE,
    }


def test_walk__the_longest_text_is_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    make(tmp_path, {"diary/a.md": "x" * MAX_TEXT_BYTES, "diary/b.md": "x" * (MAX_TEXT_BYTES + 1)})
    make(tmp_path, {"photos/big.jpg": "x" * (MAX_TEXT_BYTES + 1)})
    listing, read = walk(tmp_path)

    assert [found.path for found in listing.texts] == ["diary/a.md"]  # it is not even opened
    assert list(read.texts) == ["diary/a.md"]
    assert len(read.texts["diary/a.md"]) == MAX_TEXT_BYTES
    assert [found.path for found in listing.others] == ["photos/big.jpg"]
    assert read.problems == (Problem(path="diary/b.md", kind=ProblemKind.TOO_LARGE),)


def test_walk__a_text_that_grew_or_went_away_since_the_listing_is_told(tmp_path: Path) -> None:
    make(tmp_path, {"diary/a.md": "x", "diary/b.md": "x", "diary/c.md": "x"})
    listing = list_journal(RealFiles(), tmp_path)
    (tmp_path / "diary/a.md").write_text("x" * (MAX_TEXT_BYTES + 1))
    (tmp_path / "diary/b.md").unlink()
    read = read_texts(RealFiles(), tmp_path, listing)

    assert list(read.texts) == ["diary/c.md"]
    assert read.problems == (
        Problem(path="diary/a.md", kind=ProblemKind.TOO_LARGE),
        Problem(path="diary/b.md", kind=ProblemKind.UNREADABLE, reason="ENOENT"),
    )


@pytest.mark.parametrize("number", [errno.EACCES, errno.EIO])
def test_walk__a_fault_at_any_operation_is_told_and_the_rest_is_read(
    tmp_path: Path, number: int
) -> None:
    make(tmp_path, TEXTS | OTHERS)
    count = FaultyFiles()
    read_texts(count, tmp_path, list_journal(count, tmp_path))
    assert len(count.operations) > len(TEXTS)
    for at, step in enumerate(count.operations, 1):
        files = FaultyFiles(fail_at=at, number=number)
        read = read_texts(files, tmp_path, list_journal(files, tmp_path))
        (problem,) = read.problems
        assert (problem.kind, problem.reason) == (
            ProblemKind.UNREADABLE,
            errno.errorcode[number],
        )
        if step.startswith("read"):
            assert read.texts.keys() == TEXTS.keys() - {problem.path}
        else:
            below = "" if problem.path == "." else problem.path + "/"
            assert read.texts.keys() == {path for path in TEXTS if not path.startswith(below)}


def test_walk__names_that_cannot_be_shown_are_told_in_escapes(tmp_path: Path) -> None:
    (tmp_path / "diary").mkdir()
    for name in (b"bad\xff.md", b"two\nlines.md", b"back\\slash.md", "\u2028.md".encode()):
        (tmp_path / "diary" / os.fsdecode(name)).write_text("x")
    found = walk(tmp_path)[1]

    assert found.texts == {}
    assert [problem.path for problem in found.problems] == [
        "diary/\\u2028.md",
        "diary/back\\\\slash.md",
        "diary/bad\\udcff.md",
        "diary/two\\nlines.md",
    ]
    assert {problem.kind for problem in found.problems} == {ProblemKind.BAD_NAME}


def test_walk__paths_that_are_one_elsewhere_name_both(tmp_path: Path) -> None:
    paths = ("diary/Caf\u00e9.md", "diary/Cafe\u0301.md", "photos/A.jpg", "photos/a.jpg")
    make(tmp_path, dict.fromkeys(paths, "x"))
    if len(list((tmp_path / "photos").iterdir())) < 2:
        pytest.skip("this file system ignores case")
    read = walk(tmp_path)[1]

    assert read.problems == (
        Problem(path=paths[0], kind=ProblemKind.COLLISION, other=paths[1]),
        Problem(path=paths[3], kind=ProblemKind.COLLISION, other=paths[2]),
    )
    assert len(read.texts) == 2


def test_walk__very_deep_folders_are_no_recursion(quick_path: Path) -> None:
    folders = [quick_path / "diary"]
    while len(folders) < 1200:
        folders.append(folders[-1] / "d")
    for folder in folders:
        folder.mkdir()
    (folders[-1] / "a.md").write_text("x")
    texts = walk(quick_path)[1].texts
    (folders[-1] / "a.md").unlink()
    for folder in reversed(folders):  # the clean-up after the tests would recurse
        folder.rmdir()
    assert list(texts.values()) == [b"x"]

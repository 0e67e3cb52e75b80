"""Pictures are rendered once; any doubt about what was kept renders them again."""

import hashlib
from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier

import pytest
from PIL import Image

from filialog.build.files import Files, RealFiles
from filialog.photos import (
    PictureFiles,
    PictureProblem,
    PictureStore,
    Prepared,
    ProblemKind,
    Source,
    prepare_pictures,
)
from filialog.photos import preparing as preparing_module
from filialog.photos.opening import Opened
from filialog.photos.opening import open_picture as real_open
from photos.making import as_bytes, corners, jpeg_full_of_secrets

WIDTHS = (40, 80)


@pytest.fixture
def executor() -> Iterator[ThreadPoolExecutor]:
    with ThreadPoolExecutor(max_workers=2) as threads:
        yield threads


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Lengths of the files that were decoded."""
    lengths: list[int] = []

    def counted(data: bytes) -> Opened | PictureProblem:
        lengths.append(len(data))
        return real_open(data)

    monkeypatch.setattr(preparing_module, "open_picture", counted)
    return lengths


Prepare = Callable[..., Prepared]


@pytest.fixture
def prepare(tmp_path: Path, executor: ThreadPoolExecutor) -> Prepare:
    def run(
        sources: Iterable[Source],
        *,
        widths: tuple[int, ...] = WIDTHS,
        formats: tuple[str, ...] = ("avif", "jpeg"),
    ) -> Prepared:
        store = PictureStore(RealFiles(), tmp_path / "kept")
        return prepare_pictures(
            sources, store=store, executor=executor, widths=widths, formats=formats
        )

    return run


def _sources(data: Mapping[str, bytes], stamp: str = "") -> list[Source]:
    def reader(content: bytes) -> Callable[[], bytes]:
        return lambda: content

    return [
        Source(path=path, read=reader(content), stamp=stamp and f"{stamp} {path}")
        for path, content in data.items()
    ]


PHOTOS = {
    "photos/b.jpg": jpeg_full_of_secrets(corners(90, 60)),
    "photos/a.png": as_bytes(corners(60, 90), "PNG"),
    "photos/c.jpg": b"no picture",
}


def _fails() -> bytes:
    raise PermissionError(13, "not allowed")


def _must_not_be_read() -> bytes:
    raise AssertionError("read although the stamp is the same")


def test_files_of_build__are_what_the_store_asks_for() -> None:
    files: Files = RealFiles()
    asked: PictureFiles = files

    assert PictureStore(asked, Path("x")).stamps() == {}


def test_prepare_pictures__gives_every_picture_its_copies(prepare: Prepare) -> None:
    made = prepare(_sources(PHOTOS))

    assert list(made.pictures) == ["photos/a.png", "photos/b.jpg", "photos/c.jpg"]
    picture = made.pictures["photos/b.jpg"]
    assert (picture.width, picture.height, picture.problem) == (90, 60, None)
    assert picture.digest == hashlib.sha256(PHOTOS["photos/b.jpg"]).hexdigest()
    assert [(r.width, r.height, r.format) for r in picture.renditions] == [
        (40, 27, "avif"),
        (80, 53, "avif"),
        (40, 27, "jpeg"),
        (80, 53, "jpeg"),
    ]
    for rendition in picture.renditions:
        data = made.content[rendition.path]()
        assert hashlib.sha256(data).hexdigest() == rendition.digest
        assert len(data) == rendition.size
        assert rendition.path.startswith(f"pictures/{rendition.digest[:24]}.")
    assert made.pictures["photos/c.jpg"].problem == PictureProblem(kind=ProblemKind.NOT_A_PICTURE)
    assert list(made.content) == sorted(made.content)


def test_prepare_pictures__names_nothing_by_the_keepers_files(prepare: Prepare) -> None:
    made = prepare(_sources({"photos/anna-at-home.jpg": PHOTOS["photos/b.jpg"]}))

    assert made.content
    assert not [path for path in made.content if "anna" in path]


def test_prepare_pictures__renders_nothing_twice(prepare: Prepare, opened: list[int]) -> None:
    first = prepare(_sources(PHOTOS))
    assert (first.rendered, len(opened)) == (3, 3)
    opened.clear()

    second = prepare(_sources(PHOTOS))

    assert (second.rendered, opened) == (0, [])
    assert second.pictures == first.pictures
    assert {path: give() for path, give in second.content.items()} == {
        path: give() for path, give in first.content.items()
    }
    assert opened == []


def test_prepare_pictures__reads_nothing_where_the_stamps_are_the_same(prepare: Prepare) -> None:
    first = prepare(_sources(PHOTOS, stamp="1"))
    unread = [Source(path=path, read=_must_not_be_read, stamp=f"1 {path}") for path in PHOTOS]

    assert prepare(unread).pictures == first.pictures


@pytest.mark.parametrize("stamp", ["", "2"])
def test_prepare_pictures__reads_where_a_stamp_is_missing_or_new(
    prepare: Prepare, stamp: str
) -> None:
    prepare(_sources(PHOTOS, stamp="1"))
    changed = dict.fromkeys(PHOTOS, PHOTOS["photos/a.png"])

    made = prepare(_sources(changed, stamp=stamp))

    assert {picture.digest for picture in made.pictures.values()} == {
        hashlib.sha256(PHOTOS["photos/a.png"]).hexdigest()
    }


def test_prepare_pictures__renders_anew_for_other_settings(prepare: Prepare) -> None:
    prepare(_sources(PHOTOS, stamp="1"))

    assert prepare(_sources(PHOTOS, stamp="1"), widths=(40, 50)).rendered == 3
    assert prepare(_sources(PHOTOS, stamp="1"), formats=("jpeg",)).rendered == 3


def test_prepare_pictures__is_the_same_from_the_store_and_from_nothing(
    prepare: Prepare, tmp_path: Path
) -> None:
    prepare(_sources(dict(list(PHOTOS.items())[:2])))
    grown = prepare(_sources(PHOTOS))
    (tmp_path / "kept").rename(tmp_path / "gone")
    fresh = prepare(_sources(PHOTOS))

    assert (grown.rendered, fresh.rendered) == (1, 3)
    assert grown.pictures == fresh.pictures
    assert {p: c() for p, c in grown.content.items()} == {p: c() for p, c in fresh.content.items()}


def _damage(data: bytes, how: str) -> bytes:
    return {
        "emptied": b"",
        "cut": data[:-5],
        "longer": data + b"x",
        "scratched": data[:70] + bytes([data[70] ^ 1]) + data[71:],
        "zeros": bytes(len(data)),
    }[how]


@pytest.mark.parametrize("how", ["emptied", "cut", "longer", "scratched", "zeros"])
def test_store__doubts_every_damaged_note(prepare: Prepare, tmp_path: Path, how: str) -> None:
    first = prepare(_sources(PHOTOS))
    for note in (tmp_path / "kept").glob("*.json"):
        note.write_bytes(_damage(note.read_bytes(), how))

    second = prepare(_sources(PHOTOS))

    assert second.rendered == 3
    assert second.pictures == first.pictures


@pytest.mark.parametrize("how", ["emptied", "cut", "longer", "scratched", "zeros", "gone"])
def test_store__doubts_every_damaged_copy(prepare: Prepare, tmp_path: Path, how: str) -> None:
    first = prepare(_sources(PHOTOS))
    wanted = {path: give() for path, give in first.content.items()}
    for file in (tmp_path / "kept").iterdir():
        if len(file.name) == 64:
            if how == "gone":
                file.unlink()
            else:
                file.write_bytes(_damage(file.read_bytes(), how))

    second = prepare(_sources(PHOTOS))

    assert {path: give() for path, give in second.content.items()} == wanted


@pytest.mark.parametrize("words", ["[]", "7", '{"problem":"no such"}', '{"kind":"jpeg"}', "{"])
def test_store__doubts_a_note_of_another_shape(
    prepare: Prepare, tmp_path: Path, words: str
) -> None:
    prepare(_sources(PHOTOS))
    check = hashlib.sha256(words.encode()).hexdigest()
    for note in (tmp_path / "kept").glob("*.json"):
        note.write_text(f"{check}\n{words}", encoding="ascii")

    assert prepare(_sources(PHOTOS)).rendered == 3


def test_store__doubts_damaged_stamps(prepare: Prepare, tmp_path: Path) -> None:
    prepare(_sources(PHOTOS, stamp="1"))
    stamps = tmp_path / "kept" / "stamps"
    stamps.write_bytes(_damage(stamps.read_bytes(), "scratched"))

    made = prepare(_sources(dict.fromkeys(PHOTOS, PHOTOS["photos/a.png"]), stamp="1"))

    assert made.pictures["photos/c.jpg"].problem is None


def test_store__forgets_what_is_no_longer_used(prepare: Prepare, tmp_path: Path) -> None:
    prepare(_sources(PHOTOS, stamp="1"))
    (tmp_path / "kept" / "left.1.part").write_bytes(b"left by a killed run")
    one = {"photos/a.png": PHOTOS["photos/a.png"]}

    made = prepare(_sources(one, stamp="1"))

    wanted = {r.digest for r in made.pictures["photos/a.png"].renditions}
    names = {file.name for file in (tmp_path / "kept").iterdir()}
    assert {name for name in names if len(name) == 64} == wanted
    assert len(names) == len(wanted) + 2, "beside them the note and the stamps"


def test_content__tells_where_a_picture_changed_meanwhile(prepare: Prepare, tmp_path: Path) -> None:
    data = {"now": PHOTOS["photos/b.jpg"]}
    made = prepare([Source(path="photos/b.jpg", read=lambda: data["now"])])
    for file in (tmp_path / "kept").iterdir():
        file.unlink()
    data["now"] = PHOTOS["photos/a.png"]

    with pytest.raises(OSError, match="changed while the site was made"):
        next(iter(made.content.values()))()


def test_prepare_pictures__tells_what_cannot_be_read(prepare: Prepare) -> None:
    made = prepare([Source(path="photos/x.jpg", read=_fails), *_sources(PHOTOS)])

    picture = made.pictures["photos/x.jpg"]
    assert picture.problem == PictureProblem(kind=ProblemKind.UNREADABLE)
    assert (picture.digest, picture.renditions) == ("", ())
    assert made.pictures["photos/a.png"].renditions


def test_prepare_pictures__takes_equal_pictures_under_many_names(prepare: Prepare) -> None:
    many = {f"photos/{n}.jpg": PHOTOS["photos/b.jpg"] for n in range(24)}

    made = prepare(_sources(many))

    assert len({picture.renditions for picture in made.pictures.values()}) == 1
    assert len(made.content) == 4


class _FilesThatMeet(RealFiles):
    """Files whose first two writes begin at the same moment."""

    def __init__(self) -> None:
        self._gate = Barrier(2)
        self._waiting = 2

    def write(self, path: Path, data: bytes, *, sync: bool = False) -> None:
        if self._waiting:
            self._waiting -= 1
            self._gate.wait(timeout=20)
        super().write(path, data, sync=sync)


def test_store__keeps_equal_pictures_that_come_at_once(
    tmp_path: Path, executor: ThreadPoolExecutor
) -> None:
    store = PictureStore(_FilesThatMeet(), tmp_path / "kept")
    equal = dict.fromkeys(("photos/1.jpg", "photos/2.jpg"), PHOTOS["photos/b.jpg"])

    made = prepare_pictures(_sources(equal), store=store, executor=executor, widths=WIDTHS)

    assert made.rendered == 2
    assert all(give() for give in made.content.values())


def test_prepare_pictures__leaves_the_originals_alone(tmp_path: Path, prepare: Prepare) -> None:
    folder = tmp_path / "journal"
    folder.mkdir()
    for path, data in PHOTOS.items():
        (folder / Path(path).name).write_bytes(data)
    before = {file: (file.read_bytes(), file.stat().st_mtime_ns) for file in folder.iterdir()}
    files = RealFiles()

    def reader(file: Path) -> Callable[[], bytes]:
        return lambda: files.read(file)

    prepare([Source(path=file.name, read=reader(file)) for file in sorted(folder.iterdir())])

    assert {f: (f.read_bytes(), f.stat().st_mtime_ns) for f in folder.iterdir()} == before


def test_prepare_pictures__takes_none_at_all(prepare: Prepare, tmp_path: Path) -> None:
    made = prepare([])

    assert (made.pictures, made.content, made.rendered) == ({}, {}, 0)
    assert not (tmp_path / "kept").exists()


def test_prepare_pictures__does_not_depend_on_the_number_of_threads(tmp_path: Path) -> None:
    many = {
        f"photos/{n}.png": as_bytes(Image.new("RGB", (90, 50 + n), (n * 20, 99, 60)), "PNG")
        for n in range(10)
    }
    found = []
    for workers in (1, 4):
        with ThreadPoolExecutor(max_workers=workers) as threads:
            store = PictureStore(RealFiles(), tmp_path / str(workers))
            found.append(
                prepare_pictures(_sources(many), store=store, executor=threads, widths=WIDTHS)
            )

    assert found[0].pictures == found[1].pictures

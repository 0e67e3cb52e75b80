"""What an `album.md` says, and that doubt keeps a picture private."""

import pytest

from filialog.journal.records import Album, PictureSaid
from filialog.reading.albums import read_album, unreadable_album
from filialog.reading.sheet import Desk, Sheet

PICTURES = frozenset({"photos/f/a.jpg", "photos/f/b.jpg", "photos/f/Ø 1.JPG"})


def _read(text: str) -> tuple[Album, list[str]]:
    desk = Desk(pictures=PICTURES)
    album = read_album(Sheet(path="photos/f/album.md", text=text, desk=desk))
    return album, [finding.code for finding in desk.findings]


def test_read_album__fills_in_what_the_folder_says() -> None:
    album, codes = _read(
        "---\ntank: fen\ndate: 2026-03-02\nfiles:\n"
        "  a.jpg: {look: pale, side: left, alt: one, caption: the first}\n"
        "  b.jpg: {tank: tarn}\n---\nAll of one evening.\n"
    )

    assert codes == []
    assert album.folder == "photos/f"
    assert album.whole.tank == "fen"
    assert album.whole.date is not None
    assert album.files == {
        "photos/f/a.jpg": PictureSaid(
            tank="fen",
            date=album.whole.date,
            look="pale",
            side="left",
            alt="one",
            caption="the first",
        ),
        "photos/f/b.jpg": PictureSaid(tank="tarn", date=album.whole.date),
    }
    assert album.prose.plain == "All of one evening."


def test_read_album__takes_a_bare_text_as_what_is_seen() -> None:
    album, codes = _read('---\nfiles:\n  a.jpg: two of nine, from above\n  "Ø 1.JPG":\n---\n')

    assert codes == []
    assert album.files["photos/f/a.jpg"].alt == "two of nine, from above"
    assert album.files["photos/f/Ø 1.JPG"] == PictureSaid()


@pytest.mark.parametrize("text", ["", "Only words.\n", "---\n---\n"])
def test_read_album__may_say_nothing(text: str) -> None:
    album, codes = _read(text)

    assert (codes, album.whole, dict(album.files)) == ([], PictureSaid(), {})


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("---\ntnak: fen\n---\n", ["R201"]),
        ("---\nside: inside\n---\n", ["R314"]),
        ("---\nfiles: {c.jpg: {alt: x}}\n---\n", ["M101"]),
        ("---\nfiles: {../b.jpg: {alt: x}}\n---\n", ["M101"]),
        ("---\nfiles: [a.jpg]\n---\n", ["R202"]),
        ("---\nfiles: {a.jpg: {aalt: x}}\n---\n", ["R201"]),
        ("---\ndate: 2026-02-30\n---\n", ["R302"]),
    ],
)
def test_read_album__reports_a_slip(text: str, codes: list[str]) -> None:
    assert _read(text)[1] == codes


@pytest.mark.parametrize(
    "text",
    [
        "---\nprivate: true\n---\n",
        "---\nprivate: yes\n---\n",
        "---\nprivat: true\n---\n",
        "---\nprivate:\n---\n",
        "---\ntank: fen\nprivate: true\n",
        "---\ntank: 'fen\n---\n",
    ],
)
def test_read_album__keeps_the_folder_private_in_doubt(text: str) -> None:
    album, _ = _read(text)

    assert album.whole.private


@pytest.mark.parametrize(
    "said", ["{private: true}", "{private: ture}", "{prvate: true}", "[private]"]
)
def test_read_album__keeps_a_picture_private_in_doubt(said: str) -> None:
    album, _ = _read(f"---\nfiles:\n  a.jpg: {said}\n  b.jpg: x\n---\n")

    assert album.files["photos/f/a.jpg"].private
    assert not album.files["photos/f/b.jpg"].private


def test_read_album__lets_no_picture_out_of_a_private_folder() -> None:
    album, _ = _read("---\nprivate: true\nfiles: {a.jpg: {private: false}}\n---\n")

    assert album.files["photos/f/a.jpg"].private


def test_unreadable_album__keeps_everything_private() -> None:
    assert unreadable_album("photos/f/album.md").whole.private

"""What a picture shows is what the diary, the pages and the albums say of it."""

from dataclasses import replace

from filialog.findings.finding import Place
from filialog.journal.public import public_view
from filialog.journal.records import (
    Album,
    Edition,
    Journal,
    LinkTarget,
    PictureSaid,
    Piece,
    Prose,
    Section,
)
from filialog.photos import picture_index
from tools.journals import entry, event, group_page, journal, link, prose, tank_page, when

A, B, C, D = (f"photos/f/{name}.jpg" for name in "abcd")


def _picture(path: str, text: str = "seen") -> Prose:
    return prose(link(path, text=text, target=LinkTarget.PICTURE))


def _album(whole: PictureSaid, *, folder: str = "photos/f", **files: PictureSaid) -> Album:
    return Album(
        folder=folder,
        whole=whole,
        files={f"{folder}/{name}.jpg": said for name, said in files.items()},
        prose=Prose(),
        place=Place(f"{folder}/album.md"),
    )


def _with_albums(one: Journal, *albums: Album) -> Journal:
    return replace(one, albums=albums)


def test_picture_index__follows_links_of_an_entry() -> None:
    section = Section(tank=None, prose=prose(*_picture(B, "two").pieces, *_picture(A, "").pieces))
    day = entry("d1", on="2026-03-02", tank="fen", sections=[section])

    index = picture_index(journal(day, pictures=[A, B, C]))

    assert index.by_entry == {"d1": (B, A)}, "in the order of the text"
    assert index.by_tank == {"fen": (A, B)}
    assert index.shown[B].alt == "two"
    assert index.shown[A].when == when("2026-03-02")
    assert index.not_placed == (C,)


def test_picture_index__gives_a_section_to_its_tank() -> None:
    sections = [Section(tank="tarn", prose=_picture(A)), Section(tank=None, prose=_picture(B))]

    index = picture_index(journal(entry("d1", on="2026-03-02", sections=sections), pictures=[A, B]))

    assert index.by_tank == {"tarn": (A,)}


def test_picture_index__follows_the_photo_of_an_event() -> None:
    counted = event("counted", on="2026-03-04", tank="fen", brood="one", photo=[A])
    born = event("hatched", on="2026-03-01", tank="fen", brood="one", dams="dam", photo=[B])
    sold = event("moved", on="2026-03-05", tank="fen", of=["one", "two"], to="tarn", photo=[C])
    split = event(
        "sorted",
        on="2026-03-06",
        tank="fen",
        from_="one",
        into={"pale": {"look": "pale"}},
        photo=[D],
    )

    index = picture_index(journal(counted, born, sold, split, pictures=[A, B, C, D]))

    assert index.shown[A].groups == ("one",)
    assert index.shown[B].groups == ("one",), "not the dam"
    assert index.shown[C].groups == ("one", "two")
    assert index.shown[D].groups == ("one", "pale")
    assert index.by_group["one"] == (B, A, C, D), "by day"


def test_picture_index__takes_the_looks_of_an_event() -> None:
    whole = event("present", on="2026-03-01", group="g", look="pale", photo=[A])
    halves = event(
        "present", on="2026-03-01", group="h", look={"left": "pale", "right": "dark"}, photo=[B]
    )

    index = picture_index(journal(whole, halves, pictures=[A, B]))

    assert index.by_look == {"dark": (B,), "pale": (A, B)}


def test_picture_index__follows_pages() -> None:
    one = journal(
        tanks=[tank_page("fen", text=_picture(A))],
        groups=[replace(group_page("g"), prose=_picture(B))],
        pictures=[A, B],
    )

    index = picture_index(one)

    assert (index.by_tank, index.by_group) == ({"fen": (A,)}, {"g": (B,)})
    assert index.by_entry == {}


def test_picture_index__takes_the_word_of_an_album() -> None:
    whole = PictureSaid(tank="fen", date=when("2026-03-09"))
    album = _album(whole, a=replace(whole, group="g", look="pale", side="left", alt="from left"))
    day = entry("d1", on="2026-03-02", sections=[Section(tank=None, prose=_picture(A, "mine"))])

    index = picture_index(_with_albums(journal(day, pictures=[A, B]), album))

    shown = index.shown[A]
    assert (shown.groups, shown.looks, shown.side, shown.alt) == (
        ("g",),
        ("pale",),
        "left",
        "from left",
    )
    assert shown.when == when("2026-03-09"), "the album knows better than the entry"
    assert index.by_tank == {"fen": (A, B)}
    assert index.not_placed == ()


def test_picture_index__leaves_out_what_an_album_only_lists() -> None:
    index = picture_index(
        _with_albums(journal(pictures=[A]), _album(PictureSaid(), a=PictureSaid()))
    )

    assert (dict(index.shown), index.not_placed) == ({}, (A,))


def test_picture_index__takes_the_innermost_album() -> None:
    deep = "photos/f/deep/x.jpg"
    albums = (
        _album(PictureSaid(tank="fen")),
        _album(PictureSaid(tank="tarn"), folder="photos/f/deep"),
        _album(PictureSaid(tank="moor"), folder="photos/f/de"),
    )

    index = picture_index(_with_albums(journal(pictures=[A, deep]), *albums))
    without = picture_index(_with_albums(journal(pictures=[A, deep]), albums[0], albums[2]))

    assert index.by_tank == {"fen": (A,), "tarn": (deep,)}
    assert without.by_tank == {"fen": (A, deep)}, "a name that begins alike is another folder"


def test_picture_index__names_no_picture_that_is_not_there() -> None:
    day = entry("d1", on="2026-03-02", sections=[Section(tank=None, prose=_picture(B))])

    index = picture_index(
        _with_albums(journal(day, pictures=[A]), _album(PictureSaid(), b=PictureSaid(alt="x")))
    )

    assert (dict(index.shown), dict(index.by_entry)) == ({}, {})


def test_picture_index__keeps_a_private_picture_for_the_keeper() -> None:
    day = entry(
        "d1",
        on="2026-03-02",
        tank="fen",
        sections=[Section(tank=None, prose=prose(*_picture(A).pieces, *_picture(B).pieces))],
    )
    one = _with_albums(
        journal(day, pictures=[A, B]),
        _album(PictureSaid(group="g"), a=PictureSaid(group="g", private=True)),
    )

    assert list(picture_index(one).shown) == [A, B]
    public = picture_index(replace(one, edition=Edition.PUBLIC))
    assert list(public.shown) == [B]
    assert (public.by_entry, public.by_tank, public.by_group) == (
        {"d1": (B,)},
        {"fen": (B,)},
        {"g": (B,)},
    )


def test_picture_index__keeps_all_below_a_private_folder() -> None:
    deep = "photos/f/deep/x.jpg"
    albums = (
        _album(PictureSaid(private=True)),
        _album(PictureSaid(tank="tarn"), folder="photos/f/deep"),
    )
    one = _with_albums(journal(pictures=[A, deep]), *albums)

    assert dict(picture_index(replace(one, edition=Edition.PUBLIC)).shown) == {}


def test_picture_index__shows_nothing_of_private_events_and_blocks_in_public() -> None:
    hidden = Piece(content=link(B, text="b", target=LinkTarget.PICTURE), private=True)
    day = entry(
        "d1",
        event("counted", on="2026-03-02", tank="fen", brood="one", photo=[A], private=True),
        event("hatched", on="2026-03-01", tank="fen", brood="one", photo=[C]),
        on="2026-03-02",
        sections=[Section(tank=None, prose=prose(hidden))],
    )

    index = picture_index(public_view(journal(day, pictures=[A, B, C])))

    assert list(index.shown) == [C]


def test_picture_index__is_empty_for_an_empty_journal() -> None:
    index = picture_index(journal())

    assert (dict(index.shown), dict(index.by_tank), index.not_placed) == ({}, {}, ())

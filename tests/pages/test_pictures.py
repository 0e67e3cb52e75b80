"""Pictures on pages: at their place, with words, and never by the name of a file."""

import re
from dataclasses import replace

import pytest

from filialog.journal.events import LookSeen
from filialog.messages import ENGLISH
from filialog.pages import NO_PICTURES, Pictures, render_pages
from tools.fake_pictures import FakePictures, picture
from tools.fake_results import FakeResults, fake_results, theme

SLOT = "photos/secret-0231.jpg"


def render(pictures: Pictures, results: FakeResults | None = None) -> dict[str, str]:
    pages = render_pages(results or fake_results(), theme(), "0.1.0", pictures=pictures)
    return {page.address: page.body().decode() for page in pages}


def images(html: str) -> list[str]:
    return re.findall(r"<img [^>]*>", html)


def alts(html: str) -> list[str]:
    return re.findall(r'<img [^>]* alt="([^"]*)"', html)


def test_slot__shows_the_picture_in_both_formats_with_its_size() -> None:
    shown = picture(SLOT, alt="Two of them on moss", caption="After the move")
    html = render(FakePictures(paths={SLOT: shown}))["entries/2026-05-02.html"]
    (image,) = images(html)
    (source,) = re.findall(r"<source [^>]*>", html)

    assert 'type="image/avif"' in source
    assert ".avif 320w, ../pictures/" in source
    assert source.count("w,") == 2
    assert 'width="960" height="640"' in image
    assert 'alt="Two of them on moss"' in image
    assert re.search(r'src="\.\./pictures/[^"]*-720\.jpg"', image)
    assert "sizes=" in image
    assert "sizes=" in source
    assert '<span class="caption">After the move</span>' in html
    assert "0231" not in html


def test_slot__first_picture_is_fetched_at_once_and_later_ones_when_near() -> None:
    shown = picture(SLOT)
    below = picture("photos/b.jpg", alt="b")
    html = render(
        FakePictures(paths={SLOT: shown}, entries={"2026-05-02": (shown, below)})
    )["entries/2026-05-02.html"]  # fmt: skip
    first, second = images(html)

    assert 'fetchpriority="high"' in first
    assert "lazy" not in first
    assert 'loading="lazy" decoding="async"' in second
    assert "fetchpriority" not in second


def test_slot__of_a_missing_picture_is_one_calm_sentence() -> None:
    html = render(NO_PICTURES)["entries/2026-05-02.html"]

    assert "A picture belongs here that cannot be shown: Two of them on moss." in html
    assert "<img" not in html
    assert "0231" not in html


def test_entry__shows_pictures_of_events_below_and_none_twice() -> None:
    shown, below = picture(SLOT, alt="in the text"), picture("photos/b.jpg", alt="below")
    html = render(
        FakePictures(paths={SLOT: shown}, entries={"2026-05-02": (shown, below)})
    )["entries/2026-05-02.html"]  # fmt: skip

    assert alts(html) == ["in the text", "below"]


def test_entry__says_how_many_pictures_of_events_cannot_be_shown() -> None:
    full = fake_results()
    entries = tuple(
        replace(
            entry,
            events=tuple(
                replace(event, values={**event.values, "photo": ("photos/gone-17.jpg",)})
                for event in entry.events
            ),
        )
        for entry in full.journal.entries
    )
    site = render(NO_PICTURES, replace(full, journal=replace(full.journal, entries=entries)))

    assert "1 picture named here cannot be shown." in site["entries/2026-05-02.html"]
    assert "gone-17" not in site["entries/2026-05-02.html"]


def test_alt__is_made_of_the_record_where_the_keeper_gave_none() -> None:
    shown = picture(
        "photos/IMG_0001.jpg", groups=("pale-next",), looks=("pale",), tank="rowan", side="left"
    )
    html = render(FakePictures(groups={"pale-next": (shown,)}))["groups/pale-next.html"]

    day = "20\N{NO-BREAK SPACE}Aug 2026"
    assert alts(html) == [f"pale-next, pale, left side, in rowan, {day}"]
    assert f"<figcaption>left side, {day}</figcaption>" in html
    assert "IMG" not in html


@pytest.mark.parametrize(
    ("what", "wanted"),
    [
        ({"tank": "rowan"}, "tank rowan"),
        ({"looks": ("pale",)}, "an animal with the look pale"),
        ({"groups": ("slate",)}, "slate"),
        ({}, ENGLISH["picture.alt-nothing"]),
    ],
)
def test_alt__is_never_empty(what: dict[str, str], wanted: str) -> None:
    shown = replace(picture("photos/x.jpg", day=None), **what)  # type: ignore[arg-type]  # fields
    html = render(FakePictures(tanks={"rowan": (shown,)}))["tanks/rowan.html"]

    assert alts(html) == [wanted]


def test_gallery__puts_the_sides_of_an_animal_side_by_side() -> None:
    taken = [("a", "right"), ("b", "above"), ("c", "left")]
    shown = tuple(picture(path, alt=path, side=side, groups=("slate",)) for path, side in taken)
    html = render(FakePictures(groups={"slate": shown}))["groups/slate.html"]

    assert alts(html) == ["c", "a", "b"]


def test_gallery__shows_each_picture_once() -> None:
    shown = picture("a", alt="a")
    html = render(FakePictures(looks={"pale": (shown, shown)}))["looks/pale.html"]

    assert alts(html) == ["a"]


def test_gallery__links_the_group_except_on_its_own_page() -> None:
    shown = picture("a", groups=("slate",), caption="bold")
    site = render(FakePictures(groups={"slate": (shown,)}, tanks={"rowan": (shown,)}))

    link = '<a href="../groups/slate.html">slate</a>: bold'
    assert f"<figcaption>{link}</figcaption>" in site["tanks/rowan.html"]
    assert "<figcaption>bold</figcaption>" in site["groups/slate.html"]


def test_cross__shows_the_newest_of_parents_beside_young() -> None:
    groups = {
        name: (picture(f"{name}1", alt=f"{name} old"), picture(f"{name}2", alt=f"{name} new"))
        for name in ("slate", "ivory", "slate-f1")
    }
    html = render(FakePictures(groups=groups))["crosses/slate-ivory.html"]

    assert alts(html) == ["slate new", "ivory new", "slate-f1 new"]
    assert re.findall(r"<h3>(Dam|Sire|Young)</h3>", html) == ["Dam", "Sire", "Young"]


def test_front__has_one_picture_for_a_line_and_not_that_of_a_half_sided_animal() -> None:
    full = fake_results()
    halves = replace(full.group_rows["ivory"], look=LookSeen(left="pale", right="dark"))
    results = replace(full, group_rows={**full.group_rows, "ivory": halves})
    shown = (
        picture("a", alt="older", groups=("pale-next",)),
        picture("b", alt="newer", groups=("pale-next",)),
        picture("c", alt="halves", groups=("ivory",)),
        picture("d", alt="of no group"),
    )

    assert alts(render(FakePictures(looks={"pale": shown}), results)["index.html"]) == ["newer"]
    of_line = FakePictures(looks={"pale": shown}, lines={"pale-line": (picture("e", alt="own"),)})
    assert alts(render(of_line, results)["index.html"]) == ["own"]
    assert alts(render(NO_PICTURES, results)["index.html"]) == []


def test_pictures__of_a_group_leave_a_lot_with_at_most_three() -> None:
    shown = tuple(picture(name, alt=name) for name in "abcde")
    html = render(FakePictures(groups={"slate-f1": shown}))["offers.html"]

    assert alts(html) == ["c", "d", "e"]


def test_hostile_words_of_a_picture__are_text() -> None:
    evil = '"><script>x</script>'
    shown = picture("a", alt=evil, caption=evil, groups=("slate",))
    html = render(FakePictures(groups={"slate": (shown,)}))["groups/slate.html"]

    assert "<script" not in html
    assert html.count("&lt;script&gt;x&lt;/script&gt;") == 2


def test_digest__changes_with_a_picture() -> None:
    def digest(alt: str) -> dict[str, str]:
        shown = FakePictures(tanks={"rowan": (picture("a", alt=alt),)})
        pages = render_pages(fake_results(), theme(), "1", pictures=shown)
        return {page.address: page.digest for page in pages}

    one, other = digest("a"), digest("b")

    assert [name for name in one if one[name] != other[name]] == ["tanks/rowan.html"]

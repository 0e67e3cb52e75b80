"""Pictures on a page: one at its place in the text, or many small ones in a row.

Words in the place of a picture are the keeper's, else made of what the record says of it; the
name of a file is never shown.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from filialog.messages import list_text, short_when_text
from filialog.pages.here import Here, Reference
from filialog.pages.parts import is_half_sided
from filialog.pages.pictures import PictureShown, PictureSource

__all__ = [
    "PictureView",
    "gallery",
    "picture_html",
    "picture_view",
    "pictures_of_line",
    "whole_animals",
]

_SMALL = "(min-width: 60rem) 15rem, 46vw"
_LARGE = "(min-width: 60rem) 40rem, 92vw"
_MIDDLE_WIDTH = 720
"""The copy for programs that know nothing of several: wide enough for a phone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureView:
    """A picture ready to be shown."""

    html: Markup
    """The picture itself."""
    caption: str
    """Words below it: the keeper's, else what the record says; empty where it says nothing."""
    link: Reference | None
    """The page of the group it shows, where that is another page."""


def picture_view(here: Here, shown: PictureShown, *, small: bool = False) -> PictureView:
    """Return a picture with its words."""
    return PictureView(
        html=picture_html(here, shown, small=small),
        caption=shown.caption or _made_caption(here, shown),
        link=_group_link(here, shown),
    )


def picture_html(here: Here, shown: PictureShown, *, small: bool = False) -> Markup:
    """Return a picture by itself; the first one a page asks for is fetched at once."""
    sizes, most = (_SMALL, _MIDDLE_WIDTH) if small else (_LARGE, None)
    plain = next(source for source in shown.sources if source.format == "jpeg")
    narrow = [address for width, address in plain.copies if width <= _MIDDLE_WIDTH]
    src = narrow[-1] if narrow else plain.copies[0][1]
    better = Markup("").join(
        Markup('<source type="image/{}" srcset="{}" sizes="{}">').format(
            source.format, _srcset(here, source, most), sizes
        )
        for source in shown.sources
        if source.format != "jpeg"
    )
    # The first picture of a page is most often what a reader waits for.
    when = 'loading="lazy" decoding="async"' if here.pictured else 'fetchpriority="high"'
    here.pictured.append(shown.path)
    return Markup(
        '<picture>{}<img src="{}" srcset="{}" sizes="{}" width="{}" height="{}" alt="{}" {}>'
        "</picture>"
    ).format(
        better,
        here.to(src),
        _srcset(here, plain, most),
        sizes,
        shown.width,
        shown.height,
        shown.alt or _made_alt(here, shown),
        Markup(when),  # noqa: S704 - one of the two texts above
    )


def gallery(
    here: Here, shown: Iterable[PictureShown], *, without: Iterable[str] = ()
) -> tuple[PictureView, ...]:
    """Return pictures for a row of small ones, each once; the sides of one animal together."""
    skipped = set(without)
    found: dict[str, PictureShown] = {}
    for one in shown:
        if one.path not in skipped:
            found.setdefault(one.path, one)
    return tuple(picture_view(here, one, small=True) for one in _sides_together(found.values()))


def pictures_of_line(here: Here, name: str) -> tuple[PictureShown, ...]:
    """Return the pictures of a line, else those of its goal look on its animals.

    A half-sided animal shows the look on one side only, so it does not stand for the line.
    """
    found = tuple(here.pictures.of_line(name))
    row = here.results.line(name)
    if found or row.goal is None:
        return found
    members = set(row.groups)
    return tuple(
        picture
        for picture in whole_animals(here, here.pictures.of_look(row.goal))
        if members.intersection(picture.groups)
    )


def whole_animals(here: Here, shown: Iterable[PictureShown]) -> tuple[PictureShown, ...]:
    """Leave out the pictures of animals of two halves."""
    return tuple(
        picture
        for picture in shown
        if not any(
            is_half_sided(here.results.group(group))
            for group in picture.groups
            if here.site.address_of(group, ("group",))
        )
    )


def _sides_together(shown: Iterable[PictureShown]) -> list[PictureShown]:
    """Put the right side of an animal beside its left one, where both were taken on a day."""
    rows: list[PictureShown] = []
    for one in shown:
        partner = {"left": "right", "right": "left"}.get(one.side or "")
        at = next(
            (
                position
                for position, other in enumerate(rows)
                if partner is not None
                and other.side == partner
                and other.groups == one.groups
                and other.when == one.when
            ),
            None,
        )
        if at is None:
            rows.append(one)
        else:
            rows.insert(at if one.side == "left" else at + 1, one)
    return rows


def _srcset(here: Here, source: PictureSource, most: int | None) -> str:
    """Name the copies; a small picture needs none of the wide ones."""
    copies = [one for one in source.copies if most is None or one[0] <= most]
    return ", ".join(f"{here.to(address)} {width}w" for width, address in copies or source.copies)


def _made_alt(here: Here, shown: PictureShown) -> str:
    """Say what the record says: the look, the group, the tank, the day."""
    words = here.words
    if shown.looks and shown.groups:
        text = words("picture.alt-look-group", look=list_text(words, shown.looks),
                     group=list_text(words, shown.groups))  # fmt: skip
    elif shown.groups:
        text = words("picture.alt-group", group=list_text(words, shown.groups))
    elif shown.looks:
        text = words("picture.alt-look", look=list_text(words, shown.looks))
    elif shown.tank is not None:
        text = words("picture.alt-tank", tank=shown.tank)
    else:
        text = words("picture.alt-nothing")
    parts = [text]
    if shown.side is not None:
        parts.append(words("picture-side", pick=shown.side))
    if shown.tank is not None and (shown.groups or shown.looks):
        parts.append(words("picture.in-tank", tank=shown.tank))
    if shown.when is not None:
        parts.append(short_when_text(words, shown.when))
    return words("list.comma").join(parts)


def _made_caption(here: Here, shown: PictureShown) -> str:
    words = here.words
    parts = [] if shown.side is None else [words("picture-side", pick=shown.side)]
    if shown.when is not None:
        parts.append(short_when_text(words, shown.when))
    return words("list.comma").join(parts)


def _group_link(here: Here, shown: PictureShown) -> Reference | None:
    """Return the link to the one group it shows, unless this is the group's own page."""
    if len(shown.groups) != 1:
        return None
    address = here.site.address_of(shown.groups[0], ("group",))
    if address is None or address == here.address:
        return None
    return Reference(href=here.to(address), text=shown.groups[0])

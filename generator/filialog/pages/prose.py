"""Prose of the journal as safe HTML, its link slots filled."""

from collections.abc import Iterable

from markupsafe import Markup

from filialog.journal.records import Link, LinkTarget, Prose
from filialog.pages.gallery import picture_html
from filialog.pages.here import Here

__all__ = ["paths_in", "prose_html"]


def prose_html(here: Here, prose: Prose) -> Markup:
    """Join the pieces of prose; a picture that cannot be shown is a line that says so."""
    pieces = [
        _slot(here, piece.content) if isinstance(piece.content, Link) else Markup(piece.content)  # noqa: S704 - the reader has escaped the keeper's text
        for piece in prose.pieces
    ]
    return Markup("").join(pieces)


def paths_in(proses: Iterable[Prose]) -> tuple[str, ...]:
    """Return the pictures that stand in some prose, so that no row below shows them again."""
    return tuple(
        link.name for prose in proses for link in prose.links if link.target is LinkTarget.PICTURE
    )


def _slot(here: Here, link: Link) -> Markup:
    match link.target:
        case LinkTarget.NAME:
            return here.named(link.name, link.text or link.name)
        case LinkTarget.PICTURE:
            return _picture(here, link)
        case LinkTarget.FILE:
            return here.link(link.text or here.words("file.unnamed"), None)


def _picture(here: Here, link: Link) -> Markup:
    """Return a picture for the middle of a paragraph, where no block element may stand."""
    words, shown = here.words, here.pictures.of_path(link.name)
    if shown is None:
        says = link.text.strip() or words("picture.no-description")
        mark = Markup('<span class="picture missing">{}</span>')
        return mark.format(words("picture.missing", says=says))
    caption = Markup("")
    if shown.caption:
        caption = Markup('<span class="caption">{}</span>').format(shown.caption)
    return Markup('<span class="picture">{}{}</span>').format(picture_html(here, shown), caption)

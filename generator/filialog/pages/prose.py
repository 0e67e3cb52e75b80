"""Prose of the journal as safe HTML, its link slots filled."""

from markupsafe import Markup

from filialog.journal.records import Link, LinkTarget, Prose
from filialog.pages.here import Here

__all__ = ["prose_html"]


def prose_html(here: Here, prose: Prose) -> Markup:
    """Join the pieces of prose; a picture stands as a line that says so, never as a file name."""
    pieces = [
        _slot(here, piece.content) if isinstance(piece.content, Link) else Markup(piece.content)  # noqa: S704 - the reader has escaped the keeper's text
        for piece in prose.pieces
    ]
    return Markup("").join(pieces)


def _slot(here: Here, link: Link) -> Markup:
    words = here.words
    match link.target:
        case LinkTarget.NAME:
            return here.named(link.name, link.text or link.name)
        case LinkTarget.PICTURE:
            says = link.text.strip() or words("picture.no-description")
            mark = Markup('<span class="picture"><span class="picture-mark">{}</span> {}</span>')
            return mark.format(words("picture.mark"), says)
        case LinkTarget.FILE:
            return here.link(link.text or words("file.unnamed"), None)

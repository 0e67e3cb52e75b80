"""Pages: results come in with a theme's templates and the words; the pages of a site come out.

A kind of page is a row of `PAGE_KINDS`: where it lives, the view model it shows, the template
that draws it. View models hold finished text and links; templates hold no decisions. No file is
opened here.
"""

from filialog.pages.addresses import relative, slug
from filialog.pages.kinds import PAGE_KINDS, PageKind
from filialog.pages.pictures import NO_PICTURES, Pictures, PictureShown, PictureSource
from filialog.pages.render import Page, render_pages
from filialog.pages.results import Results
from filialog.pages.templates import TemplateSource

__all__ = [
    "NO_PICTURES",
    "PAGE_KINDS",
    "Page",
    "PageKind",
    "PictureShown",
    "PictureSource",
    "Pictures",
    "Results",
    "TemplateSource",
    "relative",
    "render_pages",
    "slug",
]

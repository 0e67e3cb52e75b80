"""All pages of a site, each with a digest of what it shows and how to draw it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from hashlib import blake2b

import msgspec
from markupsafe import Markup

from filialog.messages import ENGLISH, Words
from filialog.pages.addresses import STYLE
from filialog.pages.here import Here, Site
from filialog.pages.kinds import PAGE_KINDS
from filialog.pages.pictures import NO_PICTURES, Pictures
from filialog.pages.results import Results
from filialog.pages.templates import Templates, TemplateSource

__all__ = ["Page", "render_pages"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A file of the site, not drawn yet."""

    address: str
    """Path below the root of the site."""
    kind: str
    """Name of its kind of page, or `style`."""
    subject: str
    """What it is about; empty where there is only one of its kind."""
    digest: str
    """Equal where the bytes are: made of the view model, the templates and the words."""
    body: Callable[[], bytes]
    """Draws the page."""


def render_pages(
    results: Results,
    templates: TemplateSource,
    version: str,
    words: Words | None = None,
    pictures: Pictures = NO_PICTURES,
) -> Iterator[Page]:
    """Return every page of the site, in the order of the table of kinds, the style sheet first.

    A page is drawn only when its `body` is called, so that an unchanged digest costs no drawing.
    The words are English unless others are given; the files of pictures are the caller's to write.
    """
    words = words or Words(ENGLISH)
    theme = Templates(templates, words)
    style = theme.style.encode()
    yield Page(
        address=STYLE,
        kind="style",
        subject="",
        digest=blake2b(style, digest_size=16).hexdigest(),
        body=partial(_given, style),
    )
    site = Site(results, words, version, pictures)
    for kind in PAGE_KINDS:
        for subject, address in kind.addresses(site):
            view = kind.view(Here(site, address), subject)
            yield Page(
                address=address,
                kind=kind.name,
                subject=subject,
                digest=_digest(view, theme.digest(kind.template), words.digest),
                body=partial(_drawn, theme, kind.template, view),
            )


def _given(style: bytes) -> bytes:
    return style


def _drawn(theme: Templates, template: str, view: object) -> bytes:
    return theme.template(template).render(page=view).encode()


def _digest(view: object, *parts: str) -> str:
    digest = blake2b(digest_size=16)
    for part in parts:
        digest.update(part.encode())
    digest.update(msgspec.json.encode(view, order="deterministic", enc_hook=_tagged))
    return digest.hexdigest()


def _tagged(value: object) -> object:
    """Encode safe HTML apart from text that reads the same, for it is drawn differently."""
    if isinstance(value, Markup):
        return {"html": "".join(value)}
    raise TypeError(f"a view model holds a {type(value).__name__}")

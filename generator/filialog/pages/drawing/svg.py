"""Writing one SVG element: escaped words, short numbers, attributes in the given order."""

import hashlib
import re

from markupsafe import Markup, escape

__all__ = ["drawing", "element", "number"]

_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What XML 1.0 section 2.2 does not allow in a document, even escaped."""


def number(value: float) -> str:
    """Return a coordinate with at most one decimal: `12`, `12.5`, never `-0`."""
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def _escaped(words: str) -> str:
    return str(escape(words if isinstance(words, Markup) else _NOT_XML.sub("\ufffd", words)))


def element(name: str, *inside: str, **attributes: str | float | None) -> Markup:
    """Return one element; text inside is escaped, an attribute that is None is left out.

    A name that Python reserves ends in `_`; an underscore inside a name stands for a hyphen.
    """
    written = name
    for key, value in attributes.items():
        if value is not None:
            text = _escaped(value) if isinstance(value, str) else number(value)
            written += f' {key.removesuffix("_").replace("_", "-")}="{text}"'
    content = "".join([_escaped(part) for part in inside])
    # Names are literals of the callers, all else was escaped above; `Markup.format` would
    # escape as well, in three times the time.
    return Markup(f"<{written}>{content}</{name}>" if inside else f"<{written}/>")  # noqa: S704


def drawing(
    *inside: Markup,
    kind: str,
    title: str,
    describe: str,
    width: float,
    height: float,
    has_links: bool,
    fits: bool,
) -> Markup:
    """Return the whole `<svg>` with its name and description.

    An image's content is hidden from a screen reader, so a drawing with links is a group.
    `fits` marks a drawing narrow enough for a phone, which a style may enlarge elsewhere.
    """
    named = "\0".join((kind, title, describe)).encode(errors="replace")
    prefix = f"d-{hashlib.sha256(named).hexdigest()[:10]}"
    return element(
        "svg",
        element("title", title, id=f"{prefix}-title"),
        element("desc", describe, id=f"{prefix}-desc"),
        *inside,
        class_=f"d-drawing d-{kind}" + (" d-fits" if fits else ""),
        role="group" if has_links else "img",
        aria_labelledby=f"{prefix}-title {prefix}-desc",
        width=width,
        height=height,
        viewBox=f"0 0 {number(width)} {number(height)}",
        font_size=12,
        fill="currentColor",
    )

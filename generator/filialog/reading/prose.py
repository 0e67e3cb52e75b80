"""Markdown to safe HTML pieces with link slots, parted by tank and by what is private.

CommonMark with tables and strikethrough; HTML tags of the keeper are shown as text. A slot
stands for what a page must resolve: a name in double brackets, a picture, another file of
the journal. Headings begin at h3, since a page puts prose below an h2.
"""

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token
from mdit_py_plugins.container import container_plugin

from filialog.journal.records import Link, Piece, Prose
from filialog.reading.links import LinkReader
from filialog.reading.prose_checks import hidden_lines
from filialog.reading.scalars import clean_name
from filialog.reading.sheet import Sheet

__all__ = ["read_prose", "read_sections"]

_PLAIN_LENGTH = 200
_TOP_HEADING = 3
_ENV: dict[str, object] = {}
_NAME = re.compile(r"\[\[([^\[\]|\n]+)(?:\|([^\[\]\n]*))?\]\]")


def read_prose(sheet: Sheet, text: str, *, first_line: int) -> Prose:
    """Return the prose of a page."""
    sections = read_sections(sheet, text, first_line=first_line, tanks={})
    return sections[0][1] if sections else Prose()


def read_sections(
    sheet: Sheet, text: str, *, first_line: int, tanks: Mapping[str, str]
) -> tuple[tuple[str | None, Prose], ...]:
    """Return the prose of an entry by tank, that of the whole entry first.

    `tanks` has the names of tanks by their casefolded spelling: a heading that is such a
    name gives the prose below it, up to the next heading of its rank, to that tank.
    """
    if not text or text.isspace():
        return ()
    tokens = _markdown().parse(text)
    hidden = hidden_lines(sheet, text, tokens, first_line=first_line)
    writers: dict[str | None, _Writer] = {}
    tank: str | None = None
    rank = 0
    index = 0
    while index < len(tokens):
        end = _end_of_block(tokens, index)
        block = tokens[index:end]
        index = end
        heading = _heading_tank(block, tanks)
        if heading is not None:
            tank, rank = heading, _rank(block[0])
            continue
        if tank is not None and block[0].type == "heading_open" and _rank(block[0]) <= rank:
            tank = None
        if tank not in writers:
            writers[tank] = _Writer(sheet, first_line)
        private = hidden is not None and block[0].map is not None and block[0].map[1] > hidden
        writers[tank].write(block, private=private)
    order = sorted(writers, key=lambda name: name is not None)
    return tuple((name, prose) for name in order if not (prose := writers[name].prose()).empty)


@lru_cache(maxsize=1)
def _markdown() -> MarkdownIt:
    markdown = MarkdownIt("commonmark", {"html": False, "xhtmlOut": False})
    markdown.enable(["table", "strikethrough"])
    container_plugin(markdown, "private", validate=_opens_block)
    markdown.inline.ruler.before("link", "name_slot", _name_rule)
    # Links are judged here by an allow-list of our own, on the text as written.
    markdown.normalizeLink = _as_written  # type: ignore[method-assign]
    markdown.validateLink = _let_pass  # type: ignore[method-assign]
    return markdown


def _opens_block(parameters: str, _markup: str) -> bool:
    """Take any word behind three colons for `private`: a slip of typing hides, never shows."""
    return bool(parameters.strip())


def _as_written(url: str) -> str:
    return url


def _let_pass(url: str) -> bool:  # noqa: ARG001 (called by name)
    return True


def _name_rule(state: StateInline, silent: bool) -> bool:
    """Read `[[name]]` and `[[name|words]]`."""
    if not state.src.startswith("[[", state.pos):
        return False
    match = _NAME.match(state.src, state.pos)
    if match is None or not match[1].strip():
        return False
    if not silent:
        token = state.push("name_slot", "", 0)
        token.content = (match[2] or match[1]).strip()
        token.meta = {"name": clean_name(match[1]), "written": match[0]}
    state.pos = match.end()
    return True


def _end_of_block(tokens: Sequence[Token], start: int) -> int:
    depth = 0
    for index in range(start, len(tokens)):
        depth += tokens[index].nesting
        if depth <= 0:
            return index + 1
    return len(tokens)


def _rank(token: Token) -> int:
    return int(token.tag[1])


def _heading_tank(block: Sequence[Token], tanks: Mapping[str, str]) -> str | None:
    if not tanks or block[0].type != "heading_open":
        return None
    return tanks.get(clean_name(block[1].content).casefold())


class _Writer:
    """Turns blocks of tokens into pieces."""

    def __init__(self, sheet: Sheet, first_line: int) -> None:
        self.sheet = sheet
        self.first_line = first_line
        self.pieces: list[Piece] = []
        self.buffer: list[str] = []
        self.private = False
        self.plain: list[str] = []
        self.plain_length = 0
        self.ranks: list[int] = []

    def prose(self) -> Prose:
        """Return what was written."""
        self.flush()
        plain = " ".join("".join(self.plain).split())
        if len(plain) > _PLAIN_LENGTH:
            plain = plain[:_PLAIN_LENGTH].rsplit(" ", 1)[0].rstrip(" ,;:") + "…"
        return Prose(pieces=tuple(self.pieces), plain=plain)

    def flush(self) -> None:
        """Close the piece of HTML that is being written."""
        if self.buffer:
            self.pieces.append(Piece(content="".join(self.buffer), private=self.private))
            self.buffer.clear()

    def turn(self, *, private: bool) -> None:
        """Go on in a piece that is private, or that is not."""
        if private != self.private:
            self.flush()
            self.private = private

    def slot(self, link: Link) -> None:
        """Leave a slot for a page to fill."""
        self.flush()
        self.pieces.append(Piece(content=link, private=self.private))

    def write(self, block: Sequence[Token], *, private: bool) -> None:
        """Write one block; all of it is private where so told."""
        self.turn(private=private)
        depth = 0
        for index, token in enumerate(block):
            kind = token.type
            if kind == "inline":
                self.inline(token)
            elif kind == "container_private_open":
                depth += 1
                self.turn(private=True)
                self.buffer.append('<div class="private">\n')
            elif kind == "container_private_close":
                depth -= 1
                self.buffer.append("</div>\n")
                self.turn(private=private or depth > 0)
            else:
                self.block_tag(token, index, block)
        self.turn(private=False)

    def block_tag(self, token: Token, index: int, block: Sequence[Token]) -> None:
        """Write the tag of a block."""
        kind = token.type
        if kind == "heading_open":
            token.tag = f"h{self.level(_rank(token))}"
        elif kind == "heading_close":
            token.tag = f"h{self.last_level()}"
        elif kind in {"td_open", "th_open"}:
            # A strict content security policy forbids `style` attributes.
            style = str(token.attrs.pop("style", ""))
            if style:
                token.attrs["class"] = f"align-{style.rpartition(':')[2]}"
        elif kind in {"fence", "code_block"}:
            self.buffer.append(f"<pre><code>{escapeHtml(token.content)}</code></pre>\n")
            return
        markdown = _markdown()
        self.buffer.append(
            markdown.renderer.renderToken(block, index, markdown.options, _ENV)  # type: ignore[attr-defined]
        )

    def level(self, rank: int) -> int:
        """Return the level of a heading so that none is skipped."""
        while self.ranks and self.ranks[-1] >= rank:
            self.ranks.pop()
        self.ranks.append(rank)
        return self.last_level()

    def last_level(self) -> int:
        """Return the level of the heading written last."""
        return min(_TOP_HEADING - 1 + len(self.ranks), 6)

    def inline(self, token: Token) -> None:
        """Write the text of a block."""
        children = token.children or []
        reader: LinkReader | None = None
        index = 0
        markdown = _markdown()
        while index < len(children):
            child = children[index]
            kind = child.type
            if kind in {"text", "text_special"}:
                self.words(child.content)
                self.buffer.append(escapeHtml(child.content))
            elif kind == "code_inline":
                self.words(child.content)
                self.buffer.append(f"<code>{escapeHtml(child.content)}</code>")
            elif kind == "softbreak":
                self.words(" ")
                self.buffer.append("\n")
            elif kind in {"link_open", "image", "name_slot"}:
                if reader is None:
                    reader = LinkReader(self.sheet, token, self.first_line)
                index = self.linked(children, index, reader)
            elif kind != "link_close":
                if kind == "hardbreak":
                    self.words(" ")
                self.buffer.append(
                    markdown.renderer.renderToken(children, index, markdown.options, _ENV)  # type: ignore[attr-defined]
                )
            elif child.meta.get("shown"):
                self.buffer.append("</a>")
            index += 1
        self.words(" ")

    def linked(self, children: list[Token], index: int, reader: LinkReader) -> int:
        """Write a link, a picture or a name; return the index of the last token used."""
        child = children[index]
        if child.type == "name_slot":
            self.words(child.content)
            self.slot(reader.name(child))
            return index
        if child.type == "image":
            slot = reader.picture(child)
            if slot is None:
                self.words(child.content)
                self.buffer.append(escapeHtml(child.content))
            else:
                self.slot(slot)
            return index
        close = _closing(children, index)
        inside = children[index + 1 : close]
        target = reader.link(child, inside)
        if isinstance(target, Link):
            self.words(target.text)
            self.slot(target)
            return close
        if target is not None:
            self.buffer.append(f'<a href="{escapeHtml(target)}">')
            children[close].meta["shown"] = True
        return index

    def words(self, text: str) -> None:
        """Keep the first words of public text."""
        if not self.private and self.plain_length <= _PLAIN_LENGTH:
            self.plain.append(text)
            self.plain_length += len(text)


def _closing(children: Sequence[Token], start: int) -> int:
    for index in range(start + 1, len(children)):
        if children[index].type == "link_close":
            return index
    return len(children) - 1

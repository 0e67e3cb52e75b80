"""Links, pictures and names in prose: an allow-list, and slots for what pages resolve."""

import re
from collections.abc import Sequence

from markdown_it.common.normalize_url import normalizeLink
from markdown_it.token import Token

from filialog.findings.finding import Place
from filialog.journal.records import Link, LinkTarget
from filialog.reading.pictures import PICTURE_ENDINGS, find_path, report_missing_picture
from filialog.reading.sheet import Sheet

__all__ = ["LinkReader"]

_SCHEME = re.compile(r"\s*([A-Za-z][A-Za-z0-9+.-]*):")
_WEB = re.compile(r"https?://[^\s/?#]+", re.IGNORECASE)
_MAIL = re.compile(r"mailto:[^\s@]+@[^\s@]+", re.IGNORECASE)
_TEXT_ENDINGS = (".md", ".txt", ".yaml")


class LinkReader:
    """Reads the links of one block of text, in order, to find the place of each."""

    def __init__(self, sheet: Sheet, block: Token, first_line: int) -> None:
        start, end = block.map or (0, 1)
        self.sheet = sheet
        self.start = first_line + start
        self.lines = [sheet.line(first_line + number) for number in range(start, end)]
        self.seen: dict[str, tuple[int, int]] = {}

    def place(self, written: str) -> Place:
        """Return where the next occurrence of a text in the block stands."""
        line, column = self.seen.get(written, (0, 0))
        for number in range(line, len(self.lines)):
            found = self.lines[number].find(written, column if number == line else 0)
            if found >= 0:
                self.seen[written] = (number, found + len(written))
                return Place(self.sheet.path, self.start + number, found + 1, len(written))
        return Place(self.sheet.path, self.start)

    def name(self, token: Token) -> Link:
        """Return the slot of a name in double brackets."""
        return Link(
            target=LinkTarget.NAME,
            name=str(token.meta["name"]),
            text=token.content,
            place=self.place(str(token.meta["written"])),
        )

    def picture(self, token: Token) -> Link | None:
        """Return the slot of a picture; None, with a finding, where it may not be shown."""
        written = str(token.attrs.get("src", ""))
        place = self.place(written) if written else Place(self.sheet.path, self.start)
        if _SCHEME.match(written) or written.startswith(("//", "\\\\")):
            self.sheet.fault(
                "M104",
                place,
                f"picture `{_shortened(written)}` lies outside the journal and is not shown",
                helps=("put the picture below `photos/` and name its path",),
            )
            return None
        path = find_path(written, self.sheet) if written else None
        if path is None:
            self.leads_out(written, place)
            return None
        if path not in self.sheet.desk.pictures:
            report_missing_picture(path, place, self.sheet)
        text = _words_of(token.children or ())
        return Link(target=LinkTarget.PICTURE, name=path, text=text, place=place)

    def link(self, token: Token, inside: Sequence[Token]) -> Link | str | None:
        """Return a slot, an address of the web, or None where the words stand alone."""
        written = str(token.attrs.get("href", "")).strip()
        place = self.place(written) if written else Place(self.sheet.path, self.start)
        if _WEB.match(written) or _MAIL.match(written):
            if any(child.type == "image" for child in inside):
                self.sheet.fault(
                    "M105",
                    place,
                    "a link around a picture is left out",
                    helps=("write the link beside it",),
                )
                return None
            return normalizeLink(written)
        if _SCHEME.match(written) or written.startswith(("//", "\\\\")):
            self.sheet.fault(
                "M102",
                place,
                f"`{_shortened(written)}` is no address that a page may link to",
                notes=("pages link to `https:`, `http:` and `mailto:`, and within the journal",),
            )
            return None
        return self.inner(written, place, inside)

    def inner(self, written: str, place: Place, inside: Sequence[Token]) -> Link | None:
        """Return the slot of another file of the journal."""
        if written.startswith("#"):
            self.sheet.fault(
                "M106",
                place,
                f"`{written}` names a place inside the page, and pages have none",
                helps=("link to a group, tank or line as `[[name]]`",),
            )
            return None
        path = find_path(written, self.sheet) if written else None
        if path is None:
            self.leads_out(written, place)
            return None
        desk = self.sheet.desk
        if path.casefold().endswith(PICTURE_ENDINGS):
            if path not in desk.pictures:
                report_missing_picture(path, place, self.sheet)
        elif path.casefold().endswith(_TEXT_ENDINGS) and path not in desk.files:
            self.sheet.fault(
                "M106",
                place,
                f"file `{path}` is not there",
                helps=("link to a group, tank or line as `[[name]]`",),
            )
            return None
        if any(child.type == "image" for child in inside):
            self.sheet.fault(
                "M105",
                place,
                "a link around a picture is left out",
                helps=("write the link beside it",),
            )
            return None
        return Link(target=LinkTarget.FILE, name=path, text=_words_of(inside) or path, place=place)

    def leads_out(self, written: str, place: Place) -> None:
        """Report a path that leaves the journal."""
        self.sheet.fault(
            "M103",
            place,
            f"`{_shortened(written)}` leads out of the journal"
            if written
            else "a link leads nowhere",
            helps=("name a file of the journal by its path from this file",),
        )


def _words_of(tokens: Sequence[Token]) -> str:
    words: list[str] = []
    for token in tokens:
        if token.type in {"text", "text_special", "code_inline", "name_slot"}:
            words.append(token.content)
        elif token.type in {"softbreak", "hardbreak"}:
            words.append(" ")
        elif token.type == "image":
            words.append(_words_of(token.children or ()))
    return "".join(words).strip()


def _shortened(written: str) -> str:
    return written if len(written) <= 60 else f"{written[:60]}…"

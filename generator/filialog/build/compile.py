"""A compile from end to end: walk, read, check, compute, draw, write."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from filialog import __version__
from filialog.analysis import JournalResults
from filialog.build.files import Files
from filialog.build.output_place import find_place
from filialog.build.pictures import SitePictures, finding_of_picture, pictures_of_site
from filialog.build.problems import finding_of_problem
from filialog.build.shipped import read_shipped
from filialog.build.shown_pictures import PicturesShown
from filialog.build.trees import Page, Written, content_digest, write_site
from filialog.build.walk import list_journal, read_texts
from filialog.findings import Finding, Severity
from filialog.findings.catalogue import severity_of
from filialog.findings.render import order_findings
from filialog.journal import CheckedJournal, check_journal, public_view
from filialog.journal.records import Edition
from filialog.pages import render_pages
from filialog.reading import read_journal

__all__ = ["Compiled", "Examined", "compile_journal", "examine_journal"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Examined:
    """A journal read and checked."""

    checked: CheckedJournal | None
    """The journal with names, book and descent; None where there is no readable journal.yaml."""
    findings: tuple[Finding, ...]
    """Everything noticed, the gravest first."""
    line_of: Callable[[str, int], str | None]
    """Gives a line of a file, for drawing findings."""

    @property
    def errors(self) -> int:
        """How many findings stop publication."""
        return self._number(Severity.ERROR)

    @property
    def warnings(self) -> int:
        """How many findings ask for action."""
        return self._number(Severity.WARNING)

    def _number(self, severity: Severity) -> int:
        return sum(severity_of(finding.code) is severity for finding in self.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Compiled:
    """What a compile came to."""

    examined: Examined
    written: Written | None
    """What was written; None where errors kept the site as it was."""
    pages: int
    """Pages of the site."""
    pictures: int
    """Pictures it shows."""


def examine_journal(files: Files, journal: Path, *, as_of: date | None = None) -> Examined:
    """Read and check a journal; everything wrong with it is told in one run."""
    listing = list_journal(files, journal)
    texts = read_texts(files, journal, listing)
    found = [finding_of_problem(problem) for problem in texts.problems]
    shipped = read_shipped(files)
    read = read_journal(
        texts.texts,
        pictures=(other.path for other in listing.others),
        catalogue=shipped.catalogue,
    )
    found.extend(read.findings)
    checked = None
    if read.journal is not None:
        checked = check_journal(read.journal, as_of=as_of)
        found.extend(checked.findings)
    return Examined(checked=checked, findings=order_findings(found), line_of=read.line_of)


def compile_journal(
    files: Files,
    *,
    journal: Path,
    output: Path,
    edition: Edition,
    as_of: date | None = None,
    strict: bool = False,
    pictures: Path | None = None,
) -> Compiled:
    """Compile a journal into a site; with errors the site stays as it was.

    Renditions of pictures are kept in `pictures`, which sites may share, or else in a hidden
    folder beside the output. Raises OutputError where the output folder is refused, and OSError
    where the file system fails.
    """
    place = find_place(files, output=output, journal=journal)
    examined = examine_journal(files, journal, as_of=as_of)
    checked = examined.checked
    if checked is None or examined.errors or (strict and examined.warnings):
        return Compiled(examined=examined, written=None, pages=0, pictures=0)
    if edition is Edition.PUBLIC:
        # The day is that of the whole journal, so that a private last entry ages nothing.
        checked = check_journal(public_view(checked.journal), as_of=checked.as_of)
    site = pictures_of_site(
        files,
        checked.journal,
        journal=journal,
        store=pictures if pictures is not None else place.beside("pictures"),
        shared=pictures is not None,
    )
    results = JournalResults(checked)
    pages = dict(site.files)
    theme = read_shipped(files).theme
    for page in render_pages(results, theme, __version__, pictures=PicturesShown(site)):
        body = page.body()
        pages[page.address] = Page(digest=content_digest(body), content=body)
    written = write_site(files, pages=pages, output=output, journal=journal, edition=edition.value)
    return Compiled(
        examined=_with_findings(examined, site),
        written=written,
        pages=sum(address.endswith(".html") for address in pages),
        pictures=len(site.pictures),
    )


def _with_findings(examined: Examined, site: SitePictures) -> Examined:
    """Add what rendering found wrong with pictures to what reading found."""
    found = [
        finding_of_picture(path, picture.problem)
        for path, picture in site.pictures.items()
        if picture.problem is not None
    ]
    return replace(examined, findings=order_findings((*examined.findings, *found)))

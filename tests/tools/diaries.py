"""Journals for tests, read from text as a keeper writes it, and their results.

A diary is a text with one event a line, `2026-03-14 fen | died: {group: young, count: 1}`; each
line becomes an entry of its own, numbered from `001`. The tank may be left out.
"""

from collections.abc import Mapping, Sequence
from datetime import date

from filialog.analysis import JournalResults
from filialog.build import RealFiles
from filialog.build.shipped import read_shipped
from filialog.findings import Finding, Severity
from filialog.findings.catalogue import severity_of
from filialog.journal import CheckedJournal, check_journal, public_view
from filialog.reading import read_journal

__all__ = ["GLOW", "checked", "diary_files", "results_of"]

GLOW = """\
name: glow
says: Dull is dominant over glowing; made up.
loci:
  g: {alleles: [G, g]}
looks:
  - look: dull
    when: {g: has G}
  - look: glowing
    when: {g: hom g}
source: made up
"""
"""One locus, dull dominant."""


def diary_files(
    diary: str,
    *,
    settings: str = "",
    groups: Mapping[str, str] | None = None,
    lines: Mapping[str, str] | None = None,
    traits: Mapping[str, str] | None = None,
    tanks: Sequence[str] = (),
) -> dict[str, bytes]:
    """Return the files of a journal; pages are given as their front matter."""
    files = {"journal.yaml": f"title: Two shelves\n{settings}"}
    for number, line in enumerate(filter(None, map(str.strip, diary.splitlines())), start=1):
        head, _, event = line.partition("|")
        day, _, tank = head.strip().partition(" ")
        front = f"date: {day}\n" + (f"tank: {tank}\n" if tank else "") + event.strip()
        files[f"diary/{number:03}.md"] = f"---\n{front}\n---\n"
    for folder, pages in (("groups", groups), ("lines", lines)):
        files |= {f"{folder}/{name}.md": f"---\n{of}\n---\n" for name, of in (pages or {}).items()}
    files |= {f"tanks/{name}.md": "---\nlitres: 20\n---\n" for name in tanks}
    named = {"glow": GLOW} if traits is None else traits
    files |= {f"traits/{name}.yaml": text for name, text in named.items()}
    return {path: text.encode() for path, text in files.items()}


def checked(files: Mapping[str, bytes], *, as_of: date | None = None) -> CheckedJournal:
    """Read and check a journal that holds no error."""
    read = read_journal(files, pictures=(), catalogue=read_shipped(RealFiles()).catalogue)
    assert read.journal is not None
    found = check_journal(read.journal, as_of=as_of)
    assert [one for one in (*read.findings, *found.findings) if _is_error(one)] == []
    return found


def _is_error(finding: Finding) -> bool:
    return severity_of(finding.code) is Severity.ERROR


def results_of(
    diary: str,
    *,
    settings: str = "",
    groups: Mapping[str, str] | None = None,
    lines: Mapping[str, str] | None = None,
    traits: Mapping[str, str] | None = None,
    tanks: Sequence[str] = (),
    as_of: date | None = None,
    public: bool = False,
) -> JournalResults:
    """Return the results of a journal, of its public view if wanted."""
    files = diary_files(
        diary, settings=settings, groups=groups, lines=lines, traits=traits, tanks=tanks
    )
    found = checked(files, as_of=as_of)
    if public:
        found = check_journal(public_view(found.journal), as_of=found.as_of)
    return JournalResults(found)

"""Codes of findings about the journal folder as it lies on the disk (B)."""

from filialog.findings.code import Code
from filialog.findings.finding import Severity

__all__ = ["BUILD_CODES"]

BUILD_CODES: tuple[Code, ...] = (
    Code(
        code="B101",
        severity=Severity.ERROR,
        title="file that cannot be read",
        why="What stands in it would be missing from the site without a word.",
    ),
    Code(
        code="B102",
        severity=Severity.ERROR,
        title="text too long",
        why="A diary text of more than a mebibyte is most likely another kind of file.",
    ),
    Code(
        code="B103",
        severity=Severity.WARNING,
        title="symbolic link",
        why="Links can lead out of the journal, so none is followed.",
    ),
    Code(
        code="B104",
        severity=Severity.WARNING,
        title="file that nothing reads",
        why="It lies where a keeper would think that it is read.",
        example="diary/2026-03-14.docx",
        better="diary/2026-03-14.md",
    ),
    Code(
        code="B105",
        severity=Severity.ERROR,
        title="name that cannot be used",
        why="Some systems cannot hold a file of this name, and the journal must move between them.",
    ),
    Code(
        code="B106",
        severity=Severity.ERROR,
        title="two files with one name",
        why="They differ only in case or in the way accents are written, which some disks ignore.",
    ),
    Code(
        code="B107",
        severity=Severity.WARNING,
        title="picture that cannot be shown",
        why="The page says calmly that a picture is missing, until the file is put right.",
    ),
)
"""In the order of what a walk over the folder can meet."""

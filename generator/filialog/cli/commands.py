"""What the commands do: compile a site, or only check a journal."""

import sys
from datetime import date
from pathlib import Path

from filialog.build import (
    Compiled,
    Examined,
    Files,
    NameRefused,
    OutputBusy,
    OutputError,
    OutputRefused,
    compile_journal,
    examine_journal,
)
from filialog.cli.exit_codes import EXIT_ERRORS, EXIT_FINE, EXIT_USAGE
from filialog.findings.render import render_findings, summary_line
from filialog.journal.records import Edition
from filialog.messages import Words

__all__ = ["check", "compile_site"]


def check(words: Words, files: Files, journal: Path, *, as_of: date | None, strict: bool) -> int:
    """Check a journal and say everything that was found."""
    try:
        examined = examine_journal(files, journal, as_of=as_of)
    except OSError as error:
        return _disk(words, error)
    _say_findings(examined)
    _say(words("cli.checked", findings=summary_line(examined.findings)))
    return EXIT_ERRORS if examined.errors or (strict and examined.warnings) else EXIT_FINE


def compile_site(
    words: Words,
    files: Files,
    journal: Path,
    *,
    output: Path,
    edition: str,
    as_of: date | None,
    strict: bool,
    pictures: Path | None = None,
) -> int:
    """Compile a journal and say what was written, what was found and where to open it."""
    try:
        compiled = compile_journal(
            files,
            journal=journal,
            output=output,
            edition=Edition(edition),
            as_of=as_of,
            strict=strict,
            pictures=pictures,
        )
    except OutputRefused as refused:
        reason = refused.reason.value.replace(" ", "-")
        _complain(words("cli.refused", pick=reason, path=output))
        return EXIT_USAGE
    except OutputBusy:
        _complain(words("cli.busy", path=output))
        return EXIT_ERRORS
    except NameRefused as refused:
        _complain(words("cli.name-refused", path=refused.path, other=refused.other or "–"))
        return EXIT_ERRORS
    except OutputError as refused:
        _complain(words("cli.disk", reason=refused))
        return EXIT_ERRORS
    except OSError as error:
        return _disk(words, error)
    _say_findings(compiled.examined)
    return _say_outcome(words, compiled, output=output, edition=edition)


def _say_outcome(words: Words, compiled: Compiled, *, output: Path, edition: str) -> int:
    summary = summary_line(compiled.examined.findings)
    written = compiled.written
    if written is None:
        _say(words("cli.not-written", findings=summary, path=output))
        return EXIT_ERRORS
    _say(words("cli.found", findings=summary))
    _say(
        words(
            "cli.written",
            number=compiled.pages,
            pages=compiled.pages,
            pictures=compiled.pictures,
            edition=edition,
            new=len(written.new),
            changed=len(written.changed),
            unchanged=written.unchanged,
            removed=len(written.removed),
        )
    )
    if written.foreign:
        _say(words("cli.foreign", number=len(written.foreign), n=len(written.foreign)))
    _say(words("cli.open", path=output / "index.html"))
    return EXIT_FINE


def _say_findings(examined: Examined) -> None:
    if examined.findings:
        _say(render_findings(examined.findings, examined.line_of))
        _say("")


def _disk(words: Words, error: OSError) -> int:
    # The name alone: where the folder lies is known to the keeper and nobody's business else.
    name = Path(error.filename).name if error.filename else "–"
    _complain(words("cli.disk", reason=f"{error.strerror or error} ({name})"))
    return EXIT_ERRORS


def _complain(text: str) -> None:
    print(text, file=sys.stderr)  # noqa: T201


def _say(text: str) -> None:
    print(text)  # noqa: T201

"""What the commands do: compile a site, or only check a journal."""

import sys
from datetime import date
from pathlib import Path

from filialog.build import (
    Compiled,
    Examined,
    NameRefused,
    OutputBusy,
    OutputError,
    OutputRefused,
    RealFiles,
    compile_journal,
    examine_journal,
)
from filialog.findings.render import render_findings, summary_line
from filialog.journal.records import Edition
from filialog.messages import Words

__all__ = ["check", "compile_site"]

_FINE = 0
_ERRORS = 1
_USAGE = 2


def check(words: Words, journal: Path, *, as_of: date | None, strict: bool) -> int:
    """Check a journal and say everything that was found."""
    try:
        examined = examine_journal(RealFiles(), journal, as_of=as_of)
    except OSError as error:
        return _disk(words, error)
    _say_findings(examined)
    _say(words("cli.checked", findings=summary_line(examined.findings)))
    return _ERRORS if examined.errors or (strict and examined.warnings) else _FINE


def compile_site(
    words: Words,
    journal: Path,
    *,
    output: Path,
    edition: str,
    as_of: date | None,
    strict: bool,
) -> int:
    """Compile a journal and say what was written, what was found and where to open it."""
    try:
        compiled = compile_journal(
            RealFiles(),
            journal=journal,
            output=output,
            edition=Edition(edition),
            as_of=as_of,
            strict=strict,
        )
    except OutputRefused as refused:
        print(  # noqa: T201
            words("cli.refused", pick=refused.reason.value.replace(" ", "-"), path=output),
            file=sys.stderr,
        )
        return _USAGE
    except OutputBusy:
        print(words("cli.busy", path=output), file=sys.stderr)  # noqa: T201
        return _ERRORS
    except NameRefused as refused:
        print(  # noqa: T201
            words("cli.name-refused", path=refused.path, other=refused.other or "–"),
            file=sys.stderr,
        )
        return _ERRORS
    except OutputError as refused:
        print(words("cli.disk", reason=refused), file=sys.stderr)  # noqa: T201
        return _ERRORS
    except OSError as error:
        return _disk(words, error)
    _say_findings(compiled.examined)
    return _say_outcome(words, compiled, output=output, edition=edition)


def _say_outcome(words: Words, compiled: Compiled, *, output: Path, edition: str) -> int:
    summary = summary_line(compiled.examined.findings)
    written = compiled.written
    if written is None:
        _say(words("cli.not-written", findings=summary, path=output))
        return _ERRORS
    _say(words("cli.found", findings=summary))
    _say(
        words(
            "cli.written",
            number=compiled.pages,
            pages=compiled.pages,
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
    return _FINE


def _say_findings(examined: Examined) -> None:
    if examined.findings:
        _say(render_findings(examined.findings, examined.line_of))
        _say("")


def _disk(words: Words, error: OSError) -> int:
    print(  # noqa: T201
        words("cli.disk", reason=f"{error.strerror or error} ({error.filename or '–'})"),
        file=sys.stderr,
    )
    return _ERRORS


def _say(text: str) -> None:
    print(text)  # noqa: T201

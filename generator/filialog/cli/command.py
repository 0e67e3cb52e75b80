"""The command line: which command, with which folders, and what it says at the end."""

import argparse
import os
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from filialog import __version__
from filialog.cli.exit_codes import EXIT_ERRORS, EXIT_USAGE
from filialog.findings.nearest import nearest_name
from filialog.messages import ENGLISH, Words

__all__ = ["run"]

_COMMANDS = ("check", "compile", "forecast")


class _UsageError(Exception):
    """Arguments that make no sense, with the words that say so."""


class _Parser(argparse.ArgumentParser):
    """A parser that tells the nearest known word instead of leaving the process."""

    def error(self, message: str) -> None:  # type: ignore[override]
        """Raise what argparse would print before it exits."""
        raise _UsageError(message)


def run(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    words = Words(ENGLISH)
    given = list(sys.argv[1:] if arguments is None else arguments)
    # The names of a journal can be in any script, the terminal's encoding may not be.
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")
    try:
        options = _parser(words).parse_args(given)
    except _UsageError as error:
        return _usage(words, str(error), given)
    if not _is_folder(options.journal):
        return _usage(words, words("cli.no-folder", path=options.journal), [])
    try:
        code = _dispatch(words, options)
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever read the words, such as `head`, has had enough; nothing is left to be said.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return EXIT_ERRORS
    return code


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except OSError:  # a name longer than any file system takes
        return False


def _dispatch(words: Words, options: argparse.Namespace) -> int:
    # Imported late: `--help` and a mistyped command need none of it.
    from filialog.build import RealFiles  # noqa: PLC0415
    from filialog.cli.commands import check, compile_site  # noqa: PLC0415

    if options.command == "forecast":
        from filialog.cli.forecast import forecast  # noqa: PLC0415

        return forecast(
            words,
            RealFiles(),
            options.journal,
            dams=options.dams,
            sires=options.sires,
            as_of=options.as_of,
            model=options.model,
            as_json=options.format == "json",
        )
    if options.command == "check":
        return check(
            words, RealFiles(), options.journal, as_of=options.as_of, strict=options.strict
        )
    return compile_site(
        words,
        RealFiles(),
        options.journal,
        output=options.output or Path(f"{options.journal.resolve().name}-site"),
        edition=options.edition,
        as_of=options.as_of,
        strict=options.strict,
        pictures=options.pictures,
    )


def _parser(words: Words) -> argparse.ArgumentParser:
    parser = _Parser(prog="filialog", description=words("cli.about"), allow_abbrev=False)
    parser.add_argument("--version", action="version", version=f"filialog {__version__}")
    commands = parser.add_subparsers(
        dest="command", required=True, metavar=words("cli.command"), parser_class=_Parser
    )
    for name in _COMMANDS:
        command = commands.add_parser(
            name, help=words("cli.does", pick=name), description=words("cli.does", pick=name),
            allow_abbrev=False,
        )  # fmt: skip
        command.add_argument(
            "journal", type=Path, metavar="JOURNAL", help=words("cli.option", pick="journal")
        )
        if name == "forecast":
            _add_pairing(words, command)
        command.add_argument(
            "--as-of",
            type=_day,
            metavar="DATE",
            default=None,
            help=words("cli.option", pick="as-of"),
        )
        if name != "forecast":
            command.add_argument(
                "--strict", action="store_true", help=words("cli.option", pick="strict")
            )
        if name == "compile":
            command.add_argument(
                "--output", type=Path, metavar="DIR", help=words("cli.option", pick="output")
            )
            command.add_argument(
                "--pictures", type=Path, metavar="DIR", help=words("cli.option", pick="pictures")
            )
            command.add_argument(
                "--edition",
                choices=("public", "keeper"),
                default="public",
                help=words("cli.option", pick="edition"),
            )
    return parser


def _add_pairing(words: Words, command: argparse.ArgumentParser) -> None:
    for side in ("dams", "sires"):
        command.add_argument(side, metavar=side.upper(), help=words("cli.option", pick=side))
    command.add_argument("--model", metavar="NAME", help=words("cli.option", pick="model"))
    command.add_argument(
        "--format",
        choices=("text", "json"),
        default="text",
        help=words("cli.option", pick="format"),
    )


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is not a day such as 2026-03-14") from None


def _usage(words: Words, message: str, given: Sequence[str]) -> int:
    print(words("cli.usage-error", message=message), file=sys.stderr)  # noqa: T201
    wrong = next((word for word in given if word.strip() and word not in _COMMANDS), None)
    if wrong is not None and "invalid choice" in message and given.index(wrong) == 0:
        near = nearest_name(wrong, _COMMANDS)
        if near is not None:
            print(words("cli.nearest", name=near), file=sys.stderr)  # noqa: T201
    print(words("cli.usage-help"), file=sys.stderr)  # noqa: T201
    return EXIT_USAGE

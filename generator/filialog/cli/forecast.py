"""The command `forecast`: the expected young of a pairing, at the terminal or as JSON."""

import json
import sys
from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from pathlib import Path

from filialog.analysis import JournalResults
from filialog.analysis.forecast_rows import ForecastRow, Obstacle
from filialog.build import Examined, Files, examine_journal
from filialog.cli.exit_codes import EXIT_ERRORS, EXIT_FINE, EXIT_USAGE
from filialog.cli.forecast_text import forecast_lines
from filialog.cli.terminal_text import terminal_width
from filialog.findings.nearest import nearest_name
from filialog.findings.render import render_findings
from filialog.journal.events import EventId
from filialog.lineage import Generation
from filialog.messages import Words

__all__ = ["forecast"]


class _WrongNameError(Exception):
    """A name on the command line that the journal does not have, with the words that say so."""


def forecast(
    words: Words,
    files: Files,
    journal: Path,
    *,
    dams: str,
    sires: str,
    as_of: date | None,
    model: str | None,
    as_json: bool,
) -> int:
    """Say what the young of a pairing would be; exit code 1 where their looks cannot be told."""
    try:
        examined = examine_journal(files, journal, as_of=as_of)
    except OSError as error:
        name = Path(error.filename).name if error.filename else "–"
        _complain(words("cli.disk", reason=f"{error.strerror or error} ({name})"))
        return EXIT_ERRORS
    if examined.checked is None or examined.errors:
        return _not_sound(words, examined)
    results = JournalResults(examined.checked)
    try:
        _check_model(words, results, model)
        row = results.forecast(
            dams=_names(words, results, dams), sires=_names(words, results, sires), model=model
        )
    except _WrongNameError as wrong:
        _complain(words("cli.usage-error", message=wrong))
        return EXIT_USAGE
    if as_json:
        _say(json.dumps(_plain(row, results), ensure_ascii=False, indent=2))
    else:
        for line in forecast_lines(words, results, row, width=terminal_width()):
            _say(line)
    if row.obstacle is Obstacle.GENOTYPE_NOT_READ:
        return EXIT_USAGE
    return EXIT_FINE if row.obstacle is None else EXIT_ERRORS


def _not_sound(words: Words, examined: Examined) -> int:
    _complain(render_findings(examined.findings, examined.line_of))
    _complain("")
    _complain(words("forecast.errors"))
    return EXIT_ERRORS


def _names(words: Words, results: JournalResults, text: str) -> Sequence[str]:
    """Return the groups of a side as written, and genotypes written out."""
    names = [name.strip() for name in text.split(",")]
    if not all(names):
        raise _WrongNameError(words("forecast.no-name", text=text))
    known = results.groups()
    for name in names:
        if "/" not in name and name not in known:
            message = words("forecast.unknown-group", name=name)
            raise _WrongNameError(_with_nearest(words, message, name, known))
    return names


def _check_model(words: Words, results: JournalResults, model: str | None) -> None:
    known = tuple(results.journal.traits)
    if model is not None and model not in known:
        message = words("forecast.unknown-model", name=model)
        raise _WrongNameError(_with_nearest(words, message, model, known))


def _with_nearest(words: Words, message: str, name: str, known: Sequence[str]) -> str:
    near = nearest_name(name, known)
    return message if near is None else words("forecast.nearest", message=message, name=near)


def _plain(value: object, results: JournalResults) -> object:
    """Return a row as what JSON knows; events as the file and line they stand at."""
    if isinstance(value, EventId):
        event = results.event(value)
        return None if event is None else f"{event.place.path}:{event.place.line}"
    if isinstance(value, Generation):
        return value.code
    if isinstance(value, ForecastRow):
        plain = _fields(value, results)
        plain["as_of"] = results.as_of.isoformat()
        return plain
    if is_dataclass(value):
        return _fields(value, results)
    if isinstance(value, tuple):
        return [_plain(item, results) for item in value]
    if isinstance(value, Enum):
        return value.value
    return value.isoformat() if isinstance(value, date) else value


def _fields(value: object, results: JournalResults) -> dict[str, object]:
    assert is_dataclass(value)
    found: Mapping[str, object] = {
        field.name: _plain(getattr(value, field.name), results) for field in fields(value)
    }
    return dict(found)


def _complain(text: str) -> None:
    print(text, file=sys.stderr)  # noqa: T201


def _say(text: str) -> None:
    print(text)  # noqa: T201

"""Findings as text for a terminal: code, place, source line with a mark, way out."""

from collections.abc import Callable, Iterable

from filialog.findings.catalogue import severity_of
from filialog.findings.finding import Finding, Place, Severity

__all__ = ["order_findings", "render_finding", "render_findings", "summary_line"]

LineOf = Callable[[str, int], str | None]

_RANK = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.NOTE: 2}


def order_findings(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Sort by severity, then by place: what stops publication comes first."""
    return tuple(
        sorted(
            set(findings),
            key=lambda finding: (
                _RANK[severity_of(finding.code)],
                finding.place,
                finding.code,
                finding.message,
            ),
        )
    )


def render_finding(finding: Finding, line_of: LineOf) -> str:
    """Draw one finding; `line_of(path, number)` gives the keeper's line or None."""
    place = finding.place
    lines = [f"{severity_of(finding.code)}[{finding.code}]: {_visible(finding.message)}"]
    source = line_of(place.path, place.line) if place.line else None
    if source is None:
        lines.append(f"  --> {_visible(_where(place))}")
        margin = ""
        if finding.label:
            lines.append(f"   = {_visible(finding.label)}")
    else:
        number = str(place.line)
        margin = " " * len(number)
        lines.extend(
            (
                f" {margin}--> {_visible(_where(place))}",
                f" {margin} |",
                f" {number} | {_visible(source)}",
                f" {margin} | {_mark_under(source, place)} {_visible(finding.label)}".rstrip(),
            )
        )
    lines.extend(
        f" {margin} = see {_visible(_where(mark.place))}: {_visible(mark.says)}"
        for mark in finding.related
    )
    lines.extend(f" {margin} = note: {_visible(note)}" for note in finding.notes)
    lines.extend(f" {margin} = help: {_visible(way_out)}" for way_out in finding.helps)
    return "\n".join(lines)


def render_findings(findings: Iterable[Finding], line_of: LineOf) -> str:
    """Draw all findings in order, a blank line between two."""
    return "\n\n".join(render_finding(finding, line_of) for finding in order_findings(findings))


def summary_line(findings: Iterable[Finding]) -> str:
    """Count the findings in words: `2 errors, 1 warning`."""
    severities = [severity_of(finding.code) for finding in set(findings)]
    parts = [
        f"{number} {severity}{'' if number == 1 else 's'}"
        for severity in Severity
        if (number := severities.count(severity))
    ]
    return ", ".join(parts) if parts else "no findings"


def _where(place: Place) -> str:
    return f"{place.path}:{place.line}:{place.column}" if place.line else place.path


def _mark_under(source: str, place: Place) -> str:
    """Return the line of carets; wide characters and tabs keep their place."""
    lead = "".join("\t" if char == "\t" else " " for char in source[: place.column - 1])
    room = max(1, len(source) - place.column + 1)
    return lead + "^" * max(1, min(place.length, room))


def _visible(text: str) -> str:
    """Show control and direction-changing characters by number: a finding cannot be forged."""
    return "".join(
        char if char == "\t" or char.isprintable() else f"<U+{ord(char):04X}>" for char in text
    )

"""Case files: a small journal and the whole text of the findings it must give.

A case file has `title`, `files` (path and text), where wanted `hex` (path and bytes as
hexadecimal digits) and `pictures` (paths), and `finding`: all findings as drawn for a
terminal, in order; empty for a journal that must give none.
"""

import importlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from filialog.findings.finding import Finding
from filialog.findings.render import render_findings
from filialog.reading import ReadResult, read_journal
from filialog.reading.node import Node
from filialog.reading.sheet import Desk, Sheet
from filialog.reading.yaml_nodes import read_nodes

__all__ = ["Case", "case_files", "catalogue", "findings_text", "read_case", "read_files"]

ROOT = Path(__file__).parents[2]
CASES = ROOT / "tests" / "cases"


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One case file."""

    title: str
    files: dict[str, bytes]
    pictures: tuple[str, ...]
    finding: str


def case_files() -> list[Path]:
    """Return all case files in order."""
    return sorted(CASES.glob("*.yaml"))


def read_case(path: Path) -> Case:
    """Read a case file; anything odd in it is the case's own fault and raises."""
    desk = Desk()
    sheet = Sheet(path=path.name, text=path.read_text(encoding="utf-8"), desk=desk)
    root = read_nodes(sheet, sheet.text)
    if root is None or desk.findings:
        raise ValueError(f"{path.name}: {render_findings(desk.findings, lambda *_: None)}")
    parts = {key.text: value for key, value in root.pairs}
    known = {"title", "files", "hex", "pictures", "finding"}
    if not set(parts) <= known:
        raise ValueError(f"{path.name}: keys {sorted(set(parts) - known)}")
    files = {name: text.encode() for name, text in _texts(parts.get("files"))}
    files.update({name: bytes.fromhex(digits) for name, digits in _texts(parts.get("hex"))})
    pictures = parts["pictures"].items if "pictures" in parts else ()
    return Case(
        title=parts["title"].text,
        files=files,
        pictures=tuple(item.text for item in pictures),
        finding=parts["finding"].text.strip("\n"),
    )


def _texts(node: Node | None) -> list[tuple[str, str]]:
    return [] if node is None else [(key.text, value.text) for key, value in node.pairs]


def catalogue() -> dict[str, bytes]:
    """Return the shipped trait models and species by path."""
    content = ROOT / "content"
    return {
        path.relative_to(content).as_posix(): path.read_bytes()
        for folder in ("traits", "species")
        for path in sorted((content / folder).glob("*.yaml"))
    }


def read_files(files: dict[str, bytes], *, pictures: Iterable[str] = ()) -> ReadResult:
    """Read a journal with the shipped catalogue."""
    return read_journal(files, pictures=pictures, catalogue=catalogue())


def findings_text(case: Case) -> str:
    """Return all findings of a case as drawn: those of reading, and of the journal's sense."""
    result = read_files(case.files, pictures=case.pictures)
    findings: list[Finding] = list(result.findings)
    check: Callable[..., object] | None = getattr(
        importlib.import_module("filialog.journal"), "check_journal", None
    )
    if check is not None and result.journal is not None:
        checked = check(result.journal)
        findings.extend(getattr(checked, "findings", ()))
    return render_findings(findings, result.line_of)

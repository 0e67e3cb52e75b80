"""Broken journals: each gives the findings its case file lists, whole, and no others."""

from pathlib import Path

import pytest

from filialog.findings.catalogue import CODES
from tools.cases import case_files, findings_text, read_case


@pytest.mark.parametrize("path", case_files(), ids=lambda path: path.stem)
def test_case__gives_these_findings_and_no_others(path: Path) -> None:
    case = read_case(path)

    assert findings_text(case) == case.finding


@pytest.mark.parametrize("path", case_files(), ids=lambda path: path.stem)
def test_case__is_named_by_a_code_it_gives(path: Path) -> None:
    code = path.stem.partition("_")[0]

    assert code in CODES
    assert f"[{code}]" in read_case(path).finding


def test_cases__there_are_broken_journals_of_many_kinds() -> None:
    assert len({path.stem.partition("_")[0] for path in case_files()}) >= 25

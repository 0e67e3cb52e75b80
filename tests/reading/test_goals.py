"""What a line is bred for: a look, and how many of it by when."""

from datetime import date

import pytest

from filialog.journal.records import LinePage
from tools.cases import read_files


def _read(goal: str) -> tuple[LinePage, list[str]]:
    files = {
        "journal.yaml": "title: The rack\n",
        "lines/pale.md": f"---\ngoal: {goal}\n---\n",
        "diary/2026-01-01.md": "Nothing yet.\n",
    }
    read = read_files({path: text.encode() for path, text in files.items()})
    assert read.journal is not None
    return read.journal.lines["pale"], [finding.code for finding in read.findings]


@pytest.mark.parametrize("written", ["fancy", "{look: fancy}"])
def test_goal__is_a_look(written: str) -> None:
    page, codes = _read(written)

    assert (page.goal, page.goal_number, page.goal_by, codes) == ("fancy", None, None, [])


def test_goal__says_how_many_by_when() -> None:
    page, codes = _read("{look: fancy, number: 40, by: 2027-12}")

    assert (page.goal, page.goal_number, codes) == ("fancy", 40, [])
    assert page.goal_by is not None
    assert page.goal_by.latest == date(2027, 12, 31)
    assert page.places["goal.look"].column == 14


@pytest.mark.parametrize(
    ("written", "codes"),
    [
        ("{look: fancy, number: 0}", ["R311"]),
        ("{look: fancy, number: 12+}", ["R311"]),
        ("{look: fancy, number: 10-14}", ["R311"]),
        ("{look: fancy, number: -3}", ["R306"]),
        ("{look: fancy, by: soon}", ["R303"]),
        ("{look: fancy, amount: 4}", ["R201"]),
        ("{look: }", ["R203"]),
        ("{number: 4}", ["R204"]),
        ("[fancy, plain]", ["R202"]),
    ],
)
def test_goal__that_cannot_be_read_is_told_once(written: str, codes: list[str]) -> None:
    assert _read(written)[1] == codes

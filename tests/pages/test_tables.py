"""Tables of expected against observed: what is said of the young without a look."""

import re
from dataclasses import replace

import pytest

from filialog.analysis.rows import SortedIn
from filialog.messages import ENGLISH, Words
from filialog.pages import render_pages
from filialog.pages.tables import verdict_text
from filialog.statistics import judge
from tools.fake_results import FakeResults, fake_results, theme

WORDS = Words(ENGLISH)


def told(results: FakeResults, address: str = "crosses/first-try.html") -> str:
    pages = {page.address: page for page in render_pages(results, theme(), "0.1.0")}
    html = pages[address].body().decode()
    return " ".join(re.sub(r"<[^>]*>", " ", html.partition("<main")[2]).split())


def counted(*, dark: int, pale: int, unsorted: int, p_value: float) -> FakeResults:
    """Return the results with a count, and with what its unsorted could make of it."""
    full = fake_results()
    old = full.tables["first-try"].table
    assert old is not None
    share = (pale + unsorted) / (dark + pale + unsorted)
    end = SortedIn(looks=(("pale", unsorted),), shares=(("pale", share),), p_value=p_value)
    table = replace(
        old, unsorted=unsorted, unsorted_worst=end, unsorted_best=end,
        judgement=judge([dark, pale], [(1, (0.75, 0.25))], [(0.5, 0.5)]),
    )  # fmt: skip
    tables = {
        **full.tables,
        "first-try": replace(full.tables["first-try"], table=table, broods=("slate-f2-a",)),
        "slate-f2-a": replace(full.tables["slate-f2-a"], table=table, broods=("slate-f2-a",)),
    }
    return replace(full, tables=tables)


@pytest.mark.parametrize(
    ("dark", "pale", "unsorted", "p_value", "said"),
    [
        (12, 8, 5, 0.02, "If the 5 unsorted were all pale, 52 % pale would have been seen; even"
                         " then the count fits."),
        (12, 8, 5, 0.004, "If the 5 unsorted were all pale, 52 % pale would have been seen, and"
                          " the count would no longer fit."),
        (20, 1, 1, 0.2, "If that one were pale, 9 % pale would have been seen; even then the"
                        " count fits."),
        (2, 28, 3, 0.5, "If the 3 unsorted were all pale, 94 % pale would have been seen, and the"
                        " count would fit."),
        (2, 28, 3, 0.001, "Whatever the looks of the 3, the count does not fit."),
        (2, 28, 1, 0.001, "Whatever its look, the count does not fit."),
    ],
)  # fmt: skip
def test_unsorted__one_sentence_says_what_they_could_make_of_the_count(
    *, dark: int, pale: int, unsorted: int, p_value: float, said: str
) -> None:
    assert said in told(counted(dark=dark, pale=pale, unsorted=unsorted, p_value=p_value))


def test_unsorted__of_several_looks_are_listed() -> None:
    full = fake_results()
    table = full.tables["first-try"].table
    assert table is not None
    end = SortedIn(looks=(("dark", 1), ("pale", 2)), shares=(("dark", 0.5), ("pale", 0.5)),
                   p_value=0.5)  # fmt: skip
    whole = replace(full.tables["first-try"], table=replace(table, unsorted=3, unsorted_worst=end))
    text = told(replace(full, tables={**full.tables, "first-try": whole}))

    assert "If the 3 unsorted were 1 dark and 2 pale, 50 % dark and 50 % pale would" in text


def test_unsorted__not_computed_is_not_told() -> None:
    full = fake_results()
    table = full.tables["first-try"].table
    assert table is not None
    bare = replace(table, unsorted_worst=None, unsorted_best=None)
    tables = {
        name: replace(whole, table=bare) if whole.table else whole
        for name, whole in full.tables.items()
    }

    assert "would have been seen" not in told(replace(full, tables=tables))


@pytest.mark.parametrize("at_once", [None, 20, 37])
def test_more__number_at_once_is_told_only_where_it_is_the_larger(at_once: int | None) -> None:
    table = fake_results().tables["first-try"].table
    assert table is not None

    said = verdict_text(WORDS, replace(table, more_at_once=at_once))
    assert said.endswith("About 37 more young should settle it at odds of 20 to 1.")

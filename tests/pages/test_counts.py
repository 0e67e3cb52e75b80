"""The page of all counts: the answer first, the odd ones first, and never too long."""

import re
from dataclasses import replace

import pytest

from filialog.analysis.rows import CountLine, CountsRow
from filialog.messages import ENGLISH
from filialog.pages import render_pages
from filialog.statistics import Verdict
from tools.fake_results import FakeResults, empty_results, fake_results, theme


def pages_of(results: FakeResults) -> dict[str, str]:
    return {page.address: page.body().decode() for page in render_pages(results, theme(), "1")}


def told(html: str) -> str:
    return " ".join(re.sub(r"<[^>]*>", " ", html.partition("<main")[2]).split())


def line(number: int, *, p_value: float, adjusted: float, misfit: bool) -> CountLine:
    (plain,) = fake_results().counts_row.lines
    return replace(
        plain, number=number, p_value=p_value, adjusted_p=adjusted, stands_out=adjusted <= 0.05,
        verdict=Verdict.DOES_NOT_FIT if misfit else Verdict.FITS,
    )  # fmt: skip


def page(*lines: CountLine) -> str:
    misfits = [one for one in lines if one.verdict is Verdict.DOES_NOT_FIT]
    row = CountsRow(
        lines=lines, misfits=len(misfits), standing=sum(one.stands_out for one in misfits)
    )
    return pages_of(replace(fake_results(), counts_row=row))["counts.html"]


_FIT = line(40, p_value=0.4, adjusted=0.5, misfit=False)
_CHANCE = line(30, p_value=0.009, adjusted=0.2, misfit=True)
_REAL = line(20, p_value=0.00001, adjusted=0.0004, misfit=True)


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ((_FIT,), "The one count there is does not speak against what was expected."),
        ((_FIT, _FIT), "None of 2 counts speaks against what was expected."),
        ((_REAL,), "The one count there is does not fit what was expected."),
        (
            (_REAL, _FIT),
            "Of 2 counts, 1 does not fit what was expected. After allowing for their number, that"
            " remains so.",
        ),
        (
            (_REAL, _CHANCE, _FIT),
            "Of 3 counts, 2 do not fit what was expected. After allowing for their number, 1 of"
            " them still stand out.",
        ),
        (
            (_CHANCE, _FIT),
            "Of 2 counts, 1 does not fit what was expected. After allowing for their number none"
            " stands out",
        ),
    ],
)
def test_counts__answer_stands_first(lines: tuple[CountLine, ...], said: str) -> None:
    assert said in told(page(*lines))


def test_counts__row_says_both_p_values_and_links_brood_and_cross() -> None:
    html = page(_REAL, _CHANCE)
    rows = re.findall(r"<tr><th scope=\"row\">.*?</tr>", html)

    assert len(rows) == 2
    assert 'href="groups/slate-f2-a.html"' in rows[0]
    assert 'href="crosses/first-try.html"' in rows[0]
    cells = re.findall(r'<td data-head="([^"]*)">([^<]*)<', rows[1])
    heads = [ENGLISH[f"counts.{name}"] for name in ("p", "adjusted", "number")]
    assert [(head, said) for head, said in cells if head in heads] == [
        (heads[0], "0.009"),
        (heads[1], "0.2"),
        (heads[2], "30"),
    ]
    assert f'<td data-head="{ENGLISH["counts.verdict"]}">does not fit</td>' in rows[0]
    assert ENGLISH["counts-verdict.does-not-fit-alone"] in rows[1]


def test_counts__page_is_bounded_and_says_what_it_leaves_out() -> None:
    html = page(*[_FIT] * 500)

    assert len(re.findall(r"<[a-z]", html)) < 800
    assert "440 more counts fit better than these" in told(html)
    assert "more count" not in told(page(_FIT))


def test_counts__without_a_count_is_calm() -> None:
    html = pages_of(empty_results())["counts.html"]

    assert ENGLISH["counts.none"] in told(html)
    assert "<table" not in html


def test_counts__are_linked_from_the_list_of_crosses_and_from_each_table() -> None:
    site = pages_of(fake_results())

    assert 'href="../counts.html"' in site["crosses/index.html"]
    assert 'href="../counts.html"' in site["crosses/first-try.html"]
    assert "Its own p value: 0.07; see all counts side by side ." in told(
        site["crosses/first-try.html"]
    )
    assert "counts.html" not in site["crosses/slate-ivory.html"].partition("<main")[2]

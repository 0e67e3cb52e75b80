"""The page of a line: what it opens with, what it says where data lack, and that it stays small."""

import re
from dataclasses import replace
from datetime import date, timedelta
from html import unescape

import pytest

from filialog.analysis.line_rows import (
    BandKind,
    GoalState,
    LineGeneration,
    LineRow,
    ResponseRow,
    WhyNot,
)
from filialog.analysis.rows import FounderShareRow
from filialog.journal.quantities import Count, When
from filialog.messages import ENGLISH, Words
from filialog.pages.here import Here, Site
from filialog.pages.line import line_view
from filialog.pages.line_chart import band_name
from filialog.pages.pictures import NO_PICTURES
from filialog.pages.templates import Templates
from tools.fake_results import F1, F2, fake_results, theme

WORDS = Words(ENGLISH)
_ROW = fake_results().line_rows["pale-line"]


def _page(row: LineRow = _ROW) -> str:
    results = replace(fake_results(), line_rows={"pale-line": row})
    here = Here(Site(results, WORDS, "0.1.0", NO_PICTURES), "lines/pale-line.html")
    template = Templates(theme(), WORDS).template("line.html.jinja")
    return template.render(page=line_view(here, "pale-line"))


def _told(html: str) -> str:
    return _plain(unescape(re.sub(r"<[^>]*>", " ", html.partition("<main")[2])))


def _plain(text: str) -> str:
    return " ".join(text.split())


def _opening(row: LineRow) -> str:
    found = re.search(r'<p class="opening">(.*?)</p>', _page(row))
    assert found is not None
    return _plain(found[1])


_BY = When(earliest=date(2027, 12, 1), latest=date(2027, 12, 31), text="2027-12")


@pytest.mark.parametrize(
    ("row", "opening"),
    [
        (replace(_ROW, goal_state=GoalState.REACHED, goal_number=8, goal_by=_BY),
         "The goal is reached: 9 pale are on the book, and 8 are wanted by 31 December 2027."),
        (replace(_ROW, goal_state=GoalState.NOT_YET, goal_number=40),
         "The goal is not reached yet: 9 pale are on the book, and 40 are wanted."),
        (replace(_ROW, goal_state=GoalState.CANNOT_TELL, goal_number=12,
                 alive=Count(low=9, high=None, text="9+")),
         "Whether the goal is reached cannot be told: at least 9 pale are on the book, and 12 are"
         " wanted."),
        (_ROW, "9 of 20 young of the newest brood counted by look, slate-f2-a, showed pale, which"
               " the line is bred for."),
        (replace(_ROW, goal_state=GoalState.UNCOUNTED, goal_brood=None),
         "The line is bred for pale, and none of its broods has been counted by look yet."),
        (replace(_ROW, goal_state=GoalState.ALL, goal_by=_BY),
         "All 20 young of the newest brood counted by look, slate-f2-a, showed pale, which the"
         " line is bred for. It is wanted by 31 December 2027."),
    ],
    ids=["reached", "not-yet", "cannot-tell", "look-only", "uncounted", "look-and-day"],
)  # fmt: skip
def test_line__opens_with_whether_the_goal_is_reached(row: LineRow, opening: str) -> None:
    assert _opening(row) == opening


@pytest.mark.parametrize("state", list(GoalState))
def test_line__every_state_of_the_goal_has_words(state: GoalState) -> None:
    row = replace(
        _ROW,
        goal=None if state is GoalState.NO_GOAL else "pale",
        goal_state=state,
        goal_number=5,
    )

    assert "{" not in _opening(row)


def test_line__without_a_goal_and_without_broods_is_calm() -> None:
    row = replace(
        _ROW, goal=None, goal_state=GoalState.NO_GOAL, goal_brood=None, founders=(), groups=(),
        timeline=(), bands=(), scales=(), grades=(), alive=None, model=None,
    )  # fmt: skip
    html = _page(row)

    for key in ("line.no-goal", "line.no-broods", "line.no-groups", "line.no-founders"):
        assert ENGLISH[key] in _told(html), key
    assert "d-timeline" not in html
    assert ENGLISH["line.heading-choosing"] not in html


def test_line__without_a_goal_still_has_its_timeline() -> None:
    row = replace(_ROW, goal=None, goal_state=GoalState.NO_GOAL, alive=None)
    text = _told(_page(row))

    assert ENGLISH["line.no-goal"] in text
    assert "The newest brood is slate-f2-a" in text
    assert "Share that show" not in text
    assert "Alive at the last full count" in text


def test_line__tables_have_the_numbers_of_the_drawing() -> None:
    text = _told(_page())

    assert "9 of 20 : 45 % (26 % to 66 %)" in text
    assert "2.22 (1.58 to 2.86), of 9" in text
    assert "20 of 22: 91 % (72 % to 98 %)" in text
    assert "0 to 0.25" in text
    assert "one count only" in text
    for key in ("timeline.survival", "timeline.founders", "timeline.inbreeding"):
        assert ENGLISH[key] in text
    assert "Mean grade, cover: from thin to dense" in text
    assert _plain(ENGLISH["line.scale-arithmetic"]) in text


def test_line__survival_of_at_least_so_many_is_an_upper_limit() -> None:
    survival = _ROW.timeline[1].survival
    assert survival is not None
    last = replace(_ROW.timeline[1], survival=replace(survival, base_total=False))
    text = _told(_page(replace(_ROW, timeline=(_ROW.timeline[0], last))))

    assert "20 of at least 22: at most 91 %" in text


_RESPONSE = ResponseRow(
    scale="cover", group="slate-f2-a", parents=("slate-f1",), selection=0.5, response=0.25,
    heritability=0.5, low=-0.25, high=1.25, several=False, ungraded=(), why_not=None,
)  # fmt: skip


def _with_response(response: ResponseRow) -> str:
    first, second = _ROW.bands
    return _told(_page(replace(_ROW, bands=(first, replace(second, responses=(response,))))))


def test_line__tells_what_choosing_did() -> None:
    text = _with_response(_RESPONSE)

    assert (
        "slate-f2-a : the parents stood 0.5 steps above the animals they were chosen from, the"
        " young 0.25; realised heritability 0.5 (−0.25 to 1.25)."
    ) in text
    assert "each counts alike" not in text
    assert "each counts alike" in _with_response(replace(_RESPONSE, several=True))
    assert "too few grades" in _with_response(replace(_RESPONSE, low=None, high=None))


@pytest.mark.parametrize(
    ("response", "words"),
    [
        (replace(_RESPONSE, why_not=WhyNot.PARENTS_UNKNOWN), "a parent is not known"),
        (replace(_RESPONSE, why_not=WhyNot.PARENTS_NOT_GRADED, ungraded=("ivory",)),
         "what grade was that of ivory ."),
        (replace(_RESPONSE, why_not=WhyNot.NOT_CHOSEN), "these were not chosen by this grade"),
    ],
)  # fmt: skip
def test_line__says_what_is_missing_for_a_response(response: ResponseRow, words: str) -> None:
    assert words in _with_response(response)


@pytest.mark.parametrize(
    ("scales", "key"), [((("cover", ("thin", "dense")),), "no-grades"), ((), "no-scale")]
)
def test_line__without_grades_says_so(
    scales: tuple[tuple[str, tuple[str, ...]], ...], key: str
) -> None:
    bands = tuple(replace(band, grades=(), responses=()) for band in _ROW.bands)
    timeline = tuple(replace(item, grades=()) for item in _ROW.timeline)
    row = replace(_ROW, scales=scales, grades=(), bands=bands, timeline=timeline)

    assert ENGLISH[f"line.{key}"] in _told(_page(row))


def test_line__specialist_figures_are_folded_away_and_each_is_explained() -> None:
    html = _page()
    _, folded, rest = html.partition(f"<summary>{ENGLISH['line.figures']}</summary>")

    assert folded
    inside = _told(f"<main>{rest.partition('</details>')[0]}")
    assert ENGLISH["line-why-not.number-unknown"] in inside
    for key, text in ENGLISH.items():
        if key.startswith("line-figure-says."):
            assert _plain(text) in inside, key


def test_band__names_tell_how_far_it_is_from_the_founders() -> None:
    band = replace(_ROW.bands[0], labels=(F1, F2))

    def named(kind: BandKind) -> str:
        return band_name(WORDS, replace(band, kind=kind, low=3, high=5))

    assert named(BandKind.LABEL) == "F1 hybrid; F2"
    assert named(BandKind.GENERATION) == "generation 3: F1 hybrid; F2"
    assert named(BandKind.GENERATIONS) == "generations 3 to 5"
    assert named(BandKind.UNKNOWN) == "a parent is unknown: F1 hybrid; F2"


# --- size -----------------------------------------------------------------------------------


def _brood(at: int) -> LineGeneration:
    grade = _ROW.timeline[1].grades[0]
    day = When.on(date(2020, 1, 1) + timedelta(days=12 * at))
    name = f"brood-{at:03}"
    return replace(
        _ROW.timeline[1], brood=name, when=day, generation=replace(F2, n=at, fewest=at, most=at),
        grades=(replace(grade, group=name, broods=(name,)),),
        founder_shares=tuple(
            FounderShareRow(founder=f"founder-{one}", share=1 / 12) for one in range(12)
        ),
    )  # fmt: skip


def test_line__of_150_broods_stays_a_small_page() -> None:
    timeline = tuple(_brood(at) for at in range(150))
    bands = tuple(
        replace(
            _ROW.bands[1],
            kind=BandKind.GENERATIONS, low=25 * at + 1, high=25 * at + 25,
            broods=tuple(one.brood for one in timeline[25 * at : 25 * at + 25]),
            labels=tuple(one.generation for one in timeline[25 * at : 25 * at + 25]),
            grades=tuple(
                replace(mean, groups=tuple(one.brood for one in timeline[25 * at : 25 * at + 25]))
                for mean in _ROW.bands[1].grades
            ),
            responses=tuple(replace(_RESPONSE, group=f"b{n}") for n in range(25)),
            founder_shares=timeline[0].founder_shares,
        )
        for at in range(6)
    )  # fmt: skip
    groups = _ROW.groups * 60
    grades = tuple(one.grades[0] for one in timeline)
    row = replace(_ROW, timeline=timeline, bands=bands, groups=groups, grades=grades)
    html = _page(row)

    assert len(re.findall(r"<[a-z]", html)) < 800
    assert "brood-149" in html
    assert "The same, brood by brood: the newest 15 of 150" in html
    assert f"The newest 50 of {len(groups)}" in _told(html)
    assert "others" in html

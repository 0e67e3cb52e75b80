"""What speaks against a result is said beside it: strays, misfits, halves, odd states."""

import math
import re
from dataclasses import replace

import pytest

from filialog.analysis.line_rows import LineGeneration
from filialog.analysis.rows import RivalKind, RivalLine
from filialog.journal.events import EventId, LookSeen
from filialog.journal.quantities import Count, When
from filialog.lineage import Generation, GenerationKind
from filialog.messages import ENGLISH, Words
from filialog.pages import render_pages
from filialog.pages.parts import generation_terms
from filialog.statistics import judge, wilson_interval
from tools.fake_results import F1, F2, FakeResults, fake_results, theme

WORDS = Words(ENGLISH)


def render(results: FakeResults) -> dict[str, str]:
    return {
        page.address: page.body().decode() for page in render_pages(results, theme(), "0.1.0")
    }  # fmt: skip


def told(html: str) -> str:
    return " ".join(re.sub(r"<[^>]*>", " ", html.partition("<main")[2]).split())


def misfit(*, dark: int = 2, pale: int = 28, share: float = 0.75) -> FakeResults:
    """Return the results with a count that does not fit."""
    full = fake_results()
    old = full.tables["first-try"].table
    assert old is not None
    judgement = judge([dark, pale], [(1, (share, 1 - share))], [(0.5, 0.5)])
    lines = []
    for line, seen, part in zip(old.lines, (dark, pale), (share, 1 - share), strict=True):
        interval = wilson_interval(seen=seen, counted=dark + pale)
        lines.append(
            replace(
                line, share_low=part, share_high=part, expected=part * (dark + pale),
                observed=seen, difference=seen - part * (dark + pale),
                interval_low=interval.low, interval_high=interval.high,
            )
        )  # fmt: skip
    table = replace(old, lines=tuple(lines), judgement=judgement, sorted_number=dark + pale)
    broods = ("slate-f2-a",)
    tables = {
        **full.tables,
        "first-try": replace(full.tables["first-try"], table=table, broods=broods),
        "slate-f2-a": replace(full.tables["slate-f2-a"], table=table, broods=broods),
    }
    return replace(full, tables=tables)


def test_stray__is_told_on_group_and_cross_with_a_link_to_the_entry() -> None:
    site = render(fake_results())

    for address in ("groups/slate-f2-a.html", "crosses/first-try.html"):
        text = told(site[address])
        assert (
            "An animal may have got from hazel into rowan on 2 June 2026, while they were" in text
        )
        assert "a stranger may be among them" in text
        assert "the matter is open." in text
        assert "../entries/2026-08-20-rowan.html" in site[address]
    assert ENGLISH["stray-heading"] not in site["groups/slate.html"]


def test_stray__out_of_the_tank_and_settled_reads_otherwise() -> None:
    full = fake_results()
    (row,) = full.stray_rows["slate-f2-a"]
    row = replace(row, into=False, other_tank=None, cleared=When.on(row.when.latest),
                  cleared_by=EventId("2026-05-02", 0))  # fmt: skip
    text = told(render(replace(full, stray_rows={"slate-f2-a": (row,)}))["groups/slate-f2-a.html"])

    assert "An animal may have got from rowan into another tank on 2 June 2026" in text
    assert "their own descent is not touched by it; the matter was settled on 2 June 2026." in text


def test_stray__hidden_is_not_told() -> None:
    full = replace(fake_results(), hidden=frozenset({EventId("2026-08-20-rowan", 3)}))

    assert ENGLISH["stray-heading"] not in render(full)["groups/slate-f2-a.html"]


def test_misfit__names_four_explanations_with_what_speaks_for_each() -> None:
    html = render(misfit())["crosses/first-try.html"]
    names = re.findall(r"<dt>([^<]*)</dt>", html.partition('class="reasons"')[2])
    text = told(html)

    assert names == [ENGLISH[f"misfit.{name}"] for name in
                     ("parents", "stray", "survival", "sorting")]  # fmt: skip
    assert "With dam P/p × sire p/p, 50 % dark and 50 % pale would be expected." in text
    assert "For it: An animal may have got from hazel into rowan" in text
    assert "dark is the look seen less often than expected" in text
    assert "slate-f2-a : 22 at first sight, 23 at the count." in text
    assert "slate-f2-a was counted by look 1 time only." in text
    assert "2 animals were counted but not put to a look." in text


def test_misfit__look_that_should_not_be_there_speaks_against_survival() -> None:
    text = told(render(misfit(dark=10, pale=20, share=1.0))["crosses/first-try.html"])

    assert "Cannot be the whole of it: pale should not be there at all" in text


def test_misfit__without_a_stray_says_that_none_is_recorded() -> None:
    text = told(render(replace(misfit(), stray_rows={}))["crosses/first-try.html"])

    assert ENGLISH["misfit-stray.none"] in text


def weighed(*rivals: RivalLine) -> str:
    """Return what the page of the cross tells of rivals of a count that does not fit."""
    found = misfit()
    table = found.tables["first-try"].table
    assert table is not None
    tables = {
        name: replace(found.tables[name], table=replace(table, rivals=rivals))
        for name in ("first-try", "slate-f2-a")
    }
    full = replace(found, tables={**found.tables, **tables})
    return told(render(full)["crosses/first-try.html"])


def test_misfit__weighs_other_sires_and_survival_in_a_sentence_each() -> None:
    text = weighed(
        RivalLine(kind=RivalKind.ALL_SIRES, of=("p/p", "P/p"), estimate=None, low=None, high=None,
                  log_ratio=math.log(12.3)),
        RivalLine(kind=RivalKind.SOME_SIRES, of=("p/p",), estimate=0.6, low=0.4, high=0.8,
                  log_ratio=math.inf),
        RivalLine(kind=RivalKind.SURVIVAL, of=("dark",), estimate=0.27, low=0.1, high=0.62,
                  log_ratio=math.log(5e6)),
    )  # fmt: skip

    assert (
        "If all the young were of a sire p/p or P/p: that explains the count 12 times better than"
        " what was expected." in text
    )
    assert (
        "If about 60 % of them (40 % to 80 %) were of a further sire p/p: that can give such a"
        " count, which what was expected cannot." in text
    )
    assert (
        "If dark survived only 27 % as well as the rest (10 % to 62 %): that explains the count"
        " more than 1000 times better than what was expected." in text
    )
    assert " ".join(ENGLISH["method.rivals"].split()) in text


@pytest.mark.parametrize(
    ("ratio", "said"),
    [
        (0.0, "explains the count about as well as what was expected."),
        (-1.0, "explains the count 2.7 times worse than what was expected."),
        (-99.0, "explains the count more than 1000 times worse than what was expected."),
    ],
)
def test_misfit__rival_that_does_no_better_is_told_so(ratio: float, said: str) -> None:
    line = RivalLine(kind=RivalKind.ALL_SIRES, of=("p/p",), estimate=None, low=None, high=None,
                     log_ratio=ratio)  # fmt: skip

    assert said in weighed(line)


def test_fitting_count__has_no_list_of_explanations() -> None:
    assert 'class="reasons"' not in render(fake_results())["crosses/first-try.html"]


def test_misfit__puts_the_doubt_before_what_follows_from_the_parents() -> None:
    text = told(render(misfit())["groups/slate-f2-a.html"])

    assert text.index(ENGLISH["group.doubt"]) < text.index("A member carries p")
    assert ENGLISH["group.doubt"] not in told(render(fake_results())["groups/slate-f2-a.html"])


def test_misfit__leaves_the_genotype_of_a_lot_unknown() -> None:
    found = misfit()
    lot = replace(found.lot_rows["pale-1"], groups=("slate-f2-a",))
    text = told(render(replace(found, lot_rows={"pale-1": lot}))["offers.html"])

    assert ENGLISH["genotype-unknown.misfit"] in text


def test_misfit__leaves_the_brood_out_of_those_that_must_show_a_look() -> None:
    found = misfit()
    row = replace(found.look_rows["dark"], must_show=("slate-f1", "slate-f2-a"))
    text = told(render(replace(found, look_rows={"dark": row}))["looks/dark.html"])

    assert "if the parents recorded are right: slate-f1 ." in text


def test_half_sided__says_that_its_look_speaks_for_no_genotype() -> None:
    full = fake_results()
    row = replace(full.group_rows["slate-f2-a"], look=LookSeen(left="pale", right="dark"))
    text = told(render(replace(full, group_rows={**full.group_rows, "slate-f2-a": row}))
                ["groups/slate-f2-a.html"])  # fmt: skip

    assert ENGLISH["group.half-sided"] in text
    assert "A member carries" not in text
    assert ENGLISH["group.genotypes"] not in text
    assert "Cannot tell yet" not in text
    assert "left side pale, right side dark" in text


def test_tank__never_measured_is_one_calm_sentence_and_no_chart() -> None:
    html = render(fake_results())["tanks/alder.html"]

    assert ENGLISH["tank.no-readings"] in html
    assert "d-readings" not in html


def test_group__without_a_single_fact_is_calm() -> None:
    full = fake_results()
    row = replace(
        full.group_rows["ivory"], book=(), crosses=(), lines=(), mentions=(), founder_shares=(),
        inbreeding=None,
    )  # fmt: skip
    text = told(render(replace(full, group_rows={**full.group_rows, "ivory": row}))
                ["groups/ivory.html"])  # fmt: skip

    for key in ("no-model", "no-pedigree", "no-crosses", "no-tallies", "no-book", "no-parts",
                "no-mentions"):  # fmt: skip
        assert ENGLISH[f"group.{key}"] in text, key
    assert ENGLISH["inbreeding.unknown"] in text


def test_closed_tank__says_what_was_left_as_a_keeper_would() -> None:
    full = fake_results()
    first = full.journal.entries[0]
    closed = replace(
        first.events[0], kind_name="closed", values={"left": (("young", "some"), ("males", "2"))}
    )
    events = (closed, *first.events[1:])
    entries = (replace(first, events=events), *full.journal.entries[1:])
    text = told(render(replace(full, journal=replace(full.journal, entries=entries)))
                ["entries/2026-01-03-hazel.html"])  # fmt: skip

    assert "left in it: some young and 2 males." in text


def test_terms__explain_every_label_once_the_earliest_first() -> None:
    mixed = Generation(kind=GenerationKind.MIXED, strains=(), parents=(F1, F2), fewest=2, most=3)
    terms = generation_terms(WORDS, [mixed, F2, F1, F2])

    assert [term.name for term in terms] == ["F1 hybrid", "F2", "F1 × F2"]
    assert all(term.says.endswith(".") for term in terms)


def test_front__line_as_expected_is_said_in_words() -> None:
    full = fake_results()
    row = full.line_rows["pale-line"]
    last = replace(row.timeline[1], goal_seen=20, goal_share=1.0, goal_expected=1.0)

    def text(one: LineGeneration) -> str:
        rows = {"pale-line": replace(row, timeline=(row.timeline[0], one))}
        return told(render(replace(full, line_rows=rows))["index.html"])

    assert "all 20 showed pale, as expected." in text(last)
    none = replace(last, goal_seen=0, goal_share=0.0, goal_expected=0.0)
    assert "none of 20 showed pale, as expected." in text(none)
    assert "9 of 20 showed pale; 25 % were expected." in text(row.timeline[1])


def test_groups__those_gone_stand_apart() -> None:
    full = fake_results()
    slate = full.group_rows["slate"]
    gone = replace(slate, book=(replace(slate.book[0], after=Count.of(0)),))
    html = render(replace(full, group_rows={**full.group_rows, "slate": gone}))["groups/index.html"]

    assert html.index('<h2 id="gone">') < html.index(">Slate, first stock<")
    assert 'id="gone"' not in render(full)["groups/index.html"]

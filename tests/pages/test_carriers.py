"""Hidden carriers on the page of a group: what moved a chance, and what would settle it."""

import re
from dataclasses import replace

from filialog.analysis.rows import CarrierChange, CarrierRow, ClearingRow, GenotypeRow
from filialog.journal.quantities import Count
from filialog.pages import render_pages
from tools.fake_results import FakeResults, fake_results, theme

_GROUP = "slate-f2-a"


def _told(results: FakeResults) -> str:
    pages = {page.address: page for page in render_pages(results, theme(), "0.1.0")}
    html = pages[f"groups/{_GROUP}.html"].body().decode()
    return " ".join(re.sub(r"<[^>]*>", " ", html.partition("<main")[2]).split())


def _with(carriers: tuple[CarrierRow, ...], **more: object) -> FakeResults:
    full = fake_results()
    group = replace(full.group_rows[_GROUP], carriers=carriers, **more)  # type: ignore[arg-type]
    return replace(full, group_rows={**full.group_rows, _GROUP: group})


def _change(kind: str, before: float, after: float) -> CarrierChange:
    event = fake_results().group_rows[_GROUP].origin_event
    return CarrierChange(
        kind=kind,
        group=_GROUP,
        counts=(("dark", 9),) if kind == "tally" else (),
        mates=("slate-f1",) if kind == "tally" else (),
        before=before,
        after=after,
        events=(event,),
    )


def _row(*changes: CarrierChange, clearing: ClearingRow | None = None) -> CarrierRow:
    return CarrierRow(allele="p", before=2 / 3, chance=1 / 257, changes=changes, clearing=clearing)


_CLEARING = ClearingRow(tester="p/p", looks=("pale",), young=((0.95, 5), (0.99, 7), (0.999, 10)))


def test_carrier__is_told_by_the_count_that_moved_it() -> None:
    told = _told(_with((_row(_change("tally", 2 / 3, 1 / 257)),)))

    assert "9 dark in" in told
    assert "the chance that a member has p goes from 66.7 % to 0.39 %." in told
    assert "All that moved the chance of p" not in told


def test_carrier__moved_by_too_many_counts_is_told_of_all_together() -> None:
    told = _told(_with((_row(_change("all", 2 / 3, 1 / 257)),)))

    assert "The counts of all relatives of slate-f2-a" in told
    assert "goes from 66.7 % to 0.39 %." in told


def test_carrier__with_several_pieces_lists_all_of_them_one_step_deeper() -> None:
    told = _told(_with((_row(_change("look", 0.75, 2 / 3), _change("tally", 2 / 3, 1 / 257)),)))

    assert "All that moved the chance of p" in told
    # The main sentence is the count; then both in the list.
    assert told.count("goes from 66.7 % to 0.39 %.") == 2
    assert told.count("goes from 75 % to 66.7 %.") == 1


def test_carrier__that_is_open_says_which_test_cross_would_settle_it() -> None:
    told = _told(_with((_row(clearing=_CLEARING),)))

    assert (
        "To clear one animal of p: 5, 7 or 10 young with a mate that is p/p, none of them" in told
    )
    assert "at least 95 %, 99 % or 99.9 %." in told


def test_carrier__of_a_group_that_is_gone_asks_for_no_test_cross() -> None:
    (*lines, last) = fake_results().group_rows[_GROUP].book
    gone = (*lines, replace(last, after=Count.of(0)))

    assert "To clear one animal" not in _told(_with((_row(clearing=_CLEARING),), book=gone))


def test_contradiction__with_genotypes_left_says_what_they_follow_from() -> None:
    event = fake_results().group_rows[_GROUP].origin_event
    known = (GenotypeRow(genotype="p/p", probability=1.0, look="pale"),)
    with_some = _told(_with((), contradiction=(event,), genotypes=known))
    without = _told(_with((), contradiction=(event,), genotypes=(), hidden=()))

    assert "These entries cannot all be right. What is said here of genotypes" in with_some
    assert "so no genotype is given" in without
    assert "These entries cannot all be right" not in without

"""Results as nodes: each once, in any order, for long lines and for journals of any shape."""

import random
import time
from collections.abc import Callable
from datetime import date, timedelta
from fractions import Fraction
from functools import partial

import pytest

from filialog.analysis import JournalResults
from filialog.analysis.carriers import LAW
from filialog.analysis.nodes import Evaluator, NodeKind, Reader
from filialog.journal import check_journal
from tools.diaries import checked, diary_files, results_of

_DIARY = """
    2026-01-01 fen | bought: {group: dusk, count: 5, genotype: g/g}
    2026-01-01 fen | bought: {group: dawn, count: 5, genotype: G/G}
    2026-03-01 tarn | hatched: {brood: first, dams: dusk, sires: dawn, count: 20}
    2026-06-01 tarn | hatched: {brood: second, count: 20}
    2026-07-01 tarn | counted: {brood: second, looks: {dull: 11, glowing: 9}}
    2026-07-02 tarn | sorted: {from: second, into: {shine: {count: 9, look: glowing}}}
    2026-07-03 tarn | joined: {parts: {shine: 3, first: 2}, into: mix}
"""
_LINES = {"glows": "goal: glowing\nfounders: [dusk]\ntraits: glow"}


def _questions(results: JournalResults) -> list[tuple[str, Callable[[], object]]]:
    broods = [name for name in results.groups() if results.brood(name) is not None]
    families: list[tuple[str, Callable[[str], object], tuple[str, ...]]] = [
        ("group", results.group, results.groups()),
        ("brood", results.brood, results.groups()),
        ("table", results.table, tuple(broods)),
        ("cross", results.cross, results.crosses()),
        ("cross table", results.cross_table, results.crosses()),
        ("tank", results.tank, results.tanks()),
        ("line", results.line, results.lines()),
    ]
    return [
        (f"{family} {name}", partial(ask, name))
        for family, ask, names in families
        for name in names
    ]


def _answers(results: JournalResults, order: random.Random | None = None) -> dict[str, object]:
    questions = _questions(results)
    if order is not None:
        order.shuffle(questions)
    return {name: ask() for name, ask in questions}


# --- nodes ----------------------------------------------------------------------------------


def test_node__is_computed_once_and_its_reads_are_noted() -> None:
    calls = []

    def count(_: Reader, subject: str) -> int:
        calls.append(subject)
        return len(subject)

    length = NodeKind("length", count)
    both = NodeKind("both", lambda reader, subject: 2 * reader.get(length, subject))
    evaluator = Evaluator(checked(diary_files(_DIARY)))

    assert [evaluator.get(both, "fen"), evaluator.get(both, "fen")] == [6, 6]
    assert evaluator.get(length, "fen") == 3
    assert calls == ["fen"]
    assert evaluator.reads["both", "fen"] == (("length", "fen"),)


def test_node__of_the_journal_notes_the_facet() -> None:
    title = NodeKind("title", lambda reader, _: reader.journal("settings").journal.settings.title)
    evaluator = Evaluator(checked(diary_files(_DIARY)))

    assert evaluator.get(title, "") == "Two shelves"
    assert evaluator.reads["title", ""] == (("journal", "settings"),)


def test_results__every_read_is_a_node_or_the_journal() -> None:
    results = results_of(_DIARY, lines=_LINES)
    _answers(results)

    reads = results.evaluator.reads
    assert ("group", "mix") in reads
    assert [
        read
        for node in reads.values()
        for read in node
        if read[0] != "journal" and read not in reads
    ] == []
    assert ("genotypes-by-descent", "glow/shine") in reads["genotypes-by-descent", "glow/mix"]


@pytest.mark.parametrize("seed", range(5))
def test_results__do_not_depend_on_the_order_of_asking(seed: int) -> None:
    asked = _answers(results_of(_DIARY, lines=_LINES))
    shuffled = _answers(results_of(_DIARY, lines=_LINES), random.Random(seed))

    assert shuffled == asked


# --- journals of any shape ------------------------------------------------------------------


@pytest.mark.parametrize(
    "diary",
    [
        pytest.param("", id="no entries"),
        pytest.param("2026-01-01 fen | title: All well", id="no events"),
        pytest.param("2026-01-01 fen | measured: {ph: 6.4}", id="no groups"),
    ],
)
def test_results__of_a_journal_without_groups_are_empty(diary: str) -> None:
    results = results_of(diary, lines={"glows": "goal: glowing\ntraits: glow"})

    assert (results.groups(), results.crosses()) == ((), ())
    assert results.holdings(results.as_of) == ()
    assert results.line("glows").groups == ()
    alive = results.line("glows").alive
    assert alive is not None
    assert alive.exact == 0
    assert [results.tank(name).total for name in results.tanks()] == [None] * len(results.tanks())


@pytest.mark.parametrize("day", ["0001-01-01", "2025-12-31", "2026-06-01", "9999-12-31"])
def test_results__as_of_any_day_drop_no_group(day: str) -> None:
    results = results_of(_DIARY, lines=_LINES, as_of=date.fromisoformat(day))

    answers = _answers(results)
    assert results.as_of.isoformat() == day
    assert len([name for name in answers if name.startswith("group ")]) == 6
    assert results.holdings(results.as_of) == () or day > "2026"


def test_results__of_a_journal_with_errors_do_not_fail() -> None:
    """The public view is not checked for errors again: whatever is in it has to be borne."""
    files = diary_files(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5}
        2026-03-01 fen | hatched: {brood: young, dams: gone, sires: dusk}
        2026-03-02 fen | sorted: {from: nobody, into: {keep: {count: 3, look: pink}}}
        2026-03-03 fen | hatched: {brood: dusk, dams: young, sires: young}
        2026-03-04 fen | counted: {brood: young, looks: {pink: 3}}
        """
    )
    from filialog.reading import read_journal  # noqa: PLC0415 - the error is wanted here

    journal = read_journal(files, pictures=(), catalogue={}).journal
    assert journal is not None
    found = check_journal(journal)
    assert found.findings
    results = JournalResults(found)

    _answers(results)
    assert results.groups() == ("dusk", "young", "keep")


# --- long lines and large journals ----------------------------------------------------------


def _long_line(generations: int, *, named: bool = True) -> str:
    """A brood every 90 days; its dull young are sorted out and are the next parents."""
    lines = ["2000-01-01 fen | bought: {group: s0, count: 20, look: dull}"]
    day = date(2000, 1, 1)
    for number in range(generations):
        day += timedelta(days=90)
        parents = f", dams: s{number}, sires: s{number}" if named else ""
        after = [day, day + timedelta(days=40), day + timedelta(days=41)]
        lines += [
            f"{after[0]} fen | hatched: {{brood: b{number}, count: 20{parents}}}",
            f"{after[1]} fen | counted: {{brood: b{number}, looks: {{dull: 15, glowing: 5}}}}",
            f"{after[2]} fen | "
            f"sorted: {{from: b{number}, into: {{s{number + 1}: {{count: 8, look: dull}}}}}}",
            f"{after[2]} fen | sold: {{group: b{number}, count: 12}}",
        ]
        if number:
            lines.append(f"{after[0]} fen | sold: {{group: s{number - 1}, count: 8}}")
    return "\n".join(lines)


@pytest.mark.parametrize("named", [True, False])
def test_results__of_four_hundred_generations_come_in_seconds(named: bool) -> None:
    journal = checked(diary_files(_long_line(400, named=named), lines={}))

    start = time.process_time()
    results = JournalResults(journal)
    _answers(results, random.Random(1))
    taken = time.process_time() - start

    assert len(results.groups()) == 801
    assert results.brood("b399") is not None
    # Measured at 1 s with parents named and 2 s with parents sought; scanning all groups for
    # each group took twenty times as long.
    assert taken < 10.0


def test_results__reads_grow_with_the_journal_and_not_with_its_square() -> None:
    def reads(generations: int) -> int:
        results = results_of(_long_line(generations))
        _answers(results)
        return sum(map(len, results.evaluator.reads.values()))

    assert reads(80) < 2.5 * reads(40)


_TWO_LOCI = """\
name: glow
says: Two loci, neither covering the other; made up.
loci:
  g: {alleles: [G, g]}
  s: {alleles: [S, s]}
looks:
  - look: plain
    when: {g: has G, s: has S}
  - look: spotted
    when: {g: has G}
  - look: glowing
    when: {s: has S}
  - look: both
source: made up
"""


def test_law__of_many_generations_keeps_fractions_short() -> None:
    """Dam and sire differ, and the young are sorted: exact digits double each generation."""
    lines = ["2000-01-01 fen | bought: {group: s0, count: 50}"]
    for number in range(60):
        sires = f"{{of: [s{number}, b{number - 1}]}}" if number else "s0"
        lines += [
            f"{2001 + number}-01-01 fen | "
            f"hatched: {{brood: b{number}, dams: s{number}, sires: {sires}, count: 50}}",
            f"{2001 + number}-03-01 fen | "
            f"sorted: {{from: b{number}, into: {{s{number + 1}: {{count: 5, look: plain}}}}}}",
        ]
    results = results_of("\n".join(lines), traits={"glow": _TWO_LOCI})

    law = results.evaluator.get(LAW, "glow/s60").law
    assert law is not None
    assert sum(share for _, share in law.probabilities) == 1
    assert max(share.denominator.bit_length() for _, share in law.probabilities) <= 193
    assert len(law.probabilities) == 4
    assert law.probability((("G", "G"), ("S", "S"))) > Fraction(8, 10)

"""The public view: nothing private is left in any value, and what counts still counts.

Marker words are planted in every private place; every value that can be reached from the public
view is searched for them, and every byte of the compiled public edition.
"""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from datetime import date
from enum import Enum
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import settings as checking
from hypothesis import strategies as st

from filialog.analysis import JournalResults
from filialog.build import RealFiles, compile_journal
from filialog.journal import check_journal, public_view
from filialog.journal.records import Edition, Journal
from tools.cases import read_files

_MARK = "qzx"
"""Stands in every private word of these tests, and in no other."""


def _texts(value: object, path: str = "") -> Iterator[tuple[str, str]]:
    """Give every text that can be reached from a value, with the way to it."""
    if isinstance(value, str):
        yield path, value
    elif isinstance(value, Enum):
        return
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _texts(key, f"{path}.keys")
            yield from _texts(inner, f"{path}[{key}]")
    elif isinstance(value, (tuple, list, set, frozenset)):
        for number, inner in enumerate(value):
            yield from _texts(inner, f"{path}[{number}]")
    elif is_dataclass(value):
        for one in fields(value):
            yield from _texts(getattr(value, one.name), f"{path}.{one.name}")
    else:
        assert value is None or isinstance(value, (bool, int, float, date)), type(value)


def _marked(value: object) -> list[tuple[str, str]]:
    return [(path, text) for path, text in _texts(value) if _MARK in text.casefold()]


# --- a journal with private words in every place that can hold any ---------------------------

_TANK = "---\nlitres: 20\n---\n"
_SAYS = (
    "The [[qzx-group]], [[qzx-group|qzx words]], [[ QZX-Group ]], [[qzx-tank]] and [[Qzx-Line]];"
    " see [qzx file](../diary/2026-01-02%20qzx%20visit.md), [here](../groups/qzx-group.md).\n\n"
    ":::private\nqzx block\n:::\n\n- open end\n"
)
_HOSTILE = {
    "journal.yaml": "title: The rack\nkeeper: Wren\n",
    "tanks/fen.md": f"---\nlitres: 20\n---\n{_SAYS}",
    "tanks/tarn.md": _TANK,
    "tanks/qzx-tank.md": "---\ntitle: Qzx\nsoil: qzx\nprivate: true\n---\nqzx\n",
    "groups/open.md": f"---\nlook: pale\n---\n{_SAYS}",
    "groups/qzx-group.md": "---\nstrain: qzx\nprivate: true\n---\nqzx\n",
    "lines/pale.md": f"---\nfounders: [open, qzx-group]\n---\n{_SAYS}",
    "lines/qzx-line.md": "---\ngoal: qzx\nfounders: [open]\nprivate: true\n---\nqzx\n",
    "diary/2026-01-01.md": (
        "---\ntank: fen\npresent:\n"
        "  - {group: open, count: 40}\n  - {group: qzx-group, count: 10}\n"
        "bought: {group: more, count: 5, price: qzx 9}\n"
        f"---\n{_SAYS}"
    ),
    "diary/2026-01-02 qzx visit.md": (
        "---\ntank: fen\nprivate: true\nsold: {group: open, count: 1, buyer: qzx}\n"
        "bought: {group: open, count: 2, source: qzx, label: qzx, look: qzx, note: qzx}\n"
        "---\nqzx\n"
    ),
    "diary/2026-01-03.md": (
        "---\ntank: fen\n"
        "sold:\n"
        "  - {group: more, count: 1, buyer: qzx, price: qzx, note: openly}\n"
        "  - {group: open, count: 1, lot: qzx-lot, sale: qzx, note: qzx, private: true}\n"
        "offered:\n"
        "  - {group: open, lot: qzx-lot-2, count: 3, private: true}\n"
        "  - {group: qzx-group, lot: qzx-lot-3, count: 3}\n"
        "given:\n"
        "  - {lot: qzx-lot-2, count: 1, note: qzx}\n"
        "  - {lot: qzx-lot-3, count: 1, note: qzx}\n"
        "died: {group: open, count: 1, cause: qzx, why: qzx, look: qzx, private: true}\n"
        "sorted: {from: open, into: {more: {count: 1, look: qzx}}, note: qzx, private: true}\n"
        "counted: {group: more, count: 2, looks: {qzx: 2}, private: true}\n"
        "away: {since: 2026-01-04, until: 2026-01-09, sitter: qzx, phone: qzx}\n"
        "---\n"
    ),
    "diary/2026-01-04 qzx-tank.md": (
        "---\npresent: {group: third, count: 4, source: qzx}\n---\nqzx\n"
    ),
    "diary/2026-01-05.md": (
        "---\ntank: fen\n"
        "moved:\n"
        "  - {group: open, count: 3, to: qzx-tank, note: qzx}\n"
        "  - {group: open, count: 1, as: qzx-group, note: qzx}\n"
        "sorted: {from: open, into: {qzx-group: 2, more: 1}, note: qzx}\n"
        "joined: {parts: {open: 2, qzx-group: 1}, into: qzx-group, note: qzx}\n"
        "strayed: {from: qzx-tank, to: fen, note: qzx}\n"
        "fed: {food: leaves}\n"
        "---\nAn open word.\n"
    ),
    "diary/2026-01-06.md": (
        "---\ntanks:\n  qzx-tank: {fed: 1 qzx, died: {group: third, count: 1, note: qzx}}\n"
        "  fen: {fed: 1 dab}\n---\n## fen\n\nopen\n\n## qzx-tank\n\nqzx\n"
    ),
    "diary/2026-05-01.md": (
        "---\ntank: fen\n"
        "paired: {dams: qzx-group, sires: open, cross: qzx-cross}\n"
        "hatched:\n"
        "  - {brood: qzx-young, dams: qzx-group, sires: open, count: 8}\n"
        "  - {brood: qzx-twin, dams: open, sires: open, count: 8, private: true}\n"
        "counted: {brood: qzx-young, looks: {qzx: 4}, other: [{count: 1, note: qzx}]}\n"
        "---\n"
    ),
    "diary/2026-05-02 qzx.md": "---\nprivate: true\n---\nqzx\n",
    "diary/2026-05-03 tarn.md": "---\nclosed: {left: {qzx-group: some}}\n---\nopen\n",
}


def _read(files: Mapping[str, str]) -> Journal:
    read = read_files({path: text.encode() for path, text in files.items()})
    assert read.journal is not None
    return read.journal


def _stock(of: Journal, group: str, *, tank: str | None = None) -> str:
    """Return how many of a group the public edition has on its last day."""
    as_of = check_journal(of).as_of
    book = check_journal(public_view(of), as_of=as_of).book
    return (
        book.number_of(group, as_of) if tank is None else book.number_in([(group, tank)], as_of)
    ).text


# --- nothing private is left -----------------------------------------------------------------


def test_hostile_journal__is_sound_and_full_of_private_words() -> None:
    """Otherwise the tests below would pass for want of anything to find."""
    whole = _read(_HOSTILE)
    places = {path.replace("[", ".").split(".")[1] for path, _ in _marked(whole)}

    assert places >= {"entries", "tanks", "groups", "lines"}
    assert len(_marked(whole)) > 150
    assert {one.code for one in check_journal(whole).findings} <= {"N107"}


def test_public_view__holds_no_private_word() -> None:
    public = public_view(_read(_HOSTILE))

    assert _marked(public) == []
    assert [one.id for one in public.entries] == [
        "2026-01-01",
        "2026-01-03",
        "2026-01-05",
        "2026-01-06",
        "2026-05-03-tarn",
    ]
    assert set(public.tanks) == {"fen", "tarn"}
    assert set(public.groups) == {"open"}
    assert set(public.lines) == {"pale"}
    assert public.lines["pale"].founders == ("open",)
    assert public.edition is Edition.PUBLIC


def test_public_view__keeps_what_is_open() -> None:
    public = public_view(_read(_HOSTILE))
    texts = {text for _, text in _texts(public)}

    assert {"openly", "leaves", "1 dab"} <= texts
    assert any("open end" in text for text in texts)
    prose = public.groups["open"].prose
    assert prose.plain == "The …, …, …, … and …; see …, …. open end"
    assert prose.links == ()


def test_public_view__and_all_that_is_worked_out_of_it_hold_no_private_word() -> None:
    whole = _read(_HOSTILE)
    checked = check_journal(public_view(whole), as_of=check_journal(whole).as_of)
    results = JournalResults(checked)
    rows = [
        *map(results.group, results.groups()),
        *map(results.tank, results.tanks()),
        *map(results.line, results.lines()),
        *map(results.cross, results.crosses()),
        results.holdings(results.as_of),
    ]

    assert results.groups() == ("open", "more", "third")
    assert results.tanks() == ("fen", "tarn")
    assert _marked(rows) == []
    assert _marked((checked.names, checked.parents, checked.descent, checked.findings)) == []
    assert _marked((checked.book.postings, checked.book.differences, checked.book.stands)) == []


def test_public_edition__has_no_private_word_in_any_byte(tmp_path: Path) -> None:
    folder = tmp_path / "journal"
    for path, text in _HOSTILE.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8")
    found = {}
    for edition in Edition:
        output = tmp_path / edition.value
        compiled = compile_journal(RealFiles(), journal=folder, output=output, edition=edition)
        assert compiled.written is not None, compiled.examined.findings
        files = [path for path in sorted(output.rglob("*")) if path.is_file()]
        found[edition] = [
            path.name
            for path in files
            if _MARK.encode() in path.read_bytes().lower()
            or _MARK in path.relative_to(output).as_posix().lower()
        ]

    assert found[Edition.PUBLIC] == []
    assert len(found[Edition.KEEPER]) > 10


def test_public_view__holds_no_words_of_text_that_could_not_be_read() -> None:
    whole = replace(_read(_FILES), reported=frozenset({"qzx"}))

    assert _marked(public_view(whole)) == []


def test_public_view__of_the_public_view_is_the_same() -> None:
    public = public_view(_read(_HOSTILE))

    assert public_view(replace(public, withheld=())) == replace(public, withheld=())


@pytest.mark.parametrize("path", sorted(path for path in _HOSTILE if "qzx" not in path))
def test_public_view__without_any_one_file_holds_no_private_word(path: str) -> None:
    """What hides a name may stand in another file than the name."""
    files = {name: text for name, text in _HOSTILE.items() if name != path}
    if path == "journal.yaml":
        files[path] = "title: Another\n"

    assert _marked(public_view(_read(files))) == []


# --- withheld, and still counted -------------------------------------------------------------

_FILES = {
    "journal.yaml": "title: The rack\n",
    "tanks/fen.md": _TANK,
    "tanks/tarn.md": _TANK,
    "tanks/back.md": "---\nprivate: true\n---\n",
    "groups/secret.md": "---\nprivate: true\n---\n",
    "diary/2026-01-01.md": (
        "---\ntank: fen\npresent:\n  - {group: open, count: 20}\n  - {group: other, count: 9}\n"
        "  - {group: secret, count: 9}\n---\n"
    ),
}


def _with_day(text: str, **more: str) -> Journal:
    return _read({**_FILES, "diary/2026-03-01.md": f"---\ntank: fen\n{text}\n---\n", **more})


@pytest.mark.parametrize(
    ("text", "stock"),
    [
        ("sold: {group: open, count: 3, private: true}", "17"),
        ("private: true\nsold: {group: open, count: 3}", "17"),
        ("given: {group: open, count: 2-4, private: true}", "16-18"),
        ("bought: {group: open, count: 3, private: true}", "23"),
        ("offered: {group: open, lot: a, count: 3, private: true}\nsold: {lot: a, count: 2}", "18"),
        ("offered: {group: open, lot: a, count: 3}\nsold: {lot: a, count: 2, private: true}", "18"),
        ("died: {of: [open, secret], count: 3}", "17-20"),
        ("sorted: {from: open, into: {secret: {count: 3, look: pale}}}", "17"),
        ("sorted: {from: open, into: {secret: 3, other: 2}}", "15"),
        ("chosen: {from: open, into: secret, count: 3}", "17"),
        ("chosen: {from: secret, into: open, count: 3}", "23"),
        ("moved: {group: open, as: secret, count: 3}", "17"),
        ("moved: {from: open, as: secret, count: 3}", "17"),
        ("moved: {group: open, to: secret, count: 3}", "17"),
        ("moved: {group: secret, to: open, count: 3}", "23"),
        ("moved: {of: [open, secret], to: tarn, count: 3}", "20"),
        ("joined: {parts: {open: 3, other: 2}, into: secret}", "17"),
        ("joined: {parts: {secret: 3, other: 2}, into: open}", "25"),
        ("joined: {parts: {secret: 3, open: 2}, into: open}", "23"),
        ("joined: {of: [secret, other], into: open}", "30+"),
        ("moved: {group: open, to: back, count: 3}", "20"),
        ("died: {group: secret, count: 3}", "20"),
    ],
)
def test_withheld__still_counts(text: str, stock: str) -> None:
    whole = _with_day(text)
    assert check_journal(whole).findings == ()

    assert _stock(whole, "open") == stock
    public = public_view(whole)
    assert not {"secret", "back"} & {text for _, text in _texts(public)}
    assert all(one.withheld and not one.private for one in public.withheld)


def test_withheld__animals_in_a_private_tank_are_in_no_tank_that_is_named() -> None:
    whole = _with_day(
        "moved: {group: open, to: back, count: 3}",
        **{"diary/2026-03-02 back.md": "---\ndied: {group: open, count: 1}\n---\n"},
    )

    assert _stock(whole, "open") == "19"
    assert _stock(whole, "open", tank="fen") == "17"
    as_of = date(2026, 3, 2)
    book = check_journal(public_view(whole), as_of=as_of).book
    tanks = {row.tank for row in book.holdings(as_of)}
    assert tanks == {"fen", "…1"}


def test_withheld__parts_of_a_private_group_are_taken_from_wherever_they_are() -> None:
    whole = _with_day(
        "moved: {group: open, to: tarn}",
        **{
            "diary/2026-03-02.md": (
                "---\ntank: fen\njoined: {parts: {open: 3, other: 1}, into: secret}\n---\n"
            ),
        },
    )

    assert _stock(whole, "open", tank="tarn") == "17"


@pytest.mark.parametrize(
    "closed",
    [
        "closed: {tank: tarn, left: {secret: hushed}}",
        "closed: {tank: tarn, private: true}",
        "closed: {tank: tarn, private: true, left: {open: hushed}}",
    ],
)
def test_withheld__closing_of_a_tank_still_closes_it(closed: str) -> None:
    whole = _with_day(closed)
    as_of = date(2026, 3, 1)
    public = public_view(whole)

    assert set(check_journal(public, as_of=as_of).book.closed) == {"tarn"}
    assert not {"secret", "hushed"} & {text for _, text in _texts(public)}


def test_withheld__hatching_keeps_no_parents() -> None:
    text = (
        "hatched:\n  - {brood: young, count: 3}\n"
        "  - {brood: young, dams: open, sires: other, cross: odd, mating: one, private: true}"
    )
    (hidden,) = public_view(_with_day(text)).withheld

    assert dict(hidden.values) == {"brood": "young"}


def test_withheld__work_on_a_closed_tank_opens_it_again() -> None:
    whole = _with_day(
        "closed: {tank: tarn}",
        **{
            "diary/2026-03-02.md": "---\ntank: tarn\nsoil: {what: clay, private: true}\n---\n",
            "diary/2026-03-03.md": "---\nmoved: {group: open, to: tarn, count: 4}\n---\n",
        },
    )

    assert _stock(whole, "open", tank="tarn") == "4"
    assert "clay" not in {text for _, text in _texts(public_view(whole))}


def test_withheld__events_of_a_public_entry_keep_their_number() -> None:
    text = "died:\n  - {group: open, count: 1, private: true}\n  - {group: open, count: 1}"
    public = public_view(_with_day(text))

    (shown,) = public.entries[-1].events
    (hidden,) = public.withheld
    assert (shown.id.number, hidden.id.number) == (1, 0)


def test_withheld__identifiers_are_unique() -> None:
    public = public_view(_read(_HOSTILE))
    identifiers = [one.id for one in public.events()]

    assert len(set(identifiers)) == len(identifiers)


# --- claims ----------------------------------------------------------------------------------

_TALLY = (
    "counted: {group: open, private: true, how: netted, all: true, age: 40 d, use: false,"
    " looks: {pale: 12}, other: [{count: 2, note: odd words}], unsorted: 1, note: more words}"
)


def test_private_tally__counts_as_a_claim_where_the_keeper_allows_it() -> None:
    public = public_view(
        _with_day(_TALLY, **{"journal.yaml": "title: The rack\npublic: [counted]\n"})
    )

    (tally,) = public.withheld
    assert tally.withheld
    assert [(line.look, line.count.low) for line in tally.look_counts()] == [("pale", 12)]
    assert [(other.count.low, other.note) for other in tally.others()] == [(2, "")]
    assert (tally.flag("all"), tally.values["use"], tally.text("note")) == (True, False, None)
    assert "odd words" not in {text for _, text in _texts(public)}
    results = JournalResults(check_journal(public))
    (row,) = results.group("open").tallies
    assert (row.used, row.why_not_used) == (False, "kept-out")
    assert results.event(tally.id) is None


def test_private_tally__is_left_out_where_the_keeper_says_nothing() -> None:
    public = public_view(_with_day(_TALLY))

    assert public.withheld == ()
    assert "pale" not in {text for _, text in _texts(public)}


def test_absence__is_left_out_whatever_the_keeper_allows() -> None:
    files = {"journal.yaml": "title: The rack\npublic: [away]\n"}
    public = public_view(_with_day("away: {since: 2026-07-01, sitter: Marlow}", **files))

    assert "Marlow" not in {text for _, text in _texts(public)}
    assert public.withheld == ()


# --- what a private page takes along ---------------------------------------------------------


def test_private_group__takes_its_parts_and_young_along() -> None:
    whole = _with_day(
        "chosen: {from: secret, into: best, count: 2}\n"
        "hatched: {brood: young, dams: secret, sires: open, count: 5}",
        **{
            "diary/2026-03-02.md": (
                "---\ntank: fen\ncounted: {brood: young, count: 5}\n"
                "moved: {group: best, to: tarn}\nfed: {food: leaves}\n---\nThe [[young]].\n"
            ),
        },
    )
    public = public_view(whole)

    assert not {"best", "young"} & {text for _, text in _texts(public)}
    assert [one.kind_name for one in public.entries[-1].events] == ["fed"]
    assert check_journal(public).findings == ()


def test_private_group__takes_young_along_that_stand_before_their_parents() -> None:
    """Order inside a day means nothing, and entries of one day go by their names."""
    day = "diary/2026-03-02"
    whole = _with_day(
        "fed: {food: leaves}",
        **{
            f"{day} a.md": "---\ntank: fen\nchosen: {from: second, into: third, count: 1}\n---\n",
            f"{day} b.md": "---\ntank: fen\nchosen: {from: first, into: second, count: 2}\n---\n",
            f"{day} c.md": "---\ntank: fen\nchosen: {from: secret, into: first, count: 3}\n---\n",
        },
    )
    public = public_view(whole)

    assert check_journal(whole).findings == ()
    assert not {"first", "second", "third"} & {text for _, text in _texts(public)}
    assert [one.id for one in public.entries] == ["2026-01-01", "2026-03-01"]


def test_group__that_only_private_events_bring_is_private() -> None:
    text = "bought: {group: new, count: 3, private: true}\nfed: {group: new, food: leaves}"
    public = public_view(_with_day(text))

    assert not {"new", "leaves"} & {text for _, text in _texts(public)}


def test_group__that_a_public_event_brings_too_is_public() -> None:
    text = "bought: [{group: new, count: 3, private: true}, {group: new, count: 4}]"

    assert _stock(_with_day(text), "new") == "7"


def test_entry__of_which_nothing_is_left_is_left_out() -> None:
    only = "---\ndied: {group: open, count: 1, private: true}\n---\n:::private\nx\n:::\n"
    files = {"diary/2026-03-02.md": only, "diary/2026-03-03.md": "---\ntank: fen\n---\n"}
    public = public_view(_with_day("fed: {food: leaves}", **files))

    assert [one.id for one in public.entries] == ["2026-01-01", "2026-03-01", "2026-03-03"]


# --- a word that may have meant `private` ----------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "died: {group: open, count: 1, note: qzx, private: yes}",
        "died: {group: open, count: 1, note: qzx, private: }",
        "died: {group: open, count: 1, note: qzx, privat: true}",
        "died: {group: open, count: 1, note: qzx, private: [true]}",
        "died: {group: open, count: 1, note: qzx, Private: false}",
        "died: {group: open, count: 1, note: qzx, hidden: true}",
        "sorted: {from: open, into: {best: {count: 1, private: true}}, note: qzx}",
        "private: maybe\ndied: {group: open, count: 1, note: qzx}",
        "prvate: true\ndied: {group: open, count: 1, note: qzx}",
    ],
)
def test_private__that_cannot_be_read_keeps_the_item_private(text: str) -> None:
    read = read_files(
        {
            path: words.encode()
            for path, words in (
                {**_FILES, "diary/2026-03-01.md": f"---\ntank: fen\n{text}\n---\nopen\n"}
            ).items()
        }
    )
    assert read.journal is not None

    assert "R205" in {one.code for one in read.findings}
    assert _marked(read.journal) != []
    assert _marked(public_view(read.journal)) == []


@pytest.mark.parametrize("page", ["tanks/tarn.md", "groups/open.md", "lines/pale.md"])
@pytest.mark.parametrize("head", ["private: yes", "privte: true", "secret: true", "Private: no"])
def test_private_page__that_cannot_be_read_stays_private(page: str, head: str) -> None:
    whole = _read({**_FILES, page: f"---\ntitle: Qzx\n{head}\n---\nqzx\n"})

    assert _marked(whole) != []
    assert _marked(public_view(whole)) == []


# --- prose -----------------------------------------------------------------------------------

_WORDS = st.text("abc é&<>", min_size=0, max_size=6)


@given(st.lists(st.tuples(_WORDS, st.sampled_from(["open", "secret", "private"])), max_size=8))
@checking(max_examples=60)
def test_prose__keeps_open_words_and_links_and_nothing_else(
    parts: list[tuple[str, str]],
) -> None:
    text = "".join(
        f"{words}\n\n:::private\nqzx\n:::\n\n"
        if what == "private"
        else f"{words} [[{what}|Q {what}]] "
        for words, what in parts
    )
    whole = _read({**_FILES, "groups/open.md": f"---\nsex: male\n---\n{text}"})
    shown = public_view(whole).groups["open"].prose

    assert [one.name for one in shown.links] == [what for _, what in parts if what == "open"]
    everything = "".join(text for _, text in _texts(shown))
    assert "secret" not in everything
    assert "qzx" not in everything
    assert shown.plain.count("…") >= min(1, sum(what == "secret" for _, what in parts))


def test_prose__plain_words_are_cut_before_a_hidden_name_as_after_it() -> None:
    text = "word " * 39 + "[[secret|two words of it]] and on"
    whole = _read({**_FILES, "groups/open.md": f"---\nsex: male\n---\n{text}\n"})
    before = whole.groups["open"].prose.plain
    after = public_view(whole).groups["open"].prose.plain

    assert before.endswith("two…")
    assert after == " ".join(["word"] * 39) + "…"

"""Every event is told, and nothing the keeper wrote in it is left out."""

import re
from datetime import date

import pytest

from filialog.journal.events import (
    LookCount,
    LookSeen,
    Other,
    Parents,
    Part,
    Score,
    Sorting,
    Value,
)
from filialog.journal.keys import Key, Shape
from filialog.journal.kinds import COMMON_KEYS, EVENT_KINDS, MEASURED_KEYS, EventKind
from filialog.journal.quantities import Age, Count, Reading, When
from filialog.messages import ENGLISH, Words
from filialog.pages.here import Here, Site
from filialog.pages.pictures import NO_PICTURES
from filialog.pages.telling import CLAUSES, tell
from tools.fake_results import event, fake_results

WORDS = Words(ENGLISH)
QUANTITIES = {key.name for key in MEASURED_KEYS}
NOT_IN_THE_SENTENCE = QUANTITIES | {"tank", "when", "private", "photo"}


def _here() -> Here:
    return Here(Site(fake_results(), WORDS, "0", NO_PICTURES), "entries/x.html")


def _value(key: Key, number: int) -> tuple[Value, str]:  # noqa: C901 - one case for each shape
    """Return a value of a key's shape, and a text that must be found in the sentence."""
    mark = f"mark{number}x"
    n = 1000 + number
    count = Count.of(n)
    match key.shape:
        case Shape.COUNT:
            return count, str(n)
        case Shape.NUMBER:
            return float(n), str(n)
        case Shape.DAY:
            return When.on(date(2000 + number, 1, 1)), str(2000 + number)
        case Shape.AGE:
            return Age(low_days=n, high_days=n, text=""), str(n)
        case Shape.READING:
            return Reading(low=float(n), high=float(n), unit="", text=""), str(n)
        case Shape.CHOICE:
            choice = key.choices[0]
            words = ENGLISH.get(f"choice.{key.name}-{choice}")
            return choice, words or ENGLISH[f"event.cycle-{choice}"]
        case Shape.CHOICES:
            return (key.choices[0],), ENGLISH[f"seen.{key.choices[0]}"]
        case Shape.GROUPS | Shape.TEXTS:
            return (mark,), mark
        case Shape.PARENTS:
            return Parents(groups=(mark,)), mark
        case Shape.PARTS:
            return (Part(group=mark, count=count),), mark
        case Shape.SORTED_INTO:
            return (Sorting(group=mark, count=count),), mark
        case Shape.LOOK:
            return LookSeen(left=mark, right="dark"), mark
        case Shape.LOOKS:
            return (LookCount(look=mark, count=count),), mark
        case Shape.OTHERS:
            return (Other(count=count, note=mark),), mark
        case Shape.SCORES:
            return (Score(score=mark, count=count),), mark
        case Shape.TABLE:
            return (("name", mark),), mark
        case _:
            return mark, mark


def _text(markup: str) -> str:
    return re.sub(r"<[^>]*>", "", markup)


def test_clauses__know_every_kind() -> None:
    assert set(CLAUSES) == {kind.name for kind in EVENT_KINDS}


@pytest.mark.parametrize("kind", EVENT_KINDS, ids=lambda kind: kind.name)
def test_tell__leaves_out_no_value(kind: EventKind) -> None:
    for number, key in enumerate((*kind.own, *COMMON_KEYS)):
        if key.name in NOT_IN_THE_SENTENCE or key.shape is Shape.FLAG:
            continue
        value, wanted = _value(key, number)
        told = tell(_here(), event("2026-05-02", 0, kind.name, "2026-05-02", None, **{
            key.name.replace("-", "_"): value
        }))  # fmt: skip
        assert wanted in _text(told.sentence).lower() + told.note, (kind.name, key.name)


@pytest.mark.parametrize("kind", EVENT_KINDS, ids=lambda kind: kind.name)
def test_tell__leaves_out_no_value_of_a_full_event(kind: EventKind) -> None:
    values: dict[str, Value] = {}
    wanted = {}
    for number, key in enumerate((*kind.own, *COMMON_KEYS)):
        if key.name not in NOT_IN_THE_SENTENCE and key.shape is not Shape.FLAG:
            values[key.name.replace("-", "_")], wanted[key.name] = _value(key, number)
    told = tell(_here(), event("2026-05-02", 0, kind.name, "2026-05-02", None, **values))

    sentence = _text(told.sentence).lower() + told.note
    assert [name for name, text in wanted.items() if text not in sentence] == []
    assert "None" not in sentence


@pytest.mark.parametrize("kind", EVENT_KINDS, ids=lambda kind: kind.name)
def test_tell__says_something_of_an_empty_event(kind: EventKind) -> None:
    told = tell(_here(), event("2026-05-02", 0, kind.name, "2026-05-02", None))

    assert re.fullmatch(r"[A-Z0-9].*[^.]\.", _text(told.sentence))
    assert "None" not in told.sentence
    assert "{" not in told.sentence


@pytest.mark.parametrize("kind", EVENT_KINDS, ids=lambda kind: kind.name)
def test_tell__says_flags_either_way(kind: EventKind) -> None:
    for key in (*kind.own, *COMMON_KEYS):
        if key.shape is Shape.FLAG and key.name != "private":
            sentences = {
                tell(_here(), event("2026-05-02", 0, kind.name, "2026-05-02", None,
                                    **{key.name.replace("-", "_"): flag})).sentence
                for flag in (True, False)
            }  # fmt: skip
            assert len(sentences) == 2, (kind.name, key.name)


@pytest.mark.parametrize(
    ("kind", "values", "wanted"),
    [
        ("died", {"count": Count.of(1)}, "1 animal was found dead."),
        (
            "died",
            {"count": Count.of(2), "group": "slate"},
            "2 animals of slate were found dead.",
        ),
        (
            "died",
            {"count": Count.of(1), "of": ("slate", "ivory"), "cause": "failed moult"},
            "1 animal of slate or ivory (not known which) was found dead; cause: failed moult.",
        ),
        ("moved", {"group": "slate", "to": "rowan"}, "The whole of slate was moved to rowan."),
        (
            "moved",
            {"count": Count.of(3), "from": "hazel", "to": "rowan"},
            "3 animals were moved to rowan; from hazel.",
        ),
        (
            "berried",
            {"count": Count.of(1), "group": "slate"},
            "1 berried female of slate was seen.",
        ),
        ("fed", {"food": "leaf powder"}, "Fed: leaf powder."),
        ("changed", {"percent": 20.0}, "20\N{NO-BREAK SPACE}% of the water was changed."),
    ],
)
def test_tell__reads_well(kind: str, values: dict[str, Value], wanted: str) -> None:
    told = tell(
        _here(),
        event("2026-05-02", 0, kind, "2026-05-02", None,
              **{name if name != "from" else "from_": value for name, value in values.items()}),
    )  # fmt: skip

    assert _text(told.sentence) == wanted


def test_tell__names_another_day_than_the_entrys() -> None:
    told = event("2026-05-02", 0, "died", "2026-04-30", None, count=Count.of(1))
    day = When.on(date(2026, 5, 2))

    assert "30\N{NO-BREAK SPACE}April 2026" in tell(_here(), told, day=day).sentence
    assert "April" not in tell(_here(), told, day=told.when).sentence


def test_tell__links_names_that_have_a_page_and_escapes_all() -> None:
    told = tell(_here(), event("2026-05-02", 0, "died", "2026-05-02", None, group="slate",
                               cause="<script>"))  # fmt: skip

    assert '<a href="../groups/slate.html">slate</a>' in told.sentence
    assert "&lt;script&gt;" in told.sentence
    assert "<script" not in told.sentence


@pytest.mark.parametrize("note", ["moss & <b>more</b>", ""])
def test_tell__keeps_the_note_apart(note: str) -> None:
    told = tell(_here(), event("2026-05-02", 0, "seen", "2026-05-02", None, note=note))

    assert told.note == note

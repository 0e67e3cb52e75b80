"""The catalogue has every word that pages ask for, and none that nobody asks for."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from jinja2 import Environment, nodes
from markupsafe import Markup

from filialog.analysis.line_rows import FigureName, GoalState
from filialog.analysis.rows import Assumption, Level
from filialog.journal.kinds import COMMON_KEYS, EVENT_KINDS, MEASURED_KEYS
from filialog.journal.parentage import GroundKind
from filialog.lineage import GenerationKind
from filialog.messages import ENGLISH, UnknownWordError, Words
from filialog.pages.drawing import SAMPLES

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ("pages", "messages", "desk", "cli")
NUMBER_FORMS = ("one", "other")


@dataclass(frozen=True, kw_only=True)
class Asked:
    """A call for words."""

    where: str
    key: str
    picked: bool
    numbered: bool


def _calls_in_code(path: Path, source: str) -> Iterator[Asked]:
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", getattr(node.func, "attr", ""))
        if name in {"words", "rich"}:
            key = node.args[0] if node.args else None
            if path.name in {"words.py", "telling.py"} and not isinstance(key, ast.Constant):
                continue
            assert isinstance(key, ast.Constant), f"{path.name}:{node.lineno}: a computed key"
            given = {keyword.arg for keyword in node.keywords}
            yield Asked(
                where=f"{path.name}:{node.lineno}",
                key=str(key.value),
                picked="pick" in given,
                numbered="number" in given,
            )


def _calls_in_templates() -> Iterator[Asked]:
    for path in sorted((ROOT / "themes").rglob("*.jinja")):
        tree = Environment(autoescape=True).parse(path.read_text("utf-8"))
        for call in tree.find_all(nodes.Call):
            if isinstance(call.node, nodes.Name) and call.node.name == "words":
                key = call.args[0]
                assert isinstance(key, nodes.Const), f"{path.name}:{call.lineno}: a computed key"
                given = {keyword.key for keyword in call.kwargs}
                where = f"{path.name}:{call.lineno}"
                yield Asked(
                    where=where,
                    key=str(key.value),
                    picked="pick" in given,
                    numbered="number" in given,
                )


def _all_calls() -> list[Asked]:
    package = ROOT / "generator" / "filialog"
    found = [
        asked
        for room in ROOMS
        for path in sorted((package / room).glob("*.py"))
        for asked in _calls_in_code(path, path.read_text("utf-8"))
    ]
    found.extend(_calls_in_templates())
    return found


def _answers(asked: Asked) -> set[str]:
    """Return the keys that a call can reach."""
    if asked.picked:
        return {key for key in ENGLISH if key.startswith(f"{asked.key}.")}
    if asked.numbered:
        return {f"{asked.key}.{form}" for form in NUMBER_FORMS} & ENGLISH.keys()
    return {asked.key} & ENGLISH.keys()


def test_catalogue__has_every_word_asked_for() -> None:
    calls = _all_calls()
    missing = [(asked.where, asked.key) for asked in calls if not _answers(asked)]
    half = [
        (asked.where, asked.key)
        for asked in calls
        if asked.numbered and not asked.picked and len(_answers(asked)) < len(NUMBER_FORMS)
    ]

    assert len(calls) > 200
    assert missing == []
    assert half == []


def test_catalogue__has_no_word_that_nobody_asks_for() -> None:
    used: set[str] = set()
    for asked in _all_calls():
        used |= _answers(asked)

    assert sorted(ENGLISH.keys() - used) == []


_TOLD_OTHERWISE = frozenset({"named", "in-tank", "put-together"})
"""Grounds that the head of the sentence tells."""


@pytest.mark.parametrize(
    ("family", "names"),
    [
        ("level", [level.value for level in Level]),
        ("level-says", [level.value for level in Level]),
        ("assumption", [item.value for item in Assumption]),
        ("claim-dams", ["animal", "group", "several", "put-together"]),
        ("claim-sires", ["animal", "group", "several", "put-together"]),
        (
            "claim-ground",
            [kind.value for kind in GroundKind if kind.value not in _TOLD_OTHERWISE],
        ),
        ("quantity", [key.name for key in MEASURED_KEYS]),
        ("kind", [kind.name for kind in EVENT_KINDS]),
        ("month", [str(number) for number in range(1, 13)]),
        ("month-short", [str(number) for number in range(1, 13)]),
        ("generation-says", [kind.name.lower().replace("_", "-") for kind in GenerationKind]),
        ("mating", ["one", "several", "unknown"]),
        ("mating-short", ["one", "several", "unknown"]),
        ("no-table", ["no-tally", "no-model", "no-parents", "all-one-look", "contradiction"]),
        ("legend", list(SAMPLES)),
        ("line-goal", [state.value for state in GoalState if state is not GoalState.NO_GOAL]),
        ("line-figure", [name.value for name in FigureName]),
        ("line-why-not", ["nobody-there", "number-unknown", "no-rise", "parents-unknown"]),
        ("line-survival-why", ["one-count", "later-higher", "not-exact"]),
        ("tally-how", ["looked", "netted", "photo", "emptied", "not-said"]),
        (
            "tally-not-used",
            [
                *("kept-out", "another-tally", "no-looks", "no-model", "claimed"),
                *("not-exact", "not-a-brood"),
            ],
        ),
    ],
)
def test_family__is_whole(family: str, names: list[str]) -> None:
    found = {key.partition(".")[2] for key in ENGLISH if key.startswith(f"{family}.")}

    assert sorted(found) == sorted(names)


def test_details__know_every_key_of_every_event() -> None:
    told_elsewhere = {key.name for key in MEASURED_KEYS} | {
        "tank", "when", "note", "photo", "private",
    }  # fmt: skip
    for kind in EVENT_KINDS:
        for key in (*kind.own, *COMMON_KEYS):
            if key.name in told_elsewhere:
                continue
            if key.shape.name == "FLAG":
                assert f"detail-flag.{key.name}-yes" in ENGLISH, (kind.name, key.name)
                assert f"detail-flag.{key.name}-no" in ENGLISH, (kind.name, key.name)
            else:
                assert f"detail.{key.name}" in ENGLISH, (kind.name, key.name)


def test_texts__are_finished() -> None:
    for key, text in ENGLISH.items():
        assert text.strip() or key.startswith("list."), key
        assert "  " not in text, key
        assert "<" not in text, key


def test_words__refuse_an_unknown_key() -> None:
    with pytest.raises(UnknownWordError):
        Words(ENGLISH)("no.such.key")
    with pytest.raises(UnknownWordError):
        Words(ENGLISH).rich("no.such.key")


def test_words__escape_values_in_rich_text_only_where_they_are_not_safe() -> None:
    words = Words({"x": "{a} & {b}"})

    assert words.rich("x", a="<i>", b=Markup("<b>y</b>")) == "&lt;i&gt; &amp; <b>y</b>"
    assert words("x", a="<i>", b="y") == "<i> & y"


def test_digest__changes_with_a_word_and_not_with_order() -> None:
    one = Words({"a": "x", "b": "y"})

    assert one.digest == Words({"b": "y", "a": "x"}).digest
    assert one.digest != Words({"a": "x", "b": "z"}).digest
    assert Words({"a": "xb", "b": ""}).digest != Words({"a": "x", "b": "b"}).digest

"""The pedigree drawing, read back from its own bytes."""

import itertools
import os
import random
import re
import subprocess
import sys
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.pages.drawing import (
    MAX_NODES,
    SAMPLES,
    PedigreeNode,
    Sample,
    Swatch,
    pedigree_svg,
    symbol_svg,
)
from filialog.pages.drawing.letters import text_width
from filialog.pages.drawing.pedigree_layers import columns_of, known_parents, unions_of
from filialog.pages.drawing.pedigree_node import Sex, Side
from filialog.pages.drawing.pedigree_order import crossings, nets_of, webs_of
from tools.read_pedigrees import check_geometry, connected, number_of, read_back


def expected_connections(nodes: tuple[PedigreeNode, ...]) -> list[tuple[str, ...]]:
    """Return what `connected` must find: unions, merged where they share a parent's line."""
    labels = {node.key: node.label for node in nodes}
    bundles: list[tuple[set[str], set[tuple[str, Side]]]] = []
    for node in nodes:
        known = [parent for parent in node.parents if parent[0] in labels]
        for parts in (True, False):
            above = {parent for parent in known if (parent[1] == "part") is parts}
            if not above:
                continue
            young, whole = {node.label}, set(above)
            for bundle in [bundle for bundle in bundles if bundle[1] & whole]:
                bundles.remove(bundle)
                young |= bundle[0]
                whole |= bundle[1]
            bundles.append((young, whole))
    return sorted(
        tuple(
            sorted(
                {f"child {label}" for label in young}
                | {f"parent {labels[key]}" for key, _ in above}
            )
        )
        for young, above in bundles
    )


@st.composite
def pedigrees(draw: st.DrawFn, *, most: int = 60) -> tuple[PedigreeNode, ...]:
    """Return pedigrees with loops, sets, founders anywhere and one node on both sides."""
    size = draw(st.integers(1, most))
    reach = draw(st.sampled_from([3, 8, most]))
    seed = draw(st.integers(0, 2**32))
    return random_pedigree(size, seed=seed, reach=reach)


def random_pedigree(size: int, *, seed: int, reach: int) -> tuple[PedigreeNode, ...]:
    """Return a seeded pedigree whose parents lie at most `reach` nodes back."""
    chance = random.Random(seed)
    nodes: list[PedigreeNode] = []
    for index in range(size):
        older = [f"k{back}" for back in range(max(0, index - reach), index)]
        parents: list[tuple[str, Side]] = []
        is_set = bool(older) and chance.random() < 0.12
        if is_set:
            members = chance.sample(older, min(len(older), chance.randint(1, 4)))
            parents += [(key, "part") for key in members]
        elif older and chance.random() < 0.85:
            sides: list[Side] = [side for side in ("dam", "sire") if chance.random() < 0.9]
            parents += [(chance.choice(older), side) for side in sides]
        sex: Sex = chance.choice(("female", "male", "unknown"))
        nodes.append(
            PedigreeNode(
                key=f"k{index}",
                label=f"N{index}" + " of the long quiet pond behind" * chance.randint(0, 1),
                lines=tuple(f"2026-03-{day:02d}" for day in range(1, chance.randint(1, 4))),
                href=f"n{index}.html" if chance.random() < 0.7 else None,
                sex=sex,
                number=chance.choice((None, None, "7", "120", "10 to 12")),
                parents=tuple(parents),
                is_set=is_set,
                deceased=chance.random() < 0.2,
                kin_parents=chance.random() < 0.3,
                look=chance.choice((None, "pale", "blue as the second pond in a cold March")),
                swatch=Swatch(pattern=chance.randrange(16), colour=chance.randrange(4)),
                goes_on=not parents and chance.random() < 0.5,
                is_subject=index == size - 1,
            )
        )
    return tuple(nodes)


def drawn(*nodes: PedigreeNode) -> str:
    return str(pedigree_svg(nodes, title="Kin", describe="Who descends from whom"))


def node(key: str, *parents: tuple[str, Side]) -> PedigreeNode:
    return PedigreeNode(key=key, label=key.upper(), parents=parents)


@settings(max_examples=60, deadline=None)
@given(pedigrees())
def test_pedigree__nothing_lies_on_anything_else(nodes: tuple[PedigreeNode, ...]) -> None:
    check_geometry(drawn(*nodes))


@settings(max_examples=60, deadline=None)
@given(pedigrees(most=40))
def test_pedigree__lines_join_exactly_parents_and_young(nodes: tuple[PedigreeNode, ...]) -> None:
    plain = tuple(
        PedigreeNode(
            key=node.key, label=node.label, sex=node.sex, parents=node.parents, is_set=node.is_set
        )
        for node in nodes
    )

    assert connected(drawn(*plain)) == expected_connections(plain)


@settings(max_examples=40, deadline=None)
@given(pedigrees(most=40))
def test_pedigree__every_join_has_a_dot(nodes: tuple[PedigreeNode, ...]) -> None:
    _, lines, tree = read_back(drawn(*nodes))
    dots = [(number_of(dot, "cx"), number_of(dot, "cy")) for dot in tree.iter("circle")]
    upright = [line for line in lines if line[0] == line[2]]
    bare = [
        (end, up)
        for across in lines
        if across[1] == across[3]
        for end in (across[:2], across[2:])
        for up in upright
        if abs(end[0] - up[0]) < 1.6 and up[1] + 1 < end[1] < up[3] - 1
        if not any(abs(end[0] - x) < 0.2 and abs(end[1] - y) < 0.2 for x, y in dots)
    ]

    assert bare == []


@settings(max_examples=40, deadline=None)
@given(pedigrees(), st.randoms(use_true_random=False))
def test_pedigree__ignores_the_order_of_nodes_and_parents(
    nodes: tuple[PedigreeNode, ...], chance: random.Random
) -> None:
    mixed = list(nodes)
    chance.shuffle(mixed)

    assert drawn(*mixed) == drawn(*nodes)


@settings(max_examples=40, deadline=None)
@given(pedigrees())
def test_pedigree__every_node_appears_once(nodes: tuple[PedigreeNode, ...]) -> None:
    found, _, _ = read_back(drawn(*nodes))

    assert sorted((shown.title.split(",")[0], shown.href or "") for shown in found) == sorted(
        (given_node.label, given_node.href or "") for given_node in nodes
    )


@settings(max_examples=60, deadline=None)
@given(pedigrees())
def test_columns__ancestors_stand_to_the_right_without_gaps(
    nodes: tuple[PedigreeNode, ...],
) -> None:
    parents = known_parents(nodes)
    column = columns_of(parents)

    assert all(column[up] > column[key] for key, above in parents.items() for up, _ in above)
    assert set(column.values()) == set(range(1 + max(column.values())))


def test_columns__an_early_side_branch_stands_near_its_parents() -> None:
    chain = [node(f"c{i}", (f"c{i + 1}", "dam")) for i in range(5)] + [node("c5")]
    branch = [node("x", ("c5", "dam")), node("y", ("x", "dam")), node("z", ("x", "dam"))]
    column = columns_of(known_parents([*chain, *branch]))

    assert (column["x"], column["y"], column["z"]) == (4, 3, 3)
    assert column["c0"] == 0


def test_columns__no_column_is_left_empty() -> None:
    nodes = [
        node("k0"),
        node("k1", ("k0", "sire"), ("k0", "dam")),
        node("k2", ("k1", "sire"), ("k1", "dam")),
        node("k3"),
        node("k4", ("k0", "sire"), ("k2", "dam")),
        node("k5", ("k3", "sire"), ("k0", "dam")),
        node("k6", ("k3", "sire"), ("k3", "dam")),
        node("k7", ("k6", "sire"), ("k6", "dam")),
    ]
    column = columns_of(known_parents(nodes))

    assert sorted(set(column.values())) == [0, 1, 2, 3]


def test_order__lines_that_can_be_untangled_are() -> None:
    nodes = [
        node("k0"),
        node("k1", ("k0", "dam")),
        node("k2", ("k1", "sire"), ("k0", "dam")),
        node("k3", ("k1", "sire"), ("k1", "dam")),
    ]
    parents = known_parents(nodes)
    column = columns_of(parents)
    (web,) = webs_of(column, nets_of(unions_of(parents, column), column))

    assert crossings(web.columns, web.rights) == 0


def test_pedigree__binary_tree_has_no_crossing() -> None:
    nodes = []
    for depth in range(5):
        for path in itertools.product("ds", repeat=depth):
            name = "x" + "".join(path)
            up: tuple[tuple[str, Side], ...] = ((name + "d", "dam"), (name + "s", "sire"))
            nodes.append(node(name, *up) if depth < 4 else node(name))
    _, lines, _ = read_back(drawn(*nodes))
    level = [line for line in lines if line[1] == line[3]]
    upright = [line for line in lines if line[0] == line[2]]

    assert not [
        (across, up)
        for across in level
        for up in upright
        if across[0] < up[0] < across[2] and up[1] < across[1] < up[3]
    ]


def test_pedigree__sire_stands_above_dam_and_the_child_between() -> None:
    nodes, _, _ = read_back(drawn(node("c", ("d", "dam"), ("s", "sire")), node("d"), node("s")))
    level = {shown.title: shown.centre[1] for shown in nodes}

    assert level["S"] < level["C"] < level["D"]


def test_pedigree__sides_differ_by_pattern() -> None:
    svg = drawn(
        node("c", ("d", "dam"), ("set", "sire")),
        node("d"),
        node("set", ("m", "part"), ("n", "part")),
        node("m"),
        node("n"),
    )
    patterns = {
        path.attrib["class"]: path.attrib.get("stroke-dasharray")
        for path in ET.fromstring(svg).iter("path")
        if path.attrib["class"].startswith("d-line")
    }

    assert patterns == {
        "d-line d-descent": None,
        "d-line d-dam": None,
        "d-line d-sire": "6 3",
        "d-line d-part": "1.5 3",
    }


@pytest.mark.parametrize("kin", [True, False])
def test_pedigree__double_line_joins_mates_that_are_kin(*, kin: bool) -> None:
    young = replace(node("c", ("d", "dam"), ("s", "sire")), kin_parents=kin)
    svg = drawn(young, node("d"), node("s"))

    assert ("d-related" in svg) is kin
    check_geometry(svg)


def test_pedigree__young_of_kin_that_are_not_both_drawn_have_no_double_line() -> None:
    young = replace(node("c", ("d", "dam"), ("gone", "sire")), kin_parents=True)
    parts = replace(node("set", ("d", "part"), ("s", "part")), kin_parents=True)

    assert "d-related" not in drawn(young, node("d"))
    assert "d-related" not in drawn(parts, node("d"), node("s"))


def test_pedigree__brood_with_the_same_parents_as_kin_young_shares_their_double_line() -> None:
    one = replace(node("c", ("d", "dam"), ("s", "sire")), kin_parents=True)
    svg = drawn(one, node("b", ("d", "dam"), ("s", "sire")), node("d"), node("s"))

    assert svg.count('class="d-line d-related"') == 1


def test_pedigree__one_group_as_dam_and_sire_has_a_line_for_each() -> None:
    svg = drawn(node("c", ("g", "dam"), ("g", "sire")), node("g"))

    assert connected(svg) == [("child C", "parent G")]
    assert svg.count('class="d-node"') == 2
    assert "d-line d-dam" in svg
    assert "d-line d-sire" in svg


def test_pedigree__symbols_follow_the_nomenclature() -> None:
    """Bennett et al. 1995, 2008 (from memory): square, circle, diamond, number, stroke."""
    nodes, _, root = read_back(
        drawn(
            PedigreeNode(key="m", label="m", sex="male"),
            PedigreeNode(key="f", label="f", sex="female", deceased=True),
            PedigreeNode(key="u", label="u", number="12"),
        )
    )
    (struck,) = [line for line in root.iter("line") if line.attrib["class"] == "d-struck"]

    assert {shown.title: shown.shape for shown in nodes} == {
        "m": "rect", "f": "ellipse", "u, 12": "path",
    }  # fmt: skip
    assert number_of(struck, "x1") < number_of(struck, "x2")
    assert number_of(struck, "y1") > number_of(struck, "y2"), "from lower left to upper right"
    assert [t.text for t in root.iter("text") if t.attrib["class"] == "d-number"] == ["12"]


@pytest.mark.parametrize("sex", ["female", "male", "unknown"])
@pytest.mark.parametrize("number", ["1", "12", "120", "10–12", "a great many"])
def test_symbol__number_stays_inside(sex: Sex, number: str) -> None:
    nodes, _, root = read_back(drawn(PedigreeNode(key="k", label="k", sex=sex, number=number)))
    (text,) = [text for text in root.iter("text") if text.attrib["class"] == "d-number"]
    half = text_width(text.text or "", size=number_of(text, "font-size")) / 2

    assert half <= nodes[0].chord(4.0, upright=False)
    assert nodes[0].title == f"k, {number}"


def test_pedigree__subject_is_pointed_at_and_what_goes_on_has_dots() -> None:
    own = replace(node("c", ("d", "dam"), ("s", "sire")), is_subject=True)
    end = replace(node("d"), goes_on=True)
    _, _, root = read_back(drawn(own, end, node("s")))
    marks = {
        shown.findtext("title"): [part.attrib.get("class") for part in shown if part.tag == "g"]
        for shown in root.iter("g")
        if "d-node" in shown.attrib.get("class", "")
    }

    assert marks == {"C": ["d-arrow"], "D": ["d-joins"], "S": []}
    check_geometry(drawn(own, end, node("s")))


def test_pedigree__look_has_its_swatch_and_its_name() -> None:
    swatch = Swatch(pattern=3, colour=2)
    svg = drawn(PedigreeNode(key="k", label="k", look="pale", swatch=swatch, told=("died",)))
    _, _, root = read_back(svg)

    assert 'class="d-look d-look-2"' in svg
    assert [text.text for text in root.iter("text")] == ["k", "pale"]
    assert root.findtext("g/title") == "k, pale, died"


def test_pedigree__long_name_is_cut_and_kept_whole_in_the_title() -> None:
    label = "Sire from the seventh rack of the old wash house"
    note = "a remark that is far longer than any column may become"
    svg = drawn(PedigreeNode(key="k", label=label, lines=(note,)))
    (shown,), _, root = read_back(svg)

    assert shown.title == f"{label}, {note}"
    assert shown.hit[2] - shown.hit[0] <= 130
    assert next(text.text for text in root.iter("text")) == "Sire from the"
    assert sum((text.text or "").endswith("…") for text in root.iter("text")) == 2


@pytest.mark.parametrize(
    "words", ['<script>alert("x")</script>', "a & b", "'\"><svg onload=x>", "nul \0 bell \a"]
)
def test_pedigree__words_are_escaped(words: str) -> None:
    nasty = PedigreeNode(key=words, label=words, lines=(words,), href=words, number=words)
    svg = str(pedigree_svg((nasty,), title=words, describe=words))
    root = ET.fromstring(svg)
    clean = words.replace("\0", "\ufffd").replace("\a", "\ufffd")

    assert root.findtext("title") == clean
    assert root.findtext("desc") == clean
    assert root.findtext("a/title") == f"{clean}, {clean}, {clean}"
    assert root.find("a").attrib["href"] == clean  # type: ignore[union-attr]
    assert {element.tag for element in root.iter()} <= {
        "svg", "title", "desc", "a", "rect", "path", "text",
    }  # fmt: skip


@given(st.text(), st.text())
@settings(max_examples=60, deadline=None)
def test_pedigree__any_text_gives_well_formed_xml(label: str, line: str) -> None:
    svg = drawn(PedigreeNode(key="k", label=label, lines=(line,), href=label))

    assert ET.fromstring(svg.encode("utf-8")).tag == "svg"


@pytest.mark.parametrize(("href", "role"), [("a.html", "group"), (None, "img")])
def test_pedigree__is_a_group_only_with_links(href: str | None, role: str) -> None:
    root = ET.fromstring(drawn(PedigreeNode(key="k", label="k", href=href)))
    ids = [element.attrib["id"] for element in root.iter() if "id" in element.attrib]

    assert root.attrib["role"] == role
    assert root.attrib["aria-labelledby"].split() == ids
    assert root.attrib["viewBox"] == f"0 0 {root.attrib['width']} {root.attrib['height']}"


def test_pedigree__ids_differ_between_drawings() -> None:
    first = pedigree_svg((node("k"),), title="One", describe="x")
    second = pedigree_svg((node("k"),), title="Two", describe="x")

    assert not set(re.findall(r' id="([^"]+)"', first)) & set(re.findall(r' id="([^"]+)"', second))


def test_pedigree__carries_no_style_and_no_script() -> None:
    svg = drawn(*random_pedigree(60, seed=3, reach=8))

    assert " style=" not in svg
    assert "<style" not in svg
    assert "<script" not in svg
    assert not re.search(r'\d\.\d\d|="-', svg), "coordinates have one decimal, none is negative"


def test_pedigree__parent_beyond_the_drawing_is_left_out() -> None:
    svg = drawn(node("c", ("d", "dam"), ("gone", "sire")), node("d"))

    assert connected(svg) == [("child C", "parent D")]


@pytest.mark.parametrize(
    "nodes",
    [
        pytest.param((), id="none"),
        pytest.param(tuple(node(f"n{i}") for i in range(MAX_NODES + 1)), id="too_many"),
        pytest.param((node("a"), node("a")), id="twice"),
        pytest.param((node("a", ("a", "dam")),), id="own_parent"),
        pytest.param(
            (node("a", ("b", "dam")), node("b", ("c", "sire")), node("c", ("a", "part"))), id="loop"
        ),
    ],
)
def test_pedigree__refuses_what_cannot_be_drawn(nodes: tuple[PedigreeNode, ...]) -> None:
    with pytest.raises(DomainError):
        drawn(*nodes)


@pytest.mark.parametrize("sample", SAMPLES)
def test_symbol_svg__is_small_and_hidden(sample: Sample) -> None:
    root = ET.fromstring(symbol_svg(sample))

    assert root.attrib["aria-hidden"] == "true"
    assert len(root) >= 1
    assert not list(root.iter("title"))


def test_symbol_svg__samples_differ() -> None:
    assert len({symbol_svg(sample) for sample in SAMPLES}) == len(SAMPLES)


def test_symbol_svg__refuses_an_unknown_sample() -> None:
    with pytest.raises(DomainError):
        symbol_svg("cousin")  # type: ignore[arg-type]


_SCRIPT = """
import hashlib, sys
from datetime import date
from filialog.pages.drawing import *
nodes = tuple(
    PedigreeNode(
        key=f"k{i}", label=f"N{i}", kin_parents=i % 3 == 0,
        parents=() if i < 4 else ((f"k{i - 1 - i % 3}", "dam"), (f"k{i - 4}", "sire")),
    )
    for i in range(40)
)
marks = tuple(
    TimelineMark(label=f"B{i}", day=date(2026, 1, 1 + i), band=f"F{i % 3}")
    for i in range(20)
)
print(pedigree_svg(nodes, title="a", describe="b"))
print(timeline_svg(marks, first=date(2026, 1, 1), last=date(2026, 3, 1), tick_labels=(),
                   title="a", describe="b"))
"""


def test_drawings__same_bytes_under_any_hash_seed() -> None:
    def run(seed: str) -> bytes:
        env = {**os.environ, "PYTHONHASHSEED": seed}
        return subprocess.run(
            [sys.executable, "-c", _SCRIPT], env=env, capture_output=True, check=True
        ).stdout

    first, second = run("1"), run("4242")

    assert b"d-related" in first
    assert first == second

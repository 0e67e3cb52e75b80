"""The pedigree drawing, read back from its own bytes."""

import itertools
import math
import os
import random
import re
import subprocess
import sys
from dataclasses import dataclass
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.pages.drawing import SAMPLES, PedigreeNode, Sample, pedigree_svg, symbol_svg
from filialog.pages.drawing.letters import text_width
from filialog.pages.drawing.pedigree_layers import columns_of, known_parents, unions_of
from filialog.pages.drawing.pedigree_node import Sex, Side
from filialog.pages.drawing.pedigree_order import crossings, nets_of, webs_of

Rect = tuple[float, float, float, float]
Line = tuple[float, float, float, float]
ROUNDING = 0.11


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One node as the drawing shows it."""

    title: str
    href: str | None
    hit: Rect
    shape: str
    centre: tuple[float, float]
    half: tuple[float, float]
    texts: tuple[Rect, ...]
    dashed: Rect | None

    def chord(self, offset: float, *, upright: bool) -> float:
        """Return half of what a level or upright line cuts from the shape at an offset."""
        across, along = (self.half[0], self.half[1]) if upright else (self.half[1], self.half[0])
        part = abs(offset) / across
        if part >= 1:
            return 0.0
        if self.shape == "rect":
            return along
        return along * (math.sqrt(1 - part * part) if self.shape == "ellipse" else 1 - part)


def _number(element: ET.Element, name: str) -> float:
    return float(element.attrib[name])


def _rect(element: ET.Element) -> Rect:
    x, y = _number(element, "x"), _number(element, "y")
    return x, y, x + _number(element, "width"), y + _number(element, "height")


def _text_box(element: ET.Element) -> Rect:
    size = _number(element, "font-size")
    bold = element.attrib["class"] == "d-label"
    half = text_width(element.text or "", size=size, bold=bold) / 2
    x, y = _number(element, "x"), _number(element, "y")
    return x - half, y - size * 0.9, x + half, y + size * 0.24


def _drawn(element: ET.Element) -> Drawn:
    hit, dashed = None, None
    shape, centre, half = "", (0.0, 0.0), (0.0, 0.0)
    for part in element:
        kind = part.attrib.get("class", "")
        if kind == "d-hit":
            hit = _rect(part)
        elif kind == "d-set":
            dashed = _rect(part)
        elif kind.startswith("d-symbol"):
            shape = part.tag
            if shape == "rect":
                x1, y1, x2, y2 = _rect(part)
            elif shape == "ellipse":
                centre = (_number(part, "cx"), _number(part, "cy"))
                half = (_number(part, "rx"), _number(part, "ry"))
                continue
            else:
                spots = [float(spot) for spot in re.findall(r"[\d.]+", part.attrib["d"])]
                x1, x2 = min(spots[::2]), max(spots[::2])
                y1, y2 = min(spots[1::2]), max(spots[1::2])
            centre, half = ((x1 + x2) / 2, (y1 + y2) / 2), ((x2 - x1) / 2, (y2 - y1) / 2)
    assert hit is not None
    return Drawn(
        title=element.findtext("title") or "",
        href=element.attrib.get("href"),
        hit=hit,
        shape=shape,
        centre=centre,
        half=half,
        texts=tuple(
            _text_box(text) for text in element.iter("text") if text.attrib["class"] != "d-number"
        ),
        dashed=dashed,
    )


def read_back(svg: str) -> tuple[list[Drawn], list[Line], ET.Element]:
    """Return the nodes and lines of a drawing, and its tree."""
    root = ET.fromstring(svg)
    nodes = [_drawn(element) for element in root if element.attrib.get("class") == "d-node"]
    lines: list[Line] = []
    for path in root.iter("path"):
        if not path.attrib.get("class", "").startswith("d-line"):
            continue
        pieces = re.findall(r"M([\d.]+) ([\d.]+)([HV])([\d.]+)", path.attrib["d"])
        assert "".join(f"M{x} {y}{way}{end}" for x, y, way, end in pieces) == path.attrib["d"]
        for x, y, way, end in pieces:
            x1, y1, to = float(x), float(y), float(end)
            x2, y2 = (to, y1) if way == "H" else (x1, to)
            lines.append((min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)))
    return nodes, lines, root


def overlap(one: Rect, other: Rect) -> bool:
    """Tell whether two rectangles, or a line and one, share more than an edge."""
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide > ROUNDING and high > ROUNDING


def cuts_box(line: Line, box: Rect) -> bool:
    """Tell whether a line runs inside a box."""
    inner = (box[0] + ROUNDING, box[1] + ROUNDING, box[2] - ROUNDING, box[3] - ROUNDING)
    return min(line[2], inner[2]) >= max(line[0], inner[0]) and min(line[3], inner[3]) >= max(
        line[1], inner[1]
    )


def cuts_symbol(line: Line, node: Drawn) -> bool:
    """Tell whether a line runs inside the outline of a symbol, be it the one it leads to."""
    if node.dashed is not None:
        return cuts_box(line, node.dashed)
    (cx, cy), level = node.centre, line[1] == line[3]
    if level:
        reach = node.chord(line[1] - cy, upright=False) - 2 * ROUNDING
        return reach > 0 and min(line[2], cx + reach) > max(line[0], cx - reach)
    reach = node.chord(line[0] - cx, upright=True) - 2 * ROUNDING
    return reach > 0 and min(line[3], cy + reach) > max(line[1], cy - reach)


def check_geometry(svg: str) -> None:
    """Assert that nothing in a drawing lies on anything else, nor outside of the drawing."""
    nodes, lines, root = read_back(svg)
    page = (0.0, 0.0, _number(root, "width"), _number(root, "height"))
    for one, other in itertools.combinations(nodes, 2):
        assert not overlap(one.hit, other.hit), (one.title, other.title)
    for node in nodes:
        for text in node.texts:
            assert text[0] >= node.hit[0] - 1
            assert text[2] <= node.hit[2] + 1
            assert node.hit[1] <= text[1] <= text[3] <= node.hit[3] + 0.5
        for one_text, other_text in itertools.combinations(node.texts, 2):
            assert not overlap(one_text, other_text)
        for line in lines:
            assert not cuts_symbol(line, node), (line, node)
            assert not any(cuts_box(line, text) for text in node.texts), (line, node)
    for box in [*(node.hit for node in nodes), *lines]:
        assert page[0] <= box[0] <= box[2] <= page[2]
        assert page[1] <= box[1] <= box[3] <= page[3]
    for first, second in itertools.combinations(lines, 2):
        level = first[1] == first[3] == second[1] == second[3]
        upright = first[0] == first[2] == second[0] == second[2]
        if level:
            assert min(first[2], second[2]) <= max(first[0], second[0]), (first, second)
        if upright:
            assert min(first[3], second[3]) <= max(first[1], second[1]), (first, second)


def _on(spot: tuple[float, float], line: Line) -> bool:
    """Tell whether a spot lies on a line, give or take half the distance of a double line."""
    near = 1.6
    return (
        line[0] - near <= spot[0] <= line[2] + near
        and line[1] - ROUNDING <= spot[1] <= line[3] + ROUNDING
    )


def _touch(one: Line, other: Line) -> bool:
    """Tell whether an end of one line lies on the other; a plain crossing does not touch."""
    return any(
        _on(end, target)
        for line, target in ((one, other), (other, one))
        for end in (line[:2], line[2:])
    )


def connected(svg: str) -> list[tuple[str, ...]]:
    """Return which nodes each connected set of lines joins, as `child KEY` and `parent KEY`.

    Lines connect where one ends on the other, or where they cross under a dot.
    """
    nodes, lines, tree = read_back(svg)
    dots = [(_number(dot, "cx"), _number(dot, "cy")) for dot in tree.iter("circle")]
    group = list(range(len(lines)))

    def root(index: int) -> int:
        while group[index] != index:
            index = group[index]
        return index

    for one, other in itertools.combinations(range(len(lines)), 2):
        dotted = any(_on(dot, lines[one]) and _on(dot, lines[other]) for dot in dots)
        if dotted or _touch(lines[one], lines[other]):
            group[root(one)] = root(other)
    found: dict[int, set[str]] = {}
    for index, line in enumerate(lines):
        ends = found.setdefault(root(index), set())
        if line[1] != line[3]:
            continue
        for node in nodes:
            cx, cy = node.centre
            if abs(line[1] - cy) > node.half[1]:
                continue
            box = node.dashed
            reach = (box[2] - cx) if box else node.chord(line[1] - cy, upright=False)
            if abs(line[0] - (cx + reach)) < 0.3:
                ends.add(f"child {node.title}")
            if abs(line[2] - (cx - reach)) < 0.3:
                ends.add(f"parent {node.title}")
    return sorted(tuple(sorted(ends)) for ends in found.values())


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
    dots = [(_number(dot, "cx"), _number(dot, "cy")) for dot in tree.iter("circle")]
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


@pytest.mark.parametrize("reach", [6, 200])
def test_pedigree__two_hundred_nodes_stay_apart(reach: int) -> None:
    nodes = random_pedigree(200, seed=11, reach=reach)
    svg = drawn(*nodes)

    check_geometry(svg)
    assert len(read_back(svg)[0]) == 200


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


@pytest.mark.parametrize(
    ("nodes", "kin"),
    [
        pytest.param(
            (node("c", ("d", "dam"), ("s", "sire")), node("d"), node("s")), False, id="strangers"
        ),
        pytest.param(
            (
                node("c", ("d", "dam"), ("s", "sire")),
                node("d", ("g", "dam")),
                node("s", ("g", "dam")),
                node("g"),
            ),
            True,
            id="half_sibs",
        ),
        pytest.param(
            (node("c", ("d", "dam"), ("s", "sire")), node("d", ("s", "sire")), node("s")),
            True,
            id="father_and_daughter",
        ),
        pytest.param(
            (
                node("c", ("d", "dam"), ("set", "sire")),
                node("set", ("m", "part"), ("n", "part")),
                node("d", ("g", "dam")),
                node("m", ("g", "dam")),
                node("n"),
                node("g"),
            ),
            True,
            id="one_member_of_a_set",
        ),
        pytest.param(
            (node("c", ("g", "dam"), ("g", "sire")), node("g", ("f", "dam")), node("f")),
            True,
            id="one_brood_among_itself",
        ),
        pytest.param(
            (node("c", ("g", "dam"), ("g", "sire")), node("g")), False, id="one_founder_group"
        ),
        pytest.param(
            (node("set", ("m", "part"), ("n", "part")), node("m", ("g", "dam")),
             node("n", ("g", "dam")), node("g")),
            False,
            id="members_of_a_set_are_no_mates",
        ),
    ],
)  # fmt: skip
def test_pedigree__double_line_joins_mates_that_are_kin(
    nodes: tuple[PedigreeNode, ...], *, kin: bool
) -> None:
    svg = drawn(*nodes)

    assert ("d-related" in svg) is kin
    check_geometry(svg)


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
    assert _number(struck, "x1") < _number(struck, "x2")
    assert _number(struck, "y1") > _number(struck, "y2"), "from lower left to upper right"
    assert [t.text for t in root.iter("text") if t.attrib["class"] == "d-number"] == ["12"]


@pytest.mark.parametrize("sex", ["female", "male", "unknown"])
@pytest.mark.parametrize("number", ["1", "12", "120", "10–12", "a great many"])
def test_symbol__number_stays_inside(sex: Sex, number: str) -> None:
    nodes, _, root = read_back(drawn(PedigreeNode(key="k", label="k", sex=sex, number=number)))
    (text,) = [text for text in root.iter("text") if text.attrib["class"] == "d-number"]
    half = text_width(text.text or "", size=_number(text, "font-size")) / 2

    assert half <= nodes[0].chord(4.0, upright=False)
    assert nodes[0].title == f"k, {number}"


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
        pytest.param(tuple(node(f"n{i}") for i in range(201)), id="201"),
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
        key=f"k{i}", label=f"N{i}",
        parents=() if i < 4 else ((f"k{i - 1 - i % 3}", "dam"), (f"k{i - 4}", "sire")),
    )
    for i in range(40)
)
marks = tuple(
    TimelineMark(label=f"B{i}", day=date(2026, 1, 1 + i), band=f"F{i % 3}", share=i / 20)
    for i in range(20)
)
print(pedigree_svg(nodes, title="a", describe="b"))
print(timeline_svg(marks, first=date(2026, 1, 1), last=date(2026, 3, 1), tick_labels=(),
                   title="a", describe="b", axis_label="c"))
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

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from filialog.reading.node import Kind, Node
from filialog.reading.sheet import Desk, Sheet
from filialog.reading.yaml_nodes import MAX_DEPTH, MAX_NODES, MAX_SIZE, read_nodes


def read(text: str) -> tuple[Node | None, list[str]]:
    desk = Desk()
    root = read_nodes(Sheet(path="x.yaml", text=text, desk=desk), text)
    return root, [finding.code for finding in desk.findings]


def values(root: Node | None) -> dict[str, Node]:
    assert root is not None
    return {key.text: value for key, value in root.pairs}


@pytest.mark.parametrize(
    "written",
    [
        "no",
        "yes",
        "on",
        "off",
        "19:30",
        "9:3:3:1",
        "012",
        "1_000",
        "2026-03-14",
        "1.10",
        "0x1F",
        "2026-03-14T08:00:00+02:00",
        "=",
        ".inf",
        "1e3",
    ],
)
def test_scalars__stay_the_text_that_was_written(written: str) -> None:
    root, codes = read(f"a: {written}\n")

    assert codes == []
    assert values(root)["a"].kind is Kind.TEXT
    assert values(root)["a"].text == written


@pytest.mark.parametrize("written", ["", "~", "null", "Null", "NULL"])
def test_scalars__empty_ones_of_the_core_schema_are_empty(written: str) -> None:
    assert values(read(f"a: {written}\n")[0])["a"].kind is Kind.EMPTY


@pytest.mark.parametrize("written", ["true", "False", "TRUE"])
def test_scalars__flags_of_the_core_schema_are_flags(written: str) -> None:
    assert values(read(f"a: {written}\n")[0])["a"].kind is Kind.FLAG


@pytest.mark.parametrize("written", ['"true"', "'null'", '""'])
def test_scalars__quoted_ones_are_text(written: str) -> None:
    assert values(read(f"a: {written}\n")[0])["a"].kind is Kind.TEXT


def test_places__count_characters_and_lines_of_the_file() -> None:
    text = "---\nä: {µ: [x, 'yz']}\n"
    desk = Desk()
    root = read_nodes(
        Sheet(path="x.md", text=text, desk=desk), text.removeprefix("---\n"), first_line=2
    )
    inner = values(root)["ä"]
    items = inner.pairs[0][1].items

    assert (inner.line, inner.column, inner.length) == (2, 4, 14)
    assert [(item.line, item.column, item.length) for item in items] == [(2, 9, 1), (2, 12, 4)]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("a: &x 1\n", "R103"),
        ("a: *x\n", "R103"),
        ("&x a: 1\n", "R103"),
        ("a: {b: &x [1]}\n", "R103"),
        ("a: !!int 1\n", "R104"),
        ("a: !x {b: 1}\n", "R104"),
        ("a: !\n", "R104"),
        ("<<: {a: 1}\n", "R105"),
        ("? [a]\n: b\n", "R106"),
        ("~: b\n", "R106"),
        ("true: b\n", "R106"),
        ("a: 1\na: 2\n", "R102"),
        ("a: 1\n---\nb: 1\n", "R109"),
        ("- a\n", "R116"),
        ("just words\n", "R116"),
        ("a:1\n", "R114"),
        ("a: 1\nb:2\n", "R114"),
        ("a: {b:1}\n", "R114"),
        ("a: 1\n\tb: 2\n", "R110"),
        ("a: “b: c”\n", "R112"),
        ("a: 'b\n", "R115"),
        ("a: {b: 1\n", "R115"),
        ("a: [1, 2\nb: 3\n", "R115"),
        ("a: @b\n", "R111"),
        ("a: `b`\n", "R111"),
        ("a: %5\n", "R111"),
        ("a: - b\n", "R111"),
        ("a: >3\n", "R111"),
        ('a: "\\q"\n', "R111"),
        ("a: b: c\n", "R101"),
        ("a: 1\nwords\n", "R101"),
        ("a: 1\n  b: 2\n", "R101"),
        ("%foo\na: 1\n", "R111"),
        ("a: {b: 1}}\n", "R101"),
        ("a: x #1\n", "R113"),
        ("a: #1\n", "R113"),
        ("a: {ph: 6,1}\n", "R301"),
    ],
)
def test_refusals__each_slip_has_its_own_code(text: str, code: str) -> None:
    assert read(text)[1] == [code]


@pytest.mark.parametrize(
    "text",
    [
        "a: x # a comment\n",
        "# a comment\na: 1\n",
        "a: x#1\n",
        "a: 'x #1'\n",
        "a: http://example.org\n",
        "a: {b: [1, 2]}\n",
        "",
        "# nothing\n",
        "a: don't\n",
        "a: |\n  two: lines\n  #2\n",
    ],
)
def test_refusals__sound_text_has_no_finding(text: str) -> None:
    root, codes = read(text)

    assert codes == []
    assert root is not None


def test_duplicate__the_first_value_stays() -> None:
    assert [value.text for value in values(read("a: 1\na: 2\n")[0]).values()] == ["1"]


def test_decimal_comma__takes_the_value_away() -> None:
    root, _ = read("m: {ph: 6,1, gh: 5}\n")
    inner = values(values(root)["m"])

    assert inner["ph"].kind is Kind.REPORTED
    assert inner["gh"].text == "5"
    assert list(inner) == ["ph", "gh"]


@pytest.mark.parametrize(("levels", "codes"), [(MAX_DEPTH - 1, []), (MAX_DEPTH, ["R107"])])
def test_depth__is_bounded(levels: int, codes: list[str]) -> None:
    assert read("a: " + "[" * levels + "]" * levels + "\n")[1] == codes


def test_depth__five_thousand_brackets_are_a_finding() -> None:
    assert read("a: " + "[" * 5000 + "\n")[1] == ["R107"]


@pytest.mark.parametrize(("number", "codes"), [(MAX_NODES - 2, []), (MAX_NODES + 1, ["R108"])])
def test_number_of_values__is_bounded(number: int, codes: list[str]) -> None:
    assert read("a: [" + ",".join("1" * number) + "]\n")[1] == codes


def test_size__is_bounded() -> None:
    assert read("a: " + "é" * (MAX_SIZE // 2) + "\n")[1] == ["R108"]


def test_reported_words__are_those_of_the_text_that_failed() -> None:
    desk = Desk()
    text = "moved: {group: ember-next, as: [x}\n"
    read_nodes(Sheet(path="x.md", text=text, desk=desk), text)

    assert "ember-next" in desk.reported


PLAIN = st.text(alphabet="abcxyz -'0123456789äµ", min_size=1, max_size=8).map(
    lambda text: f"t{text.strip()}"
)
TREES = st.recursive(
    PLAIN,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(PLAIN, inner, max_size=3),
    max_leaves=12,
)


def plain(node: Node) -> object:
    if node.kind is Kind.MAP:
        return {key.text: plain(value) for key, value in node.pairs}
    if node.kind is Kind.LIST:
        return [plain(item) for item in node.items]
    return node.text


@given(st.dictionaries(PLAIN, TREES, max_size=4), st.booleans())
def test_nodes__hold_what_a_yaml_writer_wrote(tree: dict[str, object], braces: bool) -> None:
    text = yaml.dump(tree, allow_unicode=True, default_flow_style=braces, sort_keys=False)
    root, codes = read(text)

    assert codes == []
    assert root is not None
    assert plain(root) == tree

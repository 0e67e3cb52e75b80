from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.findings.finding import Place
from filialog.journal.records import Link, LinkTarget, Prose
from filialog.reading.prose import read_prose, read_sections
from filialog.reading.sheet import Desk, Sheet

PICTURE = "photos/fen/1.jpg"


def read(text: str) -> tuple[Prose, list[str]]:
    desk = Desk(
        pictures=frozenset({PICTURE, "photos/a b.jpg"}), files=frozenset({"lines/amber.md"})
    )
    sheet = Sheet(path="diary/2026-03-14.md", text=text, desk=desk)
    return read_prose(sheet, text, first_line=1), [finding.code for finding in desk.findings]


def html(prose: Prose, *, private: bool = True) -> str:
    return "".join(
        "□" if isinstance(piece.content, Link) else piece.content
        for piece in prose.pieces
        if private or not piece.private
    )


class Balance(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.sound = True
        self.seen: set[str] = set()
        self.attributes: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.add(tag)
        self.attributes.update(name for name, _ in attrs)
        if tag not in {"br", "hr"}:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        self.sound = self.sound and bool(self.open) and self.open.pop() == tag


def balance(text: str) -> Balance:
    parser = Balance()
    parser.feed(text)
    parser.close()
    return parser


def test_prose__plain_text_is_one_piece() -> None:
    prose, codes = read("Two **dead** under the `litter`.\n")

    assert codes == []
    assert html(prose) == "<p>Two <strong>dead</strong> under the <code>litter</code>.</p>\n"
    assert prose.plain == "Two dead under the litter."


def test_prose__no_text_is_empty() -> None:
    assert read(" \n\n")[0].empty


def test_names__become_slots_with_their_places() -> None:
    prose, codes = read("Moved\n[[ember-next]] to [[tarn|the dark tank]], [[tarn]].\n")

    assert codes == []
    assert prose.links == (
        Link(target=LinkTarget.NAME, name="ember-next", text="ember-next", place=Place("")),
        Link(target=LinkTarget.NAME, name="tarn", text="the dark tank", place=Place("")),
        Link(target=LinkTarget.NAME, name="tarn", text="tarn", place=Place("")),
    )
    assert [link.place for link in prose.links] == [
        Place("diary/2026-03-14.md", 2, 1, 14),
        Place("diary/2026-03-14.md", 2, 19, 22),
        Place("diary/2026-03-14.md", 2, 43, 8),
    ]
    assert html(prose) == "<p>Moved\n□ to □, □.</p>\n"
    assert prose.plain == "Moved ember-next to the dark tank, tarn."


@pytest.mark.parametrize("text", ["[[]]", "[[ ]]", "[[a", "`[[a]]`", "\\[[a]]", "[[a]b]]"])
def test_names__half_written_ones_stay_text(text: str) -> None:
    assert read(text)[0].links == ()


def test_pictures__become_slots_with_paths_in_the_journal() -> None:
    prose, codes = read("![Two *of* them](../photos/fen/1.jpg) ![x](<../photos/a b.jpg>)\n")

    assert codes == []
    assert [(link.target, link.name, link.text) for link in prose.links] == [
        (LinkTarget.PICTURE, PICTURE, "Two of them"),
        (LinkTarget.PICTURE, "photos/a b.jpg", "x"),
    ]


def test_pictures__may_be_named_from_the_journal_and_encoded() -> None:
    prose, codes = read("![x](photos/fen/1.jpg) ![x](../photos/a%20b.jpg)\n")

    assert codes == []
    assert [link.name for link in prose.links] == [PICTURE, "photos/a b.jpg"]


def test_links__within_the_journal_become_slots() -> None:
    prose, codes = read("See [the *amber* line](../lines/amber.md#goal).\n")

    assert codes == []
    assert [(link.target, link.name, link.text) for link in prose.links] == [
        (LinkTarget.FILE, "lines/amber.md", "the amber line")
    ]
    assert html(prose) == "<p>See □.</p>\n"


@pytest.mark.parametrize(
    "address",
    ["https://example.org/a?b=1&c=2", "http://example.org", "mailto:a@example.org"],
)
def test_links__to_the_web_are_links(address: str) -> None:
    prose, codes = read(f"See [*this*]({address}).\n")

    assert codes == []
    shown = address.replace("&", "&amp;")
    assert html(prose) == f'<p>See <a href="{shown}"><em>this</em></a>.</p>\n'


def test_links__do_not_hold_a_name() -> None:
    prose, codes = read("[a [[tarn|dark]] b](https://example.org)\n")

    assert codes == []
    assert html(prose) == "<p>[a □ b](https://example.org)</p>\n"


def test_pictures__keep_the_words_of_a_name_in_their_alternative_text() -> None:
    assert read("![a [[tarn|dark]] b](../photos/fen/1.jpg)\n")[0].links[0].text == "a dark b"


@pytest.mark.parametrize(
    ("address", "code"),
    [
        ("javascript:alert(1)", "M102"),
        ("JaVaScRiPt:alert(1)", "M102"),
        ("&#106;avascript:alert(1)", "M102"),
        ("java&#10;script:alert(1)", "M106"),
        ("<java script:alert(1)>", "M106"),
        ("vbscript:x", "M102"),
        ("data:text/html,x", "M102"),
        ("data:image/png;base64,x", "M102"),
        ("blob:x", "M102"),
        ("tel:1", "M102"),
        ("file:///etc/passwd", "M102"),
        ("//example.org", "M102"),
        ("https:example.org", "M102"),
        ("../../x.md", "M103"),
        ("/etc/passwd", "M103"),
        ("..%2f..%2fx.md", "M103"),
        ("#top", "M106"),
        ("2026-03-13.md", "M106"),
    ],
)
def test_links__elsewhere_are_words_with_a_finding(address: str, code: str) -> None:
    prose, codes = read(f"See [this]({address}).\n")

    assert "<a" not in html(prose)
    if address.startswith(("java&#10;", "<java ")):
        assert prose.links == () or prose.links[0].target is LinkTarget.FILE
    else:
        assert codes == [code]
        assert html(prose) == "<p>See this.</p>\n"


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "a <b onclick=x>b</b>",
        "<img src=x onerror=alert(1)>",
        '![a" onerror="x](../photos/fen/1.jpg)',
        '[a](https://example.org/"onclick="x)',
        "```<script>\n<script>\n```",
        "| a |\n|--:|\n| <b> |\n",
        "&lt;script&gt;",
        "<https://example.org/<script>>",
    ],
)
def test_html__of_the_keeper_never_passes(text: str) -> None:
    shown = balance(html(read(text)[0]))

    assert shown.seen <= {"p", "pre", "code", "a", "table", "thead", "tbody", "tr", "th", "td"}
    assert shown.attributes <= {"href", "class"}


def test_headings__begin_at_h3_and_skip_no_level() -> None:
    prose, _ = read("# a\n\n### b\n\n## c\n\n#### d\n\n# e\n")

    assert html(prose).replace("\n", "") == ("<h3>a</h3><h4>b</h4><h4>c</h4><h5>d</h5><h3>e</h3>")


def test_headings__go_no_deeper_than_h6() -> None:
    prose, _ = read("# a\n## b\n### c\n#### d\n##### e\n###### f\n")

    assert html(prose).count("<h6>") == 3


def test_tables__carry_no_style_attribute() -> None:
    prose, _ = read("| a | b |\n|--:|---|\n| 1 | 2 |\n")

    assert 'class="align-right"' in html(prose)
    assert "style=" not in html(prose)


def test_private_block__is_left_out_whole() -> None:
    prose, codes = read("Before [[a]].\n\n:::private\nThe *buyer* [[b]] rang.\n:::\n\nAfter.\n")

    assert codes == []
    assert html(prose, private=False) == "<p>Before □.</p>\n<p>After.</p>\n"
    assert '<div class="private">' in html(prose)
    assert [link.name for link in prose.links] == ["a", "b"]
    assert prose.plain == "Before a. After."


def test_private_block__inside_a_list_leaves_sound_html() -> None:
    prose, codes = read("- one\n\n  :::private\n  secret\n  :::\n\n- two\n")

    assert codes == []
    assert "secret" not in html(prose, private=False)
    assert balance(html(prose, private=False)).sound


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        (":::private\nsecret\n\nsecret\n", ["M107"]),
        (":::privat\nsecret\n:::\n\nopen\n", ["M108"]),
        ("::: Private\nsecret\n:::\n\nopen\n", ["M108"]),
        (":::secret\nsecret\n:::\n\nopen\n", ["M108"]),
        (":::private secret\nsecret\n:::\n\nopen\n", ["M108"]),
        ("::private\nsecret\n:::\n\nsecret\n", ["M108", "M107"]),
        ("    :::private\n    secret\n", ["M108"]),
        ("secret\n:::\n\nsecret\n", ["M107"]),
        ("- one secret\n\n  :::private\n  secret\n\n- two secret\n\nsecret\n", ["M107"]),
        ("> :::private\n> secret\n\nsecret\n", ["M107"]),
        ("open\n- :::private\nsecret\n", ["M107"]),
        (":::private\nsecret\n:::private\nsecret\n:::\nsecret\n:::\nsecret\n", ["M107"]),
        (":::private\n```\nsecret\n:::\n\nopen\n", []),
    ],
)
def test_private_block__fails_closed(text: str, codes: list[str]) -> None:
    prose, found = read(text)

    assert sorted(found) == sorted(codes)
    assert "secret" not in html(prose, private=False)
    assert "secret" not in prose.plain
    assert balance(html(prose, private=False)).sound


def test_private_block__text_before_an_open_one_stays_public() -> None:
    prose, _ = read("Open.\n\n:::private\nsecret\n")

    assert html(prose, private=False) == "<p>Open.</p>\n"


def test_comment__is_reported() -> None:
    assert read("All well. <!-- not so -->\n")[1] == ["M109"]


def test_sections__headings_give_prose_to_tanks() -> None:
    text = (
        "All.\n\n## Fen\n\nIn fen.\n\n### More\n\nStill fen.\n\n"
        "## tarn\n\nIn tarn.\n\n## Else\n\nNot.\n"
    )
    desk = Desk()
    sheet = Sheet(path="diary/2026-03-14.md", text=text, desk=desk)
    sections = read_sections(sheet, text, first_line=1, tanks={"fen": "fen", "tarn": "tarn"})

    assert [(tank, prose.plain) for tank, prose in sections] == [
        (None, "All. Else Not."),
        ("fen", "In fen. More Still fen."),
        ("tarn", "In tarn."),
    ]
    assert "<h3>More</h3>" in html(sections[1][1])


def test_plain__is_cut_at_a_word() -> None:
    prose, _ = read("word " * 100)

    assert prose.plain.endswith("word…")
    assert len(prose.plain) <= 201


MARKS = st.lists(
    st.sampled_from(
        [
            "a",
            " ",
            "\n",
            "\n\n",
            "*",
            "**",
            "[[",
            "]]",
            "[",
            "](x)",
            "![",
            "|",
            "`",
            "```\n",
            ":::private\n",
            ":::\n",
            "> ",
            "- ",
            "# ",
            "<b>",
            "~~",
            "&",
            "    ",
            "1. ",
            "-|-\n",
        ]
    ),
    max_size=40,
).map("".join)


@given(MARKS)
def test_prose__is_sound_html_with_and_without_private_pieces(text: str) -> None:
    prose, _ = read(text)

    assert balance(html(prose)).sound
    assert balance(html(prose, private=False)).sound
    assert not balance(html(prose)).open

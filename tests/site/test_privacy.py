"""Nothing private reaches the public edition.

The private words are collected from the example by rules of their own, straight from its text:
whatever stands in a mapping with `private: true`, below a key that is always private, in a
`:::private` block, or in a file whose head says `private: true`.
"""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from tools.sites import EXAMPLE, ROOT, tree_bytes, words_in

_ALWAYS_PRIVATE = frozenset({"away", "buyer", "price", "sitter", "phone"})
_BLOCK = re.compile(r"^:::+ *private\b.*?^:::+ *$", re.MULTILINE | re.DOTALL)
_FRONT_MATTER = re.compile(r"\A---\n(.*?)^---\n", re.MULTILINE | re.DOTALL)


def _texts(node: yaml.Node, *, private: bool) -> Iterator[tuple[str, bool]]:
    """Give every text of a YAML tree, and whether it is private."""
    if isinstance(node, yaml.ScalarNode):
        yield node.value, private
    elif isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield from _texts(item, private=private)
    elif isinstance(node, yaml.MappingNode):
        here = private or any(
            key.value == "private" and value.value != "false" for key, value in node.value
        )
        for key, value in node.value:
            yield str(key.value), here  # a word of the format, or the name of a group
            yield from _texts(value, private=here or key.value in _ALWAYS_PRIVATE)


def _divided(name: str, text: str) -> Iterator[tuple[str, bool]]:
    """Give the stretches of a file, its name among them, and whether each is private."""
    is_yaml = name.endswith(".yaml")
    head = _FRONT_MATTER.match(text)
    data = text if is_yaml else head[1] if head else ""
    node = yaml.compose(data, Loader=yaml.SafeLoader)
    whole = isinstance(node, yaml.MappingNode) and any(
        key.value == "private" and value.value != "false" for key, value in node.value
    )
    yield name, whole
    if node is not None:
        yield from _texts(node, private=whole)
    prose = "" if is_yaml else text[head.end() if head else 0 :]
    yield from ((block, True) for block in _BLOCK.findall(prose))
    yield _BLOCK.sub("", prose), whole


@pytest.fixture(scope="module")
def private_words() -> frozenset[str]:
    """Words that stand only in private stretches, nor in any text the program ships."""
    stretches: list[tuple[str, bool]] = []
    for path in sorted(EXAMPLE.rglob("*")):
        name = path.relative_to(EXAMPLE).as_posix()
        if path.suffix in {".md", ".txt", ".yaml"}:
            stretches.extend(_divided(name, path.read_text(encoding="utf-8")))
        else:
            stretches.append((name, False))
    shipped = [
        path.read_text(encoding="utf-8")
        for folder in ("generator/filialog", "content", "themes")
        for path in sorted((ROOT / folder).rglob("*"))
        if path.suffix in {".py", ".html", ".jinja", ".css", ".js", ".md", ".yaml"}
    ]
    secret = words_in(text for text, private in stretches if private)
    open_words = words_in(text for text, private in stretches if not private)
    words = secret - open_words - words_in(shipped)
    assert len(words) >= 10, f"the example has too little that is private: {sorted(words)}"
    return frozenset(words)


def _words_of_site(site: Path) -> set[str]:
    files = tree_bytes(site)
    return words_in([*files, *(data.decode("utf-8", "replace") for data in files.values())])


def test_public_edition__has_no_private_word_in_any_file(
    public_site: Path, private_words: frozenset[str]
) -> None:
    assert private_words & _words_of_site(public_site) == set()


def test_keeper_edition__has_private_words(
    keeper_site: Path, private_words: frozenset[str]
) -> None:
    """Otherwise the test of the public edition would pass for want of anything to find."""
    shown = private_words & _words_of_site(keeper_site)

    assert len(shown) * 2 >= len(private_words), sorted(private_words - shown)


def test_public_edition__has_no_page_of_its_own(public_site: Path, keeper_site: Path) -> None:
    public, keeper = (
        {name for name in tree_bytes(folder) if name.endswith(".html")}
        for folder in (public_site, keeper_site)
    )

    assert public <= keeper


def test_divided__knows_what_is_private() -> None:
    text = (
        "---\ndate: 2026-01-01\nsold: {count: 2, buyer: Quillon, note: plain}\n"
        "died: {count: 1, private: true, note: hushed}\naway: {sitter: Marlow}\n---\n"
        "Open words.\n\n:::private\nsecret words\n:::\n\nMore open words.\n"
    )

    private = words_in(part for part, hidden in _divided("2026-01-01.md", text) if hidden)
    public = words_in(part for part, hidden in _divided("2026-01-01.md", text) if not hidden)

    assert {"quillon", "hushed", "marlow", "secret"} <= private
    assert {"plain", "open", "more"} <= public
    assert not {"quillon", "hushed", "marlow", "secret"} & public

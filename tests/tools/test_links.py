from collections.abc import Callable
from pathlib import Path

import pytest

from tools.links import Fault, check_links

GOOD = """<!doctype html>
<html lang="en"><head><title>Front</title><link rel="stylesheet" href="look/site.css"></head>
<body><h1 id="top">Front</h1>
<a href="tanks/fen.html">fen</a> <a href="tanks/fen.html#water">water</a> <a href="#top">top</a>
<a href="https://example.org/">out</a> <a href="mailto:keeper@example.org">write</a>
<img src="look/drop.svg" srcset="look/drop.svg 320w, look/drop.svg 480w" alt="a drop">
<svg role="group" aria-labelledby="top"><rect fill="url(#top)"/></svg></body></html>
"""
FEN = """<!doctype html>
<html lang="en"><head><title>fen</title></head>
<body><h1 id="water">fen</h1><a href="../index.html#top">front</a>
<label for="field">n</label><input id="field"></body></html>
"""


@pytest.fixture
def site(tmp_path: Path) -> Path:
    root = tmp_path / "site"
    (root / "tanks").mkdir(parents=True)
    (root / "look").mkdir()
    (root / "index.html").write_text(GOOD, encoding="utf-8")
    (root / "tanks" / "fen.html").write_text(FEN, encoding="utf-8")
    (root / "look" / "site.css").write_text('body { background: url("drop.svg") }\n', "utf-8")
    (root / "look" / "drop.svg").write_text("<svg><title>drop</title></svg>\n", "utf-8")
    return root


def test_check_links__finds_nothing_in_a_sound_folder(site: Path) -> None:
    assert check_links(site) == ()


PLANTED = [
    pytest.param('<a href="tanks/marsh.html">x</a>', "no such file", id="missing file"),
    pytest.param('<a href="tanks/">x</a>', "names a folder", id="ends in a slash"),
    pytest.param('<a href="tanks">x</a>', "no such file", id="folder without a slash"),
    pytest.param('<a href="tanks/..">x</a>', "names a folder", id="ends in dots"),
    pytest.param('<a href="/index.html">x</a>', "not relative", id="leading slash"),
    pytest.param('<a href="//example.org/x">x</a>', "not relative", id="other host"),
    pytest.param('<a href="tanks\\fen.html">x</a>', "not relative", id="backslash"),
    pytest.param(
        '<a href="tanks/Fen.html">x</a>',
        "differs in case or form from `tanks/fen.html`",
        id="wrong case",
    ),
    pytest.param('<a href="tanks/fen.html#soil">x</a>', "no such fragment", id="fragment"),
    pytest.param('<a href="#nowhere">x</a>', "no such fragment", id="fragment here"),
    pytest.param('<a href="#">x</a>', "no such fragment", id="empty fragment"),
    pytest.param('<a href="">x</a>', "empty, or with space around it", id="empty"),
    pytest.param('<a href="../other/index.html">x</a>', "leaves the folder", id="escape"),
    pytest.param('<a href="../site/index.html">x</a>', "leaves the folder", id="escape and return"),
    pytest.param('<a href="%2e%2e/x.html">x</a>', "leaves the folder", id="encoded escape"),
    pytest.param(
        '<a href="JavaScript:void(0)">x</a>', "scheme `javascript` is not allowed", id="script"
    ),
    pytest.param('<img src="data:,x" alt="">', "scheme `data` is not allowed", id="data"),
    pytest.param(
        '<img src="look/drop.svg" srcset="look/drop.svg 1x, look/wide.svg 2x" alt="">',
        "no such file",
        id="srcset",
    ),
    pytest.param('<p aria-labelledby="top gone">x</p>', "no such id for `aria-labelledby`", id="l"),
    pytest.param('<label for="gone">x</label>', "no such id for `for`", id="for"),
    pytest.param('<td headers="gone">x</td>', "no such id for `headers`", id="headers"),
    pytest.param('<p id="top">x</p>', "the id stands twice", id="id twice"),
    pytest.param('<rect fill="url(#gone)"/>', "no such fragment", id="paint"),
    pytest.param('<base href="index.html">', "moves every relative reference", id="base"),
    pytest.param(
        '<meta http-equiv="refresh" content="0; url=gone.html">', "no such file", id="refresh"
    ),
]


@pytest.mark.parametrize(("markup", "reason"), PLANTED)
def test_check_links__finds_a_planted_fault_in_its_line(
    site: Path, markup: str, reason: str
) -> None:
    page = site / "index.html"
    page.write_text(GOOD.replace("</body>", f"\n{markup}\n</body>"), encoding="utf-8")

    faults = check_links(site)

    assert [(fault.page, fault.line, fault.reason) for fault in faults] == [
        ("index.html", 8, reason)
    ]


def _capital_twin(site: Path) -> None:
    (site / "tanks" / "FEN.html").write_text(FEN, encoding="utf-8")


def _unicode_twin(site: Path) -> None:
    (site / "caf\u00e9.txt").write_text("composed", encoding="utf-8")
    (site / "cafe\u0301.txt").write_text("decomposed", encoding="utf-8")


def _folder_twin(site: Path) -> None:
    (site / "Tanks").mkdir()


@pytest.mark.parametrize("plant", [_capital_twin, _unicode_twin, _folder_twin])
def test_check_links__finds_names_that_are_one_on_other_file_systems(
    site: Path, plant: Callable[[Path], None]
) -> None:
    plant(site)

    assert [fault.reason for fault in check_links(site)] == [
        "the same name where case and Unicode form do not count"
    ]


def test_check_links__finds_a_missing_file_in_a_style_sheet(site: Path) -> None:
    (site / "look" / "site.css").write_text("\np { background: url(gone.svg) }\n", "utf-8")

    assert check_links(site) == (Fault("look/site.css", 2, "gone.svg", "no such file"),)


def test_check_links__finds_a_symbolic_link(site: Path) -> None:
    (site / "copy.html").symlink_to(site / "index.html")

    assert Fault("copy.html", 0, "copy.html", "a symbolic link") in check_links(site)

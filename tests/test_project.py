"""What the checkout as a whole promises: layout, commands, links, and nothing of one machine."""

import os
import re
import subprocess
import tomllib
from functools import cache
from pathlib import Path

import pytest
from markdown_it import MarkdownIt

from filialog import __version__
from tools.sites import ROOT, run_command

COMPILE = (
    "python3 -m venv .venv && .venv/bin/pip install --quiet --editable ."
    " && .venv/bin/filialog compile example_site --output site"
)
TEST = (
    "python3 -m venv .venv && .venv/bin/pip install --quiet --editable '.[test]'"
    " && .venv/bin/pytest"
)

NEEDED = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "generator",
    "content",
    "themes",
    "tests",
    "example_site",
}
ALLOWED = NEEDED | {
    "LICENSE",
    "CHANGELOG.md",
    ".ci",
    ".editorconfig",
    ".gitattributes",
    ".gitignore",
    ".pre-commit-config.yaml",
}

# Each is written so that it does not find itself here.
OF_ONE_MACHINE = {
    "the folder of this checkout": re.escape(str(ROOT)) + r"(?![\w-])",
    "a home folder": r"/home/\w+/|/Users/\w+/|/roo[t]/|\b[A-Z]:\\+Users\b",
    "a package registry": r"index[-_]url|/simpl[e]/|https?://registry\.|\bpypi[.]org|npmj[s]",
}


@cache
def _files() -> tuple[Path, ...]:
    """Every file that is tracked, or would be by `git add`."""
    listed = subprocess.run(
        [
            *("git", "-c", f"safe.directory={ROOT}", "-C", str(ROOT)),
            *("ls-files", "-z", "--cached", "--others", "--exclude-standard"),
        ],
        capture_output=True,
        text=True,
        check=False,
    )
    if listed.returncode != 0:
        words = f"git cannot list the files, so nothing was checked: {listed.stderr.strip()}"
        if os.environ.get("CI") == "true":
            pytest.fail(words)
        pytest.skip(words)
    names = sorted({name for name in listed.stdout.split("\0") if name})
    return tuple(ROOT / name for name in names if (ROOT / name).is_file())


def _text(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


def _links(markdown: str) -> list[str]:
    """Every address that a Markdown text links to or shows."""
    tokens = MarkdownIt().parse(markdown)
    inline = [child for token in tokens for child in token.children or ()]
    return [str(t.attrs[name]) for t in inline for name in ("href", "src") if name in t.attrs]


def test_readme__has_both_commands_on_a_line_each() -> None:
    lines = _text("README.md").splitlines()

    assert lines.count(COMPILE) == 1
    assert lines.count(TEST) == 1


def test_ci_run__calls_the_test_command_of_the_readme() -> None:
    lines = _text(".ci/run").splitlines()

    assert lines.count(TEST) == 1
    assert os.access(ROOT / ".ci" / "run", os.X_OK)
    assert "set -euo pipefail" in lines
    assert "export CI=true" in _text(".ci/run")


@pytest.mark.parametrize(
    "called", ["pytest -m long", "ruff check .", "ruff format --check .", "mypy"]
)
def test_ci_run__calls_every_check(called: str) -> None:
    lines = [line.strip() for line in _text(".ci/run").splitlines()]

    assert f".venv/bin/{called}" in lines


def test_checkout__has_the_agreed_names_at_the_top_and_no_other() -> None:
    top = {path.relative_to(ROOT).parts[0] for path in _files()}

    assert top - ALLOWED == set()
    assert NEEDED - top == set()


@pytest.mark.parametrize("what", OF_ONE_MACHINE)
def test_files__say_nothing_of_one_machine(what: str) -> None:
    found: list[str] = []
    for path in _files():
        try:
            lines = path.read_text(encoding="utf-8").splitlines()
        except UnicodeDecodeError:
            continue  # a picture
        found.extend(
            f"{path.relative_to(ROOT)}:{number}: {line.strip()[:80]}"
            for number, line in enumerate(lines, 1)
            if re.search(OF_ONE_MACHINE[what], line)
        )

    assert found == []


@pytest.mark.parametrize(
    ("what", "line"),
    [
        ("the folder of this checkout", f"see {ROOT}/README.md"),
        ("a home folder", "cd /home/" + "keeper/journal"),
        ("a home folder", "C:" + "\\Users\\keeper"),
        ("a package registry", "pip install --index" + "-url https://packages.example"),
        ("a package registry", "https://registry" + ".example/x"),
    ],
)
def test_files__a_planted_trace_of_a_machine_would_be_found(what: str, line: str) -> None:
    assert re.search(OF_ONE_MACHINE[what], line)


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md", "CHANGELOG.md"])
def test_documents__link_only_to_what_is_there(name: str) -> None:
    broken = [
        link
        for link in _links(_text(name))
        if not re.match(r"https?:|mailto:|#", link) and not (ROOT / link.partition("#")[0]).exists()
    ]

    assert broken == []


def test_links__finds_links_and_pictures() -> None:
    assert _links("See [a](b.md#c) and\n\n![d](e.png)") == ["b.md#c", "e.png"]


def test_version__is_the_same_everywhere() -> None:
    project = tomllib.loads(_text("pyproject.toml"))["project"]

    assert project["version"] == __version__
    headings = re.findall(r"^## (\S+)", _text("CHANGELOG.md"), re.MULTILINE)
    assert headings[0] == __version__


def test_licence__is_named_alike() -> None:
    project = tomllib.loads(_text("pyproject.toml"))["project"]

    assert project["license"] == "MIT"
    assert _text("LICENSE").startswith("MIT License\n")
    assert "the filialog authors" in _text("LICENSE")


def test_readme__its_small_journal_compiles_as_written(tmp_path: Path) -> None:
    """Each file of it stands in a block below its name; all of them are written and compiled."""
    found = re.findall(
        r"^`shelf/([^`\n]+)`\n\n```\w*\n(.*?)^```$", _text("README.md"), re.MULTILINE | re.DOTALL
    )
    assert len(found) >= 3
    for name, text in found:
        path = tmp_path / "shelf" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    done = run_command("compile", "shelf", "--output", "site", folder=tmp_path)

    assert done.returncode == 0, done.stdout + done.stderr
    crosses = [
        page.read_text(encoding="utf-8")
        for page in (tmp_path / "site" / "crosses").glob("*.html")
        if page.name != "index.html"
    ]
    assert len(crosses) == 1
    assert 'data-look="fancy"' in crosses[0]

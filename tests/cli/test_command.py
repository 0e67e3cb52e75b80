"""The command line: what it takes, what it says, and the code it leaves with."""

import errno
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from filialog.build import Files, RealFiles
from filialog.build.refusals import Refusal
from filialog.cli import run
from filialog.cli.commands import check, compile_site
from filialog.messages import ENGLISH, Words
from tools.diaries import diary_files
from tools.faulty_files import FaultyFiles
from tools.sites import run_command, tree_bytes

_DIARY = """
    2026-01-01 fen | bought: {group: dusk, count: 5, genotype: g/g}
    2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dusk, count: 20}
    2026-04-01 fen | counted: {brood: young, looks: {dull: 0, glowing: 19}}
"""
_ERROR = "2026-05-01 fen | died: {group: yuong, count: 1}"
_WARNING = "2026-05-01 fen | died:"


def _journal(folder: Path, diary: str = _DIARY, name: str = "shelves") -> Path:
    journal = folder / name
    for path, data in diary_files(diary).items():
        (journal / path).parent.mkdir(parents=True, exist_ok=True)
        (journal / path).write_bytes(data)
    return journal


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stand in an empty folder."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def _said(capsys: pytest.CaptureFixture[str]) -> tuple[str, str]:
    out, err = capsys.readouterr()
    assert "Traceback" not in out + err
    return out, err


# --- check ----------------------------------------------------------------------------------


def test_check__sound_journal_is_fine(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _journal(here)

    assert run(["check", "shelves"]) == 0
    out, err = _said(capsys)
    assert out.startswith("Checked: ")
    assert err == ""


def test_check__errors_are_drawn_with_file_line_and_nearest_name(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _journal(here, _DIARY + _ERROR)

    assert run(["check", "shelves"]) == 1
    out, _ = _said(capsys)
    assert "error[" in out
    assert "--> diary/004.md:4:" in out
    assert "`yuong`" in out
    assert "`young`" in out
    assert "Checked: 1 error" in out


def test_check__warnings_count_only_where_strict(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _journal(here, _DIARY + _WARNING)

    assert run(["check", "shelves"]) == 0
    assert run(["check", "shelves", "--strict"]) == 1
    out, _ = _said(capsys)
    assert out.count("warning[") == 2


def test_check__folder_without_journal_file_is_an_error(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (here / "empty").mkdir()

    assert run(["check", "empty"]) == 1
    out, _ = _said(capsys)
    assert "journal.yaml" in out


# --- compile --------------------------------------------------------------------------------


def test_compile__says_what_was_written_found_and_where_to_open_it(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _journal(here)

    assert run(["compile", "shelves"]) == 0
    out, err = _said(capsys)
    site = here / "shelves-site"
    files = len([path for path in site.rglob("*") if path.is_file()]) - 1  # less the marker
    pages = len(list(site.rglob("*.html")))
    assert f"Written: {pages} pages of the public edition, 0 pictures (files: {files} new," in out
    assert "Found: " in out
    assert f"Open it: {Path('shelves-site') / 'index.html'}" in out
    assert str(here) not in out + err
    assert (here / "shelves-site" / "index.html").is_file()


def test_compile__again_finds_everything_as_before(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _journal(here)
    run(["compile", "shelves"])
    before = tree_bytes(here / "shelves-site")

    assert run(["compile", "shelves"]) == 0
    out, _ = _said(capsys)
    assert "(files: 0 new, 0 changed, " in out
    assert tree_bytes(here / "shelves-site") == before


@pytest.mark.parametrize(
    ("event", "options"), [(_ERROR, []), (_WARNING, ["--strict"])], ids=["error", "strict"]
)
def test_compile__with_errors_leaves_the_old_site_as_it_was(
    here: Path, capsys: pytest.CaptureFixture[str], event: str, options: list[str]
) -> None:
    _journal(here)
    run(["compile", "shelves"])
    before = tree_bytes(here / "shelves-site")
    _journal(here, _DIARY + event)

    assert run(["compile", "shelves", *options]) == 1
    out, _ = _said(capsys)
    assert "Nothing was written" in out
    assert tree_bytes(here / "shelves-site") == before


def test_compile__keeps_files_of_others_and_says_how_many(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _journal(here)
    run(["compile", "shelves"])
    (here / "shelves-site" / "own-notes.txt").write_text("mine", "utf-8")

    assert run(["compile", "shelves"]) == 0
    out, _ = _said(capsys)
    assert "Kept: 1 file" in out
    assert (here / "shelves-site" / "own-notes.txt").read_text("utf-8") == "mine"


def test_compile__keeper_edition_holds_what_the_public_one_leaves_out(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _journal(here, f"{_DIARY}\n2026-05-01 fen | private: true")

    assert run(["compile", "shelves", "--output", "public"]) == 0
    assert run(["compile", "shelves", "--output", "own", "--edition", "keeper"]) == 0
    out, _ = _said(capsys)
    assert "of the keeper edition" in out
    assert not (here / "public" / "entries" / "004.html").exists()
    assert (here / "own" / "entries" / "004.html").exists()


@pytest.mark.parametrize(
    "diary",
    [
        pytest.param("", id="settings only"),
        pytest.param("2026-01-01 fen | title: All well", id="one entry"),
        pytest.param("2026-01-01 | title: All well", id="no tank"),
        pytest.param("2026-01-01 fen | measured: {ph: 6.4}", id="no groups"),
        pytest.param("2026-01-01 fen | bought: {group: dusk, count: 5}", id="no broods"),
    ],
)
@pytest.mark.parametrize("edition", ["public", "keeper"])
def test_compile__a_journal_with_little_in_it_gives_a_calm_site(
    here: Path, capsys: pytest.CaptureFixture[str], diary: str, edition: str
) -> None:
    _journal(here, diary)

    assert run(["compile", "shelves", "--edition", edition]) == 0
    _said(capsys)
    assert "Two shelves" in (here / "shelves-site" / "index.html").read_text("utf-8")


@pytest.mark.parametrize("day", ["0001-01-01", "2025-12-31", "2026-03-15", "9999-12-31"])
def test_compile__as_of_any_day_gives_a_site(
    here: Path, capsys: pytest.CaptureFixture[str], day: str
) -> None:
    _journal(here)

    assert run(["compile", "shelves", "--as-of", day]) == 0
    _said(capsys)
    assert (here / "shelves-site" / "groups" / "young.html").is_file()


# --- outputs that are refused ---------------------------------------------------------------


def test_refusal__each_has_words() -> None:
    words = Words(ENGLISH)

    for reason in Refusal:
        key = reason.value.replace(" ", "-")
        assert "`letters`" in words("cli.refused", pick=key, path="letters"), reason


@pytest.mark.parametrize(
    ("output", "says"),
    [
        ("shelves", "is the journal itself"),
        ("shelves/site", "lies in the journal"),
        (".", "holds the journal"),
        ("/", "is the root of a disk"),
        ("letters", "holds files that filialog did not write"),
        ("letters/to-the-club.txt", "is no folder"),
        ("linked", "is a symbolic link"),
    ],
)
def test_refusal__names_the_folder_and_touches_nothing(
    here: Path, capsys: pytest.CaptureFixture[str], output: str, says: str
) -> None:
    _journal(here)
    (here / "letters").mkdir()
    (here / "letters" / "to-the-club.txt").write_text("Dear all", "utf-8")
    (here / "linked").symlink_to("letters")
    before = tree_bytes(here)

    assert run(["compile", "shelves", "--output", output]) == 2
    _, err = _said(capsys)
    assert says in err
    assert f"`{output}`" in err
    assert str(here) not in err
    assert tree_bytes(here) == before


def test_refusal__of_the_other_edition(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _journal(here)
    run(["compile", "shelves"])
    before = tree_bytes(here)

    assert run(["compile", "shelves", "--edition", "keeper"]) == 2
    _, err = _said(capsys)
    assert "holds the other edition" in err
    assert tree_bytes(here) == before


# --- usage ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ([], "COMMAND"),
        (["compil", "shelves"], "the nearest command is `compile`"),
        (["chekc", "shelves"], "the nearest command is `check`"),
        (["check"], "JOURNAL"),
        (["check", "shelves", "--colour"], "--colour"),
        (["check", "shelves", "--output", "site"], "--output"),
        (["check", "shelves", "--as", "2026-01-01"], "--as"),
        (["check", "shelves", "--as-of", "14.3.2026"], "'14.3.2026' is not a day such as"),
        (["check", "shelves", "--as-of", "2026-02-30"], "'2026-02-30' is not a day such as"),
        (["compile", "shelves", "--edition", "secret"], "secret"),
        (["check", "gone"], "there is no folder `gone`"),
        (["check", "shelves/journal.yaml"], "there is no folder `shelves/journal.yaml`"),
        (["check", "x" * 5000], "there is no folder"),
        (["check", "a\0b"], "there is no folder"),
        (["compile", "gone"], "there is no folder `gone`"),
    ],
)
def test_usage__is_told_on_the_error_stream(
    here: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], says: str
) -> None:
    _journal(here)

    assert run(arguments) == 2
    out, err = _said(capsys)
    assert out == ""
    assert says in err
    assert err.rstrip().endswith("see: filialog --help")
    assert sorted(path.name for path in here.iterdir()) == ["shelves"]


def test_usage__unlike_word_gets_no_nearest_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["zzzzzz"]) == 2
    _, err = _said(capsys)
    assert "nearest" not in err


# --- a disk that fails ----------------------------------------------------------------------


@pytest.mark.parametrize("part", range(12))
def test_disk__that_fails_leaves_the_old_site_and_says_so(
    here: Path, capsys: pytest.CaptureFixture[str], part: int
) -> None:
    """A disk that fills up at one of twelve points, spread over the whole of a compile."""
    _journal(here)

    def compiled(files: Files, output: Path) -> int:
        return compile_site(
            Words(ENGLISH), files, Path("shelves"),
            output=output, edition="public", as_of=None, strict=False,
        )  # fmt: skip

    output, copy, whole = Path("site"), Path("elsewhere", "site"), FaultyFiles()
    assert compiled(RealFiles(), output) == 0
    before = tree_bytes(output)
    shutil.copytree(output, copy)
    _journal(here, f"{_DIARY}\n2026-05-01 fen | died: {{group: young, count: 1}}")
    assert compiled(whole, copy) == 0
    capsys.readouterr()

    files = FaultyFiles(fail_at=1 + part * len(whole.operations) // 12, for_good=True)
    code = compiled(files, output)
    out, err = _said(capsys)
    assert files.failed
    assert str(here) not in out + err
    if code == 0:
        assert tree_bytes(output) == tree_bytes(copy), files.operations[-1]
    else:
        assert tree_bytes(output) == before, files.operations[-1]
        assert "the disk refused: " in err or "Nothing was written" in out


def test_disk__that_cannot_be_read_is_told_by_check(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    journal = _journal(here)

    code = check(
        Words(ENGLISH),
        FaultyFiles(fail_at=1, number=errno.EIO),
        journal,
        as_of=None,
        strict=False,
    )
    out, err = _said(capsys)
    assert code == 1
    assert str(here) not in out + err
    assert check(Words(ENGLISH), RealFiles(), journal, as_of=None, strict=False) == 0


# --- as a process ---------------------------------------------------------------------------


def test_process__version_and_help_are_no_error(tmp_path: Path) -> None:
    version = run_command("--version", folder=tmp_path)
    told = run_command("--help", folder=tmp_path)
    command = run_command("compile", "--help", folder=tmp_path)

    assert (version.returncode, version.stdout.split()[0]) == (0, "filialog")
    assert told.returncode == 0
    assert "check" in told.stdout
    assert "compile" in told.stdout
    assert (command.returncode, "--as-of" in command.stdout) == (0, True)


def test_process__leaves_with_the_code_of_the_command(tmp_path: Path) -> None:
    _journal(tmp_path, _DIARY + _ERROR)

    assert run_command("check", "shelves", folder=tmp_path).returncode == 1
    assert run_command("chek", "shelves", folder=tmp_path).returncode == 2


def test_process__names_in_any_script_reach_a_terminal_that_knows_only_ascii(
    tmp_path: Path,
) -> None:
    _journal(tmp_path, "2026-05-01 fen | died: {group: юный, count: 1}")

    done = run_command("check", "shelves", folder=tmp_path, variables={"PYTHONIOENCODING": "ascii"})
    assert done.returncode == 1
    assert "\\u044e" in done.stdout
    assert done.stderr == ""


def test_process__reader_that_goes_away_gives_no_traceback(tmp_path: Path) -> None:
    _journal(tmp_path, "\n".join([_ERROR] * 3000))
    with subprocess.Popen(
        [sys.executable, "-m", "filialog", "check", "shelves"],
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.read(10)
        process.stdout.close()
        told = process.stderr.read()
        code = process.wait(60)

    assert told == b""
    assert code == 1

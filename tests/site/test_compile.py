"""What a compile does to folders: the same bytes everywhere, all of a site or nothing."""

import shutil
from pathlib import Path

from tools.sites import EXAMPLE, compile_journal, run_command, tree_bytes


def _copy_of_example(folder: Path) -> Path:
    return Path(shutil.copytree(EXAMPLE, folder))


def test_compile__same_journal_gives_same_bytes_in_other_surroundings(
    site: Path, tmp_path: Path
) -> None:
    """Other folder, hash seed, time zone and file times; both editions."""
    edition = site.parent.name.rstrip("0123456789")
    journal = _copy_of_example(tmp_path / "elsewhere" / "deeper" / "journal")
    other = compile_journal(
        journal,
        tmp_path / "out",
        "--edition",
        edition,
        variables={"PYTHONHASHSEED": "271828", "TZ": "Pacific/Kiritimati", "LC_ALL": "C"},
    )

    first, second = tree_bytes(site), tree_bytes(other)

    assert sorted(first) == sorted(second)
    assert [name for name in first if first[name] != second[name]] == []


def test_compile__over_an_old_site_gives_the_same_bytes(public_site: Path, tmp_path: Path) -> None:
    journal = _copy_of_example(tmp_path / "journal")
    output = compile_journal(journal, tmp_path / "out", "--edition", "public")
    again = compile_journal(journal, tmp_path / "out", "--edition", "public")

    assert output == again
    assert tree_bytes(again) == tree_bytes(public_site)


def test_compile__writes_nothing_into_the_keepers_text(tmp_path: Path) -> None:
    journal = _copy_of_example(tmp_path / "journal")
    before = tree_bytes(journal)

    compile_journal(journal, tmp_path / "out")

    after = tree_bytes(journal)
    assert {name: after.get(name) for name in before} == before
    added = {name.partition("/")[0] for name in set(after) - set(before)}
    assert not [name for name in added if not name.startswith(".")], "a visible file was added"


def test_compile__an_error_leaves_the_old_site_as_it_was(tmp_path: Path) -> None:
    journal = _copy_of_example(tmp_path / "journal")
    output = compile_journal(journal, tmp_path / "out", "--edition", "public")
    before = tree_bytes(output)
    planted = journal / "diary" / "planted-by-the-test.md"
    planted.write_text(
        "---\ndate: 2026-01-15\ndied: {group: nobody-knows-it, count: 1}\n---\n", encoding="utf-8"
    )

    done = run_command("compile", journal, "--output", output, "--edition", "public")

    said = done.stdout + done.stderr
    assert done.returncode == 1, said
    assert "nobody-knows-it" in said
    assert "diary/planted-by-the-test.md:3:" in said
    assert "Traceback" not in said
    assert tree_bytes(output) == before


def test_compile__refuses_a_folder_that_is_not_its_own(tmp_path: Path) -> None:
    output = tmp_path / "letters"
    output.mkdir()
    (output / "to-the-club.txt").write_text("Dear all", encoding="utf-8")

    done = run_command("compile", EXAMPLE, "--output", output)

    said = done.stdout + done.stderr
    assert done.returncode in {1, 2}, said
    assert "letters" in said
    assert "Traceback" not in said
    assert tree_bytes(output) == {"to-the-club.txt": b"Dear all"}


def test_compile__refuses_the_journal_itself_as_output(tmp_path: Path) -> None:
    journal = _copy_of_example(tmp_path / "journal")
    before = tree_bytes(journal)

    done = run_command("compile", journal, "--output", journal)

    said = done.stdout + done.stderr
    assert done.returncode in {1, 2}, said
    assert "journal" in said
    assert "Traceback" not in said
    assert tree_bytes(journal) == before


def test_compile__refuses_a_keeper_edition_over_a_public_one(tmp_path: Path) -> None:
    output = compile_journal(EXAMPLE, tmp_path / "out", "--edition", "public")
    before = tree_bytes(output)

    done = run_command("compile", EXAMPLE, "--output", output, "--edition", "keeper")

    said = done.stdout + done.stderr
    assert done.returncode in {1, 2}, said
    assert "Traceback" not in said
    assert tree_bytes(output) == before


def test_check__finds_no_error_in_the_example() -> None:
    done = run_command("check", EXAMPLE)

    assert done.returncode == 0, done.stdout + done.stderr
    assert "error" not in done.stdout.replace("0 errors", "")


def test_check__names_file_line_and_nearest_word(tmp_path: Path) -> None:
    journal = tmp_path / "journal"
    (journal / "diary").mkdir(parents=True)
    (journal / "journal.yaml").write_text("title: Two tanks\nkeeper: A. Keeper\n", "utf-8")
    (journal / "diary" / "2026-01-10 alder.md").write_text(
        "---\npresent: {group: amber-glass, count: 6}\n---\n", encoding="utf-8"
    )
    (journal / "diary" / "2026-01-20 alder.md").write_text(
        "---\ndied: {group: amber-glas, count: 1}\n---\n", encoding="utf-8"
    )

    done = run_command("check", journal)

    said = done.stdout + done.stderr
    assert done.returncode == 1, said
    assert "diary/2026-01-20 alder.md:2:" in said
    assert "`amber-glas`" in said
    assert "`amber-glass`" in said


def test_command__unknown_words_are_a_usage_error() -> None:
    for arguments in (["brew"], ["compile"], ["compile", str(EXAMPLE), "--edition", "secret"]):
        done = run_command(*arguments)

        assert done.returncode == 2, (arguments, done.stdout, done.stderr)
        assert "Traceback" not in done.stderr


def test_command__a_journal_that_is_not_there_gives_no_traceback(tmp_path: Path) -> None:
    done = run_command("compile", tmp_path / "gone", "--output", tmp_path / "out")

    assert done.returncode in {1, 2}
    assert "gone" in done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "out").exists()

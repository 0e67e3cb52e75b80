"""The command `forecast`: what it prints, and the code it leaves with."""

import json
from pathlib import Path

import pytest

from filialog.cli import run
from filialog.cli.terminal_text import paragraph_lines, table_lines, terminal_width
from tools.diaries import GLOW, diary_files
from tools.sites import run_command

_DIARY = """
    2026-01-01 fen | bought: {group: dusk, genotype: G/G, count: 6, females: 3, males: 3}
    2026-01-01 moss | bought: {group: ember, genotype: g/g, count: 6, females: 3, males: 3}
    2026-01-02 moss | bought: {group: lads, genotype: g/g, count: 3, males: 3}
    2026-01-02 moss | bought: {group: stranger, count: 3}
    2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: ember, count: 20}
"""


@pytest.fixture
def shelves(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stand beside a journal called `shelves`, at a terminal of 80 columns."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    return _journal(tmp_path, _DIARY)


def _journal(folder: Path, diary: str) -> Path:
    journal = folder / "shelves"
    for path, data in diary_files(diary, settings="species: neocaridina-davidi\n").items():
        (journal / path).parent.mkdir(parents=True, exist_ok=True)
        (journal / path).write_bytes(data)
    return journal


def _forecast(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    code = run(["forecast", "shelves", *arguments])
    out, err = capsys.readouterr()
    assert "Traceback" not in out + err
    return code, out.replace("\N{NO-BREAK SPACE}", " "), err


@pytest.mark.usefixtures("shelves")
def test_forecast__says_first_what_the_young_should_be(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = _forecast(capsys, "young", "young")

    assert code == 0
    assert err == ""
    lines = out.splitlines()
    assert lines[:8] == [
        "Young of young (dams) by young (sires)",
        "",
        "About 1 in 4 of the young should be glowing; the rest look dull, and 2 in 3 of",
        "these carry g unseen.",
        "",
        "What they should look like",
        "  look      share   in a brood of 21 to 51   to see one",
        "  dull       75 %                 16 to 38            3",
    ]
    assert "  glowing    25 %                  5 to 13           11" in lines
    assert "  Generation of the young: F2." in lines
    assert "  young cannot breed before 30 April 2026: they are too young." in lines
    assert "  diary/005.md:4" in lines


@pytest.mark.usefixtures("shelves")
@pytest.mark.parametrize(
    ("dams", "sires", "sentence"),
    [
        pytest.param(
            "dusk",
            "ember",
            "All young should look dull, and every one of these carries g unseen.",
            id="first cross",
        ),
        pytest.param(
            "young",
            "ember",
            "About half of the young should be glowing; the other half look dull, and every one of"
            " these carries g unseen.",
            id="backcross",
        ),
        pytest.param("ember", "ember", "All young should look glowing.", id="pure"),
        pytest.param(
            "young",
            "G/-",
            "How many young should be glowing hangs on which animals breed: 0 % in some pairs,"
            " 25 % in others, 16.7 % on average; the rest look dull, and 3 in 5 of these carry g"
            " unseen.",
            id="sire one of two genotypes",
        ),
    ],
)
def test_forecast__sentence(
    capsys: pytest.CaptureFixture[str], dams: str, sires: str, sentence: str
) -> None:
    code, out, _ = _forecast(capsys, dams, sires)

    assert code == 0
    assert " ".join(out.split("\n\n")[1].split()) == sentence


def test_forecast__of_two_equal_looks_the_one_that_hides_nothing_stands_first(
    shelves: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    first = "looks:\n  - {look: glowing, when: {g: hom g}}\n  - {look: dull}\n"
    head, _, tail = GLOW.partition("looks:\n")
    trait = f"{head}{first}{tail[tail.index('source') :]}"
    (shelves / "traits" / "glow.yaml").write_text(trait, encoding="utf-8")

    code, out, _ = _forecast(capsys, "young", "ember")

    assert code == 0
    assert "About half of the young should be glowing; the other half look dull" in out


@pytest.mark.usefixtures("shelves")
def test_forecast__set_of_dams_says_how_often_each(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = _forecast(capsys, "dusk, ember", "lads")

    assert code == 0
    assert out.startswith("Young of dusk or ember (dams) by lads (sires)\n")
    assert "dam dusk, chosen in 50 % of the cases: G/G (claimed); 6 on the book" in out
    assert "“Never sure”" in out


@pytest.mark.usefixtures("shelves")
@pytest.mark.parametrize(
    ("dams", "sires", "says"),
    [
        pytest.param("lads", "ember", "lads holds no females", id="males only"),
        pytest.param(
            "young", "stranger", "Nothing is known of the genotype of stranger", id="nothing"
        ),
    ],
)
def test_forecast__says_plainly_what_stands_in_the_way(
    capsys: pytest.CaptureFixture[str], dams: str, sires: str, says: str
) -> None:
    code, out, err = _forecast(capsys, dams, sires)

    assert code == 1
    assert says in " ".join(out.split())
    assert "What they should look like" not in out
    assert "Descent" in out
    assert err == ""


@pytest.mark.usefixtures("shelves")
@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        pytest.param(("yuong", "ember"), "the nearest name is `young`", id="group"),
        pytest.param(("young", "ember,"), "`ember,` names no group", id="empty name"),
        pytest.param(("young", "ember", "--model", "glwo"), "nearest name is `glow`", id="model"),
        pytest.param(("young",), "required: SIRES", id="one side"),
        pytest.param(("young", "ember", "--format", "xml"), "invalid choice", id="format"),
    ],
)
def test_forecast__wrong_names_are_wrong_usage(
    capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], says: str
) -> None:
    code, out, err = _forecast(capsys, *arguments)

    assert code == 2
    assert out == ""
    assert says in err


@pytest.mark.usefixtures("shelves")
def test_forecast__genotype_of_no_model_is_wrong_usage(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = _forecast(capsys, "young", "G/x")

    assert code == 2
    assert "cannot read this genotype: G/x" in out


@pytest.mark.usefixtures("shelves")
def test_forecast__json_holds_every_digit(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = _forecast(capsys, "young", "young", "--format", "json")

    assert code == 0
    row = json.loads(out)
    assert [one["average"] for one in row["looks"]] == [0.75, 0.25]
    assert row["hidden"] == [{"look": "dull", "allele": "g", "share": 2 / 3}]
    assert row["generation"] == "F2"
    assert row["events"] == ["diary/005.md:4", "diary/001.md:4", "diary/002.md:4"]
    assert row["dams"][0]["adult_from"] == "2026-04-30"
    assert row["as_of"] == "2026-03-01"


@pytest.mark.usefixtures("shelves")
def test_forecast__day_decides_who_is_there(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = _forecast(capsys, "young", "ember", "--as-of", "2026-02-01")

    assert code == 1
    assert "young does not exist yet on 1 February 2026." in out


def test_forecast__journal_with_errors_is_not_reckoned_with(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    _journal(tmp_path, _DIARY + "2026-05-01 fen | died: {group: yuong, count: 1}")

    code, out, err = _forecast(capsys, "young", "ember")

    assert code == 1
    assert out == ""
    assert "`yuong`" in err
    assert "Nothing was forecast" in err


@pytest.mark.parametrize("columns", ["40", "60", "100"])
def test_forecast__keeps_to_the_width(
    shelves: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    columns: str,
) -> None:
    assert shelves.is_dir()
    monkeypatch.setenv("COLUMNS", columns)

    _, out, _ = _forecast(capsys, "dusk,ember", "young,ember")

    assert max(map(len, out.splitlines())) <= int(columns)


def test_forecast__same_bytes_under_every_hash_seed(shelves: Path) -> None:
    runs = [
        run_command(
            "forecast", shelves, "dusk,ember", "young,ember", variables={"PYTHONHASHSEED": seed}
        )
        for seed in ("1", "2")
    ]

    assert [one.returncode for one in runs] == [0, 0]
    assert runs[0].stdout == runs[1].stdout
    assert "Young of dusk or ember" in runs[0].stdout


# --- lines of a terminal --------------------------------------------------------------------


def test_table_lines__columns_where_they_fit() -> None:
    assert table_lines(
        ["look", "n"], [["pale", "7"], ["\N{CJK UNIFIED IDEOGRAPH-7D05}", "12"]], width=40
    ) == [
        "  look    n",
        "  pale    7",
        "  \N{CJK UNIFIED IDEOGRAPH-7D05}     12",
    ]


def test_table_lines__one_value_a_line_where_they_do_not() -> None:
    assert table_lines(["look", "number"], [["pale" * 9, "7"]], width=40) == [
        "  " + "pale" * 9,
        "    number: 7",
    ]


def test_paragraph_lines__set_in_below_a_heading() -> None:
    assert paragraph_lines("one two three", width=9, indent=True) == ["  one two", "    three"]


@pytest.mark.parametrize(
    ("columns", "width"), [("10", 40), ("72", 72), ("500", 100), ("", 80), ("many", 80)]
)
def test_terminal_width__has_bounds(
    monkeypatch: pytest.MonkeyPatch, columns: str, width: int
) -> None:
    monkeypatch.setenv("COLUMNS", columns)

    assert terminal_width() == width

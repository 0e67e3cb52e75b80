"""Which paths a page may have."""

import pytest

from filialog.build.names import check_names, folders_above, path_key
from filialog.build.refusals import NameFault, NameRefused


@pytest.mark.parametrize(
    ("path", "fault"),
    [
        ("", NameFault.NOT_RELATIVE),
        ("/a.html", NameFault.NOT_RELATIVE),
        ("a/", NameFault.NOT_RELATIVE),
        ("a//b", NameFault.NOT_RELATIVE),
        (".", NameFault.NOT_RELATIVE),
        ("./a", NameFault.NOT_RELATIVE),
        ("../a", NameFault.NOT_RELATIVE),
        ("a/../b", NameFault.NOT_RELATIVE),
        ("a/..", NameFault.NOT_RELATIVE),
        ("a\\b", NameFault.CHARACTER),
        ("C:/a", NameFault.CHARACTER),
        ("a\nb", NameFault.CHARACTER),
        ("a\0b", NameFault.CHARACTER),
        ("a?b", NameFault.CHARACTER),
        ("a\udc80b", NameFault.CHARACTER),
        ("con", NameFault.RESERVED),
        ("d/AUX.txt", NameFault.RESERVED),
        ("nul .html", NameFault.RESERVED),
        ("com1.html", NameFault.RESERVED),
        ("lpt¹/a.html", NameFault.RESERVED),
        ("conin$", NameFault.RESERVED),
        ("a./b", NameFault.ENDING),
        ("a ", NameFault.ENDING),
        ("x" * 201, NameFault.TOO_LONG),
        ("é" * 101, NameFault.TOO_LONG),
        ("/".join(["x" * 100] * 10), NameFault.TOO_LONG),
    ],
)
def test_names__a_path_that_some_system_refuses(path: str, fault: NameFault) -> None:
    with pytest.raises(NameRefused) as caught:
        check_names(["good.html", path])
    assert caught.value.fault is fault
    assert str(caught.value).encode()


@pytest.mark.parametrize(
    "paths",
    [
        [],
        ["index.html", "a/index.html", "a/b/index.html", "é/ß.html"],
        ["console.html", "com.html", "com10.html", "auxin/x", "a.b/c", "..a", ".headers"],
        ["x" * 200],
    ],
)
def test_names__ordinary_paths_are_taken(paths: list[str]) -> None:
    check_names(paths)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("a.html", "A.html"),
        ("d/a.html", "D/A.html"),
        ("caf\u00e9.html", "cafe\u0301.html"),
        ("\u212a.html", "k.html"),  # KELVIN SIGN
        ("stra\u00dfe.html", "STRASSE.html"),
        ("\u0390.html", "\u1fd3.html"),
        ("D/a.html", "d/b.html"),
        ("x/D/a.html", "x/d/e/b.html"),
    ],
)
def test_names__two_that_are_one_elsewhere_are_both_named(one: str, other: str) -> None:
    with pytest.raises(NameRefused) as caught:
        check_names([one, other])
    assert caught.value.fault is NameFault.COLLISION
    assert {caught.value.path, caught.value.other} == {one, other}


@pytest.mark.parametrize(("one", "other"), [("a", "a/b"), ("A", "a/b/c"), ("x/a", "x/a/b")])
def test_names__a_page_that_is_a_folder_is_refused(one: str, other: str) -> None:
    with pytest.raises(NameRefused) as caught:
        check_names([other, one])
    assert caught.value.fault is NameFault.FILE_AND_FOLDER
    assert (caught.value.path, caught.value.other) == (one, other)


@pytest.mark.parametrize("path", ["own", "OWN", "own/a"])
def test_names__reserved_names_of_ours_are_refused_at_the_top(path: str) -> None:
    with pytest.raises(NameRefused) as caught:
        check_names([path], reserved=frozenset({"own"}))
    assert caught.value.fault is NameFault.RESERVED
    check_names(["a/own", "owner"], reserved=frozenset({"own"}))


def test_names__the_first_fault_does_not_depend_on_the_order() -> None:
    faults = []
    for paths in (["b?", "a?", "C", "c"], ["c", "C", "a?", "b?"]):
        with pytest.raises(NameRefused) as caught:
            check_names(paths)
        faults.append(str(caught.value))
    assert faults[0] == faults[1]


def test_folders_above__gives_all_of_them() -> None:
    assert folders_above(["a/b/c.html", "a/d.html", "e.html"]) == {"a", "a/b"}
    assert folders_above([]) == frozenset()


def test_path_key__is_stable_under_itself() -> None:
    for text in ("Straße", "\u1fd3", "\u212a", "I\u0307"):
        assert path_key(path_key(text)) == path_key(text)

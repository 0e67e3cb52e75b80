"""Addresses: fixed, plain, relative."""

import re

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from filialog.build.names import check_names
from filialog.pages.addresses import entry_address, group_address, relative, slug


@pytest.mark.parametrize(
    ("name", "wanted"),
    [
        ("slate-f2-a", "slate-f2-a"),
        ("Café  Blue!", "cafe-blue"),
        ("cafe\N{COMBINING ACUTE ACCENT}-blue", "cafe-blue"),
        ("STRASSE ß", "strasse-ss"),
        ("CON", "x-con"),
        ("com1", "x-com1"),
        ("com²", "x-com2"),
        ("index", "x-index"),
        ("a.b.", "a-b"),
        ("../../etc/passwd", "etc-passwd"),
        ("x\N{RIGHT-TO-LEFT OVERRIDE}y", "x-y"),
    ],
)
def test_slug__is_plain(name: str, wanted: str) -> None:
    assert slug(name) == wanted


def test_slug__keeps_names_of_other_scripts_apart() -> None:
    assert slug("Синий") != slug("Зелёный")
    assert slug("Синий 2").startswith("2-x")
    assert slug("青") == slug("青")


def test_slug__keeps_long_names_apart() -> None:
    long = "a" * 200

    assert slug(long) != slug(long + "b")
    assert len(slug(long)) <= 80


@given(st.text())
@example("")
@example("…")
@example("aux")
def test_slug__is_safe_on_every_file_system(name: str) -> None:
    found = slug(name)

    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", found)
    assert len(found.encode()) <= 80
    check_names([group_address(name)])


def test_entry_address__keeps_folders() -> None:
    assert (
        entry_address("2026/03 March/2026-03-14 fen") == "entries/2026/03-march/2026-03-14-fen.html"
    )


_PARTS = st.lists(st.sampled_from(["a", "b", "groups"]), min_size=1, max_size=3)
_ADDRESSES = _PARTS.map(lambda parts: "/".join(parts) + ".html")


@given(_ADDRESSES, _ADDRESSES)
def test_relative__leads_there_and_names_a_file(start: str, to: str) -> None:
    link = relative(start=start, to=to)
    place = start.split("/")[:-1]
    for part in link.split("/"):
        if part == "..":
            place.pop()
        else:
            place.append(part)

    assert "/".join(place) == to
    assert not link.startswith("/")
    assert not link.endswith("/")

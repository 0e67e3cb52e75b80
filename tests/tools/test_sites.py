from pathlib import Path

from tools.sites import PAGE_KINDS, Row, Table, page_of_each_kind, read_page

PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Cross &amp; brood</title>
<style>p { color: red }</style></head>
<body><main><img src="a.png" alt="three young"><p>One<br>two
<section data-table data-p="0.25" data-method="exact"><h2>Looks</h2><table>
<tr><th>look<th>seen
<tr data-look="pale" data-expected="2.5" data-observed="3" data-low="0.1" data-high="0.6">
<td>pale<td>3</tr></table></section><p>After
<section data-table data-method="none"><p>no tally yet</p></section></main></body></html>
"""


def test_read_page__finds_tables_text_and_tags(tmp_path: Path) -> None:
    (tmp_path / "page.html").write_text(PAGE, encoding="utf-8")

    page = read_page(tmp_path, "page.html")

    row = Row(look="pale", expected=2.5, observed=3, low=0.1, high=0.6)
    assert page.tables == [
        Table(p=0.25, method="exact", rows=(row,)),
        Table(p=None, method="none", rows=()),
    ]
    assert page.texts[:4] == ["Cross & brood", "three young", "One", "two"]
    assert "After" in page.texts
    assert "color" not in page.text
    assert ("img", {"src": "a.png", "alt": "three young"}) in page.tags


def test_page_of_each_kind__takes_the_longest_and_no_list(tmp_path: Path) -> None:
    expected = {}
    for kind, place in PAGE_KINDS.items():
        if place.endswith(".html"):
            (tmp_path / place).write_text(kind, encoding="utf-8")
            expected[kind] = place
            continue
        (tmp_path / place).mkdir()
        (tmp_path / place / "index.html").write_text("a long list of all", encoding="utf-8")
        (tmp_path / place / "a.html").write_text("longer", encoding="utf-8")
        (tmp_path / place / "b.html").write_text("short", encoding="utf-8")
        expected[kind] = f"{place}a.html"

    assert page_of_each_kind(tmp_path) == expected
    assert {"groups/a.html", "index.html"} < set(expected.values())

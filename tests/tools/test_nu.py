from pathlib import Path

from tools.nu import nu_messages

SOUND = """<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'">
<title>Front</title><script type="application/json">{}</script></head>
<body><h1>Front</h1></body></html>
"""


def test_nu_messages__says_nothing_of_a_sound_page(tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    page.write_text(SOUND, encoding="utf-8")

    assert nu_messages([page]) == ()


def test_nu_messages__names_faults_of_page_style_and_drawing(tmp_path: Path) -> None:
    page, style, drawing = (tmp_path / name for name in ("page.html", "site.css", "drop.svg"))
    page.write_text(SOUND.replace("<h1>", '<img src="x.png"><h1>'), encoding="utf-8")
    style.write_text("p { colour: red }\n", encoding="utf-8")
    drawing.write_text('<svg xmlns="http://www.w3.org/2000/svg"><drop/></svg>\n', encoding="utf-8")

    messages = nu_messages([page, style, drawing])

    for name, words in (("page.html", "alt"), ("site.css", "colour"), ("drop.svg", "drop")):
        assert any(name in message and words in message for message in messages), messages


def test_nu_messages__names_a_warning_too(tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    page.write_text(SOUND.replace(' lang="en"', ""), encoding="utf-8")

    assert any("lang" in message for message in nu_messages([page]))

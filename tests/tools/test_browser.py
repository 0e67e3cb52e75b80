from pathlib import Path

import pytest

from tools.browser import chromium, open_page

PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy"
 content="default-src 'none'; script-src 'self'; img-src 'self' https:">
<title>Front</title></head>
<body><main><h1>Front</h1><p id="said">unwritten</p></main>
<script src="page.js"></script><script>document.title = "inline"</script>
<img src="https://example.invalid/x.png" alt=""></body></html>
"""


@pytest.mark.browser
def test_open_page__runs_scripts_only_where_wanted_and_reports_what_is_wrong(
    tmp_path: Path,
) -> None:
    page = tmp_path / "page.html"
    page.write_text(PAGE, encoding="utf-8")
    (tmp_path / "page.js").write_text(
        "document.getElementById('said').textContent = 'written'\n", encoding="utf-8"
    )

    with chromium() as browser:
        with open_page(browser, page, width=320) as visit:
            assert visit.page.inner_text("#said") == "written"
            assert visit.page.evaluate("document.documentElement.clientWidth") == 320
            assert visit.page.title() == "Front"
            assert any("Content Security Policy" in said for said in visit.complaints)
            assert visit.strangers == ["https://example.invalid/x.png"]
        with open_page(browser, page, scripts=False) as visit:
            assert visit.page.inner_text("#said") == "unwritten"

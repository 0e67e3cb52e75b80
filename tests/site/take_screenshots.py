"""Take pictures of one page of each kind, for a look at what a change did.

    .venv/bin/python tests/site/take_screenshots.py SITE PICTURES

writes PICTURES/<kind>-<width>-<scheme>.png at 360 and 1280 CSS pixels, light and dark.
"""

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Literal

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from tools.browser import chromium, open_page
from tools.sites import page_of_each_kind

if TYPE_CHECKING:
    from playwright.sync_api import Browser

WIDTHS = (360, 1280)
SCHEMES: tuple[Literal["light", "dark"], ...] = ("light", "dark")


def take_screenshots(site: Path, pictures: Path) -> list[Path]:
    """Write the pictures and return their paths."""
    pictures.mkdir(parents=True, exist_ok=True)
    written = []
    with chromium() as browser:
        for kind, name in page_of_each_kind(site).items():
            for width in WIDTHS:
                for scheme in SCHEMES:
                    picture = pictures / f"{kind}-{width}-{scheme}.png"
                    _take(browser, site / name, picture, width=width, scheme=scheme)
                    written.append(picture)
    return written


def _take(
    browser: "Browser", page: Path, picture: Path, *, width: int, scheme: Literal["light", "dark"]
) -> None:
    with open_page(browser, page, width=width, scheme=scheme) as visit:
        visit.page.screenshot(path=picture, full_page=True)


def main() -> None:
    """Read the two folders from the command line."""
    words = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    words.add_argument("site", type=Path, help="a compiled folder")
    words.add_argument("pictures", type=Path, help="where the pictures go")
    given = words.parse_args()
    for picture in take_screenshots(given.site, given.pictures):
        sys.stdout.write(f"{picture}\n")


if __name__ == "__main__":
    main()

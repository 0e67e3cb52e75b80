"""Take the picture of the README: the first screen of the compiled example, by a script.

    .venv/bin/python tests/site/take_front_picture.py SITE content/pictures/front.png

The palette is cut to 255 colours, which few miss.
"""

import argparse
import io
import sys
from pathlib import Path

from PIL import Image

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from tools.browser import chromium, open_page

WIDTH, HEIGHT = 1200, 900


def take_front_picture(site: Path, picture: Path) -> None:
    """Write the picture."""
    with chromium() as browser, open_page(browser, site / "index.html", width=WIDTH) as visit:
        clip = {"x": 0, "y": 0, "width": WIDTH, "height": HEIGHT}
        data = visit.page.screenshot(clip=clip)  # type: ignore[arg-type]
    picture.parent.mkdir(parents=True, exist_ok=True)
    with Image.open(io.BytesIO(data)) as shot:
        shot.convert("RGB").quantize(255).save(picture, optimize=True)


def main() -> None:
    """Read the two paths from the command line."""
    words = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    words.add_argument("site", type=Path)
    words.add_argument("picture", type=Path)
    given = words.parse_args()
    take_front_picture(given.site, given.picture)


if __name__ == "__main__":
    main()

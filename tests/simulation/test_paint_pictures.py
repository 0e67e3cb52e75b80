"""The pictures of the example are those of the plans, and full of what must not be published."""

from datetime import date
from io import BytesIO

import numpy as np
import pytest
from PIL import Image, ImageOps

from photos.making import GPS_MARKS, SECRETS
from simulation.paint_pictures import SIZE, paint, picture_file
from simulation.painting.scenes import PLANS, Plan
from tools.sites import ROOT

FOLDER = ROOT / "example_site" / "photos"
BY_PATH = {plan.path: plan for plan in PLANS}


def _file(plan: Plan) -> bytes:
    return (FOLDER / plan.path).read_bytes()


def test_example__has_exactly_the_planned_pictures() -> None:
    there = {
        path.relative_to(FOLDER).as_posix()
        for path in FOLDER.rglob("*")
        if path.is_file() and path.name != "album.md"
    }

    assert there == set(BY_PATH)
    assert len(there) >= 40


def test_example__is_no_burden() -> None:
    sizes = {plan.path: len(_file(plan)) for plan in PLANS}

    assert sum(sizes.values()) < 8_000_000
    assert {path: size for path, size in sizes.items() if not 50_000 < size < 250_000} == {}


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.path)
def test_picture__holds_what_a_camera_leaves(plan: Plan) -> None:
    data = _file(plan)
    image = Image.open(BytesIO(data))

    assert ImageOps.exif_transpose(image).size == (SIZE[::-1] if plan.portrait else SIZE)
    planted = [secret for secret in SECRETS if secret.encode() in data]
    assert planted == ([] if plan.bare else list(SECRETS[:7]))
    assert any(mark in data for mark in GPS_MARKS) is not plan.bare
    assert image.getexif().get(0x0112, 1) == plan.orientation
    if not plan.bare:
        assert image.getexif().get_ifd(0x8769)[0x9003] == plan.taken


def test_plans__turn_some_pictures_every_way() -> None:
    assert {plan.orientation for plan in PLANS} >= {1, 2, 3, 5, 6, 7, 8}
    assert any(plan.bare for plan in PLANS)
    assert any(plan.portrait for plan in PLANS)


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.path)
def test_plans__are_dated_as_their_folder_says(plan: Plan) -> None:
    folder = plan.path.partition("/")[0]

    assert plan.taken[:10].replace(":", "-") == folder[:10]
    assert date.fromisoformat(folder[:10]).year in {2026, 2027}


def test_paint__gives_the_same_bytes_every_time() -> None:
    plan = BY_PATH["2026-08-09-hazel/0234.jpg"]

    assert picture_file(plan, scale=0.15) == picture_file(plan, scale=0.15)


def test_example__is_what_the_plans_paint() -> None:
    plan = BY_PATH["2026-09-20-hazel/black-tray-3.jpg"]
    there = np.asarray(ImageOps.exif_transpose(Image.open(BytesIO(_file(plan)))), int)

    # Encoders differ from one version of the libraries to the next by a little, not by more.
    assert float(np.abs(there - paint(plan)).mean()) < 2.0

"""Paint the pictures of the example journal.

    python tests/simulation/paint_pictures.py example_site/photos

No camera was near any animal: shapes, light and blur are computed from the plans in
`painting/scenes.py`, each from a stream of random numbers of its own. The files then get what a
camera would write into them, made-up names and places included, so that the pages can be tested
not to show it.
"""

import sys
import zlib
from pathlib import Path

import numpy as np

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from simulation.painting.camera import as_camera_file
from simulation.painting.light import Array, Canvas
from simulation.painting.scenes import PLANS, Plan

__all__ = ["SIZE", "paint", "picture_file"]

SIZE = (1600, 1067)
"""Width and height of a picture in pixels, the other way round for a portrait."""


def paint(plan: Plan, *, scale: float = 1.0) -> Array:
    """Return the pixels of a picture; a smaller scale is quicker."""
    draw = np.random.default_rng((20260215, zlib.crc32(plan.path.encode())))
    width, height = SIZE[::-1] if plan.portrait else SIZE
    canvas = Canvas(width, height, draw, scale=scale)
    plan.paint(canvas)
    return canvas.finish()


def picture_file(plan: Plan, *, scale: float = 1.0) -> bytes:
    """Return the file of a picture."""
    return as_camera_file(
        paint(plan, scale=scale), taken=plan.taken, orientation=plan.orientation, bare=plan.bare
    )


def _main(folder: Path, wanted: list[str]) -> None:
    for plan in PLANS:
        if wanted and not any(word in plan.path for word in wanted):
            continue
        target = folder / plan.path
        target.parent.mkdir(parents=True, exist_ok=True)
        data = picture_file(plan)
        target.write_bytes(data)
        print(f"{plan.path}: {len(data) / 1000:.0f} kB")


if __name__ == "__main__":
    _main(Path(sys.argv[1]), sys.argv[2:])

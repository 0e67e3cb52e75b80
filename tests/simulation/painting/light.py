"""Light on a canvas: colours in linear light, noise, soft edges, and the way to eight bits.

All painting is done in linear light, so that blur spreads brightness as a lens does.
"""

from typing import Any

import numpy as np
from numpy.random import Generator
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

__all__ = [
    "Array",
    "Canvas",
    "blurred",
    "cloud",
    "colour",
    "mix",
    "polyline",
    "smooth",
    "to_eight_bits",
]

Array = NDArray[Any]


def colour(digits: str) -> Array:
    """Return a colour written as six hexadecimal digits of sRGB, in linear light."""
    parts = np.array([int(digits[i : i + 2], 16) for i in (0, 2, 4)], np.float32) / 255
    return to_linear(parts)


def to_linear(value: Array) -> Array:
    """Undo the transfer function of IEC 61966-2-1 (sRGB), from memory."""
    return np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4).astype(
        np.float32
    )


def to_eight_bits(light: Array) -> Array:
    """Apply the transfer function of sRGB, with a soft shoulder and a little more contrast."""
    shouldered = np.where(light > 0.7, 0.7 + 0.3 * (1 - np.exp(-(light - 0.7) / 0.3)), light)
    value = np.clip(shouldered, 0, 1)
    encoded = np.where(value <= 0.0031308, value * 12.92, 1.055 * value ** (1 / 2.4) - 0.055)
    curved = encoded + 0.22 * (encoded - 0.42) * encoded * (1 - encoded) * 4 * 0.8
    bits: Array = (np.clip(curved, 0, 1) * 255 + 0.5).astype(np.uint8)
    return bits


def smooth(low: Array | float, high: Array | float, value: Array | float) -> Array:
    """Go from 0 to 1 between two values without a corner; `high` may lie below `low`."""
    part: Array = np.clip((value - low) / (high - low), 0, 1)
    eased: Array = part * part * (3 - 2 * part)
    return eased


def mix(one: Array, other: Array, share: Array | float) -> Array:
    """Return a colour between two, `share` of the second."""
    weight = np.asarray(share, np.float32)[..., None] if np.ndim(share) else np.float32(share)
    return one * (1 - weight) + other * weight


def cloud(
    draw: Generator, height: int, width: int, *, grain: float, octaves: int = 4, stretch: float = 1
) -> Array:
    """Return clouds of noise around 0 with a spread of about 1; `grain` is the coarsest size."""
    total = np.zeros((height, width), np.float32)
    weight = 1.0
    for _ in range(octaves):
        rows = max(2, int(height / grain) + 2)
        columns = max(2, int(width / (grain * stretch)) + 2)
        coarse = draw.standard_normal((rows, columns)).astype(np.float32)
        layer = np.asarray(
            Image.fromarray(coarse).resize((width, height), Image.Resampling.BICUBIC)
        )
        total += weight * layer
        weight *= 0.55
        grain = max(1.0, grain / 2.1)
    return total / max(1e-6, float(total.std()))


def blurred(picture: Array, sigma: float) -> Array:
    """Blur all channels; a wide blur is done on a smaller copy."""
    if sigma < 0.3:
        return picture
    if sigma > 6:
        height, width = picture.shape[:2]
        factor = int(min(8, sigma // 2))
        small = _resize(picture, max(2, width // factor), max(2, height // factor))
        small = blurred(small, sigma / factor)
        return _resize(small, width, height)
    spread = (sigma, sigma, 0) if picture.ndim == 3 else sigma
    result: Array = ndimage.gaussian_filter(picture, spread, mode="nearest", truncate=3)
    return result


def _resize(picture: Array, width: int, height: int) -> Array:
    channels = picture[..., None] if picture.ndim == 2 else picture
    layers = [
        np.asarray(
            Image.fromarray(np.ascontiguousarray(channels[..., i], np.float32)).resize(
                (width, height), Image.Resampling.BILINEAR
            )
        )
        for i in range(channels.shape[2])
    ]
    return layers[0] if picture.ndim == 2 else np.stack(layers, axis=2)


def polyline(points: Array, number: int) -> Array:
    """Return this many points on a smooth curve through the given ones, evenly along it."""
    knots = np.vstack([2 * points[0] - points[1], points, 2 * points[-1] - points[-2]])
    curve = []
    for i in range(1, len(knots) - 2):
        a, b, c, d = knots[i - 1 : i + 3]
        t = np.linspace(0, 1, 24, endpoint=False)[:, None]
        curve.append(
            0.5
            * (
                2 * b
                + (c - a) * t
                + (2 * a - 5 * b + 4 * c - d) * t**2
                + (3 * b - a - 3 * c + d) * t**3
            )
        )
    dense = np.vstack([*curve, points[-1:]])
    steps = np.hypot(*np.diff(dense[:, :2], axis=0).T)
    along = np.concatenate([[0], np.cumsum(steps)])
    wanted = np.linspace(0, along[-1], number)
    return np.stack([np.interp(wanted, along, dense[:, i]) for i in range(points.shape[1])], axis=1)


class Canvas:
    """A picture in the making, in linear light."""

    def __init__(self, width: int, height: int, draw: Generator, *, scale: float = 1.0) -> None:
        self.width = max(8, round(width * scale))
        self.height = max(8, round(height * scale))
        self.scale = scale
        self.draw = draw
        self.light: Array = np.zeros((self.height, self.width, 3), np.float32)

    def px(self, length: float) -> float:
        """Return a length of the full-sized picture in pixels of this one."""
        return length * self.scale

    @property
    def grid(self) -> tuple[Array, Array]:
        """Coordinates of the pixels in the full-sized picture."""
        y, x = np.mgrid[0 : self.height, 0 : self.width].astype(np.float32)
        return x / self.scale, y / self.scale

    def lay(self, premultiplied: Array, alpha: Array, left: int, top: int) -> None:
        """Lay a patch over the picture; what sticks out is cut off."""
        height, width = alpha.shape
        x0, y0 = max(0, left), max(0, top)
        x1, y1 = min(self.width, left + width), min(self.height, top + height)
        if x0 >= x1 or y0 >= y1:
            return
        cut = (slice(y0 - top, y1 - top), slice(x0 - left, x1 - left))
        there = self.light[y0:y1, x0:x1]
        there *= (1 - alpha[cut])[..., None]
        there += premultiplied[cut]

    def tint(self, shade: Array, alpha: Array) -> None:
        """Lay one colour, or a field of colours, over the whole picture."""
        self.light = mix(self.light, shade, alpha)

    def soften(self, sigma: float) -> None:
        """Put all that is painted so far out of focus."""
        self.light = blurred(self.light, self.px(sigma))

    def glow(self, sigma: float, strength: float) -> None:
        """Let bright parts spill over, as behind glass that was not wiped."""
        self.light = self.light * (1 - strength) + blurred(self.light, self.px(sigma)) * strength

    def finish(self, *, vignette: float = 0.25, grain: float = 0.006) -> Array:
        """Return the picture as eight-bit sRGB, with the grain and falloff of a lens."""
        y, x = np.mgrid[-1 : 1 : self.height * 1j, -1 : 1 : self.width * 1j]
        light = self.light * (1 - vignette * np.clip(x * x + y * y, 0, 2) / 2)[..., None]
        noise = self.draw.standard_normal((self.height, self.width, 1))
        light = light * (1 + grain * 2 * noise) + grain * 0.06 * noise
        return to_eight_bits(np.clip(light, 0, None))

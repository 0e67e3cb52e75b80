"""What stands in a tank: water, gravel, moss, leaves, stones, sponges and the glass itself."""

import numpy as np
from numpy.random import Generator
from PIL import Image, ImageDraw
from scipy import spatial

from simulation.painting.light import Array, Canvas, blurred, cloud, colour, mix, smooth

__all__ = [
    "bubbles",
    "dust",
    "glass_haze",
    "ground",
    "ground_from_above",
    "leaf",
    "moss",
    "moss_from_above",
    "rays",
    "sponge",
    "stone",
    "water",
]

SOILS = {
    "gravel": ("93836d", "bfb198", "64574a", "ddd3bd"),
    "clay": ("5a4232", "765842", "3c2b21", "8d7055"),
    "dark": ("36312e", "4e4741", "24201e", "625a52"),
    "sand": ("a08b68", "c7b48e", "7a6749", "ddcfae"),
    "glass": ("39453f", "4b5850", "2a332f", "5d6a60"),
}
"""Colours of what lies on the bottom: middle, light, dark and odd grains."""


def water(canvas: Canvas, *, top: str, bottom: str, haze: float = 0.5) -> None:
    """Fill the picture with water that is lit from above, with soft shapes far behind."""
    _, y = canvas.grid
    down = y / (canvas.height / canvas.scale)
    canvas.light = mix(colour(top), colour(bottom), smooth(-0.1, 1.0, down))
    far = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(420), octaves=3)
    canvas.light *= (1 + 0.22 * haze * far)[..., None]
    green = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(260), octaves=2)
    canvas.tint(colour("31472a"), 0.55 * haze * smooth(0.2, 1.7, green))
    lamp = np.exp(-(((y + 120) / 420) ** 2))
    canvas.light += lamp[..., None] * colour("9fb7a0") * 0.16


def rays(canvas: Canvas, *, strength: float = 0.12) -> None:
    """Let light fall in slanting sheets."""
    x, y = canvas.grid
    across = x + 0.38 * y
    total = np.zeros_like(x)
    for _ in range(7):
        middle = canvas.draw.uniform(0, 2200)
        wide = canvas.draw.uniform(40, 190)
        total += np.exp(-(((across - middle) / wide) ** 2)) * canvas.draw.uniform(0.3, 1)
    fade = smooth(1.0, 0.05, y / (canvas.height / canvas.scale))
    canvas.light += (strength * total * fade)[..., None] * colour("dfe9cf")


def _grains(u: Array, v: Array, draw: Generator, soil: str) -> tuple[Array, Array]:
    """Return colour and height of grains at places on the ground, one unit a grain."""
    left, right = float(u.min()) - 2, float(u.max()) + 2
    low, high = float(v.min()) - 2, float(v.max()) + 2
    columns, rows = int(right - left) + 1, int(high - low) + 1
    gu, gv = np.meshgrid(np.arange(columns) + left, np.arange(rows) + low)
    seeds = np.stack(
        [
            (gu + draw.uniform(-0.42, 0.42, gu.shape)).ravel(),
            (gv + draw.uniform(-0.42, 0.42, gv.shape)).ravel(),
        ],
        axis=1,
    )
    tree = spatial.cKDTree(seeds)
    away, near = tree.query(np.stack([u.ravel(), v.ravel()], axis=1), k=2)
    shape = u.shape
    first = near[:, 0]
    gap = (away[:, 1] - away[:, 0]).reshape(shape)
    middle, light, dark, odd = (colour(digits) for digits in SOILS[soil])
    tone = draw.uniform(0, 1, len(seeds)).astype(np.float32)
    shades = mix(mix(dark, middle, smooth(0, 0.45, tone)), light, smooth(0.55, 0.95, tone))
    rare = draw.uniform(0, 1, len(seeds)) > 0.95
    shades[rare] = odd
    base = shades[first].reshape((*shape, 3))
    du = (u.ravel() - seeds[first, 0]).reshape(shape)
    dv = (v.ravel() - seeds[first, 1]).reshape(shape)
    lit = np.clip(0.74 - 0.40 * du + 0.85 * dv, 0.2, 1.5)
    crack = smooth(0.02, 0.30, gap) * smooth(0.74, 0.40, away[:, 0].reshape(shape))
    glint = np.exp(-(((du + 0.16) / 0.13) ** 2) - ((dv - 0.2) / 0.13) ** 2)
    shaded = base * (lit * (0.30 + 0.70 * crack))[..., None]
    return shaded + (0.10 * glint * crack)[..., None], crack


def ground(
    canvas: Canvas,
    *,
    horizon: float,
    soil: str = "gravel",
    grain: float = 34,
    focus: float = 0.55,
    depth: float = 1.0,
    slope: float = 0.0,
) -> None:
    """Lay the bottom of the tank from a line in the picture to its lower edge, in perspective.

    `grain` is the size of the nearest grains, `focus` the sharp part of the ground, 0 far, 1 near.
    """
    x, y = canvas.grid
    bottom = canvas.height / canvas.scale
    wave = cloud(canvas.draw, 1, canvas.width, grain=canvas.px(300), octaves=2)[0]
    edge = horizon + 10 * wave[None, :] + slope * (x - 800)
    top = max(0, int((float(edge.min()) - 4) * canvas.scale))
    part = slice(top, canvas.height)
    near = np.clip((y[part] - edge[part]) / (bottom - edge[part]), 0.0, 1)
    away = 1 / (0.16 + 0.84 * near) * depth
    u = (x[part] - 800) * away / grain
    v = -away * 330 / grain
    shade, _ = _grains(u, v, canvas.draw, soil)
    if soil == "glass":
        shade = 0.35 * shade + 0.65 * colour("44524a")
    patches = cloud(canvas.draw, *near.shape, grain=canvas.px(240), octaves=3)
    shade = shade * (1 + 0.16 * patches)[..., None]
    shade = mix(canvas.light[part], shade, 0.35 + 0.65 * smooth(0.0, 0.45, near))
    soft = blurred(shade, canvas.px(5))
    softer = blurred(shade, canvas.px(11))
    off = np.abs(near - focus)
    shade = mix(mix(shade, soft, smooth(0.03, 0.20, off)), softer, smooth(0.22, 0.5, off))
    cover = smooth(-5, 5, y[part] - edge[part])
    canvas.light[part] = mix(canvas.light[part], shade, cover)


def ground_from_above(canvas: Canvas, *, soil: str = "gravel", grain: float = 30) -> None:
    """Fill the picture with the bottom as seen from above."""
    x, y = canvas.grid
    canvas.light, _ = _grains(x / grain, -y / grain, canvas.draw, soil)
    patches = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(380), octaves=3)
    canvas.light = canvas.light * (1 + 0.2 * patches)[..., None]


def _stamp(canvas: Canvas, image: Image.Image, blur: float, left: int, top: int) -> None:
    """Lay an RGBA drawing made at twice the size."""
    small = image.resize((image.width // 2, image.height // 2), Image.Resampling.BOX)
    values = np.asarray(small, np.float32) / 255
    alpha = values[..., 3]
    # Pillow draws without premultiplying, and fills the empty parts with the same dark green.
    light = (
        np.where(
            values[..., :3] <= 0.04045,
            values[..., :3] / 12.92,
            ((values[..., :3] + 0.055) / 1.055) ** 2.4,
        )
        * alpha[..., None]
    )
    sigma = canvas.px(blur)
    canvas.lay(blurred(light.astype(np.float32), sigma), blurred(alpha, sigma), int(left), int(top))


_GREENS = ((22, 36, 18), (34, 54, 24), (50, 76, 32), (72, 100, 42), (102, 130, 60), (140, 164, 88))


def moss(
    canvas: Canvas,
    *,
    x: float,
    y: float,
    wide: float,
    high: float,
    blur: float = 0,
    dense: float = 1.0,
    size: float = 1.0,
    hang: bool = False,
    light: float = 1.0,
) -> None:
    """Grow a clump of moss: fronds with small leaves, the dark ones behind.

    `x`, `y` is the middle of its foot; `hang` lets it grow downwards.
    """
    px, py = canvas.grid
    middle = y + (0.42 if hang else -0.36) * high
    core = np.exp(
        -((((px - x) / (wide * 0.36)) ** 2 + ((py - middle) / (high * 0.42)) ** 2) ** 1.5)
    )
    canvas.tint(colour("1a2a14") * light, 0.86 * core)
    scale = canvas.scale * 2
    margin = 90 * size
    width, height = int((wide + 2 * margin) * scale), int((high + 2 * margin) * scale)
    image = Image.new("RGBA", (width, height), (30, 50, 20, 0))
    brush = ImageDraw.Draw(image)
    draw = canvas.draw
    number = int(dense * wide * high / (520 * size * size)) + 12
    for i in range(number):
        level = i / number
        aside = draw.normal(0, 0.27)
        rise = draw.uniform(0, 1) * (1 - min(1.0, (aside / 0.6) ** 2)) * (0.55 + 0.45 * level)
        fx = (aside + 0.5) * wide + margin
        fy = margin + (rise if hang else 1 - rise) * high * 0.92
        angle = draw.normal(np.pi / 2, 0.75) + (aside * -1.1)
        if hang:
            angle = -angle
        bright = np.clip(level * 3.2 + draw.normal(0, 0.8) + rise * 1.6, 0, 5)
        tone = tuple(int(c * light) for c in _GREENS[int(bright)])
        length = draw.uniform(38, 78) * size
        _frond(brush, draw, (fx, fy), angle=angle, length=length, tone=tone, scale=scale)
    left, top = canvas.px(x - wide / 2 - margin), canvas.px(y - margin - (0 if hang else high))
    _stamp(canvas, image, blur, round(left), round(top))


def _frond(
    brush: ImageDraw.ImageDraw,
    draw: Generator,
    start: tuple[float, float],
    *,
    angle: float,
    length: float,
    tone: tuple[int, ...],
    scale: float,
) -> None:
    steps = 11
    x, y = start
    bend = draw.normal(0, 0.11)
    paler = tuple(min(255, int(c * 1.22) + 6) for c in tone)
    for i in range(steps):
        nx = x + np.cos(angle) * length / steps
        ny = y - np.sin(angle) * length / steps
        brush.line([x * scale, y * scale, nx * scale, ny * scale], fill=(*tone, 255), width=2)
        reach = length * 0.17 * (1 - 0.6 * i / steps)
        for side in (1, -1):
            turn = angle + side * draw.uniform(0.65, 1.05)
            ex, ey = nx + np.cos(turn) * reach, ny - np.sin(turn) * reach
            brush.line(
                [nx * scale, ny * scale, ex * scale, ey * scale],
                fill=(*(paler if side > 0 else tone), 255),
                width=max(2, round(1.6 * scale)),
            )
        x, y = nx, ny
        angle += bend + draw.normal(0, 0.05)


def moss_from_above(canvas: Canvas, *, x: float, y: float, size: float, blur: float = 0) -> None:
    """Lay a pad of moss seen from above."""
    scale = canvas.scale * 2
    side = int((2 * size + 180) * scale)
    image = Image.new("RGBA", (side, side), (30, 50, 20, 0))
    brush = ImageDraw.Draw(image)
    draw = canvas.draw
    number = int(size * size / 260) + 20
    for i in range(number):
        level = i / number
        turn = draw.uniform(0, 2 * np.pi)
        away = size * np.sqrt(draw.uniform(0, 1)) * (1 - 0.25 * level)
        start = (size + 90 + np.cos(turn) * away * 0.8, size + 90 + np.sin(turn) * away * 0.8)
        tone = _GREENS[int(np.clip(level * 4 + draw.normal(0, 0.8), 0, 5))]
        angle, length = -turn + draw.normal(0, 0.7), draw.uniform(40, 76)
        _frond(brush, draw, start, angle=angle, length=length, tone=tone, scale=scale)
    _stamp(canvas, image, blur, round(canvas.px(x - size - 90)), round(canvas.px(y - size - 90)))


def leaf(
    canvas: Canvas,
    *,
    x: float,
    y: float,
    length: float,
    angle: float = 0,
    flat: float = 1.0,
    tone: str = "7a4a22",
    blur: float = 0,
    lobes: bool = False,
) -> None:
    """Lay a dead leaf; `flat` below 1 shows it from a low angle, `lobes` makes it an oak's."""
    px, py = canvas.grid
    turn = np.deg2rad(angle)
    dx, dy = px - x, (py - y) / flat
    along = (dx * np.cos(turn) - dy * np.sin(turn)) / length
    across = (dx * np.sin(turn) + dy * np.cos(turn)) / length
    across = across + 0.05 * np.sin(along * 3.0)
    s = along + 0.5
    half = 0.23 * np.sin(np.clip(s, 0, 1) * np.pi) ** 0.8 * (1 + 0.25 * (0.5 - s))
    if lobes:
        half = half * (0.78 + 0.34 * np.abs(np.cos(s * np.pi * 4.2)) ** 0.8)
    inside = half - np.abs(across)
    inside = np.where((s > 0) & (s < 1), inside, -0.05)
    cover = smooth(-0.9, 0.9, inside * length * canvas.scale)
    texture = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(90), octaves=5)
    rib = np.exp(-((across / 0.006) ** 2))
    side = np.abs(across) * 1.9 - s
    veins = np.exp(-(((((side * 9) % 1) - 0.5) / 0.09) ** 2)) * smooth(0.0, 0.02, np.abs(across))
    shade = mix(colour(tone), colour("2f1a0c"), smooth(-0.3, 1.9, texture) * 0.7)
    shade = mix(shade, colour("a9763e"), smooth(0.5, 2.0, -texture) * 0.5)
    shade = shade * (1 - 0.25 * veins)[..., None]
    shade = mix(shade, colour("b98a52"), rib * 0.7)
    lit = 0.72 + 0.5 * smooth(-0.2, 0.25, -across) + 0.1 * np.sin(along * 9)
    shade = shade * lit[..., None]
    sigma = canvas.px(blur)
    thrown = blurred(np.roll(cover, round(canvas.px(9)), axis=0), canvas.px(8))
    canvas.light *= (1 - 0.5 * thrown)[..., None]
    alpha = blurred(cover, sigma)
    canvas.lay(blurred(shade * cover[..., None], sigma), alpha, 0, 0)


def stone(
    canvas: Canvas,
    *,
    x: float,
    y: float,
    wide: float,
    high: float,
    blur: float = 0,
    tone: str = "4a4c4f",
) -> None:
    """Set a flat dark stone, such as a chip of slate, on the ground."""
    px, py = canvas.grid
    wobble = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(150), octaves=3)
    u, v = (px - x) / (wide / 2), (py - y) / (high / 2)
    edge = 1 - (np.abs(u) ** 2.6 + np.abs(v) ** 2.6) + 0.10 * wobble
    cover = smooth(-0.02, 0.02, edge)
    fine = cloud(
        canvas.draw, canvas.height, canvas.width, grain=canvas.px(60), octaves=5, stretch=4
    )
    lit = 0.62 + 0.55 * smooth(0.3, -0.9, v) + 0.13 * fine
    shade = colour(tone) * lit[..., None]
    sigma = canvas.px(blur)
    canvas.lay(blurred(shade * cover[..., None], sigma), blurred(cover, sigma), 0, 0)


def sponge(
    canvas: Canvas,
    *,
    x: float,
    y: float,
    wide: float,
    high: float,
    blur: float = 0,
    tube_to: float | None = 0,
) -> None:
    """Stand a sponge filter with its air tube; `x`, `y` is the middle of its foot."""
    px, py = canvas.grid
    u, v = (px - x) / (wide / 2), (y - py) / high
    pores = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(9), octaves=3)
    soft = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(80), octaves=3)
    inside = np.minimum(1 - np.abs(u), np.minimum(v, 1 - v) * 2 * high / wide)
    cover = smooth(0.0, 0.05, inside + 0.012 * pores)
    lit = 0.45 + 0.65 * np.sqrt(np.clip(1 - (u + 0.3) ** 2 * 0.6, 0, 1)) + 0.06 * soft
    shade = mix(colour("23282a"), colour("424947"), smooth(-2.2, 1.6, pores)) * lit[..., None]
    sigma = canvas.px(blur)
    if tube_to is not None:
        tube = smooth(0.17, 0.14, np.abs(u)) * smooth(y - high + 6, y - high, py)
        tube = tube * smooth(tube_to, tube_to + 3, py)
        glassy = (
            0.20 + 0.55 * smooth(0.08, 0.16, np.abs(u)) + 0.5 * np.exp(-(((u + 0.06) / 0.03) ** 2))
        )
        canvas.lay(
            blurred(colour("b9c6bf") * (tube * glassy)[..., None], sigma),
            blurred(tube * np.clip(glassy, 0, 1), sigma),
            0,
            0,
        )
    canvas.lay(blurred(shade * cover[..., None], sigma), blurred(cover, sigma), 0, 0)


def bubbles(canvas: Canvas, *, x: float, top: float, bottom: float, number: int = 26) -> None:
    """Let air rise in a wavering column."""
    px, py = canvas.grid
    for _ in range(number):
        y = canvas.draw.uniform(top, bottom)
        cx = x + canvas.draw.normal(0, 7 + 0.02 * (bottom - y))
        radius = canvas.draw.uniform(2.5, 6.5)
        box = (
            slice(max(0, int(canvas.px(y - 12))), int(canvas.px(y + 12)) + 1),
            slice(max(0, int(canvas.px(cx - 12))), int(canvas.px(cx + 12)) + 1),
        )
        away = np.hypot(px[box] - cx, (py[box] - y) * 1.1)
        ring = np.exp(-(((away - radius * 0.8) / (radius * 0.25)) ** 2)) * 0.55
        spot = np.exp(
            -(np.hypot(px[box] - cx + radius * 0.3, py[box] - y + radius * 0.35) ** 2) / 2
        )
        canvas.light[box] += (np.clip(ring + spot, 0, 1) * 0.5)[..., None]


def dust(canvas: Canvas, *, number: int = 60, strength: float = 0.10) -> None:
    """Let specks float, most of them out of focus."""
    px, py = canvas.grid
    for _ in range(number):
        x = canvas.draw.uniform(0, canvas.width / canvas.scale)
        y = canvas.draw.uniform(0, canvas.height / canvas.scale)
        size = canvas.draw.choice([1.6, 2.4, 5, 9, 15], p=[0.4, 0.3, 0.15, 0.1, 0.05])
        reach = size * 2.5
        box = (
            slice(max(0, int(canvas.px(y - reach))), int(canvas.px(y + reach)) + 1),
            slice(max(0, int(canvas.px(x - reach))), int(canvas.px(x + reach)) + 1),
        )
        away = np.hypot(px[box] - x, py[box] - y)
        disc = smooth(size * 1.15, size * 0.85, away) * strength * (2.4 / size) ** 0.7
        canvas.light[box] += disc[..., None] * colour("e9efdc")


def glass_haze(canvas: Canvas, *, strength: float = 0.035) -> None:
    """Lay the faint reflections and smears of the front glass over the picture."""
    x, y = canvas.grid
    wide = canvas.width / canvas.scale
    streaks = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(500), octaves=2)
    window = smooth(0.03, 0.0, np.abs((x + 0.25 * y) / wide - 0.86) - 0.05)
    canvas.light += (strength * (0.3 * smooth(0, 2, streaks) + 0.55 * window))[..., None] * colour(
        "c9d8d4"
    )

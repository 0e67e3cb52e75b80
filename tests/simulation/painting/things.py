"""Things outside and around the water: tanks on a shelf, trays, boxes and bags."""

from collections.abc import Callable

import numpy as np

from simulation.painting.light import Array, Canvas, blurred, cloud, colour, mix, smooth

__all__ = [
    "bag",
    "bag_shine",
    "black_tray",
    "box_filter",
    "cardboard",
    "falling_soil",
    "rack",
    "rounded",
    "white_tray",
    "window",
]


def rounded(canvas: Canvas, box: tuple[float, float, float, float], radius: float) -> Array:
    """Return the distance inside a rectangle with round corners, negative outside."""
    x, y = canvas.grid
    left, top, right, bottom = box
    dx = np.abs(x - (left + right) / 2) - (right - left) / 2 + radius
    dy = np.abs(y - (top + bottom) / 2) - (bottom - top) / 2 + radius
    outside = np.hypot(np.maximum(dx, 0), np.maximum(dy, 0)) + np.minimum(np.maximum(dx, dy), 0)
    return (radius - outside).astype(np.float32)


def _wood(canvas: Canvas, tone: str, dark: str) -> Array:
    grain = cloud(
        canvas.draw, canvas.height, canvas.width, grain=canvas.px(22), octaves=4, stretch=30
    )
    broad = cloud(
        canvas.draw, canvas.height, canvas.width, grain=canvas.px(160), octaves=3, stretch=6
    )
    return mix(colour(tone), colour(dark), smooth(-1.4, 2.2, 0.7 * grain + 0.6 * broad))


def white_tray(canvas: Canvas, box: tuple[float, float, float, float]) -> None:
    """Set a white counting tray with water on a wooden table, seen from above."""
    canvas.light = _wood(canvas, "8a6a48", "4a3522") * 0.8
    edge = rounded(canvas, box, 70)
    thrown = blurred(smooth(-4, 4, edge), canvas.px(26))
    canvas.light *= (1 - 0.55 * np.roll(thrown, round(canvas.px(22)), axis=0))[..., None]
    x, y = canvas.grid
    inner = edge - 46
    lit = 0.86 + 0.10 * smooth(0, 1600, x) - 0.10 * smooth(0, 1067, y)
    rim = (
        0.82 + 0.25 * np.exp(-(((edge - 16) / 9) ** 2)) - 0.35 * np.exp(-(((inner + 4) / 12) ** 2))
    )
    tray = colour("dfe0d8") * (lit * np.where(inner > 0, 1, rim))[..., None]
    depth = smooth(90, -10, inner) * (inner > -6)
    tray = tray * (1 - 0.22 * depth)[..., None]
    ripples = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(170), octaves=3)
    caustic = np.exp(-((np.abs(ripples) / 0.16) ** 2))
    tray = mix(tray, colour("ecefe6"), 0.22 * caustic * (inner > 0))
    tray = mix(tray, colour("cbd3c4"), 0.28 * smooth(-6, 12, inner))
    canvas.light = mix(canvas.light, tray, smooth(-1, 1, edge))


def black_tray(canvas: Canvas) -> None:
    """Fill the picture with the bottom of a black tray under shallow water."""
    x, y = canvas.grid
    fine = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(7), octaves=2)
    lit = np.exp(-(((x - 520) / 900) ** 2 + ((y - 260) / 640) ** 2))
    canvas.light = colour("101214") * (0.9 + 0.12 * fine + 1.9 * lit)[..., None]
    gleam = np.exp(-(((x + 0.5 * y - 420) / 130) ** 2))
    canvas.light += (0.012 * gleam)[..., None] * colour("c9d4cf")
    scratches = cloud(
        canvas.draw, canvas.height, canvas.width, grain=canvas.px(9), octaves=2, stretch=14
    )
    canvas.light *= (1 + 0.10 * smooth(1.6, 2.6, scratches))[..., None]


def window(
    canvas: Canvas, box: tuple[float, float, float, float], paint: Callable[[Canvas], None]
) -> None:
    """Paint a scene of its own into a rectangle of the picture."""
    left, top, right, bottom = box
    inner = Canvas(1600, 1067, canvas.draw, scale=canvas.px(right - left) / 1600)
    inner.height = max(8, round(canvas.px(bottom - top)))
    inner.light = np.zeros((inner.height, inner.width, 3), np.float32)
    paint(inner)
    cover = np.ones(inner.light.shape[:2], np.float32)
    canvas.lay(inner.light, cover, round(canvas.px(left)), round(canvas.px(top)))


def rack(
    canvas: Canvas,
    box: tuple[float, float, float, float],
    paint: Callable[[Canvas], None],
    *,
    lamp: str | None = "f4f1df",
) -> None:
    """Stand a glass tank on a board in a dark room; `box` is its front pane."""
    left, top, right, bottom = box
    x, y = canvas.grid
    wall = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(240), octaves=4)
    canvas.light = colour("2d2b29") * (1 + 0.10 * wall)[..., None]
    spill = np.exp(-(((x - (left + right) / 2) / 800) ** 2) - (((y - top) / 330) ** 2))
    canvas.light += spill[..., None] * colour(lamp or "dfe6ee") * 0.10
    board = smooth(bottom + 4, bottom + 9, y)
    wood = _wood(canvas, "7d5f3f", "3f2d1c") * (0.5 + 0.5 * smooth(1067, bottom, y))[..., None]
    canvas.light = mix(canvas.light, wood, board)
    front = smooth(bottom + 46, bottom + 52, y)
    canvas.light *= (1 - 0.6 * front)[..., None]
    window(canvas, (left, top + 26, right, bottom - 6), paint)
    _panes(canvas, box)
    if lamp is not None:
        _lamp(canvas, box, lamp)


def _panes(canvas: Canvas, box: tuple[float, float, float, float]) -> None:
    left, top, right, bottom = box
    x, y = canvas.grid
    inside = (x > left - 5) & (x < right + 5) & (y > top) & (y < bottom)
    air = smooth(top + 58, top + 52, y) * inside
    canvas.light = mix(canvas.light, colour("4d5650"), 0.65 * air)
    line = np.exp(-(((y - top - 56) / 2.4) ** 2)) * inside
    canvas.light += (0.45 * line)[..., None] * colour("e3efe6")
    for edge in (left, right):
        seam = np.exp(-(((x - edge) / 5.0) ** 2)) * inside
        canvas.light = mix(canvas.light, colour("7fa08c"), 0.75 * seam)
        spark = np.exp(-(((x - edge - 3) / 1.3) ** 2)) * inside
        canvas.light += (0.35 * spark)[..., None] * colour("dff2e6")
    foot = np.exp(-(((y - bottom) / 5.0) ** 2)) * ((x > left - 5) & (x < right + 5))
    canvas.light = mix(canvas.light, colour("16211c"), 0.8 * foot)
    rim = np.exp(-(((y - top) / 3.0) ** 2)) * ((x > left - 5) & (x < right + 5))
    canvas.light = mix(canvas.light, colour("93b3a1"), 0.8 * rim)
    streak = (
        smooth(0.03, 0.0, np.abs((x + 0.3 * y - left) / (right - left) - 0.93) - 0.035) * inside
    )
    canvas.light += (0.035 * streak)[..., None] * colour("dfe9e4")


def _lamp(canvas: Canvas, box: tuple[float, float, float, float], lamp: str) -> None:
    left, top, right, _ = box
    x, y = canvas.grid
    body = rounded(canvas, (left + 60, top - 62, right - 60, top - 28), 9)
    shade = colour("9a9c9d") * (0.35 + 0.5 * smooth(top - 30, top - 62, y))[..., None]
    canvas.light = mix(canvas.light, shade, smooth(-1, 1, body))
    strip = np.exp(-(((y - top + 27) / 4.0) ** 2)) * smooth(left + 70, left + 80, x)
    strip = strip * smooth(right - 70, right - 80, x)
    canvas.light += strip[..., None] * colour(lamp) * 1.4


def box_filter(canvas: Canvas, box: tuple[float, float, float, float]) -> None:
    """Stand an open clear box with a coarse and a fine sponge and an air lift in it."""
    left, top, right, bottom = box
    x, y = canvas.grid
    high, size = bottom - top, (right - left) / 560
    inside = smooth(-1, 1, rounded(canvas, box, 12 * size))
    canvas.light = mix(canvas.light, colour("6f8379"), 0.35 * inside)
    margin = 15 * size
    for first, last, grain, dark, light in (
        (0.60, 0.965, 34 * size, "171d22", "56636a"),
        (0.26, 0.57, 9 * size, "2a2f2e", "4d5552"),
    ):
        upper, lower = top + first * high, top + last * high
        pores = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(grain), octaves=3)
        pad = rounded(canvas, (left + margin, upper, right - margin, lower), 18 * size)
        lit = 0.55 + 0.55 * smooth(lower, upper, y) + 0.12 * smooth(right, left, x)
        foam = mix(colour(dark), colour(light), smooth(-1.3, 1.5, pores)) * lit[..., None]
        canvas.light = mix(canvas.light, foam, smooth(-3, 4, pad + 4 * size * pores))
    middle = left + 0.72 * (right - left)
    across = (x - middle) / size
    rise = 120 * size
    tube = smooth(27, 24, np.abs(across)) * smooth(top - rise, top - rise + 2, y)
    tube = tube * smooth(bottom - 0.05 * high, bottom - 0.06 * high, y)
    glassy = 0.30 + 0.5 * np.exp(-(((np.abs(across) - 23) / 4) ** 2))
    glassy = glassy + 0.6 * np.exp(-(((across + 10) / 4) ** 2))
    canvas.light = mix(canvas.light, colour("c3cfca"), np.clip(tube * glassy, 0, 1))
    wall = np.exp(-((rounded(canvas, box, 12) / 4.5) ** 2))
    canvas.light = mix(canvas.light, colour("b9cdc4"), 0.7 * wall)
    gleam = smooth(0.05, 0.0, np.abs((x - left) / (right - left) - 0.12) - 0.035) * inside
    canvas.light += (0.13 * gleam)[..., None]


def cardboard(canvas: Canvas) -> None:
    """Fill the picture with an open parcel: cardboard, and wood wool out of focus."""
    x, y = canvas.grid
    fibre = cloud(
        canvas.draw, canvas.height, canvas.width, grain=canvas.px(30), octaves=3, stretch=5
    )
    flutes = np.sin(x / 5.2) * 0.03
    lit = 0.95 - 0.35 * smooth(300, 1067, y) + 0.12 * smooth(1600, 0, x)
    canvas.light = colour("b08a5c") * (lit + 0.05 * fibre + flutes)[..., None]
    inner = rounded(canvas, (150, 190, 1450, 1000), 16)
    shade = colour("6d5134") * (0.55 + 0.4 * smooth(190, 900, y) + 0.05 * fibre)[..., None]
    canvas.light = mix(canvas.light, shade, smooth(-2, 2, inner))
    canvas.light *= (1 - 0.5 * np.exp(-((inner / 14) ** 2)))[..., None]
    for _ in range(420):  # curls of wood wool
        cx, cy = canvas.draw.uniform(150, 1450), canvas.draw.uniform(700, 1010)
        radius = canvas.draw.uniform(30, 90)
        cut = (
            slice(max(0, int(canvas.px(cy - 95))), int(canvas.px(cy + 95)) + 1),
            slice(max(0, int(canvas.px(cx - 95))), int(canvas.px(cx + 95)) + 1),
        )
        away = np.hypot(x[cut] - cx, (y[cut] - cy) * canvas.draw.uniform(0.8, 1.7))
        arc = np.exp(-(((away - radius) / 2.6) ** 2))
        turn = np.arctan2(y[cut] - cy, x[cut] - cx)
        start = canvas.draw.uniform(-np.pi, np.pi)
        arc = arc * smooth(1.5, 0.9, np.abs((turn - start + np.pi) % (2 * np.pi) - np.pi))
        arc = arc * smooth(-2, 6, inner[cut])
        tone = colour(canvas.draw.choice(["d9c18f", "c8ab74", "e6d3a6", "a98a56"]))
        canvas.light[cut] = mix(canvas.light[cut], tone * canvas.draw.uniform(0.55, 1), arc * 0.9)


def bag(canvas: Canvas, *, x: float, top: float, bottom: float, half: float) -> Array:
    """Lay a closed bag with water on the picture; returns where its film is."""
    px, py = canvas.grid
    s = (py - top) / (bottom - top)
    neck = 0.16 + 0.84 * smooth(0.06, 0.46, s) ** 0.8
    flare = np.where(s < 0.10, 0.16 + 0.9 * np.abs(0.10 - s) / 0.10 * 0.35, neck)
    round_off = np.sqrt(np.clip(1 - np.clip((s - 0.80) / 0.2, 0, 1) ** 2.6, 0, 1))
    edge = 1 - np.abs(px - x) / (half * flare * (0.35 + 0.65 * round_off))
    edge = np.where((s > 0) & (s < 1), edge, -1)
    cover = smooth(0.0, 0.012, edge)
    level = 0.52 + 0.008 * np.sin((px - x) / half * 3)
    wet = cover * smooth(level - 0.004, level + 0.004, s)
    canvas.light *= (1 - 0.4 * blurred(np.roll(cover, round(canvas.px(20)), 0), canvas.px(26)))[
        ..., None
    ]
    behind = colour("b9c2b4") * (0.5 + 0.2 * smooth(1, 0, s))[..., None]
    canvas.light = mix(canvas.light, behind, 0.30 * cover)
    canvas.light = mix(canvas.light, colour("8fa79a") * 0.8, 0.45 * wet)
    surface = np.exp(-(((s - level) / 0.006) ** 2)) * cover
    canvas.light += (0.35 * surface)[..., None] * colour("eef5ee")
    return cover


def bag_shine(
    canvas: Canvas, *, film: Array, x: float, top: float, bottom: float, half: float
) -> None:
    """Lay folds and gleams of the film over a bag, and the band around its neck."""
    px, py = canvas.grid
    s = (py - top) / (bottom - top)
    u = (px - x) / half
    body = smooth(0.24, 0.42, s) * smooth(1.0, 0.93, s) * film
    folds = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(120), octaves=3)
    creases = np.exp(-((((u * 4.5 / (0.3 + s) + 0.12 * folds) % 1.0 - 0.5) / 0.05) ** 2)) * smooth(
        0.62, 0.12, s
    )
    for middle, wide, strong in ((-0.78, 0.06, 0.55), (-0.60, 0.02, 0.3), (0.82, 0.04, 0.35)):
        gleam = np.exp(-(((u - middle + 0.02 * folds) / wide) ** 2)) * body
        canvas.light += (strong * gleam * (0.55 + 0.45 * np.tanh(folds)))[..., None] * 0.5
    canvas.light += (0.16 * creases * smooth(0.02, 0.1, s) * (np.abs(u) < 0.9))[..., None] * body[
        ..., None
    ]
    neck = smooth(0.085, 0.09, s) * smooth(0.125, 0.12, s) * smooth(0.20, 0.18, np.abs(u))
    ribs = 0.7 + 0.3 * np.sin(s * 900)
    canvas.light = mix(canvas.light, colour("8a2f25") * ribs[..., None], neck)


def falling_soil(canvas: Canvas, *, x: float, top: float, bottom: float, tone: str) -> None:
    """Let grains fall from a tilted cup."""
    px, py = canvas.grid
    turn = np.deg2rad(-38)
    dx, dy = px - (x - 150), py - (top - 40)
    u = dx * np.cos(turn) + dy * np.sin(turn)
    v = -dx * np.sin(turn) + dy * np.cos(turn)
    wide = 112 + 0.16 * u
    inner = np.minimum(wide - np.abs(v), 190 - np.abs(u))
    corner = 34 - np.hypot(
        np.maximum(0, 34 - (wide - np.abs(v))), np.maximum(0, 34 - (190 - np.abs(u)))
    )
    inner = np.where(u < 0, np.minimum(inner, corner), inner)
    cup = smooth(-2, 2, inner)
    soil = cloud(canvas.draw, canvas.height, canvas.width, grain=canvas.px(20), octaves=2)
    filled = cup * smooth(-30, 10, v + 0.45 * u)
    canvas.light = mix(canvas.light, colour("aebcb8"), 0.28 * cup)
    dark = colour(tone) * (0.9 + 0.30 * soil)[..., None]
    canvas.light = mix(canvas.light, dark, 0.93 * filled)
    rim = np.exp(-((inner / 4) ** 2)) * (cup + 0.2)
    canvas.light = mix(canvas.light, colour("dfe8e4"), 0.5 * np.clip(rim, 0, 1))
    for _ in range(420):
        fall = canvas.draw.uniform(0, 1) ** 0.7
        cy = top + fall * (bottom - top)
        cx = x + 40 + canvas.draw.normal(0, 16 + 60 * fall)
        radius = canvas.draw.uniform(2.5, 6.5)
        cut = (
            slice(max(0, int(canvas.px(cy - 40))), max(1, int(canvas.px(cy + 40)) + 1)),
            slice(max(0, int(canvas.px(cx - 14))), max(1, int(canvas.px(cx + 14)) + 1)),
        )
        away = np.hypot(px[cut] - cx, (py[cut] - cy) / (1 + 2.2 * fall))
        grain = smooth(radius + 1, radius - 2, away)
        shade = colour(tone) * canvas.draw.uniform(0.6, 1.9)
        canvas.light[cut] = mix(canvas.light[cut], shade, grain * 0.85)

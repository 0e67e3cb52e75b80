"""A dwarf shrimp in body coordinates: along the body from tail to head, across it from the middle.

Every pixel of a patch is given its place on the body, and the look is a function of that place.
Proportions are drawn from general knowledge of the family, no source.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.random import Generator
from PIL import Image, ImageDraw
from scipy import ndimage, spatial

from simulation.painting.light import Array, Canvas, blurred, colour, mix, polyline, smooth

__all__ = ["Shrimp", "paint_shrimp"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shrimp:
    """One animal in a picture."""

    x: float
    """Where the middle of its body is, in pixels of the full-sized picture."""
    y: float
    length: float
    """From rostrum to tail fan, in pixels of the full-sized picture."""
    look: str = "slate"
    """`amberglass`, `slate`, `mosaic` (half of each), `chalk` (white through and through), `milky`
    (white in the tail) or `clear` (fresh out of its skin)."""
    view: str = "side"
    """`side` or `top`."""
    angle: float = 0
    """Degrees, counter-clockwise."""
    faces_left: bool = False
    saddle: str = "full"
    """`broken`, `thin` or `full`: the pale line of an amberglass."""
    female: bool = False
    berried: bool = False
    eggs: int = 99
    """The most eggs that are seen."""
    young: bool = False
    nick: bool = False
    """A round bite out of the tail fan."""
    bend: float = 0
    """How much a body seen from above is curved, -1 to 1."""
    blur: float = 0
    """How far out of focus, in pixels of the full-sized picture."""
    shadow: float = 0.35
    """How dark its shadow is; 0 for one that swims."""
    seed: int = 0


class _Box(NamedTuple):
    """Some of the pixels of a patch."""

    cut: tuple[slice, slice]
    x: Array
    y: Array


class _Tube(NamedTuple):
    """A body along a spine, for the pixels around it."""

    box: _Box
    t: Array
    v: Array
    cover: Array


@dataclass(slots=True, kw_only=True)
class _Patch:
    """The pixels around one animal, with their place in body units."""

    px: float
    """Pixels in one body length."""
    size: tuple[int, int]
    x: Array
    y: Array
    light: Array
    alpha: Array
    turn: Array
    """Matrix from body units to pixels of the patch."""
    shift: Array

    def lay(self, shade: Array, alpha: Array, box: "_Box | None" = None) -> None:
        """Lay a colour over what is there, premultiplied; within a box where one is given."""
        at = box.cut if box is not None else (slice(None), slice(None))
        alpha = np.clip(alpha, 0, 1).astype(np.float32)
        self.light[at] *= (1 - alpha)[..., None]
        self.light[at] += shade * alpha[..., None]
        self.alpha[at] *= 1 - alpha
        self.alpha[at] += alpha

    def box(self, points: Array, margin: float) -> "_Box":
        """Return the pixels around points given in body units."""
        at = self.to_pixels(points)
        reach = margin * self.px + 3
        low = np.floor(at.min(axis=0) - reach).astype(int).clip(0)
        high = np.ceil(at.max(axis=0) + reach).astype(int).clip(1)
        cut = (slice(int(low[1]), int(high[1])), slice(int(low[0]), int(high[0])))
        return _Box(cut=cut, x=self.x[cut], y=self.y[cut])

    def tube(self, spine: Array, above: Array, below: Array) -> "_Tube":
        """Return place along, place across (-1 to 1) and cover of a body along a spine."""
        box = self.box(spine, 1.3 * float(max(above.max(), below.max())))
        tree = spatial.cKDTree(spine)
        points = np.stack([box.x.ravel(), box.y.ravel()], axis=1)
        near = tree.query(points, workers=1)[1]
        ahead = np.gradient(spine, axis=0)
        ahead /= np.hypot(ahead[:, 0], ahead[:, 1])[:, None]
        step = np.hypot(*np.diff(spine, axis=0).T).mean()
        delta = points - spine[near]
        along = (delta * ahead[near]).sum(axis=1)
        across = ahead[near, 0] * delta[:, 1] - ahead[near, 1] * delta[:, 0]
        inner = np.clip(near + along / step, 0, len(spine) - 1)
        beyond = along - (inner - near) * step
        low = np.floor(inner).astype(int).clip(0, len(spine) - 2)
        part = inner - low
        radius = np.where(
            across > 0,
            above[low] * (1 - part) + above[low + 1] * part,
            below[low] * (1 - part) + below[low + 1] * part,
        )
        gone = np.hypot(across, beyond)
        shape = box.x.shape
        cover = smooth(-0.8, 0.8, (radius - gone) * self.px).reshape(shape)
        v = (across / np.maximum(radius, 1e-6)).clip(-1.3, 1.3).reshape(shape)
        t = (inner / (len(spine) - 1)).reshape(shape)
        return _Tube(box, t.astype(np.float32), v.astype(np.float32), cover.astype(np.float32))

    def to_pixels(self, points: Array) -> Array:
        """Return points given in body units in pixels of the patch."""
        return np.asarray(points) @ self.turn.T + self.shift

    def strokes(self, lines: list[tuple[Array, float, float]], shade: Array, alpha: float) -> None:
        """Draw thin lines: points, and the width at both ends in body units."""
        fine = 3
        box = self.box(np.concatenate([np.asarray(points) for points, _, _ in lines]), 0.05)
        high, wide = box.x.shape
        image = Image.new("L", (wide * fine, high * fine), 0)
        brush = ImageDraw.Draw(image)
        corner = np.array([box.cut[1].start, box.cut[0].start])
        for points, first, last in lines:
            at = (self.to_pixels(polyline(np.asarray(points, float), 28)) - corner) * fine
            widths = np.linspace(first, last, len(at)) * self.px * fine
            for i in range(len(at) - 1):
                thick = max(float(widths[i]), 1.2)
                level = int(255 * min(1.0, widths[i] / 1.2 + 0.15))
                brush.line([tuple(at[i]), tuple(at[i + 1])], fill=level, width=max(1, round(thick)))
                if thick > 3:
                    half = thick / 2
                    cx, cy = at[i + 1]
                    brush.ellipse([cx - half, cy - half, cx + half, cy + half], fill=level)
        small = image.resize((wide, high), Image.Resampling.BOX)
        self.lay(shade, np.asarray(small, np.float32) / 255 * alpha, box)


def _patch(shrimp: Shrimp, canvas: Canvas) -> tuple[_Patch, int, int]:
    px = canvas.px(shrimp.length)
    half = int(px * 0.98) + 8
    size = (2 * half, 2 * half)
    radians = np.deg2rad(shrimp.angle)
    flip = -1.0 if shrimp.faces_left else 1.0
    cos, sin = np.cos(radians) * px, np.sin(radians) * px
    # Body units have y upwards; the picture has it downwards.
    turn = np.array([[cos * flip, -sin], [-sin * flip, -cos]])
    shift = np.array([half, half]) - turn @ np.array([0.5, 0.0])
    rows, columns = np.mgrid[0 : size[1], 0 : size[0]].astype(np.float32)
    back = np.linalg.inv(turn)
    dx, dy = columns + 0.5 - shift[0], rows + 0.5 - shift[1]
    patch = _Patch(
        px=px,
        size=size,
        x=back[0, 0] * dx + back[0, 1] * dy,
        y=back[1, 0] * dx + back[1, 1] * dy,
        light=np.zeros((*dx.shape, 3), np.float32),
        alpha=np.zeros(dx.shape, np.float32),
        turn=turn,
        shift=shift,
    )
    return patch, round(canvas.px(shrimp.x)) - half, round(canvas.px(shrimp.y)) - half


def paint_shrimp(canvas: Canvas, shrimp: Shrimp, *, ambient: Array | None = None) -> None:
    """Paint an animal and its shadow; `ambient` is the colour that the water throws on it."""
    patch, left, top = _patch(shrimp, canvas)
    draw = np.random.default_rng((977, shrimp.seed))
    if shrimp.view == "side":
        _from_the_side(patch, shrimp, draw)
    else:
        _from_above(patch, shrimp, draw)
    if ambient is not None:
        patch.light = mix(patch.light, ambient * patch.alpha[..., None], 0.07)
    sigma = canvas.px(shrimp.blur)
    light, alpha = blurred(patch.light, sigma), blurred(patch.alpha, sigma)
    if shrimp.shadow > 0:
        reach = max(2.0, patch.px * 0.03)
        thrown = blurred(patch.alpha, reach) * shrimp.shadow
        if shrimp.view == "side":
            thrown = _flattened(thrown, patch)
            down = 0
        else:
            down = round(patch.px * 0.035)
        canvas.lay(np.zeros_like(light), np.clip(thrown, 0, 0.75), left + down // 2, top + down)
    canvas.lay(light, alpha, left, top)


def _flattened(thrown: Array, patch: _Patch) -> Array:
    """Return the shadow on the ground of an animal seen from the side."""
    column = thrown.max(axis=0)
    floor = patch.to_pixels(np.array([(0.6, -0.142)]))[0, 1]
    y = np.arange(thrown.shape[0])[:, None]
    thick, wide = max(2.0, patch.px * 0.020), max(3.0, patch.px * 0.055)
    near = np.exp(-(((y - floor) / thick) ** 2))
    around = np.exp(-(((y - floor) / wide) ** 2))
    flat: Array = column[None, :] * (0.75 * near + 0.75 * around)
    return flat


# --- looks ----------------------------------------------------------------------------------


def _texture(draw: Generator, t: Array, v: Array, *, along: float, across: float) -> Array:
    """Return noise that sticks to the body, about -2 to 2."""
    field = draw.standard_normal((96, 160)).astype(np.float32)
    result: Array = ndimage.map_coordinates(
        field, [(v + 1.5) * across, t * along + 2], order=3, mode="wrap"
    )
    return result


def _bands(t: Array, v: Array, edges: Array, *, wide: float) -> Array:
    """Return thin arcs where the plates of the shell meet."""
    bent = t - 0.012 * (1 - v * v)
    total = np.zeros_like(t)
    for edge in edges:
        total = np.maximum(total, np.exp(-(((bent - edge) / wide) ** 2)))
    return total


def _body_colours(
    look: str, tube: _Tube, back: Array, draw: Generator, shrimp: Shrimp
) -> tuple[Array, Array]:
    """Return colour and opacity at places on the body; `back` is 1 on the middle of the back."""
    _, t, v, _ = tube
    thick = np.sqrt(np.clip(1 - v * v, 0, 1))
    coarse = _texture(draw, t, v, along=26, across=4.5)
    fine = _texture(draw, t, v, along=95, across=13)
    if look == "slate":
        base = mix(colour("352e29"), colour("5f544a"), smooth(-1.6, 1.8, coarse))
        base = mix(base, colour("191512"), smooth(0.5, 1.5, fine) * 0.8)
        base = mix(base, colour("a2968a"), smooth(1.1, 2.1, -fine) * 0.35)
        opacity = 0.86 + 0.13 * thick
        if shrimp.young:
            opacity = 0.52 + 0.38 * thick
    elif look == "milky":
        base = mix(colour("352e29"), colour("5f544a"), smooth(-1.6, 1.8, coarse))
        base = mix(base, colour("191512"), smooth(0.5, 1.5, fine) * 0.7)
        patchy = smooth(0.12, 0.42, t) * smooth(0.72, 0.5, t + 0.05 * coarse)
        patchy = patchy * smooth(-0.75, -0.25, v + 0.14 * coarse)
        base = mix(base, colour("cfdcea"), patchy * 0.92)
        opacity = 0.84 + 0.15 * thick
    elif look == "chalk":
        base = mix(colour("aeb9c0"), colour("e3e8ea"), smooth(-1.4, 1.6, coarse))
        base = mix(base, colour("7d858b"), smooth(0.9, 1.9, fine) * 0.3)
        opacity = 0.66 + 0.28 * thick
    elif look == "clear":
        base = mix(colour("cfd3cc"), colour("efeee6"), smooth(-1.5, 1.5, coarse))
        opacity = 0.13 + 0.16 * thick + 0.25 * smooth(0.8, 1.0, np.abs(v))
    else:
        deep = colour("c8791c")
        base = mix(colour("eba53c"), deep, smooth(0.15, 1.0, np.abs(v)))
        base = mix(base, colour("f6c76c"), smooth(0.1, 1.6, coarse) * 0.35)
        base = mix(base, colour("8f4d12"), smooth(1.2, 2.2, fine) * 0.3)
        opacity = 0.30 + 0.24 * thick + 0.32 * smooth(0.70, 1.0, np.abs(v))
        if shrimp.young:
            opacity = opacity * 0.85
        line = _saddle_line(t, back, fine, draw, shrimp.saddle)
        base = mix(base, colour("fff3d2"), line * 0.94)
        opacity = np.maximum(opacity, line * 0.95)
    return base, opacity


def _saddle_line(t: Array, back: Array, fine: Array, draw: Generator, saddle: str) -> Array:
    wide = {"full": 0.42, "thin": 0.80, "broken": 0.74}[saddle]
    line = smooth(wide, min(0.99, wide + 0.2), back + 0.03 * fine)
    line = line * smooth(0.03, 0.09, t) * smooth(0.90, 0.84, t)
    if saddle == "broken":
        for middle in (0.24, 0.43, 0.60, 0.72):
            gap = middle + draw.uniform(-0.02, 0.02)
            line = line * smooth(0.022, 0.05, np.abs(t - gap))
    return line


def _limb_colour(look: str, shrimp: Shrimp) -> tuple[Array, float]:
    if look in {"slate", "milky"}:
        return colour("43392f"), 0.6 if shrimp.young else 0.88
    if look == "clear":
        return colour("d8d8cf"), 0.35
    if look == "chalk":
        return colour("b5bfc4"), 0.6
    return colour("d9922f"), 0.62


# --- from the side ----------------------------------------------------------------------------

_SIDE_SPINE = np.array(
    [
        # x, y, half height above, half height below
        (0.105, -0.060, 0.020, 0.020),
        (0.170, -0.020, 0.030, 0.028),
        (0.250, 0.022, 0.040, 0.040),
        (0.340, 0.050, 0.050, 0.050),
        (0.430, 0.056, 0.056, 0.057),
        (0.520, 0.048, 0.058, 0.060),
        (0.620, 0.038, 0.062, 0.064),
        (0.720, 0.032, 0.063, 0.066),
        (0.800, 0.030, 0.055, 0.058),
        (0.865, 0.030, 0.040, 0.042),
        (0.905, 0.028, 0.022, 0.026),
    ]
)
_PLATES = np.array([0.10, 0.20, 0.30, 0.395, 0.475, 0.545])


def _from_the_side(patch: _Patch, shrimp: Shrimp, draw: Generator) -> None:
    look = shrimp.look
    if look == "mosaic":  # the animal has one look on each side; turned, its right side shows
        look = "amberglass" if shrimp.faces_left else "slate"
    spine = polyline(_SIDE_SPINE, 300)
    if shrimp.female or shrimp.berried:
        low = np.exp(-(((np.linspace(0, 1, 300) - 0.36) / 0.16) ** 2))
        spine[:, 3] *= 1 + 0.30 * low
    if shrimp.young:
        spine[:, 2:] *= 0.92
    along = np.linspace(0, 1, 300)
    lobes = np.interp(along, [0, *_PLATES, 0.62], range(8)) % 1
    spine[:, 3] *= 1 + 0.16 * (np.sin(lobes * np.pi) ** 0.7 - 0.45) * (along < 0.56)
    spine[:, 3] *= 1 + 0.10 * np.exp(-(((along - 0.70) / 0.09) ** 2))
    limb, firm = _limb_colour(look, shrimp)
    dark = mix(limb, colour("241a12"), 0.35)
    patch.strokes(_feelers(draw), limb, firm * 0.75)
    patch.strokes(_legs_beside(draw, far=True), dark, firm * 0.55)
    _tail_fan(patch, limb, firm, draw, at=spine[0, :2], heading=210, spread=(-30, -12, 6, 22))
    if shrimp.nick:
        box = patch.box(np.array([(0.028, -0.145)]), 0.05)
        bite = smooth(0.021, 0.017, np.hypot(box.x - 0.028, box.y + 0.145))
        patch.light[box.cut] *= (1 - bite)[..., None]
        patch.alpha[box.cut] *= 1 - bite
    if shrimp.berried:
        _eggs(patch, look, draw, most=shrimp.eggs)
    _swimmerets(patch, limb, firm * (0.55 if shrimp.berried else 1.0), draw)
    tube = patch.tube(spine[:, :2], spine[:, 2], spine[:, 3])
    box, t, v, cover = tube
    base, opacity = _body_colours(look, tube, smooth(0.30, 1.05, v), draw, shrimp)
    _organs(patch, shrimp, look, tube)
    shade = 0.62 + 0.62 * smooth(-0.9, 0.8, v)
    if look in {"amberglass", "clear"}:  # light goes through and gathers on the far side
        shade = 0.82 + 0.42 * smooth(0.5, -0.9, v) + 0.30 * smooth(0.2, 0.9, v)
    edges = _bands(t, v, _PLATES, wide=0.0045) * smooth(0.57, 0.55, t)
    collar = _bands(t, v * 0.6, np.array([0.565]), wide=0.006)
    base = base * shade[..., None] * (1 - 0.34 * np.maximum(edges, collar))[..., None]
    after = _bands(t, v, _PLATES + 0.011, wide=0.005) * smooth(0.57, 0.55, t)
    base = base + (0.10 * after * smooth(-0.2, 0.7, v))[..., None]
    patch.lay(base, cover * opacity, box)
    _shine(patch, tube, draw)
    _rostrum(patch, limb, firm)
    patch.strokes(_legs_beside(draw, far=False), limb, firm)
    _eye(patch, 0.872, 0.052, 0.0185)


def _feelers(draw: Generator) -> list[tuple[Array, float, float]]:
    lines = []
    for start, up in ((0.90, 1.0), (0.895, 0.55)):
        lift = draw.uniform(0.02, 0.16) * up
        reach = draw.uniform(0.20, 0.34)
        lines.append(
            (
                np.array(
                    [
                        (start, 0.03),
                        (start + 0.07, 0.06 + lift * 0.4),
                        (start + reach * 0.6, 0.06 + lift),
                        (start + reach, 0.03 + lift * draw.uniform(0.5, 1.6)),
                    ]
                ),
                0.008,
                0.0022,
            )
        )
    for low in (-0.06, -0.12):  # the long ones hang and trail
        drop = draw.uniform(0.6, 1.3)
        lines.append(
            (
                np.array(
                    [
                        (0.90, 0.012),
                        (0.99, 0.0 + low * 0.2),
                        (1.12, low * drop),
                        (1.20, low * drop * 2.1),
                    ]
                ),
                0.008,
                0.0020,
            )
        )
    return lines


def _legs_beside(draw: Generator, *, far: bool) -> list[tuple[Array, float, float]]:
    lines = []
    ground = -0.135 + (0.012 if far else 0)
    for i, x in enumerate(np.linspace(0.61, 0.82, 5)):
        forward = (-0.06, -0.025, 0.02, 0.06, 0.085)[i] + draw.uniform(-0.018, 0.018)
        shift = 0.018 if far else 0.0
        foot = ground if i < 3 else ground + draw.uniform(0.015, 0.06)
        lines.append(
            (
                np.array(
                    [
                        (x + shift, -0.015),
                        (x + shift + forward * 0.25 + 0.02, -0.055),
                        (x + shift + forward * 0.7 + 0.012, -0.095),
                        (x + shift + forward, foot),
                    ]
                ),
                0.0135,
                0.0055,
            )
        )
    # the feet at the mouth that never rest
    lines.append((np.array([(0.865, 0.0), (0.90, -0.03), (0.885, -0.065)]), 0.012, 0.006))
    lines.append((np.array([(0.845, -0.005), (0.868, -0.045), (0.85, -0.075)]), 0.012, 0.006))
    return lines


def _swimmerets(patch: _Patch, limb: Array, firm: float, draw: Generator) -> None:
    for x, y in ((0.27, 0.0), (0.335, -0.002), (0.40, -0.004), (0.465, -0.010), (0.53, -0.016)):
        drop = 0.080 + draw.uniform(-0.006, 0.006)
        lean = draw.uniform(-0.045, -0.020)
        for turn in (0.0, 0.018):
            foot = (x + lean + turn, y - drop)
            spine = polyline(np.array([(x, y), (x + lean * 0.35, y - drop * 0.5), foot]), 30)
            radius = 0.021 * np.sin(np.linspace(0.5, 2.95, 30)).clip(0.15, 1)
            box, _, v, cover = patch.tube(spine, radius, radius)
            fade = 0.22 + 0.30 * np.abs(v)
            patch.lay(mix(limb, colour("fff6e4"), 0.12), cover * firm * fade, box)


def _tail_fan(
    patch: _Patch,
    limb: Array,
    firm: float,
    draw: Generator,
    *,
    at: Array,
    heading: float,
    spread: tuple[float, ...],
) -> None:
    for turn in spread:
        angle = np.deg2rad(heading + turn + draw.uniform(-3, 3))
        ahead = np.array([np.cos(angle), np.sin(angle)])
        long = 0.125 - 0.0006 * abs(turn) * 30 / 10
        spine = polyline(
            np.array([at + ahead * 0.0, at + ahead * long * 0.5, at + ahead * long]), 40
        )
        s = np.linspace(0, 1, 40)
        radius = 0.026 * np.sqrt(np.clip(s * 1.15, 0.05, 1)) * np.sqrt(np.clip(1.08 - s**5, 0, 1))
        box, t, v, cover = patch.tube(spine, radius, radius)
        ribs = 0.5 + 0.5 * np.cos(v * 14)
        fade = (0.55 - 0.2 * t) + 0.25 * np.abs(v) + 0.15 * ribs * t
        patch.lay(mix(limb, colour("fff2da"), 0.15 + 0.25 * ribs), cover * firm * fade, box)


def _organs(patch: _Patch, shrimp: Shrimp, look: str, tube: _Tube) -> None:
    """Paint what shows through the shell: stomach and gland in the head, the gut along the tail."""
    box, t, v, cover = tube
    seen = {"slate": 0.35, "milky": 0.35, "chalk": 0.25, "clear": 0.75}.get(look, 0.85)
    gland = np.exp(-(((t - 0.80) / 0.075) ** 2) - ((v - 0.05) / 0.55) ** 2)
    patch.lay(
        colour("4a2410" if look == "amberglass" else "43321f"), cover * gland * seen * 0.8, box
    )
    gut = np.exp(-(((v - 0.42) / 0.10) ** 2)) * smooth(0.04, 0.1, t) * smooth(0.75, 0.66, t)
    patch.lay(colour("3a2110"), cover * gut * seen * 0.55, box)
    if shrimp.female and not shrimp.berried and look == "slate":
        ovary = np.exp(-(((t - 0.66) / 0.09) ** 2) - ((v - 0.62) / 0.34) ** 2)
        patch.lay(colour("7c8a3f"), cover * ovary * 0.5, box)


def _shine(patch: _Patch, tube: _Tube, draw: Generator) -> None:
    box, t, v, cover = tube
    uneven = 0.65 + 0.35 * np.tanh(_texture(draw, t, v, along=40, across=2))
    streak = np.exp(-(((v - 0.58) / 0.085) ** 2)) * uneven
    streak = streak * smooth(0.04, 0.16, t) * smooth(0.93, 0.80, t)
    dots = np.zeros_like(t)
    for edge in _PLATES:
        dots = np.maximum(
            dots, np.exp(-(((t - edge - 0.03) / 0.016) ** 2) - ((v - 0.63) / 0.10) ** 2)
        )
    big = np.exp(-(((t - 0.72) / 0.06) ** 2) - ((v - 0.60) / 0.10) ** 2)
    white = np.array([1.0, 0.985, 0.95], np.float32) * 1.05
    patch.lay(white, cover * np.clip(0.24 * streak + 0.42 * dots + 0.40 * big, 0, 0.8), box)
    rim = smooth(0.80, 0.98, v) * smooth(0.05, 0.2, t)
    patch.lay(white * 0.8, cover * rim * 0.30, box)


def _rostrum(patch: _Patch, limb: Array, firm: float) -> None:
    spine = polyline(np.array([(0.83, 0.075), (0.90, 0.074), (0.955, 0.082), (1.0, 0.098)]), 60)
    s = np.linspace(0, 1, 60)
    radius = 0.0125 * (1 - s) ** 0.8 + 0.0012
    teeth = radius * (1 + 0.35 * np.abs(np.sin(s * np.pi * 7)) * (s < 0.8))
    box, t, _, cover = patch.tube(spine, teeth, radius)
    patch.lay(mix(limb, colour("2a2018"), 0.15), cover * firm * smooth(0.0, 0.2, t), box)


def _eye(patch: _Patch, x: float, y: float, radius: float) -> None:
    box = patch.box(np.array([(x, y)]), radius * 2)
    away = np.hypot(box.x - x, box.y - y)
    edge = smooth(0.8, -0.8, (away - radius) * patch.px)
    patch.lay(colour("0c0a09"), edge, box)
    ring = np.exp(-(((away - radius * 0.86) / (radius * 0.16)) ** 2)) * edge
    patch.lay(colour("6b5a48"), ring * 0.5, box)
    spot = np.hypot(box.x - x + radius * 0.25, box.y - y - radius * 0.38)
    glint = smooth(radius * 0.38, radius * 0.12, spot) * 0.9
    patch.lay(np.full(3, 1.05, np.float32), glint, box)


def _eggs(patch: _Patch, look: str, draw: Generator, *, most: int) -> None:
    inner = colour("8c9440") if look != "amberglass" else colour("dcae48")
    outer = colour("4d5322") if look != "amberglass" else colour("8d5f16")
    places = []
    for row in range(5):
        for column in np.arange(0.30, 0.575, 0.0265):
            x = column + 0.013 * (row % 2) + draw.uniform(-0.006, 0.006)
            room = 1 - ((x - 0.435) / 0.155) ** 2
            y = -0.006 - 0.0185 * row + draw.uniform(-0.004, 0.004) - 0.10 * max(0, x - 0.5)
            if y > -0.012 - 0.082 * max(room, 0):
                places.append((x, y))
    places = places[:most]
    for i in draw.permutation(len(places)):
        x, y = places[i]
        wide, high = 0.0185 * draw.uniform(0.88, 1.1), 0.0150 * draw.uniform(0.88, 1.1)
        box = patch.box(np.array([(x, y)]), 0.03)
        away = np.hypot((box.x - x) / wide, (box.y - y) / high)
        edge = smooth(0.9, -0.9, (away - 1) * high * patch.px)
        lit = smooth(1.25, 0.0, np.hypot((box.x - x) / wide + 0.25, (box.y - y) / high - 0.4))
        tone = mix(outer, inner, lit) * (0.72 + 0.45 * lit)[..., None] * draw.uniform(0.82, 1.1)
        patch.lay(tone, edge * 0.9, box)
        spot = np.hypot((box.x - x) / wide + 0.3, (box.y - y) / high - 0.45)
        patch.lay(np.ones(3, np.float32), smooth(0.30, 0.05, spot) * edge * 0.35, box)


# --- from above -------------------------------------------------------------------------------


def _from_above(patch: _Patch, shrimp: Shrimp, draw: Generator) -> None:
    look = shrimp.look
    limb, firm = _limb_colour("slate" if look == "mosaic" else look, shrimp)
    bend = shrimp.bend * 0.11
    along = np.array([0.14, 0.24, 0.36, 0.48, 0.60, 0.72, 0.82, 0.89])
    wide = np.array([0.021, 0.031, 0.043, 0.050, 0.056, 0.058, 0.049, 0.026])
    if shrimp.female or shrimp.berried:
        wide = wide * np.array([1.05, 1.15, 1.3, 1.28, 1.08, 1.0, 1.0, 1.0])
    curve = bend * ((along - 0.6) / 0.46) ** 2
    spine = polyline(np.stack([along, curve, wide], axis=1), 300)
    patch.strokes(_feelers_above(draw), limb, firm * 0.75)
    patch.strokes(_legs_above(draw), mix(limb, colour("241a12"), 0.2), firm * 0.75)
    heading = (
        180 + np.rad2deg(np.arctan2(spine[0, 1] - spine[12, 1], spine[12, 0] - spine[0, 0])) * -1
    )
    fan = ((-36, 36), (-18, 18), (0,))
    for pair in fan:
        _tail_fan(patch, limb, firm, draw, at=spine[0, :2], heading=heading, spread=pair)
    tube = patch.tube(spine[:, :2], spine[:, 2], spine[:, 2])
    box, t, v, cover = tube
    back = 1 - np.abs(v)
    if look == "mosaic":  # left is up for a body that heads to the right
        one, thin = _body_colours("amberglass", tube, 1 - np.abs(v - 0.12) * 1.5, draw, shrimp)
        other, thick = _body_colours("slate", tube, back, draw, shrimp)
        side = smooth(-0.05, 0.05, v)
        base, opacity = mix(other, one, side), thick * (1 - side) + thin * side
    else:
        base, opacity = _body_colours(look, tube, back, draw, shrimp)
    seen = {"slate": 0.30, "milky": 0.3, "mosaic": 0.3, "chalk": 0.2}.get(look, 0.75)
    gland = np.exp(-(((t - 0.78) / 0.085) ** 2) - (v / 0.6) ** 2)
    patch.lay(colour("4a2410"), cover * gland * seen * 0.8, box)
    edges = _bands(t, v, _PLATES - 0.02, wide=0.0045)
    shade = 0.70 + 0.45 * smooth(-1.0, 0.5, v + 0.2)
    base = base * shade[..., None] * (1 - 0.30 * edges)[..., None]
    patch.lay(base, cover * opacity, box)
    uneven = 0.6 + 0.4 * np.tanh(_texture(draw, t, v, along=40, across=2))
    streak = np.exp(-(((v - 0.36) / 0.09) ** 2)) * uneven * smooth(0.05, 0.2, t)
    patch.lay(np.full(3, 1.0, np.float32), cover * np.clip(streak * 0.26, 0, 1), box)
    nose = polyline(np.array([(0.86, 0.0), (0.93, 0.0), (0.985, 0.0)]), 40)
    slim = 0.012 * (1 - np.linspace(0, 1, 40)) ** 0.8 + 0.0012
    nose_box, _, _, on_nose = patch.tube(nose, slim, slim)
    patch.lay(mix(limb, colour("2a2018"), 0.2), on_nose * firm, nose_box)
    for out in (1, -1):
        stalk = np.array([(0.862, 0.010 * out), (0.878, 0.030 * out), (0.882, 0.038 * out)])
        patch.strokes([(stalk, 0.016, 0.014)], limb, firm)
        _eye(patch, 0.884, 0.041 * out, 0.0150)


def _feelers_above(draw: Generator) -> list[tuple[Array, float, float]]:
    lines = []
    for side in (1, -1):
        for out, long, start in ((0.05, 0.24, 0.93), (0.10, 0.20, 0.92)):
            lines.append(
                (
                    np.array(
                        [
                            (start - 0.03, 0.012 * side),
                            (start + long * 0.4, (out * 0.4 + 0.01) * side),
                            (start + long, out * draw.uniform(0.6, 1.5) * side),
                        ]
                    ),
                    0.008,
                    0.0022,
                )
            )
        sweep = draw.uniform(0.7, 1.3)
        lines.append(
            (
                np.array(
                    [
                        (0.90, 0.024 * side),
                        (0.99, 0.07 * side * sweep),
                        (1.08, 0.17 * side * sweep),
                        (1.10, 0.29 * side * sweep),
                    ]
                ),
                0.0085,
                0.0022,
            )
        )
    return lines


def _legs_above(draw: Generator) -> list[tuple[Array, float, float]]:
    lines = []
    for side in (1, -1):
        for i, x in enumerate((0.60, 0.66, 0.72, 0.78, 0.83)):
            forward = (-0.07, -0.03, 0.02, 0.06, 0.09)[i] + draw.uniform(-0.015, 0.015)
            out = (0.120, 0.135, 0.135, 0.115, 0.085)[i] * draw.uniform(0.9, 1.1)
            lines.append(
                (
                    np.array(
                        [
                            (x, 0.045 * side),
                            (x + forward * 0.4, (0.045 + out * 0.35) * side),
                            (x + forward, (0.045 + out * 0.75) * side),
                        ]
                    ),
                    0.012,
                    0.005,
                )
            )
    return lines

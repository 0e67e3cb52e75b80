"""The pictures of the example journal: which there are, and what each of them shows."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from simulation.painting.animals import Shrimp, paint_shrimp
from simulation.painting.light import Canvas, colour, smooth
from simulation.painting.scenery import (
    bubbles,
    dust,
    glass_haze,
    ground,
    ground_from_above,
    leaf,
    moss,
    moss_from_above,
    rays,
    sponge,
    stone,
    water,
)
from simulation.painting.things import (
    bag,
    bag_shine,
    black_tray,
    box_filter,
    cardboard,
    falling_soil,
    rack,
    white_tray,
)

__all__ = ["PLANS", "Plan"]

Painter = Callable[[Canvas], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """One picture of the example journal."""

    path: str
    """Below `photos/`."""
    taken: str
    """Day and time, as a camera writes it."""
    paint: Painter
    portrait: bool = False
    orientation: int = 1
    """How the camera was held, 1 to 8 as in EXIF; the file is turned to match."""
    bare: bool = False
    """True for a picture without any metadata."""


def _light(canvas: Canvas, mood: str) -> str:
    """Fill with water of one tank's colour; returns the colour it throws on animals."""
    top, bottom = {
        "green": ("86a08a", "2e3a2c"),
        "warm": ("a39a78", "3c3423"),
        "cool": ("8ba3a6", "2b383b"),
        "dim": ("4f6152", "161e17"),
        "bright": ("b9c7b0", "5a6a55"),
    }[mood]
    water(canvas, top=top, bottom=bottom)
    return top


def _macro(
    canvas: Canvas,
    *,
    animals: Sequence[Shrimp],
    mood: str = "green",
    soil: str = "gravel",
    horizon: float = 640,
    behind: Sequence[tuple[float, float]] = ((1250, 900),),
    beside: Sequence[tuple[float, float, float]] = (),
    leaves: Sequence[tuple[float, float, float, float]] = (),
    front: Sequence[float] = (),
    grain: float = 27,
    beams: bool = False,
) -> None:
    """Show animals on the ground: clumps behind, moss beside, leaves, blurred moss in front."""
    top = _light(canvas, mood)
    if beams:
        rays(canvas)
    bottom = canvas.height / canvas.scale
    for x, wide in behind:
        moss(canvas, x=x, y=horizon + 110, wide=wide, high=wide * 0.66, blur=15, size=1.5)
    feet = [animal.y + 0.14 * animal.length for animal in animals] or [horizon + 180]
    focus = (sum(feet) / len(feet) - horizon) / (bottom - horizon)
    ground(canvas, horizon=horizon, soil=soil, grain=grain, focus=min(focus + 0.06, 0.7))
    for x, y, length, angle in leaves:
        leaf(canvas, x=x, y=y, length=length, angle=angle, flat=0.42, lobes=True, blur=0.8)
    for x, y, wide in beside:
        moss(canvas, x=x, y=y, wide=wide, high=wide * 0.72, blur=1.6)
    for animal in sorted(animals, key=lambda one: one.y):
        paint_shrimp(canvas, animal, ambient=colour(top))
    for x in front:
        moss(canvas, x=x, y=bottom + 60, wide=430, high=310, blur=15, size=1.8, light=0.8)
    dust(canvas)
    glass_haze(canvas, strength=0.02)
    canvas.glow(30, 0.06)


def _from_above(
    canvas: Canvas,
    *,
    animals: Sequence[Shrimp],
    soil: str = "sand",
    pads: Sequence[tuple[float, float, float]] = (),
    leaves: Sequence[tuple[float, float, float, float]] = (),
    shade: float = 0.75,
) -> None:
    ground_from_above(canvas, soil=soil, grain=20)
    canvas.soften(2.2)
    x, y = canvas.grid
    lamp = np.exp(-(((x - 760) / 900) ** 2) - (((y - 420) / 640) ** 2))
    canvas.light *= (shade * (0.45 + 0.75 * lamp))[..., None]
    for lx, ly, length, angle in leaves:
        leaf(canvas, x=lx, y=ly, length=length, angle=angle, lobes=True)
    for px, py, size in pads:
        moss_from_above(canvas, x=px, y=py, size=size, blur=1.2)
    for animal in animals:
        paint_shrimp(canvas, animal, ambient=colour("6f8468"))
    canvas.tint(colour("5c7161"), np.full(canvas.light.shape[:2], 0.05, np.float32))
    dust(canvas, number=25)
    canvas.glow(26, 0.10)


def _scatter(
    canvas: Canvas, looks: Sequence[str], *, box: tuple[float, float, float, float], length: float
) -> list[Shrimp]:
    """Place animals seen from above without letting two of them touch."""
    draw = canvas.draw
    placed: list[tuple[float, float]] = []
    animals = []
    apart = length * 1.25
    for i, look in enumerate(looks):
        for attempt in range(4000):
            x, y = draw.uniform(box[0], box[2]), draw.uniform(box[1], box[3])
            room = apart * (1 - attempt / 5000)
            if all((x - a) ** 2 + (y - b) ** 2 > room**2 for a, b in placed):
                break
        placed.append((x, y))
        animals.append(
            Shrimp(
                x=x,
                y=y,
                look=look,
                view="top",
                young=True,
                seed=100 + i,
                length=length * draw.uniform(0.86, 1.1),
                angle=draw.uniform(0, 360),
                bend=draw.uniform(-1, 1),
                saddle=("thin", "full", "broken")[i % 3],
                shadow=0.28,
            )
        )
    return animals


def _tray(canvas: Canvas, *, counts: dict[str, int], length: float) -> None:
    white_tray(canvas, (90, 70, 1510, 1000))
    looks = [look for look, number in counts.items() for _ in range(number)]
    order = canvas.draw.permutation(len(looks))
    box = (250, 220, 1350, 850)
    for animal in _scatter(canvas, [looks[i] for i in order], box=box, length=length):
        paint_shrimp(canvas, animal)
    canvas.glow(20, 0.06)


def _graded(canvas: Canvas, *, animal: Shrimp) -> None:
    black_tray(canvas)
    paint_shrimp(canvas, animal)
    dust(canvas, number=20, strength=0.05)
    canvas.glow(24, 0.10)


def _tank(
    canvas: Canvas,
    *,
    box: tuple[float, float, float, float] = (130, 170, 1470, 900),
    soil: str,
    mood: str,
    clumps: Sequence[tuple[float, float]] = (),
    wall: bool = False,
    stones: Sequence[tuple[float, float]] = (),
    leaves: Sequence[tuple[float, float]] = (),
    sponges: Sequence[float] = (1380,),
    looks: Sequence[str] = (),
    grain: float = 22,
    lamp: str | None = "f4f1df",
    filter_box: float | None = None,
) -> None:
    """Show a whole tank on its shelf."""

    def inside(inner: Canvas) -> None:
        floor = inner.height / inner.scale
        top = _light(inner, mood)
        rays(inner, strength=0.16)
        if wall:
            for middle in range(40, 1640, 230):
                moss(
                    inner,
                    x=middle,
                    y=floor - 120,
                    wide=460,
                    high=floor - 270,
                    size=0.7,
                    dense=0.55,
                    blur=1.5,
                    light=0.9,
                )
        for x in sponges:
            sponge(inner, x=x, y=floor - 120, wide=140, high=230, blur=1.5)
        ground(inner, horizon=floor - 200, soil=soil, grain=grain, depth=0.7)
        if filter_box is not None:
            box_filter(inner, (filter_box, floor - 330, filter_box + 210, floor - 105))
            bubbles(inner, x=filter_box + 151, top=70, bottom=floor - 390, number=26)
        for x, wide in stones:
            stone(inner, x=x, y=floor - 120, wide=wide, high=wide * 0.3)
        for x, wide in clumps:
            moss(inner, x=x, y=floor - 90, wide=wide, high=wide * 0.62, size=0.6, dense=0.8)
        for x, angle in leaves:
            leaf(inner, x=x, y=floor - 70, length=260, angle=angle, flat=0.45, lobes=True)
        for i, look in enumerate(looks):
            x = 110 + (i * 617) % 1380 + inner.draw.uniform(-40, 40)
            y = floor - 48 - (i * 53) % 120
            side = bool(inner.draw.integers(2))
            length = inner.draw.uniform(80, 116)
            paint_shrimp(
                inner,
                Shrimp(x=x, y=y, length=length, look=look, seed=400 + i, faces_left=side),
                ambient=colour(top),
            )
        for x in sponges:
            bubbles(inner, x=x, top=70, bottom=floor - 360, number=34)

    rack(canvas, box, inside, lamp=lamp)
    canvas.glow(26, 0.12)


def _skin(canvas: Canvas) -> None:
    top = _light(canvas, "dim")
    moss(canvas, x=300, y=900, wide=800, high=560, blur=13, size=1.5)
    ground(canvas, horizon=820, grain=30)
    sponge(canvas, x=1000, y=980, wide=720, high=640, tube_to=0)
    shed = Shrimp(x=900, y=330, length=560, look="clear", angle=4, shadow=0.25, seed=31)
    paint_shrimp(canvas, shed, ambient=colour(top))
    dust(canvas)
    glass_haze(canvas)
    canvas.glow(28, 0.10)


def _commas(canvas: Canvas, *, number: int, mood: str, soil: str) -> None:
    """Show newly hatched young on leaves and glass."""
    top = _light(canvas, mood)
    ground(canvas, horizon=560, soil=soil, grain=46)
    leaf(canvas, x=620, y=790, length=1050, angle=8, flat=0.45, lobes=True)
    leaf(canvas, x=1330, y=640, length=520, angle=-24, flat=0.4, tone="66401f", blur=4)
    moss(canvas, x=1480, y=1000, wide=420, high=420, blur=4)
    for i in range(number):
        x, y = canvas.draw.uniform(120, 1480), canvas.draw.uniform(190, 930)
        soft = 0.0 if 560 < y < 860 else canvas.draw.uniform(1.5, 6)
        look = "clear" if i % 3 else "slate"
        paint_shrimp(
            canvas,
            Shrimp(
                x=x,
                y=y,
                length=canvas.draw.uniform(84, 128),
                look=look,
                young=True,
                blur=soft,
                shadow=0.35 if y > 600 else 0.0,
                faces_left=bool(i % 2),
                seed=200 + i,
                angle=canvas.draw.uniform(-25, 25),
            ),
            ambient=colour(top),
        )
    dust(canvas)
    glass_haze(canvas)
    canvas.glow(26, 0.10)


def _moss_wall(canvas: Canvas, *, number: int, seed: int) -> None:
    """Show young between the fronds of a moss wall."""
    _light(canvas, "dim")
    for i in range(5):
        moss(canvas, x=160 + 330 * i, y=1080, wide=620, high=1000, blur=7, size=1.2, light=0.75)
    draw = canvas.draw
    for i in range(number):
        paint_shrimp(
            canvas,
            Shrimp(
                x=draw.uniform(150, 1450),
                y=draw.uniform(160, 900),
                look="slate",
                young=True,
                length=draw.uniform(120, 180),
                angle=draw.uniform(-50, 50),
                shadow=0.15,
                faces_left=bool(draw.integers(2)),
                seed=seed + i,
                blur=draw.choice([0, 0, 1, 4]),
            ),
            ambient=colour("5c7a4a"),
        )
    moss(canvas, x=360, y=1120, wide=760, high=560, blur=0.5, dense=0.6)
    moss(canvas, x=1250, y=1140, wide=800, high=480, blur=1, dense=0.6)
    glass_haze(canvas, strength=0.05)
    canvas.glow(30, 0.12)


def _new_soil(canvas: Canvas, *, old: str, new: str, tone: str, mood: str) -> None:
    _light(canvas, mood)
    ground(canvas, horizon=640, soil=old, grain=30)
    x, y = canvas.grid
    keep = canvas.light.copy()
    ground(canvas, horizon=560, soil=new, grain=26, slope=0.05)
    heap = smooth(-40, 60, y - (760 - 170 * np.exp(-(((x - 860) / 330) ** 2))))
    canvas.light = keep * (1 - heap)[..., None] + canvas.light * heap[..., None]
    cloudy = np.exp(-(((x - 880) / 420) ** 2) - (((y - 700) / 200) ** 2))
    canvas.tint(colour("8a7352"), 0.42 * cloudy)
    falling_soil(canvas, x=820, top=250, bottom=690, tone=tone)
    canvas.glow(30, 0.12)


def _filter_box(canvas: Canvas) -> None:
    _light(canvas, "green")
    moss(canvas, x=250, y=900, wide=620, high=520, blur=12, size=1.4)
    ground(canvas, horizon=800, grain=28)
    box_filter(canvas, (520, 250, 1110, 930))
    bubbles(canvas, x=945, top=0, bottom=140, number=26)
    animal = Shrimp(x=1330, y=890, length=300, look="slate", faces_left=True, seed=61)
    paint_shrimp(canvas, animal, ambient=colour("86a08a"))
    glass_haze(canvas)
    canvas.glow(26, 0.10)


def _bag(canvas: Canvas) -> None:
    cardboard(canvas)
    place = {"x": 800.0, "top": 60.0, "bottom": 985.0, "half": 345.0}
    film = bag(canvas, **place)
    moss(canvas, x=790, y=950, wide=300, high=170, size=0.8, dense=0.7)
    spots = ((660, 640, 12), (900, 690, -18), (720, 770, 4), (930, 830, 22), (640, 880, -6))
    for i, (x, y, angle) in enumerate(spots):
        paint_shrimp(
            canvas,
            Shrimp(
                x=x,
                y=y,
                length=215,
                look="slate",
                angle=angle,
                shadow=0,
                seed=70 + i,
                faces_left=bool(i % 2),
                female=i == 2,
            ),
            ambient=colour("8fa79a"),
        )
    bag_shine(canvas, film=film, **place)
    canvas.glow(22, 0.08)


def _on_leaf(canvas: Canvas, *, looks: Sequence[str], mood: str, soil: str, length: float) -> None:
    """Show a group that eats at a leaf."""
    animals = []
    for i, look in enumerate(looks):
        row = i % 3
        x = 250 + 1100 * (i + 0.5) / len(looks) + canvas.draw.uniform(-30, 30)
        y = 690 + 95 * row + canvas.draw.uniform(-20, 20)
        animals.append(
            Shrimp(
                x=x,
                y=y,
                look=look,
                seed=300 + 7 * i,
                faces_left=bool(canvas.draw.integers(2)),
                length=length * (0.84 + 0.13 * row) * canvas.draw.uniform(0.93, 1.06),
                saddle=("thin", "broken", "full")[i % 3],
                female=i % 2 == 0,
                blur=(2.2, 0.6, 0.0)[row],
            )
        )
    _macro(
        canvas,
        animals=animals,
        mood=mood,
        soil=soil,
        horizon=600,
        leaves=((780, 830, 1000, 5),),
        behind=((200, 800), (1380, 700)),
        front=(1560,),
    )


# --- the list -------------------------------------------------------------------------------

_AMBER = Shrimp(x=760, y=665, length=880, look="amberglass", seed=1)
_SLATE = Shrimp(x=760, y=665, length=880, look="slate", seed=2)


def _one(animal: Shrimp, **scene: object) -> Painter:
    return partial(_macro, animals=(animal,), **scene)  # type: ignore[arg-type]


def _grade(saddle: str, seed: int, *, angle: float, bend: float, length: float = 900) -> Painter:
    animal = Shrimp(
        x=780,
        y=530,
        length=length,
        look="amberglass",
        view="top",
        saddle=saddle,
        seed=seed,
        angle=angle,
        bend=bend,
    )
    return partial(_graded, animal=animal)


def _rows() -> tuple[Plan, ...]:
    return (
        *_winter_and_spring(),
        *_summer(),
        *_autumn(),
        *_shelf(),
    )


def _winter_and_spring() -> tuple[Plan, ...]:
    tall = replace(_AMBER, x=520, y=1010, length=620, faces_left=True, saddle="thin", seed=11)
    return (
        Plan(
            path="2026-02-15-rack/moss-on-slate.jpg",
            taken="2026:02:15 18:12:40",
            paint=partial(
                _macro,
                animals=(),
                mood="green",
                beside=((780, 860, 900), (420, 900, 460)),
                behind=((1350, 700),),
                beams=True,
            ),
        ),
        Plan(
            path="2026-02-16-sedge/new-clay.jpg",
            taken="2026:02:16 19:40:05",
            paint=partial(_new_soil, old="glass", new="clay", tone="4a3526", mood="warm"),
        ),
        Plan(
            path="2026-02-18-hazel/IMG_0012.JPG",
            taken="2026:02:18 20:05:11",
            orientation=6,
            portrait=True,
            paint=_one(
                tall,
                mood="cool",
                soil="glass",
                horizon=960,
                behind=((150, 600),),
                leaves=((600, 1190, 620, 14),),
            ),
        ),
        Plan(
            path="2026-02-18-hazel/IMG_0013.JPG",
            taken="2026:02:18 20:07:52",
            paint=partial(
                _on_leaf, looks=["amberglass"] * 5, mood="cool", soil="glass", length=330
            ),
        ),
        Plan(
            path="2026-02-21-rowan/lock-keepers-grey.jpg",
            taken="2026:02:21 17:30:00",
            paint=_one(
                replace(_SLATE, seed=21),
                mood="green",
                beside=((1440, 940, 520),),
                behind=((300, 900),),
            ),
        ),
        Plan(
            path="2026-02-21-rowan/all-eight.jpg",
            taken="2026:02:21 17:36:21",
            paint=partial(_on_leaf, looks=["slate"] * 8, mood="green", soil="gravel", length=280),
        ),
        Plan(path="2026-03-07-alder/empty-skin.jpg", taken="2026:03:07 08:02:33", paint=_skin),
        Plan(
            path="2026-03-07-alder/two-days.jpg",
            taken="2026:03:07 08:05:10",
            paint=_one(
                replace(_SLATE, berried=True, female=True, seed=23, x=770),
                mood="dim",
                beside=((1400, 930, 620),),
                behind=((250, 900),),
            ),
        ),
        Plan(
            path="2026-03-13-alder/second-one.jpg",
            taken="2026:03:13 21:14:00",
            orientation=3,
            paint=_one(
                replace(
                    _SLATE, berried=True, female=True, faces_left=True, seed=24, length=660, y=720
                ),
                mood="warm",
                leaves=((620, 900, 700, -8),),
            ),
        ),
        Plan(
            path="2026-03-26-sedge/fourteen-eggs.jpg",
            taken="2026:03:26 19:22:47",
            paint=_one(
                replace(_AMBER, berried=True, eggs=14, female=True, saddle="thin", seed=13),
                mood="cool",
                soil="clay",
                beside=((160, 900, 460),),
            ),
        ),
        Plan(
            path="2026-03-27-hazel/commas.jpg",
            taken="2026:03:27 06:55:30",
            paint=partial(_commas, number=12, mood="cool", soil="glass"),
        ),
        Plan(
            path="2026-04-24-hazel/white-dish.jpg",
            taken="2026:04:24 18:48:19",
            paint=partial(_tray, counts={"slate": 19}, length=118),
        ),
        Plan(
            path="2026-05-21-alder/under-the-moss.jpg",
            taken="2026:05:21 16:20:02",
            paint=partial(
                _from_above,
                animals=(
                    replace(_SLATE, view="top", x=540, y=460, length=420, angle=24, bend=0.6),
                    replace(_SLATE, view="top", x=1050, y=700, length=400, angle=200, seed=26),
                ),
                pads=((1330, 330, 330), (250, 860, 280)),
            ),
        ),
        Plan(
            path="2026-05-26-sedge/the-same-seven.jpg",
            taken="2026:05:26 17:05:44",
            paint=partial(_tray, counts={"amberglass": 7}, length=140),
        ),
    )


def _summer() -> tuple[Plan, ...]:
    high = replace(_SLATE, x=560, y=900, length=640, female=True, seed=28)
    return (
        Plan(
            path="2026-06-13-rowan/rill-one-of-two.jpg",
            taken="2026:06:13 14:01:09",
            paint=_one(
                replace(_SLATE, female=True, seed=27, faces_left=True, x=840),
                mood="bright",
                soil="sand",
                beside=((200, 930, 520),),
                behind=((1300, 800),),
            ),
        ),
        Plan(
            path="2026-06-13-rowan/rill-through-the-jar.jpg",
            taken="2026:06:13 14:09:55",
            portrait=True,
            orientation=8,
            paint=_one(high, mood="bright", soil="sand", horizon=930, behind=((900, 700),)),
        ),
        Plan(
            path="2026-06-14-rack/ready-for-the-post.jpg",
            taken="2026:06:14 09:30:15",
            paint=_bag,
        ),
        Plan(
            path="2026-06-23-alder/button.jpg",
            taken="2026:06:23 22:41:00",
            paint=_one(
                replace(_SLATE, berried=True, female=True, nick=True, seed=29, x=840),
                mood="warm",
                beside=((1440, 920, 560),),
                leaves=((420, 930, 600, 10),),
            ),
        ),
        Plan(
            path="2026-06-23-alder/button-from-above.jpg",
            taken="2026:06:23 22:44:18",
            paint=partial(
                _from_above,
                animals=(
                    replace(
                        _SLATE,
                        view="top",
                        x=800,
                        y=540,
                        length=640,
                        female=True,
                        seed=29,
                        angle=-14,
                        bend=-0.4,
                    ),
                ),
                pads=((210, 240, 320), (1430, 900, 300)),
            ),
        ),
        Plan(
            path="2026-07-11-rowan/on-the-wall.jpg",
            taken="2026:07:11 22:15:37",
            paint=partial(_moss_wall, number=11, seed=500),
        ),
        Plan(
            path="2026-07-12-hazel/button-and-hers.jpg",
            taken="2026:07:12 14:02:26",
            paint=partial(
                _macro,
                mood="cool",
                soil="glass",
                leaves=((900, 900, 900, 6),),
                animals=(
                    replace(_SLATE, x=700, y=640, length=620, female=True, nick=True, seed=29),
                    *(
                        Shrimp(
                            x=x,
                            y=y,
                            length=104,
                            look="clear",
                            young=True,
                            seed=40 + x,
                            faces_left=x % 2 == 0,
                        )
                        for x, y in ((260, 850), (1105, 790), (1290, 870), (1420, 760), (560, 900))
                    ),
                ),
            ),
        ),
        Plan(
            path="2026-08-08-rowan/there-they-are.jpg",
            taken="2026:08:08 18:33:50",
            paint=partial(_tray, counts={"slate": 15, "amberglass": 4}, length=120),
        ),
        Plan(
            path="2026-08-08-rowan/cough-sweet.jpg",
            taken="2026:08:08 18:40:12",
            paint=_one(
                replace(_AMBER, young=True, seed=14, length=620, y=720, saddle="full"),
                mood="dim",
                behind=((1300, 900), (220, 600)),
                front=(120,),
            ),
        ),
        Plan(
            path="2026-08-09-hazel/0231.jpg",
            taken="2026:08:09 11:20:00",
            paint=partial(_tray, counts={"slate": 7, "amberglass": 8, "clear": 1}, length=124),
        ),
        Plan(
            path="2026-08-09-hazel/0232.jpg",
            taken="2026:08:09 11:24:31",
            orientation=5,
            paint=_one(
                Shrimp(x=800, y=720, length=600, look="clear", young=True, seed=32),
                mood="cool",
                soil="glass",
                leaves=((820, 850, 900, -4),),
            ),
        ),
        Plan(
            path="2026-08-09-hazel/0234.jpg",
            taken="2026:08:09 11:31:08",
            paint=partial(
                _macro,
                mood="cool",
                soil="glass",
                leaves=((520, 880, 700, 12),),
                animals=(
                    replace(_AMBER, x=520, y=700, length=430, young=True, seed=15),
                    replace(
                        _SLATE, x=1110, y=760, length=450, young=True, seed=25, faces_left=True
                    ),
                ),
            ),
        ),
        Plan(
            path="2026-11-01-larch/box-1.jpg",
            taken="2026:11:01 15:10:40",
            paint=_filter_box,
        ),
        Plan(
            path="2026-08-29-hazel/wick.jpg",
            taken="2026:08:29 15:45:33",
            paint=partial(
                _on_leaf, looks=["amberglass"] * 8, mood="bright", soil="glass", length=260
            ),
        ),
    )


def _autumn() -> tuple[Plan, ...]:
    mosaic = Shrimp(x=780, y=665, length=860, look="mosaic", seed=51)
    milky = Shrimp(x=770, y=665, length=840, look="milky", seed=52)
    return (
        Plan(
            path="2026-09-20-hazel/black-tray-1.jpg",
            taken="2026:09:20 19:00:12",
            paint=_grade("full", 101, angle=6, bend=0.3),
        ),
        Plan(
            path="2026-09-20-hazel/black-tray-2.jpg",
            taken="2026:09:20 19:03:40",
            paint=_grade("thin", 102, angle=-10, bend=-0.5),
        ),
        Plan(
            path="2026-09-20-hazel/black-tray-3.jpg",
            taken="2026:09:20 19:06:02",
            paint=_grade("broken", 103, angle=14, bend=0.7),
        ),
        Plan(
            path="2026-09-26-rowan/peat.jpg",
            taken="2026:09:26 10:12:54",
            paint=partial(_on_leaf, looks=["slate"] * 10, mood="green", soil="gravel", length=240),
        ),
        Plan(
            path="2026-10-03-hazel/best-1.jpg",
            taken="2026:10:03 20:10:10",
            paint=_grade("full", 104, angle=-4, bend=0.2, length=980),
        ),
        Plan(
            path="2026-10-03-hazel/best-3.jpg",
            taken="2026:10:03 20:16:45",
            paint=_one(
                replace(_AMBER, seed=16, saddle="full", female=True),
                mood="dim",
                beside=((180, 900, 480),),
                behind=((1250, 900),),
            ),
        ),
        Plan(
            path="2026-10-08-alder/a-plain-one-with-eggs.jpg",
            taken="2026:10:08 21:20:20",
            orientation=2,
            paint=_one(
                replace(_SLATE, berried=True, female=True, seed=33),
                mood="green",
                beside=((1380, 920, 600),),
                front=(90,),
            ),
        ),
        Plan(
            path="2026-10-10-sedge/glim-on-black.jpg",
            taken="2026:10:10 18:02:00",
            bare=True,
            paint=_grade("thin", 105, angle=170, bend=0.4),
        ),
        Plan(
            path="2027-03-06-larch/hinge-above.jpg",
            taken="2027:03:06 13:15:30",
            paint=partial(
                _graded, animal=replace(mosaic, view="top", y=530, length=900, angle=-5, bend=0.3)
            ),
        ),
        Plan(
            path="2027-03-06-larch/hinge-left.jpg",
            taken="2027:03:06 13:18:09",
            paint=_one(
                replace(mosaic, faces_left=True, x=820), mood="dim", beside=((1400, 920, 520),)
            ),
        ),
        Plan(
            path="2027-03-06-larch/hinge-right.jpg",
            taken="2027:03:06 13:19:52",
            paint=_one(mosaic, mood="dim", beside=((210, 920, 480),)),
        ),
        Plan(
            path="2026-12-27-rowan/chalk.jpg",
            taken="2026:12:27 15:40:09",
            paint=_one(
                replace(milky, look="chalk", seed=53, x=820, faces_left=True),
                mood="dim",
                beside=((1440, 920, 480),),
            ),
        ),
        Plan(
            path="2027-03-07-willow/new-soil.jpg",
            taken="2027:03:07 11:05:00",
            paint=partial(_new_soil, old="clay", new="dark", tone="2e2926", mood="bright"),
        ),
        Plan(
            path="2027-04-21-rack/from-the-south.jpg",
            taken="2027:04:21 18:00:00",
            bare=True,
            paint=partial(
                _on_leaf, looks=["amberglass"] * 12, mood="warm", soil="sand", length=225
            ),
        ),
        Plan(
            path="2027-01-04-rowan/white-tail.jpg",
            taken="2027:01:04 19:44:00",
            paint=_one(milky, mood="green", leaves=((980, 900, 620, 8),)),
        ),
        Plan(
            path="2026-12-27-rowan/chalk-from-above.jpg",
            taken="2026:12:27 15:46:41",
            orientation=7,
            paint=partial(
                _from_above,
                animals=(
                    replace(
                        milky,
                        look="chalk",
                        view="top",
                        x=760,
                        y=520,
                        length=620,
                        angle=16,
                        bend=0.4,
                    ),
                ),
                pads=((1380, 850, 300),),
                leaves=((330, 850, 520, 30),),
            ),
        ),
        Plan(
            path="2026-10-15-rack/three-at-the-leaf.jpg",
            taken="2026:10:15 20:30:00",
            bare=True,
            paint=partial(
                _from_above,
                animals=(
                    replace(_AMBER, view="top", x=520, y=420, length=380, angle=-40, seed=17),
                    replace(_SLATE, view="top", x=1060, y=430, length=400, angle=215, seed=34),
                    replace(
                        _AMBER,
                        view="top",
                        x=760,
                        y=800,
                        length=360,
                        angle=80,
                        seed=18,
                        saddle="thin",
                    ),
                ),
                leaves=((790, 560, 800, 12),),
                soil="clay",
                pads=((120, 960, 260),),
            ),
        ),
    )


def _shelf() -> tuple[Plan, ...]:
    mixed = ["slate", "slate", "amberglass", "slate", "slate", "slate", "amberglass", "slate"]

    def view(path: str, taken: str, **tank: object) -> Plan:
        return Plan(path=path, taken=taken, paint=partial(_tank, **tank))  # type: ignore[arg-type]

    amber = ["amberglass"]
    return (
        view(
            "2026-10-15-rack/alder.jpg",
            "2026:10:15 19:01:00",
            soil="gravel",
            mood="green",
            clumps=((420, 560), (860, 380)),
            stones=((640, 420),),
            looks=mixed,
            leaves=((1120, -10),),
        ),
        view(
            "2026-10-15-rack/hazel.jpg",
            "2026:10:15 19:02:00",
            soil="glass",
            mood="cool",
            sponges=(200,),
            looks=amber * 9,
            leaves=((520, 8), (900, -16), (1240, 5)),
        ),
        view(
            "2026-10-15-rack/rowan.jpg",
            "2026:10:15 19:03:00",
            soil="gravel",
            mood="dim",
            wall=True,
            sponges=(120, 1480),
            looks=["slate"] * 14,
            box=(60, 150, 1540, 900),
            grain=20,
        ),
        view(
            "2026-10-15-rack/sedge.jpg",
            "2026:10:15 19:04:00",
            soil="clay",
            mood="warm",
            box=(390, 240, 1210, 900),
            sponges=(240,),
            clumps=((900, 640),),
            looks=amber * 6,
            grain=30,
        ),
        view(
            "2026-11-01-larch/larch.jpg",
            "2026:11:01 15:30:00",
            soil="glass",
            mood="bright",
            box=(420, 260, 1180, 900),
            sponges=(1240,),
            grain=30,
        ),
        view(
            "2026-12-12-bracken/bracken.jpg",
            "2026:12:12 17:20:00",
            soil="gravel",
            mood="green",
            wall=True,
            sponges=(),
            filter_box=1290,
            looks=amber * 7,
            box=(70, 170, 1530, 900),
            grain=20,
        ),
        view(
            "2027-03-07-willow/willow.jpg",
            "2027:03:07 16:40:00",
            soil="dark",
            mood="bright",
            clumps=((330, 480), (1130, 620)),
            sponges=(760,),
            lamp=None,
            looks=["slate", "slate", "clear", "slate", "slate"],
        ),
    )


PLANS = _rows()

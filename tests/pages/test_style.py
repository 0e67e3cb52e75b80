"""The palette: every pair of colours that stands together can be read, in both schemes.

Contrast ratio and relative luminance as defined in WCAG 2.2 (glossary); the limits are those of
1.4.3 (text, 4.5:1) and 1.4.11 (meaningful lines, 3:1); from memory.
"""

import gzip
import re

import pytest

from tools.fake_results import theme

TEXT_PAIRS = [
    (front, back)
    for front in ("ink", "muted", "accent", "accent-2", "claim")
    for back in ("paper", "sheet")
] + [("paper", "ink")]
LINE_PAIRS = [
    (front, back) for front in ("accent", "accent-2", "claim") for back in ("paper", "sheet")
]


def _schemes() -> dict[str, dict[str, str]]:
    css = theme()["style.css"]
    blocks = re.findall(r":root \{([^}]*--[^}]*)\}", css)
    assert len(blocks) == 2
    light, dark = (dict(re.findall(r"--([a-z0-9-]+): (#[0-9a-f]{6});", block)) for block in blocks)
    return {"light": light, "dark": {**light, **dark}}


def _luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    high, low = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast__of_black_on_white_is_21() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("front", "back"), TEXT_PAIRS)
def test_palette__text_can_be_read(scheme: str, front: str, back: str) -> None:
    colours = _schemes()[scheme]

    assert contrast(colours[front], colours[back]) >= 4.5


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("front", "back"), LINE_PAIRS)
def test_palette__meaningful_lines_can_be_seen(scheme: str, front: str, back: str) -> None:
    colours = _schemes()[scheme]

    assert contrast(colours[front], colours[back]) >= 3.0


def test_palette__dark_changes_every_colour() -> None:
    schemes = _schemes()

    assert [
        name for name, value in schemes["dark"].items() if value == schemes["light"][name]
    ] == []


def test_style__uses_no_colour_beside_the_palette() -> None:
    for name, css in theme().items():
        if name.endswith(".css"):
            bare = re.sub(r":root \{.*?\}|/\*.*?\*/", "", css, flags=re.DOTALL)
            assert re.findall(r"#[0-9a-fA-F]{3,8}\b|rgba?\(|hsla?\(", bare) == [], name
            used = set(re.findall(r"var\(--([a-z0-9-]+)\)", bare))
            assert used <= _schemes()["light"].keys() | {"serif", "sans"}, name


def test_style__asks_no_other_host_and_stays_small() -> None:
    css = "\n".join(text for name, text in theme().items() if name.endswith(".css"))

    assert "url(" not in css
    assert "@import" not in css
    assert len(gzip.compress(css.encode())) <= 10_000


def test_style__prints_light_whatever_the_scheme() -> None:
    css = theme()["style.css"]
    dark = css.index("prefers-color-scheme: dark")
    printed = css[css.index("@media print") :]

    assert css[css.rindex("@media", 0, dark) : dark].startswith("@media screen")
    assert "color-scheme: only light" in printed
    assert "background: white" in printed

from datetime import date

import pytest

from filialog.journal.events import LookSeen, Parents, Part, Sorting, Value
from filialog.journal.keys import Key, Shape
from filialog.journal.quantities import Age, Count, Reading, When
from filialog.reading.sheet import Desk, Sheet
from filialog.reading.values import CONVERTERS, read_value
from filialog.reading.yaml_nodes import read_nodes


def read(
    shape: Shape, written: str, *, name: str = "key", units: dict[str, str] | None = None
) -> tuple[Value | None, list[str]]:
    text = f"{name}: {written}\n"
    desk = Desk(units=units or {}, pens_declared=True)
    sheet = Sheet(path="x.md", text=text, desk=desk)
    root = read_nodes(sheet, text)
    assert root is not None
    key = Key(name=name, shape=shape, says="says", choices=("netted", "photo"))
    value = read_value(root.pairs[0][1], key, sheet)
    return value, [finding.code for finding in desk.findings]


def test_converters__there_is_one_for_every_shape() -> None:
    assert set(CONVERTERS) == set(Shape)


@pytest.mark.parametrize("shape", list(Shape))
@pytest.mark.parametrize("written", ["{a: {b: [c]}}", "[[a], {b: c}]", "true", "''", "'\\x'", "~"])
def test_converters__give_a_value_or_a_finding_for_anything(shape: Shape, written: str) -> None:
    value, codes = read(shape, written, name="ph")

    assert value is not None or codes


@pytest.mark.parametrize(
    ("written", "low", "high"),
    [
        ("0", 0, 0),
        ("12", 12, 12),
        ("'12'", 12, 12),
        ("~12", 9, 15),
        ("~1", 1, 2),
        ("~0", 0, 1),
        ("~100", 80, 120),
        ("10-14", 10, 14),
        ("10 - 14", 10, 14),
        ("12+", 12, None),
        ("some", 1, None),
        ("012", 12, 12),
    ],
)
def test_count__has_these_bounds(written: str, low: int, high: int | None) -> None:
    value, codes = read(Shape.COUNT, written)

    assert codes == []
    assert isinstance(value, Count)
    assert (value.low, value.high) == (low, high)


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("-3", "R306"),
        ("−3", "R306"),
        ("1.5", "R305"),
        ("14-10", "R305"),
        ("a few", "R305"),
        ("12 adults", "R305"),
        ("12?", "R305"),
        ("'>3'", "R305"),
        ("<5", "R305"),
        ("99999999999999999999", "R311"),
        ("1-9999999", "R311"),
        ("10–14", "R320"),
        ("“12”", "R112"),
        ("1,5", "R301"),
        ("true", "R305"),
        ("", "R203"),
        ("[1, 2]", "R202"),
        ("{a: 1}", "R202"),
        ("'٣'", "R305"),
    ],
)
def test_count__slips_have_one_finding(written: str, code: str) -> None:
    assert read(Shape.COUNT, written) == (None, [code])


D = date.fromisoformat


@pytest.mark.parametrize(
    ("written", "earliest", "latest", "about"),
    [
        ("2026-03-14", "2026-03-14", "2026-03-14", False),
        ("2026-05", "2026-05-01", "2026-05-31", False),
        ("2026-05-XX", "2026-05-01", "2026-05-31", False),
        ("2024-02", "2024-02-01", "2024-02-29", False),
        ("2026", "2026-01-01", "2026-12-31", False),
        ("2026-XX-XX", "2026-01-01", "2026-12-31", False),
        # ISO 8601 week dates: 2026-W01 begins on Monday 29 December 2025, and 2026 has 53
        # weeks (from memory of the rule that week 1 holds the first Thursday).
        ("2026-W01", "2025-12-29", "2026-01-04", False),
        ("2026-W19", "2026-05-04", "2026-05-10", False),
        ("2026-W19-3", "2026-05-06", "2026-05-06", False),
        ("2026-W53", "2026-12-28", "2027-01-03", False),
        ("2026-05-01/2026-05-09", "2026-05-01", "2026-05-09", False),
        ("2026-04/2026-05", "2026-04-01", "2026-05-31", False),
        ("2026-05-14~", "2026-05-11", "2026-05-17", True),
        ("2026-05~", "2026-04-16", "2026-06-15", True),
        ("2026-05?", "2026-04-16", "2026-06-15", True),
        ("2026-05-14~/2026-05-20", "2026-05-11", "2026-05-20", True),
    ],
)
def test_day__has_these_bounds(written: str, earliest: str, latest: str, about: bool) -> None:
    value, codes = read(Shape.DAY, written)

    assert codes == []
    assert value == When(earliest=D(earliest), latest=D(latest), text=written, about=about)


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("2026-13-01", "R302"),
        ("2026-02-30", "R302"),
        ("2025-02-29", "R302"),
        ("2026-00-10", "R302"),
        ("2026-05-00", "R302"),
        ("2025-W53", "R302"),
        ("2026-W19-8", "R302"),
        ("2026-21", "R302"),
        ("0206-03-14", "R302"),
        ("2026-05-01/..", "R302"),
        ("/2026-05-01", "R302"),
        ("2026-05-09/2026-05-01", "R302"),
        ("14.3.2026", "R303"),
        ("2026-3-14", "R303"),
        ("2026-03-14 19:30", "R303"),
        ("yesterday", "R303"),
        ("2026–03–14", "R320"),
        ("", "R203"),
    ],
)
def test_day__slips_have_one_finding(written: str, code: str) -> None:
    assert read(Shape.DAY, written) == (None, [code])


@pytest.mark.parametrize(
    ("written", "low", "high"),
    [
        ("45 d", 45, 45),
        ("45d", 45, 45),
        ("6 weeks", 42, 42),
        ("1.5 weeks", 10, 11),
        ("1 month", 28, 31),
        ("2 months", 59, 62),
        ("12 months", 365, 366),
        ("1 year", 365, 366),
        ("4 years", 1461, 1461),
        ("48 h", 2, 2),
        ("36 h", 1, 2),
        ("~45 d", 36, 54),
        ("~5 d", 2, 8),
        ("40-50 d", 40, 50),
    ],
)
def test_age__has_these_bounds(written: str, low: int, high: int) -> None:
    assert read(Shape.AGE, written) == (Age(low_days=low, high_days=high, text=written), [])


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("45", "R310"),
        ("half grown", "R312"),
        ("50-40 d", "R312"),
        ("-3 d", "R312"),
        ("45 fortnights", "R312"),
        ("1,5 weeks", "R301"),
        ("99999999 years", "R312"),
    ],
)
def test_age__slips_have_one_finding(written: str, code: str) -> None:
    assert read(Shape.AGE, written) == (None, [code])


@pytest.mark.parametrize(
    ("name", "written", "low", "high", "unit"),
    [
        ("ph", "6.1", 6.1, 6.1, ""),
        ("ph", "~6.1", 5.9, 6.3, ""),
        ("ph", "6.0-6.4", 6.0, 6.4, ""),
        ("gh", "5", 5, 5, "°dGH"),
        ("gh", "5 °d", 5, 5, "°dGH"),
        ("gh", "90 ppm", 90, 90, "mg/L CaCO3"),
        ("kh", "0.5 dKH", 0.5, 0.5, "°dKH"),
        ("ec", "256", 256, 256, "µS/cm"),
        ("ec", "256 µS/cm", 256, 256, "µS/cm"),
        ("ec", "256 μS/cm", 256, 256, "µS/cm"),
        ("ec", "256 uS/cm", 256, 256, "µS/cm"),
        ("ec", "0.256 mS/cm", 256, 256, "µS/cm"),
        ("tds", "128 ppm", 128, 128, "ppm"),
        ("tds", "256 µS/cm", 256, 256, "µS/cm"),
        ("temperature", "22.4", 22.4, 22.4, "°C"),
        ("temperature", "77 °F", 25, 25, "°C"),
        ("nh4", "<0.05 mg/L", None, 0.05, "mg/L"),
        ("no3", "'>50'", 50, None, "mg/L"),
        ("no3", "5 mg/L N", 5, 5, "mg/L N"),
        ("tan", "0.2 mg/L N", 0.2, 0.2, "mg/L"),
        ("cu", "20 µg/L", 0.02, 0.02, "mg/L"),
        ("o2", ".5", 0.5, 0.5, "mg/L"),
    ],
)
def test_reading__has_these_bounds_and_unit(
    name: str, written: str, low: float | None, high: float | None, unit: str
) -> None:
    value, codes = read(Shape.READING, written, name=name)

    assert codes == []
    assert isinstance(value, Reading)
    assert (value.low, value.high, value.unit) == (low, high, unit)


def test_reading__a_bare_number_takes_the_declared_unit() -> None:
    value, codes = read(Shape.READING, "128", name="tds", units={"tds": "ppm"})

    assert codes == []
    assert isinstance(value, Reading)
    assert (value.unit, value.text) == ("ppm", "128 ppm")


@pytest.mark.parametrize(
    ("name", "written", "code"),
    [
        ("ph", "6,1", "R301"),
        ("ph", "61", "R311"),
        ("ph", "-1", "R311"),
        ("temperature", "-3 °C", "R311"),
        ("temperature", "72", "R311"),
        ("temperature", "20 °F", "R311"),
        ("ec", "256 µS/m", "R309"),
        ("ph", "6.1 mg/L", "R309"),
        ("tds", "128", "R310"),
        ("ph", "6.4-6.0", "R319"),
        ("ph", "6.0–6.4", "R320"),
        ("ph", "6.1?", "R308"),
        ("ph", "acid", "R308"),
        ("ph", "some", "R307"),
        ("ph", "", "R203"),
        ("ph", "[6.1]", "R202"),
        ("ph", "nan", "R308"),
    ],
)
def test_reading__slips_have_one_finding(name: str, written: str, code: str) -> None:
    assert read(Shape.READING, written, name=name) == (None, [code])


def test_pen__is_missed_once() -> None:
    text = "tds: 128 ppm\n"
    desk = Desk()
    for _ in range(2):
        sheet = Sheet(path="x.md", text=text, desk=desk)
        root = read_nodes(sheet, text)
        assert root is not None
        key = Key(name="tds", shape=Shape.READING, says="says")
        assert read_value(root.pairs[0][1], key, sheet) is not None

    assert [finding.code for finding in desk.findings] == ["R322"]


@pytest.mark.parametrize(
    ("shape", "name", "written", "value"),
    [
        (Shape.TEXT, "key", "012", "012"),
        (Shape.FLAG, "key", "true", True),
        (Shape.FLAG, "key", "false", False),
        (Shape.NUMBER, "litres", "5", 5.0),
        (Shape.NUMBER, "litres", "5 L", 5.0),
        (Shape.NUMBER, "percent", "20 %", 20.0),
        (Shape.CLOCK, "at", "19:30", "19:30"),
        (Shape.CLOCK, "at", "7:30", "07:30"),
        (Shape.CHOICE, "how", "netted", "netted"),
        (Shape.CHOICES, "how", "[netted, photo]", ("netted", "photo")),
        (Shape.GROUP, "group", "Café", "Café"),
        (Shape.GROUP, "group", "Cafe\u0301", "Café"),
        (Shape.GROUPS, "of", "[a, b, a]", ("a", "b")),
        (Shape.GENOTYPE, "genotype", "A/a  B/-", "A/a B/-"),
        (Shape.TABLE, "kits", "{a: b c, d: 1}", (("a", "b c"), ("d", "1"))),
        (Shape.PARENTS, "dams", "dusk", Parents(groups=("dusk",))),
        (Shape.PARENTS, "dams", "[a, b]", Parents(groups=("a", "b"))),
        (
            Shape.PARENTS,
            "dams",
            "{of: dusk, count: 1-3}",
            Parents(groups=("dusk",), count=Count(low=1, high=3, text="1-3")),
        ),
        (Shape.PARTS, "parts", "[a]", (Part(group="a", count=None),)),
        (Shape.PARTS, "parts", "{a: 4}", (Part(group="a", count=Count.of(4)),)),
        (Shape.SORTED_INTO, "into", "{a: 4}", (Sorting(group="a", count=Count.of(4)),)),
        (
            Shape.SORTED_INTO,
            "into",
            "{a: {count: 4, look: dark, females: 1, males: 3}}",
            (
                Sorting(
                    group="a",
                    count=Count.of(4),
                    look=LookSeen(whole="dark"),
                    females=Count.of(1),
                    males=Count.of(3),
                ),
            ),
        ),
        (Shape.LOOK, "look", "dark", LookSeen(whole="dark")),
        (Shape.LOOK, "look", "{left: pale, right: dark}", LookSeen(left="pale", right="dark")),
    ],
)
def test_values__are_read_into_these(shape: Shape, name: str, written: str, value: Value) -> None:
    assert read(shape, written, name=name) == (value, [])


@pytest.mark.parametrize(
    ("shape", "name", "written", "code"),
    [
        (Shape.FLAG, "colony", "yes", "R315"),
        (Shape.FLAG, "colony", "'true'", "R315"),
        (Shape.FLAG, "colony", "perhaps", "R316"),
        (Shape.NUMBER, "litres", "-5", "R306"),
        (Shape.NUMBER, "litres", "some", "R307"),
        (Shape.NUMBER, "litres", "5 kg", "R308"),
        (Shape.NUMBER, "litres", "1e12", "R308"),
        (Shape.NUMBER, "litres", "9999999999999", "R311"),
        (Shape.CLOCK, "at", "24:00", "R313"),
        (Shape.CLOCK, "at", "7.30", "R313"),
        (Shape.CHOICE, "how", "net", "R314"),
        (Shape.GROUP, "group", "true", "R317"),
        (Shape.GROUP, "group", "'?'", "R317"),
        (Shape.GROUP, "group", "'a/b'", "R317"),
        (Shape.GROUP, "group", "'--'", "R317"),
        (Shape.GROUP, "group", "x" * 81, "R317"),
        (Shape.GROUP, "group", "[a, b]", "R202"),
        (Shape.GENOTYPE, "genotype", "aa", "R318"),
        (Shape.GENOTYPE, "genotype", "a/a/a", "R318"),
        (Shape.GENOTYPE, "genotype", "''", "R318"),
        (Shape.PARENTS, "dams", "{count: 2}", "R204"),
        (Shape.LOOK, "look", "{middle: dark}", "R201"),
        (Shape.OTHERS, "other", "[{note: odd}]", "R204"),
        (Shape.LOOKS, "looks", "dark", "R202"),
        (Shape.SCALES, "scales", "{band: {}}", "R204"),
        (Shape.RANGES, "targets", "{pH: 6-7}", "R201"),
    ],
)
def test_values__slips_have_one_finding(shape: Shape, name: str, written: str, code: str) -> None:
    assert read(shape, written, name=name)[1] == [code]

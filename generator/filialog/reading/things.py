"""Pages of tanks, groups and lines, and the settings of the journal."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

from filialog.findings.finding import Place
from filialog.findings.nearest import did_you_mean
from filialog.journal.events import Value
from filialog.journal.heads import (
    GROUP_HEAD,
    LINE_HEAD,
    QUANTITY_NAMES,
    SETTINGS_HEAD,
    TANK_HEAD,
    Head,
)
from filialog.journal.quantities import Reading
from filialog.journal.records import Goal, GroupPage, LinePage, Prose, Scale, Settings, TankPage
from filialog.reading.event_reader import read_private, report_private_like
from filialog.reading.front_matter import split_front_matter
from filialog.reading.node import Kind, Node
from filialog.reading.privacy import seems_private
from filialog.reading.prose import read_prose
from filialog.reading.scalars import check_name
from filialog.reading.sheet import Sheet
from filialog.reading.values import read_value
from filialog.reading.water import canonical_unit, unit_names
from filialog.reading.yaml_nodes import read_nodes

__all__ = ["read_group_page", "read_line_page", "read_settings", "read_tank_page"]


@dataclass(slots=True, kw_only=True)
class _Head:
    """The keys of one page as read."""

    values: dict[str, Value]
    places: dict[str, Place]
    private: bool
    name: str
    prose: Prose

    def text(self, key: str) -> str | None:
        value = self.values.get(key)
        return value if isinstance(value, str) and value else None

    def number(self, key: str) -> float | None:
        value = self.values.get(key)
        return value if isinstance(value, float) else None

    def rows(self, key: str) -> tuple[object, ...]:
        value = self.values.get(key)
        return value if isinstance(value, tuple) else ()


def read_tank_page(sheet: Sheet) -> TankPage | None:
    """Read a page of a tank."""
    head = _page(sheet, TANK_HEAD)
    if head is None:
        return None
    targets = tuple(
        (str(row[0]), row[1])
        for row in head.rows("targets")
        if isinstance(row, tuple) and isinstance(row[1], Reading)
    )
    return TankPage(
        name=head.name,
        title=head.text("title") or head.name,
        litres=head.number("litres"),
        length_cm=head.number("length"),
        width_cm=head.number("width"),
        height_cm=head.number("height"),
        soil=head.text("soil"),
        filter=head.text("filter"),
        light=head.text("light"),
        where=head.text("place"),
        targets=targets,
        private=head.private,
        prose=head.prose,
        place=Place(sheet.path),
    )


def read_group_page(sheet: Sheet) -> GroupPage | None:
    """Read a page of a group or a named animal."""
    head = _page(sheet, GROUP_HEAD)
    if head is None:
        return None
    return GroupPage(
        name=head.name,
        title=head.text("title") or head.name,
        genotype=head.text("genotype"),
        look=head.text("look"),
        sex=head.text("sex"),
        strain=head.text("strain"),
        private=head.private,
        prose=head.prose,
        place=Place(sheet.path),
        places=head.places,
    )


def read_line_page(sheet: Sheet) -> LinePage | None:
    """Read a page of a line."""
    head = _page(sheet, LINE_HEAD)
    if head is None:
        return None
    goal = next((one for one in head.rows("goal") if isinstance(one, Goal)), None)
    return LinePage(
        name=head.name,
        title=head.text("title") or head.name,
        goal=goal.look if goal is not None else None,
        goal_number=goal.number if goal is not None else None,
        goal_by=goal.by if goal is not None else None,
        founders=tuple(str(name) for name in head.rows("founders")),
        traits=head.text("traits"),
        scales=tuple(scale for scale in head.rows("scales") if isinstance(scale, Scale)),
        private=head.private,
        prose=head.prose,
        place=Place(sheet.path),
        places=head.places,
    )


def _page(sheet: Sheet, table: Head) -> _Head | None:
    """Read front matter and prose of a page; the file's name is its name unless it says one."""
    stem = PurePosixPath(sheet.path).stem
    split = split_front_matter(sheet)
    root = None
    if split is not None and split.head:
        root = read_nodes(sheet, split.head, first_line=split.head_line)
    if split is None or (root is None and split.head):
        sheet.desk.reported.add(stem)
        return None
    values, places, private = _keys(sheet, root, table)
    name = values.get("name")
    if not isinstance(name, str):
        name = stem
    whole_file = Node(Kind.TEXT, name, 0, 1, 1)
    checked = check_name(name, whole_file, sheet)
    if checked is None:
        return None
    prose = read_prose(sheet, split.body, first_line=split.body_line)
    return _Head(values=values, places=places, private=private, name=checked, prose=prose)


def _keys(
    sheet: Sheet, root: Node | None, table: Head
) -> tuple[dict[str, Value], dict[str, Place], bool]:
    """Read all keys of a page by its table."""
    known = {key.name: key for key in table.keys}
    values: dict[str, Value] = {}
    places: dict[str, Place] = {}
    private = False
    sheet.private = False
    for key, value in root.pairs if root is not None else ():
        if key.text == "private" and "private" in known:
            private |= read_private(key, value, sheet)
        elif key.text in known:
            read = read_value(value, known[key.text], sheet)
            if read is not None:
                values[key.text] = read
                places[key.text] = sheet.place(value)
                for item in value.items:
                    places[f"{key.text}.{item.text}"] = sheet.place(item)
                for inner_name, inner in value.pairs:
                    places[f"{key.text}.{inner_name.text}"] = sheet.place(inner)
        elif seems_private(key.text) and "private" in known:
            private = True
            report_private_like(key, value, sheet, item="the page")
        else:
            sheet.give_up(value)
            sheet.fault(
                "R201",
                key,
                f"the page of a {table.name} takes no `{key.text}`"
                if table.where.endswith("/")
                else f"{table.where} takes no `{key.text}`",
                helps=did_you_mean(key.text, known, kind="key"),
            )
    return values, places, private or sheet.private


def read_settings(sheet: Sheet) -> Settings | None:
    """Read journal.yaml; None where it holds no keys that can be read."""
    root = read_nodes(sheet, sheet.text)
    if root is None:
        return None
    values, places, _ = _keys(sheet, root, SETTINGS_HEAD)
    given = _Head(values=values, places=places, private=False, name="", prose=Prose())
    for needed in SETTINGS_HEAD.needs:
        if given.text(needed) is None and needed not in {key.text for key, _ in root.pairs}:
            sheet.fault(
                "R204",
                Place(sheet.path),
                f"journal.yaml has no `{needed}`",
                helps=(f"write `{needed}: ` and the name of the journal",),
            )
    return Settings(
        title=given.text("title") or given.text("keeper") or "journal",
        keeper=given.text("keeper") or "",
        species=given.text("species"),
        time_zone=given.text("time-zone"),
        address=_address(given, sheet),
        about=given.text("about") or "",
        units=_units(_rows(given, "units"), root, sheet),
        kits=_rows(given, "kits"),
        pens=_pens(_rows(given, "pens"), root, sheet),
        public=tuple(str(word) for word in given.rows("public")),
    )


def _rows(head: _Head, key: str) -> tuple[tuple[str, str], ...]:
    return tuple((str(row[0]), str(row[1])) for row in head.rows(key) if isinstance(row, tuple))


def _inner(root: Node, key: str) -> Mapping[str, tuple[Node, Node]]:
    """Return the nodes of a table of the settings by name."""
    for outer, value in root.pairs:
        if outer.text == key:
            return {name.text.strip(): (name, inside) for name, inside in value.pairs}
    return {}


def _address(given: _Head, sheet: Sheet) -> str | None:
    address = given.text("address")
    if address is None or re.fullmatch(r"https?://[^\s/?#\"<>]+(?:/[^\s?#\"<>]*)?", address):
        return address
    sheet.fault(
        "R323",
        given.places["address"],
        f"`{address}` is no address a site can have",
        helps=("write it whole, as in `https://example.org/rack/`",),
    )
    return None


def _units(
    rows: tuple[tuple[str, str], ...], root: Node, sheet: Sheet
) -> tuple[tuple[str, str], ...]:
    nodes = _inner(root, "units")
    units: list[tuple[str, str]] = []
    for quantity, written in rows:
        name, value = nodes[quantity]
        if quantity not in QUANTITY_NAMES:
            sheet.fault(
                "R201",
                name,
                f"`{quantity}` is no quantity that water is measured by",
                helps=did_you_mean(quantity, QUANTITY_NAMES, kind="quantity"),
            )
        elif canonical_unit(quantity, written) is None:
            names = ", ".join(f"`{unit}`" for unit in unit_names(quantity))
            sheet.fault(
                "R309",
                value,
                f"`{written}` is no unit of `{quantity}`",
                notes=(
                    f"`{quantity}` is measured in {names}" if names else f"`{quantity}` has none",
                ),
            )
        else:
            units.append((quantity, written))
    return tuple(units)


def _pens(
    rows: tuple[tuple[str, str], ...], root: Node, sheet: Sheet
) -> tuple[tuple[str, float], ...]:
    nodes = _inner(root, "pens")
    pens: list[tuple[str, float]] = []
    for pen, written in rows:
        factor = float(written) if re.fullmatch(r"[01]?\.[0-9]+|[01]", written) else None
        if factor is not None and 0.4 <= factor <= 1.0:
            pens.append((pen, factor))
            continue
        sheet.fault(
            "R311",
            nodes[pen][1],
            f"the factor of pen `{pen}` cannot be `{written}`",
            notes=("pens multiply conductivity in µS/cm by 0.5 to 0.7 to show ppm",),
            helps=("look for the factor in the pen's leaflet: 0.5, 0.64 and 0.7 are common",),
        )
    return tuple(pens)

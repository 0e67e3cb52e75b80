"""Where each page lives: fixed by its kind and the name of its subject, for ever.

Addresses are relative to the root of the site and name a file, so that the site opens from
disk as well as from a host.
"""

import posixpath
import unicodedata
from functools import lru_cache
from hashlib import blake2b

__all__ = [
    "ABOUT",
    "COUNTS",
    "CROSSES",
    "DIARY",
    "FRONT",
    "GROUPS",
    "LINES",
    "LOOKS",
    "OFFERS",
    "STYLE",
    "TANKS",
    "cross_address",
    "entry_address",
    "group_address",
    "line_address",
    "look_address",
    "lot_address",
    "lot_mark",
    "month_address",
    "pedigree_address",
    "relative",
    "relatives_address",
    "slug",
    "tank_address",
]

FRONT = "index.html"
DIARY = "diary/index.html"
GROUPS = "groups/index.html"
TANKS = "tanks/index.html"
CROSSES = "crosses/index.html"
LINES = "lines/index.html"
LOOKS = "looks/index.html"
OFFERS = "offers.html"
COUNTS = "counts.html"
ABOUT = "about.html"
STYLE = "style.css"

_MOST_BYTES = 80
_PLAIN = frozenset("abcdefghijklmnopqrstuvwxyz0123456789")
_PORTS = frozenset(f"{port}{number}" for port in ("com", "lpt") for number in range(10))
_TAKEN = _PORTS | {"index", "con", "prn", "aux", "nul", "conin", "conout"}
"""The lists' own name, and the device names of Windows (Microsoft, "Naming Files, Paths, and
Namespaces", from memory)."""


@lru_cache(maxsize=65536)
def slug(name: str) -> str:
    """Turn a name into letters, digits and hyphens that every file system can hold.

    Marks and case are dropped. A name with letters of another script keeps what can be kept and
    ends in a digest of the whole, so that two such names stay apart.

    >>> slug("Café Blue, 2nd"), slug("con"), slug("index")
    ('cafe-blue-2nd', 'x-con', 'x-index')
    >>> slug("Синий F1")
    'f1-x94f45008'
    """
    folded = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", name).casefold())
    signs: list[str] = []
    lost = False
    for sign in folded:
        category = unicodedata.category(sign)
        if sign in _PLAIN:
            signs.append(sign)
        elif category.startswith("M"):
            continue
        else:
            lost = lost or category[0] in "LN"
            signs.append("-")
    kept = "-".join(part for part in "".join(signs).split("-") if part)
    if lost or not kept or len(kept) > _MOST_BYTES:
        mark = f"x{blake2b(folded.encode(), digest_size=4).hexdigest()}"
        room = kept[: _MOST_BYTES - len(mark) - 1].rstrip("-")
        return f"{room}-{mark}" if room else mark
    return f"x-{kept}" if kept in _TAKEN else kept


def group_address(name: str) -> str:
    """Give the address of a group's page."""
    return f"groups/{slug(name)}.html"


def relatives_address(name: str) -> str:
    """Give the address of the page of a group's relatives."""
    return f"relatives/{slug(name)}.html"


def pedigree_address(name: str) -> str:
    """Give the address of the page of a group's whole pedigree."""
    return f"pedigree/{slug(name)}.html"


def tank_address(name: str) -> str:
    """Give the address of a tank's page."""
    return f"tanks/{slug(name)}.html"


def line_address(name: str) -> str:
    """Give the address of a line's page."""
    return f"lines/{slug(name)}.html"


def look_address(name: str) -> str:
    """Give the address of a look's page."""
    return f"looks/{slug(name)}.html"


def lot_mark(name: str) -> str:
    """Give the place of a lot on the page of offers."""
    return f"lot-{slug(name)}"


def lot_address(name: str) -> str:
    """Give the address of a lot."""
    return f"{OFFERS}#{lot_mark(name)}"


def cross_address(identifier: str) -> str:
    """Give the address of a cross's page."""
    return f"crosses/{slug(identifier)}.html"


def entry_address(identifier: str) -> str:
    """Give the address of a diary entry, folders of the diary kept."""
    return f"entries/{'/'.join(slug(part) for part in identifier.split('/'))}.html"


def month_address(*, year: int, month: int) -> str:
    """Give the address of a month of the diary."""
    return f"diary/{year:04d}-{month:02d}.html"


@lru_cache(maxsize=65536)
def relative(*, start: str, to: str) -> str:
    """Give the link from the page at `start` to an address, with its fragment if it has one.

    >>> relative(start="groups/amber.html", to="tanks/fen.html#book")
    '../tanks/fen.html#book'
    >>> relative(start="groups/amber.html", to="groups/amber.html")
    'amber.html'
    """
    path, mark, fragment = to.partition("#")
    return posixpath.relpath(path, posixpath.dirname(start) or ".") + mark + fragment

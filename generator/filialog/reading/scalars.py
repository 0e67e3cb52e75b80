"""Values that are one word or number: text, names, flags, numbers, choices, times of day."""

import re
import unicodedata
from functools import lru_cache

from filialog.findings.nearest import did_you_mean
from filialog.journal.keys import Key
from filialog.reading.node import Kind, Node
from filialog.reading.sheet import Sheet
from filialog.reading.yaml_faults import report_decimal_comma

__all__ = [
    "DECIMAL_COMMA",
    "LONG_DASHES",
    "clean_name",
    "read_amount",
    "read_choice",
    "read_choices",
    "read_clock",
    "read_flag",
    "read_genotype",
    "read_name",
    "read_names",
    "read_number",
    "read_text",
    "read_texts",
    "report_slip",
    "scalar_text",
]

DECIMAL_COMMA = re.compile(r"[~<>≤≥]?\s*[-−]?[0-9]+,[0-9]+")
LONG_DASHES = re.compile(r"[‐‑‒–—―]")
_CURLY = re.compile(r"[“”„‟«»‘’‚]")
_NUMBER = re.compile(r"[-−]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)")
_CLOCK = re.compile(r"([0-9]{1,2}):([0-9]{2})")
_ALLELE = re.compile(r"[^\s/,;|]+")
_YES = {"yes", "on", "y", "ja", "oui", "si", "1", "ok"}
_NO = {"no", "off", "n", "nein", "non", "0"}
_UNIT_OF_KEY = {
    "litres": ("L", "l", "litre", "litres", "liter", "liters"),
    "percent": ("%",),
    "watts": ("W", "w", "watt", "watts"),
    "length": ("cm",),
    "width": ("cm",),
    "height": ("cm",),
}
_LONGEST_NAME = 80
_NOT_IN_NAMES = re.compile(r"[\[\]{}|/\\<>\"`#:;,?*\n\t\ufffd]")
_USABLE = re.compile(r"[^\[\]{}|/\\<>\"`#:;,?*\n\t\ufffd“”„‟«»‘’‚‐‑‒–—―]{1,80}")
_LETTER = re.compile(r"[^\W_]")


def scalar_text(node: Node, key: Key, sheet: Sheet) -> str | None:
    """Return the text of a single value, as written; None, with a finding, for anything else."""
    if node.kind is Kind.TEXT:
        return node.text
    if node.kind is Kind.REPORTED:
        sheet.give_up(node)
    elif node.kind is Kind.EMPTY:
        report_empty(node, key.name, sheet)
    elif node.kind is Kind.FLAG:
        return node.text
    else:
        shape = "a list" if node.kind is Kind.LIST else "a mapping"
        sheet.fault(
            "R202",
            node,
            f"`{key.name}` takes one value and here has {shape}",
            notes=(f"`{key.name}`: {key.says}",),
        )
    return None


def report_empty(node: Node, name: str, sheet: Sheet) -> None:
    """Report a key without a value."""
    sheet.fault(
        "R203",
        node,
        f"`{name}` has no value and is not read",
        helps=("write the value, or delete the key: what is left out is unknown",),
    )


def report_slip(text: str, node: Node, sheet: Sheet) -> bool:
    """Report a typical slip of typing in a value that must be a number, a day or a word."""
    if DECIMAL_COMMA.match(text):
        report_decimal_comma(sheet, sheet.place(node), text)
        sheet.give_up(node)
        return True
    dash = LONG_DASHES.search(text)
    if dash is not None:
        sheet.fault(
            "R320",
            node,
            f"`{text}` has a long dash",
            helps=(f"write `{LONG_DASHES.sub('-', text)}` with the hyphen of the keyboard",),
        )
        return True
    curly = _CURLY.search(text)
    if curly is not None:
        sheet.fault(
            "R112",
            node,
            f"`{curly.group()}` does not quote and stays part of the value",
            helps=(f"write `{_CURLY.sub('', text).strip()}`",),
        )
        return True
    return False


def read_text(node: Node, key: Key, sheet: Sheet) -> str | None:
    """Read free words."""
    text = scalar_text(node, key, sheet)
    return None if text is None else text.strip()


read_amount = read_text


def read_flag(node: Node, key: Key, sheet: Sheet) -> bool | None:
    """Read `true` or `false`."""
    if node.kind is Kind.FLAG:
        return node.text in {"true", "True", "TRUE"}
    text = scalar_text(node, key, sheet)
    if text is None:
        return None
    word = text.strip().casefold()
    meant = "true" if word in _YES | {"true"} else "false" if word in _NO | {"false"} else None
    if meant is None:
        sheet.fault(
            "R316",
            node,
            f"`{key.name}` is `true` or `false`, not `{text}`",
            notes=(f"`{key.name}`: {key.says}",),
        )
    else:
        sheet.fault(
            "R315",
            node,
            f"`{text}` is text here, not a yes or no",
            helps=(f"write `{key.name}: {meant}`",),
        )
    return None


def read_number(node: Node, key: Key, sheet: Sheet) -> float | None:
    """Read a decimal number, zero or more; the key's own unit may stand behind it."""
    written = scalar_text(node, key, sheet)
    if written is None:
        return None
    text = written.strip()
    match = _NUMBER.match(text)
    units = _UNIT_OF_KEY.get(key.name, ())
    if match is not None and text[match.end() :].strip() in {"", *units}:
        number = float(match.group().replace("−", "-"))
        if number < 0:
            sheet.fault("R306", node, f"`{key.name}` cannot be less than zero, and is `{text}`")
            return None
        if number > 1e9:
            sheet.fault("R311", node, f"`{key.name}` cannot be `{text}`")
            return None
        return number
    if report_slip(text, node, sheet):
        return None
    if text in {"some", "?", "few", "many"}:
        sheet.fault(
            "R307",
            node,
            f"`{key.name}` needs a number, not `{text}`",
            helps=("leave the key out where it is not known",),
        )
        return None
    helps = ["write digits, with a point before decimals"]
    if units:
        helps = [f"write `{key.name}: 12` or `{key.name}: 12 {units[0]}`"]
    if text.endswith("%") and key.name == "litres":
        helps = [f"write `percent: {text.rstrip('% ')}`"]
    sheet.fault("R308", node, f"`{key.name}` needs a number, not `{text}`", helps=helps)
    return None


def read_choice(node: Node, key: Key, sheet: Sheet) -> str | None:
    """Read one of the words of a key."""
    text = scalar_text(node, key, sheet)
    if text is None:
        return None
    word = text.strip()
    if word in key.choices:
        return word
    if not report_slip(word, node, sheet):
        sheet.fault(
            "R314",
            node,
            f"`{key.name}` cannot be `{word}`",
            notes=(f"`{key.name}` is one of {_listed(key.choices)}",),
            helps=_near(word, key.choices),
        )
    return None


def read_choices(node: Node, key: Key, sheet: Sheet) -> tuple[str, ...] | None:
    """Read one or several of the words of a key."""
    nodes = node.items if node.kind is Kind.LIST else (node,)
    words = tuple(word for item in nodes if (word := read_choice(item, key, sheet)) is not None)
    return words or None


def _listed(words: tuple[str, ...]) -> str:
    return ", ".join(f"`{word}`" for word in words)


def _near(word: str, known: tuple[str, ...]) -> tuple[str, ...]:
    helps = did_you_mean(word, known, kind="word")
    return helps if helps and helps[0].startswith("the nearest") else ()


def read_clock(node: Node, key: Key, sheet: Sheet) -> str | None:
    """Read a time of day."""
    text = scalar_text(node, key, sheet)
    if text is None:
        return None
    match = _CLOCK.fullmatch(text.strip())
    if match is not None and int(match[1]) < 24 and int(match[2]) < 60:
        return f"{int(match[1]):02}:{match[2]}"
    sheet.fault(
        "R313",
        node,
        f"`{text}` is no time of day",
        helps=("write hours and minutes from 00:00 to 23:59, as in `19:30`",),
    )
    return None


def clean_name(text: str) -> str:
    """Return a name in one spelling: no blanks around it, accents in one form."""
    name = text.strip()
    return name if name.isascii() else unicodedata.normalize("NFC", name)


def read_name(node: Node, key: Key, sheet: Sheet) -> str | None:
    """Read the name of a group, brood, animal or tank."""
    if node.kind is Kind.TEXT:
        return check_name(node.text, node, sheet)
    if node.kind is Kind.FLAG:
        sheet.fault(
            "R317",
            node,
            f"`{node.text}` cannot be a name",
            helps=("put it in quotes where it is one",),
        )
        return None
    if node.kind is Kind.LIST:
        sheet.fault(
            "R202",
            node,
            f"`{key.name}` takes one name and here has a list",
            helps=("write `of: [one, other]` where it is not known which",),
        )
        return None
    text = scalar_text(node, key, sheet)
    return None if text is None else check_name(text, node, sheet)


@lru_cache(maxsize=4096)
def _usable_name(text: str) -> str | None:
    """Return a name in one spelling where it can be used as it is."""
    name = clean_name(text)
    if _USABLE.fullmatch(name) and _LETTER.search(name):
        return name
    return None


def check_name(text: str, node: Node, sheet: Sheet) -> str | None:
    """Return a name that can be written in links and addresses; report any other."""
    usable = _usable_name(text)
    if usable is not None:
        return usable
    name = clean_name(text)
    if _CURLY.search(name) or LONG_DASHES.search(name):
        report_slip(name, node, sheet)
        return None
    odd = _NOT_IN_NAMES.search(name)
    shown = name.partition("\n")[0][:_LONGEST_NAME]
    why = "it has no letter and no digit"
    helps: tuple[str, ...] = ()
    if len(name) > _LONGEST_NAME:
        why = f"it has {len(name)} characters; at most {_LONGEST_NAME} are read"
    elif odd is not None:
        sign = odd.group() if odd.group().isprintable() else f"U+{ord(odd.group()):04X}"
        why = f"`{sign}` cannot be part of a name"
        if sign in {",", ";"}:
            helps = ("write several names as a list, `[one, other]`",)
        elif name == "?":
            helps = ("leave the key out where the name is not known",)
    sheet.fault("R317", node, f"`{shown}` is no usable name", notes=(why,), helps=helps)
    return None


def read_names(node: Node, key: Key, sheet: Sheet) -> tuple[str, ...] | None:
    """Read one name or a list of names, each once."""
    nodes = node.items if node.kind is Kind.LIST else (node,)
    names = [name for item in nodes if (name := read_name(item, key, sheet)) is not None]
    if node.kind is Kind.LIST and not node.items:
        report_empty(node, key.name, sheet)
    return tuple(dict.fromkeys(names)) or None


def read_texts(node: Node, key: Key, sheet: Sheet) -> tuple[str, ...] | None:
    """Read one text or a list of texts."""
    nodes = node.items if node.kind is Kind.LIST else (node,)
    texts = tuple(text for item in nodes if (text := read_text(item, key, sheet)) is not None)
    return texts or None


def _is_genotype(words: list[str]) -> bool:
    """Say whether these are pairs such as `A/a`, or whole chromosomes such as `A b/a B`."""
    while words:
        before = next((n for n, word in enumerate(words) if "/" in word), None)
        if before is None:
            return False
        both = " ".join(words[: 2 * before + 1]).split("/")
        sides = [side.split() for side in both]
        if len(sides) != 2 or any(len(side) != before + 1 for side in sides):
            return False
        if not all(_ALLELE.fullmatch(allele) for side in sides for allele in side):
            return False
        words = words[2 * before + 1 :]
    return True


def read_genotype(node: Node, key: Key, sheet: Sheet) -> str | None:
    """Read a genotype; whether its alleles exist is asked where the trait model is known."""
    text = scalar_text(node, key, sheet)
    if text is None:
        return None
    words = text.split()
    if words and _is_genotype(words):
        return " ".join(words)
    if not report_slip(text, node, sheet):
        helps = ["write two alleles with `/` between them, loci apart by a space: `A/a B/-`"]
        if len(text) == 2 and text.isalpha():
            helps = [f"write `{text[0]}/{text[1]}`"]
        sheet.fault("R318", node, f"`{text}` is no genotype", helps=helps)
    return None

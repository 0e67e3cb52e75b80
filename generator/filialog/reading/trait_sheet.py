"""A trait file while it is being read: its keys, and where each name stands."""

import re
from fractions import Fraction

from filialog.findings.finding import Place
from filialog.findings.nearest import did_you_mean
from filialog.journal.keys import Key, Shape
from filialog.reading.node import Kind, Node
from filialog.reading.scalars import read_text, report_slip
from filialog.reading.sheet import Sheet

__all__ = ["TEXT", "TraitSheet"]

TEXT = Key(name="says", shape=Shape.TEXT, says="free words")
_NUMBER = re.compile(r"([-−]?[0-9]*\.?[0-9]+)\s*(%?)|([0-9]{1,9})/([0-9]{1,9})")


class TraitSheet:
    """The keys of a trait file, and what was found of it."""

    def __init__(self, sheet: Sheet, root: Node, keys: tuple[str, ...]) -> None:
        self.sheet = sheet
        self.failed = False
        self.found: dict[str, tuple[Node, Node]] = {}
        self.places: dict[str, Place] = {}
        for key, value in root.pairs:
            if key.text in keys:
                self.found[key.text] = (key, value)
            else:
                self.unknown(key, "a trait file", keys)

    def fault(self, code: str, node: Node, message: str, *, helps: tuple[str, ...] = ()) -> None:
        """Report a fault after which no model can be made."""
        self.failed = True
        self.sheet.fault(code, node, message, helps=helps)

    def unknown(self, key: Node, what: str, known: tuple[str, ...]) -> None:
        """Report a key that has no meaning where it stands."""
        helps = did_you_mean(key.text, known, kind="key")
        self.fault("R201", key, f"{what} takes no `{key.text}`", helps=helps)

    def text(self, key: str) -> str | None:
        """Return the words behind a key."""
        if key not in self.found or self.found[key][1].kind is Kind.EMPTY:
            return None
        text = read_text(self.found[key][1], TEXT, self.sheet)
        return None if text is None else " ".join(text.split())

    def word(self, node: Node) -> str | None:
        """Return a single word; None, with a finding, for anything else."""
        text = read_text(node, TEXT, self.sheet)
        if text is None:
            self.failed = True
            return None
        return text.strip()

    def words(self, node: Node) -> tuple[str, ...]:
        """Return one word, or a list of them."""
        nodes = node.items if node.kind is Kind.LIST else (node,)
        found = [self.word(item) for item in nodes]
        return tuple(word for word in found if word is not None)

    def pairs(self, node: Node, name: str, example: str) -> tuple[tuple[Node, Node], ...]:
        """Return keys and values of a mapping."""
        if node.kind is Kind.MAP:
            return node.pairs
        if node.kind is not Kind.EMPTY:
            self.fault("R202", node, f"`{name}` needs a mapping", helps=(f"write `{example}`",))
        return ()

    def part(self, key: str, example: str) -> tuple[tuple[Node, Node], ...]:
        """Return the mapping behind a key of the file."""
        if key not in self.found:
            return ()
        return self.pairs(self.found[key][1], key, f"{key}: {example}")

    def items(self, key: str, example: str) -> tuple[Node, ...]:
        """Return the list behind a key of the file."""
        if key not in self.found:
            return ()
        node = self.found[key][1]
        if node.kind is Kind.LIST:
            return node.items
        if node.kind is Kind.MAP:
            return (node,)
        if node.kind is not Kind.EMPTY:
            self.fault("R202", node, f"`{key}` needs a list", helps=(f"write `{key}: {example}`",))
        return ()

    def fraction(self, node: Node, *, code: str, name: str, most: Fraction) -> Fraction | None:
        """Return an exact number from 0 to `most`, written `17 %`, `0.17` or `17/100`."""
        text = self.word(node)
        if text is None:
            return None
        match = _NUMBER.fullmatch(text)
        if match is None or (match[4] is not None and int(match[4]) == 0):
            self.failed = True
            if not report_slip(text, node, self.sheet):
                self.fault(
                    code,
                    node,
                    f"`{text}` is no share",
                    helps=("write `17 %`, `0.17` or `17/100`",),
                )
            return None
        if match[3] is not None:
            number = Fraction(int(match[3]), int(match[4]))
        else:
            number = Fraction(match[1].replace("−", "-")) / (100 if match[2] else 1)
        if not 0 <= number <= most:
            way_out = "for percent write the sign: `17 %`" if number > most else ""
            self.fault(
                code,
                node,
                f"{name} cannot be `{text}`; it is 0 to {float(most):g}",
                helps=(way_out,) if way_out and not match[2] and number > 1 else (),
            )
            return None
        return number

    def key_place(self, key: str) -> Place:
        """Return where a key of the file stands."""
        if key in self.found:
            return self.sheet.place(self.found[key][0])
        return Place(self.sheet.path)

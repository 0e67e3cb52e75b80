"""Small parts that many pages share: facts with their level, mentions, the frame."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import GroupRow, Level, Mention
from filialog.journal.events import EventId, LookSeen
from filialog.journal.parentage import ParentSet
from filialog.journal.records import Edition
from filialog.lineage import Generation, GenerationKind
from filialog.messages import Words, either_text
from filialog.pages.addresses import (
    ABOUT,
    CROSSES,
    DIARY,
    FRONT,
    GROUPS,
    LINES,
    LOOKS,
    OFFERS,
    STYLE,
    TANKS,
)
from filialog.pages.here import Here, Reference, References
from filialog.statistics import Verdict

__all__ = [
    "Fact",
    "Frame",
    "LevelLine",
    "LevelMark",
    "LinkedRun",
    "NavItem",
    "Term",
    "capital",
    "fact",
    "frame",
    "generation_label",
    "generation_terms",
    "generation_words",
    "is_half_sided",
    "is_misfit",
    "level_lines",
    "level_mark",
    "look_text",
    "mention_links",
    "parents_html",
    "parents_text",
]

_SECTIONS = (
    ("front", FRONT),
    ("offers", OFFERS),
    ("lines", LINES),
    ("looks", LOOKS),
    ("crosses", CROSSES),
    ("groups", GROUPS),
    ("tanks", TANKS),
    ("diary", DIARY),
    ("about", ABOUT),
)
_MENTIONS_SHOWN = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelMark:
    """The mark that says how a number is known."""

    name: str
    """Name for the style: `observed`, `inferred`, `claimed`."""
    word: str
    """The word shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelLine:
    """A level and what it means."""

    mark: LevelMark
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A statement, how it is known, and the entries it rests on."""

    text: Markup
    level: LevelMark
    references: References


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A name and what it means."""

    name: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkedRun:
    """Many small links: the newest shown, the rest folded away."""

    shown: tuple[Reference, ...]
    rest: tuple[Reference, ...]
    more: str
    """Words on how many are folded away; empty where none are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NavItem:
    """A link of the main navigation."""

    text: str
    href: str
    current: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What stands around every page."""

    title: str
    """Title of the window."""
    heading: str
    """The one first-level heading."""
    description: str
    """One sentence for search engines and link lists."""
    journal: str
    """Title of the journal."""
    keeper: str
    """Who keeps it; empty where not said."""
    home: str
    """Link to the front page."""
    style: str
    """Link to the style sheet."""
    levels: str
    """Link to what the level marks mean."""
    navigation: tuple[NavItem, ...]
    edition: str
    """A warning in the keeper edition; empty in the public one."""
    made_by: str


def frame(here: Here, *, heading: str, section: str, description: str) -> Frame:
    """Return what stands around a page; it depends on nothing but the journal's settings."""
    words, settings = here.words, here.results.journal.settings
    whole = here.address == FRONT
    keeper = here.results.journal.edition is Edition.KEEPER
    return Frame(
        title=heading if whole else words("frame.title", page=heading, journal=settings.title),
        heading=heading,
        description=description,
        journal=settings.title,
        keeper=words("frame.keeper", keeper=settings.keeper) if settings.keeper else "",
        home=here.to(FRONT),
        style=here.to(STYLE),
        levels=here.to(f"{ABOUT}#levels"),
        navigation=tuple(
            NavItem(text=words("nav", pick=name), href=here.to(address), current=name == section)
            for name, address in _SECTIONS
        ),
        edition=words("frame.keeper-edition") if keeper else "",
        made_by=words("frame.made-by", version=here.site.version),
    )


def level_mark(words: Words, level: Level) -> LevelMark:
    """Return the mark of a level."""
    return LevelMark(name=level.value, word=words("level", pick=level.value))


def level_lines(words: Words) -> tuple[LevelLine, ...]:
    """Return every level with what it means."""
    return tuple(
        LevelLine(mark=level_mark(words, level), says=words("level-says", pick=level.value))
        for level in Level
    )


def fact(here: Here, text: Markup, level: Level, events: Iterable[EventId] = ()) -> Fact:
    """Return a statement with its level and the entries it rests on."""
    mark = level_mark(here.words, level)
    return Fact(text=text, level=mark, references=here.references(events))


def mention_links(here: Here, mentions: Sequence[Mention]) -> LinkedRun:
    """Return the entries that speak of a thing, newest first, each once."""
    names = {mention.entry for mention in mentions} & here.site.entries.keys()
    in_order = sorted(names, key=here.site.position.__getitem__, reverse=True)
    every = [one for name in in_order if (one := here.entry(name)) is not None]
    shown, rest = tuple(every[:_MENTIONS_SHOWN]), tuple(every[_MENTIONS_SHOWN:])
    more = here.words("mentions.earlier", number=len(rest), n=len(rest)) if rest else ""
    return LinkedRun(shown=shown, rest=rest, more=more)


def capital(text: Markup) -> Markup:
    """Let a sentence begin with a capital; it must begin with a word of the catalogue."""
    return text[:1].upper() + text[1:]


def parents_text(words: Words, parents: ParentSet) -> str:
    """Name the parents of one side in plain text."""
    return either_text(words, parents.groups) if parents.groups else words("parents.unknown")


def parents_html(here: Here, parents: ParentSet) -> Markup:
    """Name the parents of one side, linked."""
    if not parents.groups:
        return here.words.rich("parents.unknown")
    return either_text(here.words, [here.group(name) for name in parents.groups])


def is_half_sided(row: GroupRow) -> bool:
    """Say whether a group is an animal of two halves, whose look speaks for no genotype."""
    look = row.look
    return look is not None and look.whole is None and (look.left or look.right) is not None


def is_misfit(here: Here, row: GroupRow) -> bool:
    """Say whether the count of the brood they are of does not fit the parents recorded."""
    if row.brood is None:
        return False
    table = here.results.table(row.brood.group).table
    return table is not None and table.judgement.verdict is Verdict.DOES_NOT_FIT


def look_text(words: Words, look: LookSeen) -> str:
    """Write a look; a half-sided animal has one for each side."""
    if look.whole is not None:
        return look.whole
    unknown = words("look.unknown")
    return words("look.halves", left=look.left or unknown, right=look.right or unknown)


def generation_label(words: Words, generation: Generation, *, carrier: bool = False) -> str:
    """Name a generation in a few words: `F2`, `F1 hybrid, carrier`, `BC1`."""
    kind = generation.kind
    if kind is GenerationKind.FILIAL and generation.n == 1:
        return words("generation.f1-carrier") if carrier else words("generation.f1")
    if kind is GenerationKind.PURE:
        if generation.n is None:
            return words("generation.pure-varying")
        return words("generation.pure", n=generation.n)
    if kind is GenerationKind.UNKNOWN and not generation.parents:
        return words("generation.unknown")
    if kind is GenerationKind.ALTERNATIVES:
        codes = dict.fromkeys(label.code for label in generation.alternatives)
        return either_text(words, tuple(codes))
    return generation.code


def generation_terms(words: Words, generations: Iterable[Generation]) -> tuple[Term, ...]:
    """Explain every label that stands on a page, each once, the earliest generation first."""
    by_depth = sorted(generations, key=lambda one: (one.most is None, one.most or 0, one.code))
    found = {
        generation_label(words, one): generation_words(words, one) for one in by_depth
    }  # fmt: skip
    return tuple(Term(name=name, says=says) for name, says in found.items())


def generation_words(words: Words, generation: Generation) -> str:
    """Explain a generation in one sentence."""
    kind = generation.kind.name.lower().replace("_", "-")
    return words(
        "generation-says",
        pick=kind,
        code=generation.code,
        n=generation.n if generation.n is not None else words("generation.varying"),
        recurrent=generation.recurrent or words("generation.one-parent-line"),
        strains=either_text(words, generation.strains) or words("generation.no-strains"),
    )

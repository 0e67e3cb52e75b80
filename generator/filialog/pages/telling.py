"""Events told as sentences: a clause for each kind, and every other value as a detail."""

from collections.abc import Callable
from dataclasses import dataclass, field

from markupsafe import Markup, escape

from filialog.journal.events import Event, LookSeen, Other, Parents, Part, Score, Sorting, Value
from filialog.journal.keys import Key, Shape
from filialog.journal.kinds import COMMON_KEYS, MEASURED_KEYS
from filialog.journal.quantities import Age, Count, Reading, When
from filialog.messages import (
    age_text,
    count_text,
    decimal_text,
    either_text,
    list_text,
    reading_text,
    when_text,
)
from filialog.pages.here import Here
from filialog.pages.parts import capital, look_text

__all__ = ["CLAUSES", "EventLine", "tell"]

_QUANTITIES = frozenset(key.name for key in MEASURED_KEYS)
_NOT_TOLD = frozenset({"tank", "when", "private", "note", "photo"}) | _QUANTITIES
"""Told elsewhere: by the heading, as a quotation, as a picture, in the table of readings."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EventLine:
    """An event as a sentence."""

    sentence: Markup
    note: str
    """The keeper's remark, quoted; empty where there is none."""


@dataclass(frozen=True, slots=True)
class _Telling:
    """An event in the middle of being told: which of its values were said already."""

    here: Here
    event: Event
    said: set[str] = field(default_factory=set)

    def clause(self, *, pick: str, number: Count | int | None = None, **values: object) -> Markup:
        return self.here.words.rich("event", pick=pick, number=number, **values)

    def text(self, key: str) -> str | None:
        self.said.add(key)
        return self.event.text(key)

    def count(self, key: str = "count") -> Count | None:
        self.said.add(key)
        return self.event.count(key)

    def flag(self, key: str) -> bool:
        self.said.add(key)
        return self.event.flag(key)

    def place(self, key: str) -> Markup | None:
        name = self.text(key)
        return None if name is None else self.here.named(name)

    def parents(self, key: str) -> Markup:
        self.said.add(key)
        parents = self.event.parents(key)
        if parents is None:
            return self.here.words.rich("parents.unknown")
        return _parents(self.here, parents)

    def animals(
        self, *, noun: str = "animal", uncounted: str = "", source: str = "group"
    ) -> Markup:
        """Name the animals: how many, of which group or groups."""
        words, count = self.here.words, self.count()
        self.said.add(source)
        own = self.event.text(source)
        names = (own,) if own is not None else self.event.names("of")
        if own is None:
            self.said.add("of")
        groups = either_text(words, [self.here.named(name) for name in names])
        what = words("noun", pick=noun, number=count if count is not None else 2)
        if count is None:
            if uncounted and len(names) == 1:
                return words.rich("phrase", pick=uncounted, group=groups)
            kind = "any"
        else:
            kind = "counted"
        which = "none" if not names else "one-group" if len(names) == 1 else "either"
        return words.rich(
            "phrase",
            pick=f"{kind}-{which}",
            n="" if count is None else count_text(words, count),
            noun=what,
            group=groups,
        )

    def number(self, *, uncounted: str = "") -> Count | int:
        """Return the number that the verb follows."""
        count = self.event.count()
        if count is not None:
            return count
        return 1 if uncounted and not self.event.names("of") else 2


_Clause = Callable[[_Telling], Markup]


def _plain(kind: str, *, noun: str = "animal") -> _Clause:
    """Return the clause of a kind that only names animals."""

    def clause(told: _Telling) -> Markup:
        animals = told.animals(noun=noun)
        return told.clause(pick=kind, number=told.number(), animals=animals)

    return clause


def _on_its_way(kind: str) -> _Clause:
    """Return the clause of a kind about a lot."""

    def clause(told: _Telling) -> Markup:
        named = told.event.has("group") or told.event.has("of") or told.event.has("count")
        lot = None if named else told.text("lot")
        if lot is not None:
            animals = told.here.words.rich("phrase.lot", lot=lot)
            return told.clause(pick=kind, number=1, animals=animals)
        return told.clause(pick=kind, number=told.number(), animals=told.animals())

    return clause


def _thing(kind: str, *keys: str) -> _Clause:
    """Return the clause of a kind about a thing: the first value there is names it."""

    def clause(told: _Telling) -> Markup:
        key = next((key for key in keys if told.event.text(key) is not None), None)
        if key is None:
            return told.clause(pick=f"{kind}-unnamed")
        return told.clause(pick=kind, what=told.text(key))

    return clause


def _paired(told: _Telling) -> Markup:
    if told.event.has("dams") or told.event.has("sires"):
        return told.clause(pick="paired", dams=told.parents("dams"), sires=told.parents("sires"))
    return told.clause(pick="paired-group", animals=told.animals())


def _hatched(told: _Telling) -> Markup:
    count, brood = told.count(), told.place("brood")
    young = told.here.words.rich("phrase.young") if count is None else told.here.words.rich(
        "phrase.young-counted", n=count_text(told.here.words, count)
    )  # fmt: skip
    if brood is None:
        return told.clause(pick="hatched-unnamed", young=young)
    return told.clause(pick="hatched", young=young, brood=brood)


def _counted(told: _Telling) -> Markup:
    if told.flag("all-young"):
        count = told.count()
        if count is None:
            return told.clause(pick="counted-young-looks")
        return told.clause(pick="counted-young", n=count_text(told.here.words, count))
    source = "brood" if told.event.has("brood") else "group"
    animals = told.animals(source=source, uncounted="bare")
    return told.clause(pick="counted", number=told.number(uncounted="bare"), animals=animals)


def _sorted(told: _Telling) -> Markup:
    source = "from" if told.event.has("from") else "group"
    told.said.add("into")
    parts = [_sorting(told.here, part) for part in told.event.sortings()]
    animals = told.animals(source=source, uncounted="bare")
    into = list_text(told.here.words, parts)
    return told.clause(
        pick="sorted", number=told.number(uncounted="bare"), animals=animals, into=into
    )


def _moved(told: _Telling) -> Markup:
    source = "group" if told.event.has("group") else "from"
    of_tank = source == "from" and told.event.text("from") in told.here.results.tanks()
    uncounted = "" if of_tank else "whole"
    animals = told.animals(source="group" if of_tank else source, uncounted=uncounted)
    number = told.number(uncounted=uncounted)
    target = told.place("to")
    if target is None:
        return told.clause(pick="moved-apart", number=number, animals=animals)
    return told.clause(pick="moved", number=number, animals=animals, to=target)


def _chosen(told: _Telling) -> Markup:
    animals = told.animals(source="from" if told.event.has("from") else "group")
    return told.clause(pick="chosen", number=told.number(), animals=animals)


def _joined(told: _Telling) -> Markup:
    told.said.add("parts")
    parts = [_part(told.here, part) for part in told.event.parts()]
    if not parts:
        told.said.add("of")
        parts = [told.here.group(name) for name in told.event.names("of")]
    joined = list_text(told.here.words, parts) or told.here.words.rich("phrase.groups")
    into = told.place("into")
    if into is None:
        return told.clause(pick="joined-unnamed", parts=joined)
    return told.clause(pick="joined", parts=joined, into=into)


def _changed(told: _Telling) -> Markup:
    for key in ("litres", "percent"):
        amount = told.event.number(key)
        if amount is not None:
            told.said.add(key)
            n = decimal_text(told.here.words, amount, decimals=1)
            return told.clause(pick=f"changed-{key}", n=n)
    return told.clause(pick="changed")


def _soil(told: _Telling) -> Markup:
    for key in ("new", "part", "top-up"):
        if told.event.flag(key):
            told.said.add(key)
            return told.clause(pick=f"soil-{key}")
    return told.clause(pick="soil")


def _cycle(told: _Telling) -> Markup:
    return told.clause(pick=f"cycle-{told.text('state') or 'noted'}")


def _treated(told: _Telling) -> Markup:
    what = told.text("what")
    named = told.event.has("group") or told.event.has("of") or told.event.has("count")
    with_what = told.here.words.rich("phrase.something") if what is None else escape(what)
    if not named:
        return told.clause(pick="treated-tank", what=with_what)
    animals = told.animals()
    return told.clause(pick="treated", number=told.number(), animals=animals, what=with_what)


def _seen(told: _Telling) -> Markup:
    named = told.event.has("group") or told.event.has("of") or told.event.has("count")
    what = [told.here.words("seen", pick=choice) for choice in told.event.names("what")]
    told.said.add("what")
    if not what:
        return told.clause(pick="seen-note")
    seen = list_text(told.here.words, what)
    if not named:
        return told.clause(pick="seen-any", what=seen)
    return told.clause(pick="seen", what=seen, animals=told.animals())


def _fixed(kind: str) -> _Clause:
    def clause(told: _Telling) -> Markup:
        return told.clause(pick=kind)

    return clause


CLAUSES: dict[str, _Clause] = {
    "present": _plain("present"),
    "bought": _plain("bought"),
    "paired": _paired,
    "berried": _plain("berried", noun="berried"),
    "hatched": _hatched,
    "counted": _counted,
    "sorted": _sorted,
    "sexed": _plain("sexed"),
    "chosen": _chosen,
    "moved": _moved,
    "joined": _joined,
    "graded": _plain("graded"),
    "died": _plain("died"),
    "culled": _plain("culled"),
    "withdrawn": _plain("withdrawn"),
    "strayed": _fixed("strayed"),
    "offered": _on_its_way("offered"),
    "reserved": _on_its_way("reserved"),
    "sold": _on_its_way("sold"),
    "given": _on_its_way("given"),
    "arrived": _on_its_way("arrived"),
    "measured": _fixed("measured"),
    "changed": _changed,
    "soil": _soil,
    "fitted": _thing("fitted", "what", "item"),
    "planted": _thing("planted", "what", "item"),
    "cycle": _cycle,
    "fed": _thing("fed", "food", "amount"),
    "dosed": _thing("dosed", "what", "amount"),
    "treated": _treated,
    "sick": _plain("sick"),
    "quarantine": _plain("quarantine"),
    "seen": _seen,
    "away": _fixed("away"),
    "closed": _fixed("closed"),
}
"""The clause that opens the sentence of each kind of event."""


def tell(here: Here, event: Event, *, day: When | None = None) -> EventLine:
    """Tell an event in one sentence; its day is told where it is not `day`."""
    told = _Telling(here, event)
    clauses = [CLAUSES[event.kind_name](told)]
    if day is not None and event.when != day:
        clauses.append(here.words.rich("detail.when", value=when_text(here.words, event.when)))
    clauses.extend(
        _detail(here, key, event.values[key.name])
        for key in (*event.kind.own, *COMMON_KEYS)
        if key.name in event.values and key.name not in told.said | _NOT_TOLD
    )
    joined = Markup(here.words("sentence.clause")).join(clauses)  # noqa: S704 - our own words
    sentence = here.words.rich("sentence.end", text=capital(joined))
    return EventLine(sentence=sentence, note=event.text("note") or "")


def _detail(here: Here, key: Key, value: Value) -> Markup:
    if isinstance(value, bool):
        answer = "yes" if value else "no"
        return here.words.rich("detail-flag", pick=f"{key.name}-{answer}")
    return here.words.rich("detail", pick=key.name, value=_value(here, key, value))


def _value(here: Here, key: Key, value: object) -> Markup:
    words = here.words
    match value:
        case str():
            named = key.shape in _NAMES
            if key.shape in {Shape.CHOICE, Shape.CHOICES}:
                text = words("choice", pick=f"{key.name}-{value}")
            else:
                text = value
            return here.named(value) if named else escape(text)
        case float():
            return escape(decimal_text(words, value, decimals=2))
        case Count():
            return escape(count_text(words, value))
        case When():
            return escape(when_text(words, value))
        case Age():
            return escape(age_text(words, value))
        case Reading():
            return escape(reading_text(words, value))
        case Parents():
            return _parents(here, value)
        case LookSeen():
            return escape(look_text(words, value))
        case tuple():
            return list_text(words, [_item(here, key, item) for item in value])
    raise TypeError(f"no way to write {type(value).__name__}")


_NAMES = {Shape.GROUP, Shape.GROUPS, Shape.NEW_GROUP, Shape.TANK, Shape.PLACE}


def _item(here: Here, key: Key, item: object) -> Markup:
    words = here.words
    match item:
        case Part():
            return _part(here, item)
        case Sorting():
            return _sorting(here, item)
        case Other():
            n = count_text(words, item.count)
            return words.rich("tally.other", number=item.count, n=n, note=item.note)
        case Score():
            n = count_text(words, item.count)
            return words.rich("tally.look", n=n, look=item.score)
        case (str() as name, str() as text):
            # Of a tank taken down: so many young, as a keeper would say it.
            kind = "left" if key.name == "left" else "named"
            return words.rich("detail-pair", pick=kind, name=name, value=text)
        case str():
            return _value(here, key, item)
    look, count = getattr(item, "look", None), getattr(item, "count", None)
    if isinstance(look, str) and isinstance(count, Count):
        return words.rich("tally.look", n=count_text(words, count), look=look)
    raise TypeError(f"no way to write {type(item).__name__}")


def _parents(here: Here, parents: Parents) -> Markup:
    groups = either_text(here.words, [here.group(name) for name in parents.groups])
    if parents.count is None:
        return groups
    n = count_text(here.words, parents.count)
    return here.words.rich("parents.some-of", n=n, groups=groups)


def _part(here: Here, part: Part) -> Markup:
    if part.count is None:
        return here.words.rich("phrase.whole", group=here.group(part.group))
    n = count_text(here.words, part.count)
    return here.words.rich("phrase.part", n=n, group=here.group(part.group))


def _sorting(here: Here, part: Sorting) -> Markup:
    words = here.words
    facts = [
        words("sorting", pick=name, n=count_text(words, count))
        for name, count in (("females", part.females), ("males", part.males))
        if count is not None
    ]
    if part.look is not None:
        facts.insert(0, words("sorting.look", look=look_text(words, part.look)))
    if part.count is not None:
        facts.insert(0, count_text(words, part.count))
    group = here.group(part.group)
    if not facts:
        return group
    return words.rich("sorting", group=group, facts=words("list.comma").join(facts))

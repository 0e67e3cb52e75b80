"""A forecast in words: one sentence first, then the numbers and what they rest on."""

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction

from filialog.analysis import JournalResults
from filialog.analysis.forecast_rows import (
    ForecastRow,
    HiddenForecast,
    LookForecast,
    Obstacle,
    PairRow,
    ParentRow,
)
from filialog.cli.terminal_text import heading_lines, paragraph_lines, table_lines
from filialog.journal.events import EventId
from filialog.lineage import RelationshipKind
from filialog.messages import (
    Words,
    count_text,
    day_text,
    decimal_text,
    either_text,
    list_text,
    portion_text,
    share_text,
)
from filialog.pages.parts import generation_label
from filialog.pages.tables import assumption_sentences, coefficient_span, share_span

__all__ = ["forecast_lines"]

_MOST_PLACES = 12
_MOST_PARTS = 64
"""Shares are told as `9 of 16` up to this many parts, else as per cent."""


def forecast_lines(
    words: Words, results: JournalResults, row: ForecastRow, *, width: int
) -> list[str]:
    """Return the lines of a forecast, none of them longer than the width allows."""
    sections: list[tuple[str, list[str]]] = []
    if row.looks:
        sections += [
            (words("forecast.heading-looks"), _looks(words, row, width)),
            (words("forecast.heading-genotypes"), _genotypes(words, row, width)),
        ]
        if row.sexes:
            sections.append((words("forecast.heading-sexes"), _set_in(_sexes(words, row), width)))
        if row.dead_share:
            sections.append(
                (words("forecast.heading-deaths"), _set_in([_deaths(words, row)], width))
            )
    sections += [
        (words("forecast.heading-kin"), _set_in(_descent(words, row), width)),
        (words("forecast.heading-parents"), _set_in(_parents(words, results, row), width)),
        (
            words("forecast.heading-assumptions"),
            _set_in(assumption_sentences(words, row.assumptions), width),
        ),
        (words("forecast.heading-rests"), _set_in(_rests_on(words, results, row), width)),
    ]
    lines = paragraph_lines(_title(words, row), width=width)
    lines += ["", *paragraph_lines(_opening(words, results, row), width=width)]
    for heading, body in sections:
        lines += [*heading_lines(heading), *body]
    return lines


def _set_in(texts: Iterable[str], width: int) -> list[str]:
    return [line for text in texts for line in paragraph_lines(text, width=width, indent=True)]


def _title(words: Words, row: ForecastRow) -> str:
    dams, sires = ([one.name for one in side] for side in (row.dams, row.sires))
    return words("forecast.title", dams=either_text(words, dams), sires=either_text(words, sires))


# --- the first sentence ---------------------------------------------------------------------


def _opening(words: Words, results: JournalResults, row: ForecastRow) -> str:
    if row.obstacle is not None:
        return _obstacle(words, results, row)
    text = _one(words, row) if row.one_expectation else _several(words, row)
    of_dam = any(one.look is None for one in row.hidden)
    return text + words("forecast.opening-of-dam") if of_dam else text


def _one(words: Words, row: ForecastRow) -> str:
    looks = _rarest_first(row.looks)
    if len(looks) == 1:
        return words(
            "forecast.opening-all", look=looks[0].look, hidden=_hidden(words, row, looks[0])
        )
    if len(looks) == 2:
        rare, other = looks
        if rare.average == other.average:
            rare, other = _that_hides_less(row, rare, other)
            return words(
                "forecast.opening-half",
                look=rare.look,
                other=other.look,
                hidden=_hidden(words, row, other),
            )
        return words(
            "forecast.opening-two",
            portion=portion_text(words, rare.average),
            look=rare.look,
            other=other.look,
            hidden=_hidden(words, row, other),
        )
    parts = _common_parts([one.average for one in row.looks])
    if parts is None:
        return words("forecast.opening-of", n=100, looks=_per_look(words, row.looks, 100))
    return words("forecast.opening-of", n=parts, looks=_per_look(words, row.looks, parts))


def _rarest_first(looks: Sequence[LookForecast]) -> list[LookForecast]:
    """Sort looks by their share; of two alike the later in the model, which others can hide."""
    placed = sorted(enumerate(looks), key=lambda item: (item[1].average, -item[0]))
    return [look for _, look in placed]


def _that_hides_less(
    row: ForecastRow, one: LookForecast, other: LookForecast
) -> tuple[LookForecast, LookForecast]:
    hides = {hidden.look for hidden in row.hidden}
    return (other, one) if one.look in hides and other.look not in hides else (one, other)


def _several(words: Words, row: ForecastRow) -> str:
    if len(row.looks) == 2:
        rare, other = _rarest_first(row.looks)
        return words(
            "forecast.opening-open-two",
            look=rare.look,
            low=share_text(words, rare.low),
            high=share_text(words, rare.high),
            average=share_text(words, rare.average),
            other=other.look,
            hidden=_hidden(words, row, other),
        )
    looks = [
        words("forecast-sex.look", look=one.look, share=share_text(words, one.average))
        for one in row.looks
    ]
    return words("forecast.opening-open", looks=list_text(words, looks))


def _per_look(words: Words, looks: Sequence[LookForecast], parts: int) -> str:
    named = [
        words(
            "forecast.one-look",
            n=decimal_text(words, one.average * parts, decimals=1),
            look=one.look,
        )
        for one in looks
    ]
    return list_text(words, named)


def _common_parts(shares: Sequence[float]) -> int | None:
    """Return of how many young all shares are whole numbers; None where that is many."""
    exact = [Fraction(share).limit_denominator(_MOST_PARTS) for share in shares]
    if any(not math.isclose(float(a), b, rel_tol=1e-9) for a, b in zip(exact, shares, strict=True)):
        return None
    parts = math.lcm(*(one.denominator for one in exact))
    return parts if parts <= _MOST_PARTS else None


def _hidden(words: Words, row: ForecastRow, look: LookForecast) -> str:
    """Say what the young of one look carry unseen, as the end of a sentence."""
    found = [one for one in row.hidden if one.look == look.look]
    if len(found) != 1:
        return ""  # of several alleles the list below tells
    if math.isclose(found[0].share, 1.0):
        return words("forecast.hidden-all", allele=found[0].allele)
    portion = portion_text(words, found[0].share)
    return words("forecast.hidden-part", allele=found[0].allele, portion=portion)


def _obstacle(words: Words, results: JournalResults, row: ForecastRow) -> str:
    assert row.obstacle is not None
    concerns = row.concerns
    if row.obstacle is Obstacle.GENOTYPE_NOT_READ:
        named = words("sentence.clause").join(concerns)
    else:
        named = list_text(words, concerns)
    text = words(
        "forecast-obstacle",
        pick=row.obstacle.value,
        concerns=named,
        day=day_text(words, results.as_of),
    )
    if not row.contradiction:
        return text
    places = list_text(words, _places(results, row.contradiction))
    return f"{text} {words('forecast.cannot-be-right', places=places)}"


# --- the sections ---------------------------------------------------------------------------


def _looks(words: Words, row: ForecastRow, width: int) -> list[str]:
    head = [words("forecast.column-look"), words("forecast.column-share")]
    if not row.one_expectation:
        head.append(words("forecast.column-average"))
    if row.brood_size is not None:
        low, high = row.brood_size
        head.append(words("forecast.column-brood", low=low, high=high))
    head.append(words("forecast.column-see"))
    body = []
    for one in row.looks:
        cells = [one.look, share_span(words, one.low, one.high)]
        if not row.one_expectation:
            cells.append(share_text(words, one.average))
        if one.brood_low is not None and one.brood_high is not None:
            cells.append(_span(words, one.brood_low, one.brood_high))
        see = words("forecast.never-sure") if one.young_to_see is None else str(one.young_to_see)
        body.append([*cells, see])
    lines = table_lines(head, body, width=width)
    notes = [words("forecast.see-says")]
    if any(one.young_to_see is None for one in row.looks):
        notes.append(words("forecast.never-says"))
    if row.brood_size is None:
        notes.append(words("forecast.no-brood"))
    else:
        low, high = row.brood_size
        notes.append(
            words(
                "forecast.brood-says",
                species=row.species,
                low=low,
                high=high,
                source=row.brood_source,
            )
        )
    return lines + _set_in(notes, width)


def _span(words: Words, low: float, high: float) -> str:
    first, last = math.floor(low + 0.5), math.floor(high + 0.5)
    if first == last:
        return str(first)
    return words("forecast.number-span", low=first, high=last)


def _genotypes(words: Words, row: ForecastRow, width: int) -> list[str]:
    head = [
        words("forecast.column-genotype"),
        words("forecast.column-look"),
        words("forecast.column-share"),
    ]
    body = [
        [
            one.genotype,
            one.look or words("forecast.no-look"),
            share_text(words, one.probability),
        ]
        for one in row.genotypes
    ]
    texts = [_carry(words, one) for one in row.hidden]
    return table_lines(head, body, width=width, left=2) + _set_in(
        texts or [words("forecast.carry-none")], width
    )


def _carry(words: Words, one: HiddenForecast) -> str:
    portion = portion_text(words, one.share)
    if one.look is None:
        return words("forecast.carry-of-dam", portion=portion, allele=one.allele)
    if math.isclose(one.share, 1.0):
        return words("forecast.carry-all", look=one.look, allele=one.allele)
    return words("forecast.carry-part", look=one.look, portion=portion, allele=one.allele)


def _sexes(words: Words, row: ForecastRow) -> list[str]:
    texts = []
    for one in row.sexes:
        text = words("forecast-sex", pick=one.sex.value, share=share_text(words, one.share))
        if one.looks:
            looks = [
                words("forecast-sex.look", look=look, share=share_text(words, share))
                for look, share in one.looks
            ]
            text = words("forecast-sex.of", sex=text, looks=list_text(words, looks))
        texts.append(text)
    return texts


def _deaths(words: Words, row: ForecastRow) -> str:
    genotypes = [
        words("forecast.dead", genotype=genotype, share=share_text(words, share))
        for genotype, share in row.dead
    ]
    return words(
        "forecast.deaths",
        share=share_text(words, row.dead_share),
        genotypes=list_text(words, genotypes),
    )


def _descent(words: Words, row: ForecastRow) -> list[str]:
    texts = []
    if row.generation is not None:
        label = generation_label(words, row.generation)
        texts.append(words("forecast.generation", label=label))
    if row.inbreeding is None or row.inbreeding_average is None:
        texts.append(words("forecast.inbreeding-unknown"))
    else:
        average = ""
        if len(row.pairs) > 1:
            value = decimal_text(words, row.inbreeding_average, decimals=3)
            average = words("forecast.inbreeding-average", value=value)
        span = coefficient_span(words, *row.inbreeding)
        texts.append(words("forecast.inbreeding", span=span, average=average))
    return texts + [_kin(words, pair) for pair in row.pairs]


def _kin(words: Words, pair: PairRow) -> str:
    one = pair.relation
    back, on = one.generations_here, one.generations_there
    match one.kind:
        case RelationshipKind.SAME_POOL if pair.dam == pair.sire:
            pick = "within-group"
        case RelationshipKind.SAME_BROOD if pair.dam == pair.sire:
            pick = "within-group"
        case RelationshipKind.PARENT_YOUNG:
            pick = "parent" if back else "young"
        case RelationshipKind.ANCESTOR:
            pick = "ancestor" if back else "descendant"
        case RelationshipKind.COLLATERAL:
            pick = "collateral" if back or on else "common"
        case _:
            pick = one.kind.value.replace(" ", "-")
    n, m = (back or on, on) if one.kind is RelationshipKind.ANCESTOR else (back, on)
    text = words("forecast-kin", pick=pick, dam=pair.dam, sire=pair.sire, n=n, m=m)
    if one.possible:
        text = words("forecast.possibly", how=text)
    if one.through:
        text += words("forecast.through", groups=list_text(words, one.through))
    if len(one.through) or one.kinship_high:
        span = coefficient_span(words, one.kinship_low, one.kinship_high)
        text += words("forecast.kinship", span=span)
    return text


def _parents(words: Words, results: JournalResults, row: ForecastRow) -> list[str]:
    texts = []
    for role, side in (("dam", row.dams), ("sire", row.sires)):
        for one in side:
            share = ""
            if len(side) > 1:
                share = words("forecast.weight", share=share_text(words, one.weight))
            texts.append(
                words(
                    "forecast-role",
                    pick=role,
                    name=one.name,
                    share=share,
                    genotypes=_can_be(words, one),
                    count=_count(words, results, one),
                )
            )
    waiting = {one.name: one.adult_from for one in (*row.dams, *row.sires) if one.adult_from}
    texts += [
        words("forecast.young-yet", name=name, day=day_text(words, day))
        for name, day in waiting.items()
    ]
    return texts


def _can_be(words: Words, one: ParentRow) -> str:
    if not one.genotypes:
        return words("forecast.no-genotype")
    named = [one.genotypes[0].genotype]
    if len(one.genotypes) > 1:
        named = [
            words("forecast.genotype", genotype=g.genotype, share=share_text(words, g.probability))
            for g in one.genotypes
        ]
    level = words("level", pick=one.level.value)
    return words("forecast.known-as", genotypes=either_text(words, named), level=level)


def _count(words: Words, results: JournalResults, one: ParentRow) -> str:
    if one.count is None:
        return words("forecast.written")
    day = day_text(words, results.as_of)
    if one.count.high == 0:
        return words("forecast.off-book", day=day)
    return words("forecast.on-book", number=one.count, n=count_text(words, one.count), day=day)


def _rests_on(words: Words, results: JournalResults, row: ForecastRow) -> list[str]:
    texts = []
    if row.model is not None:
        page = results.journal.traits[row.model]
        texts.append(
            words(
                "forecast.level",
                level=words("level", pick=row.level.value),
                model=row.model,
                path=page.place.path,
            )
        )
    claims = [results.journal.groups[name] for name in row.claims]
    claimed = [page.places.get("genotype", page.place) for page in claims]
    places = [f"{place.path}:{place.line}" for place in claimed]
    places += _places(results, row.events)
    texts += places[:_MOST_PLACES]
    more = len(places) - _MOST_PLACES
    return [*texts, words("forecast.more", number=more, n=more)] if more > 0 else texts


def _places(results: JournalResults, events: Iterable[EventId]) -> list[str]:
    found = (results.event(event) for event in events)
    return [f"{one.place.path}:{one.place.line}" for one in found if one is not None]

"""Every word of the interface in English; `{…}` stands for a value, `.one` and `.other` for forms.

A translation is this file with the same keys. Keys are grouped by what they speak of; a family
of keys whose last part is chosen at run time stands together.
"""

from collections.abc import Mapping
from types import MappingProxyType

__all__ = ["ENGLISH"]

_FRAME = {
    "frame.title": "{page} – {journal}",
    "frame.keeper": "Kept by {keeper}.",
    "frame.keeper-edition": "Keeper edition: it holds private notes and is not for publishing.",
    "frame.made-by": "Compiled from a plain-text diary by filialog {version}.",
    "frame.language": "en",
    "frame.skip": "To the text",
    "frame.sections": "Sections",
    "frame.levels": "What observed, inferred and claimed mean",
    "nav.front": "Start",
    "nav.offers": "On offer",
    "nav.looks": "Looks",
    "nav.diary": "Diary",
    "nav.tanks": "Tanks",
    "nav.groups": "Groups",
    "nav.crosses": "Crosses",
    "nav.lines": "Lines",
    "nav.about": "About",
    "level.observed": "observed",
    "level.inferred": "inferred",
    "level.claimed": "claimed",
    "level-says.observed": "Seen and written down in the diary.",
    "level-says.inferred": "Computed from what was seen; the method stands on this page.",
    "level-says.claimed": "Said by the keeper or a seller; the diary does not show it by itself.",
    "references.heading": "from",
    "references.more": "and {n} more",
    "mentions.earlier.one": "{n} earlier entry",
    "mentions.earlier.other": "{n} earlier entries",
    "references.hidden": "and entries that are not published",
    "reference": "{day}, {tank}",
    "list.comma": ", ",
    "list.and": " and ",
    "list.or": " or ",
    "list.times": " × ",
    "sentence.clause": "; ",
    "sentence.end": "{text}.",
    "table.blank": "–",
    "table.unknown": "not known",
    "picture.no-description": "a picture without a description",
    "picture.missing": "A picture belongs here that cannot be shown: {says}.",
    "picture.heading": "Pictures",
    "picture.alt-look-group": "{group}, {look}",
    "picture.alt-group": "{group}",
    "picture.alt-look": "an animal with the look {look}",
    "picture.alt-tank": "tank {tank}",
    "picture.alt-nothing": "a picture of the journal, not described",
    "picture.in-tank": "in {tank}",
    "picture-side.left": "left side",
    "picture-side.right": "right side",
    "picture-side.above": "from above",
    "picture-side.below": "from below",
    "picture-side.front": "from the front",
    "picture-of.dams": "Dam",
    "picture-of.sires": "Sire",
    "picture-of.parents": "Parents",
    "picture-of.young": "Young",
    "file.unnamed": "a file of the journal",
}

_NUMBERS = {
    "number.decimal": ".",
    "date.day": "{day}\N{NO-BREAK SPACE}{month} {year}",
    "date.day-month": "{day}\N{NO-BREAK SPACE}{month}",
    "date.month": "{month} {year}",
    "date.on": "on {day}",
    "date.in": "in {month}",
    "date.about": "about {day}",
    "date.between": "between {first} and {last}",
    "date.short-window": "{first}–{last}",
    "month.1": "January",
    "month.2": "February",
    "month.3": "March",
    "month.4": "April",
    "month.5": "May",
    "month.6": "June",
    "month.7": "July",
    "month.8": "August",
    "month.9": "September",
    "month.10": "October",
    "month.11": "November",
    "month.12": "December",
    "month-short.1": "Jan",
    "month-short.2": "Feb",
    "month-short.3": "Mar",
    "month-short.4": "Apr",
    "month-short.5": "May",
    "month-short.6": "June",
    "month-short.7": "July",
    "month-short.8": "Aug",
    "month-short.9": "Sept",
    "month-short.10": "Oct",
    "month-short.11": "Nov",
    "month-short.12": "Dec",
    "count.some": "some",
    "count.about": "about {n}",
    "count.at-least": "at least {n}",
    "count.at-most": "at most {n}",
    "count.range": "{low} to {high}",
    "age.one": "{n} day",
    "age.other": "{n} days",
    "age.range": "{low} to {high} days",
    "portion": "{n} in {of}",
    "portion.every": "every one",
    "portion.none": "none",
    "share": "{n}\N{NO-BREAK SPACE}%",
    "share.below": "below {n}\N{NO-BREAK SPACE}%",
    "share.above": "above {n}\N{NO-BREAK SPACE}%",
    "share.span": "{low} to {high}",
    "p-value.below": "below {n}",
    "reading.range": "{low} to {high}",
    "reading.below": "below {value}",
    "reading.above": "above {value}",
    "chance.none": "none",
    "chance.very-unlikely": "very unlikely",
    "chance.unlikely": "unlikely",
    "chance.even": "about even",
    "chance.likely": "likely",
    "chance.very-likely": "very likely",
    "chance.certain": "certain",
    "chance.with-share": "{word}, {share}",
    "chance-says.none": "0\N{NO-BREAK SPACE}%",
    "chance-says.very-unlikely": "up to 5\N{NO-BREAK SPACE}%",
    "chance-says.unlikely": "up to 35\N{NO-BREAK SPACE}%",
    "chance-says.even": "up to 65\N{NO-BREAK SPACE}%",
    "chance-says.likely": "up to 95\N{NO-BREAK SPACE}%",
    "chance-says.very-likely": "above 95\N{NO-BREAK SPACE}%",
    "chance-says.certain": "100\N{NO-BREAK SPACE}%",
}

_WATER = {
    "quantity.ph": "pH",
    "quantity.gh": "general hardness",
    "quantity.kh": "carbonate hardness",
    "quantity.ec": "conductivity",
    "quantity.tds": "dissolved solids",
    "quantity.temperature": "temperature",
    "quantity.nh3": "un-ionised ammonia",
    "quantity.nh4": "ammonium",
    "quantity.tan": "total ammonia nitrogen",
    "quantity.no2": "nitrite",
    "quantity.no3": "nitrate",
    "quantity.o2": "dissolved oxygen",
    "quantity.cu": "copper",
    "water.pair": "{quantity} {value}",
    "water.somewhere": "no tank named",
    "water.tank": "{tank}",
    "water.new": "new water for {tank}",
    "water.before-change": "{tank}, before the change",
    "water.remark-before": "before a change",
    "water.earlier.one": "{n} earlier day",
    "water.earlier.other": "{n} earlier days",
    "readings.title": "{quantity} in {tank} over time",
    "readings.axis": "{quantity}, {unit}",
    "readings.in-table": "The table has the same numbers.",
    "readings.describe": (
        "Dots: readings. Shaded band: the range aimed at. Strokes below the axis: water changes."
        " Diamonds: soil. Triangles: known only to be below or above a value. The table has the"
        " same numbers."
    ),
    "amount.litres": "{n}\N{NO-BREAK SPACE}L",
    "amount.percent": "{n}\N{NO-BREAK SPACE}% of the volume",
    "amount.unknown": "amount not noted",
}

_ANIMALS = {
    "noun.animal.one": "animal",
    "noun.animal.other": "animals",
    "noun.young.one": "young animal",
    "noun.young.other": "young",
    "noun.berried.one": "berried female",
    "noun.berried.other": "berried females",
    "phrase.counted-one-group": "{n} {noun} of {group}",
    "phrase.counted-either": "{n} {noun} of {group} (not known which)",
    "phrase.counted-none": "{n} {noun}",
    "phrase.any-one-group": "{noun} of {group}",
    "phrase.any-either": "{noun} of {group} (not known which)",
    "phrase.any-none": "{noun}",
    "phrase.bare": "{group}",
    "phrase.whole": "the whole of {group}",
    "phrase.part": "{n} of {group}",
    "phrase.lot": "lot {lot}",
    "phrase.young": "young",
    "phrase.groups": "groups",
    "phrase.young-counted": "{n} young",
    "phrase.something": "something not named",
    "parents.unknown": "unknown",
    "parents.some-of": "{n} of {groups}",
    "parents-side.dams": "Dam: {groups} ({claim}).",
    "parents-side.sires": "Sire: {groups} ({claim}).",
    "claim-unknown": "the book has nobody of an age and sex to breed there at that time",
    "claim-named.one": "named by the keeper",
    "claim-named.other": "the keeper named several; one or more of them took part",
    "claim-dams.animal": (
        "the only one that can have been an adult female {where} when the young hatched"
    ),
    "claim-dams.group": "the only group with adult females {where} when the young hatched",
    "claim-dams.several": (
        "one of {n} groups that can have had adult females {where} when the young hatched"
    ),
    "claim-dams.put-together": "put together as dams, and still {where} when the young hatched",
    "claim-sires.animal": "the only one that can have been an adult male {where}",
    "claim-sires.group": "the only group with adult males {where}",
    "claim-sires.several": "one of {n} groups that can have had adult males {where}",
    "claim-sires.put-together": "put together as sires {where}",
    "claim-where": "in {tanks}",
    "claim-where-unknown": "in a tank not known",
    "claim-days": "between {first} and {last}",
    "claim-ground.by-temperature": "at the temperatures measured, eggs take {low} to {high} days",
    "claim-ground.by-species": "eggs of the species take {low} to {high} days",
    "claim-ground.not-yet-berried": "on {day} she had no eggs yet",
    "claim-ground.berried": "eggs were first seen on {day}",
    "claim-ground.moulted": "she moulted or mated on {day}, and no sperm outlasts a moult",
    "claim-ground.moved-berried": (
        "a female was moved with her eggs, so the sire is of the tank she left"
    ),
    "claim-ground.moved-unberried": "{groups} only if a female used sperm from before her move",
    "claim-ground.strayed": "an animal of another tank may have been in {tank} since {day}",
    "claim-ground.item-moved": (
        "equipment that came to {tank} on {day} may have carried young from another tank"
    ),
    "claim-ground.came-with-eggs": (
        "{groups} can have been fertilised before being in this book, by a sire not known here"
    ),
    "claim-ground.place-unknown": "the book does not say in which tank {groups} were",
    "claim-ground.against-book": "but the book speaks against it",
    "mating.one": "One sire fathered the brood.",
    "mating.several": "Several sires can have fathered the brood.",
    "mating.unknown": "Whether one sire or several fathered the brood is not known.",
    "mating-short.one": "one sire",
    "mating-short.several": "several sires",
    "mating-short.unknown": "one sire or several",
    "look.unknown": "not noted",
    "look.halves": "left side {left}, right side {right}",
    "sorting": "{group} ({facts})",
    "sorting.look": "look {look}",
    "sorting.females": "females: {n}",
    "sorting.males": "males: {n}",
    "holding.group.one": "{n} of {group}",
    "holding.group.other": "{n} of {group}",
    "holding.colony.one": "{n} of {group} or more, as they breed unrecorded",
    "holding.colony.other": "{n} of {group} or more, as they breed unrecorded",
    "holding.none": "no animals on the book",
}

_EVENTS = {
    "event.present.one": "{animals} was here when the journal began",
    "event.present.other": "{animals} were here when the journal began",
    "event.bought.one": "{animals} was bought",
    "event.bought.other": "{animals} were bought",
    "event.paired": "dam {dams} and sire {sires} were put together",
    "event.paired-group": "{animals} were put together to breed",
    "event.berried.one": "{animals} was seen",
    "event.berried.other": "{animals} were seen",
    "event.hatched": "{young} of brood {brood} were seen for the first time",
    "event.hatched-unnamed": "{young} of an unnamed brood were seen for the first time",
    "event.counted.one": "{animals} was counted",
    "event.counted.other": "{animals} were counted",
    "event.counted-young": "all young of the tank were counted, {n} in number",
    "event.counted-young-looks": "all young of the tank were counted",
    "event.sorted.one": "{animals} was sorted into {into}",
    "event.sorted.other": "{animals} were sorted into {into}",
    "event.sexed.one": "{animals} was told by sex",
    "event.sexed.other": "{animals} were told by sex",
    "event.chosen.one": "{animals} was chosen for breeding",
    "event.chosen.other": "{animals} were chosen for breeding",
    "event.moved.one": "{animals} was moved to {to}",
    "event.moved.other": "{animals} were moved to {to}",
    "event.moved-apart.one": "{animals} was set apart",
    "event.moved-apart.other": "{animals} were set apart",
    "event.joined": "{parts} were joined as {into}",
    "event.joined-unnamed": "{parts} were joined",
    "event.graded.one": "{animals} was graded",
    "event.graded.other": "{animals} were graded",
    "event.died.one": "{animals} was found dead",
    "event.died.other": "{animals} were found dead",
    "event.culled.one": "{animals} was culled",
    "event.culled.other": "{animals} were culled",
    "event.withdrawn.one": "{animals} was withdrawn from breeding",
    "event.withdrawn.other": "{animals} were withdrawn from breeding",
    "event.strayed": "an animal may have got from one tank into another",
    "event.offered.one": "{animals} was put on offer",
    "event.offered.other": "{animals} were put on offer",
    "event.reserved.one": "{animals} was promised",
    "event.reserved.other": "{animals} were promised",
    "event.sold.one": "{animals} was sold",
    "event.sold.other": "{animals} were sold",
    "event.given.one": "{animals} was given away",
    "event.given.other": "{animals} were given away",
    "event.arrived.one": "{animals} reached the buyer",
    "event.arrived.other": "{animals} reached the buyer",
    "event.measured": "the water was measured",
    "event.changed": "water was changed",
    "event.changed-litres": "{n}\N{NO-BREAK SPACE}L of water were changed",
    "event.changed-percent": "{n}\N{NO-BREAK SPACE}% of the water was changed",
    "event.soil": "a note on the soil",
    "event.soil-new": "a new layer of soil was laid",
    "event.soil-part": "part of the soil was replaced",
    "event.soil-top-up": "soil was added",
    "event.fitted": "fitted: {what}",
    "event.fitted-unnamed": "equipment was fitted",
    "event.planted": "planted: {what}",
    "event.planted-unnamed": "plants were put in",
    "event.cycle-begun": "maturing began",
    "event.cycle-ready": "maturing is done: ready for animals",
    "event.cycle-noted": "a note on maturing",
    "event.fed": "fed: {what}",
    "event.fed-unnamed": "food was given",
    "event.dosed": "dosed: {what}",
    "event.dosed-unnamed": "an additive was given",
    "event.treated.one": "{animals} was treated with {what}",
    "event.treated.other": "{animals} were treated with {what}",
    "event.treated-tank": "the tank was treated with {what}",
    "event.sick.one": "{animals} showed signs of illness",
    "event.sick.other": "{animals} showed signs of illness",
    "event.quarantine.one": "{animals} was kept apart",
    "event.quarantine.other": "{animals} were kept apart",
    "event.seen": "seen on {animals}: {what}",
    "event.seen-any": "seen: {what}",
    "event.seen-note": "a remark",
    "event.away": "the keeper was away",
    "event.closed": "the tank was taken down",
    "seen.saddled": "a saddle of eggs not laid yet",
    "seen.not-berried": "no longer berried",
    "seen.eggs-dropped": "eggs dropped",
    "seen.moult": "a moult",
    "seen.mating": "a mating",
    "kind.present": "here at the start",
    "kind.bought": "bought",
    "kind.paired": "paired",
    "kind.berried": "berried female",
    "kind.hatched": "hatched",
    "kind.counted": "counted",
    "kind.sorted": "sorted",
    "kind.sexed": "told by sex",
    "kind.chosen": "chosen for breeding",
    "kind.moved": "moved",
    "kind.joined": "joined",
    "kind.graded": "graded",
    "kind.died": "found dead",
    "kind.culled": "culled",
    "kind.withdrawn": "withdrawn from breeding",
    "kind.strayed": "strayed",
    "kind.offered": "on offer",
    "kind.reserved": "promised",
    "kind.sold": "sold",
    "kind.given": "given away",
    "kind.arrived": "arrived",
    "kind.measured": "water measured",
    "kind.changed": "water changed",
    "kind.soil": "soil",
    "kind.fitted": "equipment",
    "kind.planted": "plants",
    "kind.cycle": "maturing",
    "kind.fed": "fed",
    "kind.dosed": "dosed",
    "kind.treated": "treated",
    "kind.sick": "signs of illness",
    "kind.quarantine": "kept apart",
    "kind.seen": "remark",
    "kind.away": "keeper away",
    "kind.closed": "tank taken down",
}

_DETAILS = {
    "detail.when": "this was {value}",
    "detail-pair.named": "{name} {value}",
    "detail-pair.left": "{value} {name}",
    "detail.group": "group: {value}",
    "detail.of": "one of these groups, or some of each: {value}",
    "detail.count": "number: {value}",
    "detail.females": "females: {value}",
    "detail.males": "males: {value}",
    "detail.young": "young: {value}",
    "detail.at": "at {value}",
    "detail.since": "since: {value}",
    "detail.until": "until: {value}",
    "detail.came": "they came {value}",
    "detail.source": "from: {value}",
    "detail.look": "look: {value}",
    "detail.genotype": "genotype, as the keeper takes it: {value}",
    "detail.label": "the seller’s words: “{value}”",
    "detail.statement": "statement that came with them: {value}",
    "detail.price": "price: {value}",
    "detail.buyer": "buyer: {value}",
    "detail.dams": "dam: {value}",
    "detail.sires": "sire: {value}",
    "detail.cross": "cross: {value}",
    "detail.animal": "the female: {value}",
    "detail.brood": "brood: {value}",
    "detail.mating": "sires of the brood: {value}",
    "detail.how": "how: {value}",
    "detail.age": "age: {value}",
    "detail.looks": "by look: {value}",
    "detail.other": "looks not declared: {value}",
    "detail.unsorted": "not put to a look: {value}",
    "detail.from": "from {value}",
    "detail.to": "to {value}",
    "detail.into": "they form {value} from now on",
    "detail.as": "they form {value} from now on",
    "detail.out-of": "out of {value}",
    "detail.for": "chosen for: {value}",
    "detail.parts": "parts: {value}",
    "detail.scale": "scale: {value}",
    "detail.values": "scores: {value}",
    "detail.background": "judged against: {value}",
    "detail.by": "by {value}",
    "detail.cause": "cause: {value}",
    "detail.why": "reason: {value}",
    "detail.lot": "lot: {value}",
    "detail.sale": "sale: {value}",
    "detail.dead": "arrived dead: {value}",
    "detail.replaced": "replaced: {value}",
    "detail.kit": "kit: {value}",
    "detail.before": "taken {value}",
    "detail.litres": "{value}\N{NO-BREAK SPACE}L",
    "detail.percent": "{value}\N{NO-BREAK SPACE}% of the volume",
    "detail.what": "{value}",
    "detail.depth": "depth: {value}",
    "detail.item": "item: {value}",
    "detail.watts": "{value}\N{NO-BREAK SPACE}W",
    "detail.timer": "hours: {value}",
    "detail.state": "state: {value}",
    "detail.food": "food: {value}",
    "detail.amount": "amount: {value}",
    "detail.withdraw": "none may be sold for {value} after the last dose",
    "detail.signs": "signs: {value}",
    "detail.sitter": "the rack is looked after by {value}",
    "detail.phone": "to be reached at {value}",
    "detail.left": "left in it: {value}",
    "detail-flag.colony-yes": "they breed unrecorded",
    "detail-flag.colony-no": "they do not breed unrecorded",
    "detail-flag.all-young-yes": "all young",
    "detail-flag.all-young-no": "not all young",
    "detail-flag.all-yes": "all were counted",
    "detail-flag.all-no": "not all were counted",
    "detail-flag.use-yes": "this tally is the one for the tables",
    "detail-flag.use-no": "kept out of the tables",
    "detail-flag.berried-yes": "a berried female among them",
    "detail-flag.berried-no": "no berried female among them",
    "detail-flag.cleared-yes": "the matter is settled",
    "detail-flag.cleared-no": "the matter is open",
    "detail-flag.new-yes": "the whole layer is new",
    "detail-flag.new-no": "the layer is not new",
    "detail-flag.part-yes": "a part was replaced",
    "detail-flag.part-no": "no part was replaced",
    "detail-flag.top-up-yes": "some was added",
    "detail-flag.top-up-no": "none was added",
    "choice.how-looked": "by looking",
    "choice.how-netted": "netted",
    "choice.how-photo": "from a photo",
    "choice.how-emptied": "the tank was emptied",
    "choice.mating-one": "one",
    "choice.mating-several": "several",
    "choice.mating-unknown": "not known how many",
    "choice.before-change": "before a water change",
}

_GENERATIONS = {
    "generation.f1": "F1 hybrid",
    "generation.f1-carrier": "F1 hybrid, carrier",
    "generation.unknown": "generation not known",
    "generation.parents-a-set": "{label}, its parents known only as a set",
    "generation.heading": "What the generation labels mean",
    "generation.varying": "not the same for all lines of descent",
    "generation.one-parent-line": "one of the parent strains",
    "generation.no-strains": "strains not recorded",
    "generation-says.founder": "Founder stock: their parents are not recorded.",
    "generation.pure": "pure line, generation {n}",
    "generation.pure-varying": "pure line",
    "generation-says.pure": "Bred within one strain; generations since its founders: {n}.",
    "generation-says.filial": "Filial generation {n} of a cross of two strains.",
    "generation-says.backcross": "A hybrid put back to {recurrent}; backcrosses so far: {n}.",
    "generation-says.three-way": "A first hybrid put to a third strain.",
    "generation-says.four-way": "Two first hybrids of different strains put together.",
    "generation-says.outcross": "A hybrid put to a strain that was not in it.",
    "generation-says.mixed": "The parents are of different generations ({code}).",
    "generation-says.unknown": "A parent is unknown, so no label of genetics applies ({code}).",
    "generation-says.alternatives": (
        "The parents are known only as a set, so it is one of these; “×” stands between the labels"
        " of unlike parents, “I” for a pure line."
    ),
    "group-young.known": "{label} young",
    "group-young.open": "young",
    "group-kind.known": "{label} {noun}",
    "group-kind.open": "{noun}",
}

_GROUP = {
    "group-opening.hatched": (
        "{n} {generation} of dam {dams} × sire {sires}, hatched {when}{where}."
    ),
    "group-opening.bought": "{n} {noun} bought {when}{source}{where}.",
    "group-opening.present": (
        "{n} {noun} here when the journal began, recorded {when}{source}{where}."
    ),
    "group-opening.sorted": "{n} {generation} sorted from {groups}{look} {when}{where}.",
    "group-opening.moved": "{n} {generation} of {groups}{look}, set apart {when}{where}.",
    "group-opening.chosen": (
        "{n} {generation} chosen for breeding from {groups}{look} {when}{where}."
    ),
    "group-opening.joined": "{n} {generation}, joined from {groups}{look} {when}{where}.",
    "group-opening.appeared": "{n} {noun}, first recorded {when}{source}{where}.",
    "group-opening.hidden": "{n} {noun}; how they came is not published.",
    "group.some": "Some",
    "group.where": " in {tank}",
    "group.source": " from {source}",
    "group-as-look.whole": " as {look}",
    "group-as-look.halves": " ({look})",
    "group.now": "The book held {n} of them after its last line, {day}.",
    "group.now-none": "The book has held none of them since {day}.",
    "group.now-undated": "The book held {n} of them after its last line.",
    "group.generation": "{label}. {says}",
    "group.strain": "Strain: {strain}.",
    "group.look": "Look: {look}.",
    "group.look-inferred": "By what their parents are, all of them show {look}.",
    "group.sex.female": "A female.",
    "group.sex.male": "A male.",
    "group.sexes": "Sexes as last recorded: {sexes}.",
    "group.of-sex.female.one": "{n} female",
    "group.of-sex.female.other": "{n} females",
    "group.of-sex.male.one": "{n} male",
    "group.of-sex.male.other": "{n} males",
    "group.hides-nothing": "They can hide no other look.",
    "group.hides": "A member carries {allele} without showing it: {chance}.",
    "group.contradiction": (
        "The looks and the parents recorded cannot both be right, so no genotype is given."
    ),
    "group.contradiction-of-counts": (
        "These entries cannot all be right. What is said here of genotypes follows from parents,"
        " looks and claims as recorded, without the counts."
    ),
    "carrier-change.tally": (
        "{counts} in {group}{mates}: the chance that a member has {allele} goes from {before} to"
        " {after}."
    ),
    "carrier-change.look": (
        "The look of {group}: the chance that a member has {allele} goes from {before} to {after}."
    ),
    "carrier-change.all": (
        "The counts of all relatives of {group} together: the chance that a member has {allele}"
        " goes from {before} to {after}."
    ),
    "carrier-change.genotype": (
        "The genotype claimed for {group}: the chance that a member has {allele} goes from"
        " {before} to {after}."
    ),
    "carrier.mates": ", with {mates}",
    "carrier.count": "{n} {look}",
    "carrier.all": "All that moved the chance of {allele}",
    "carrier.clear": (
        "To clear one animal of {allele}: {young} young with a mate that is {tester}, none of them"
        " {looks}. Among so many a carrier would show itself with a chance of at least {sure}."
    ),
    "group.no-model": "No trait model is declared for this group, so genotypes are not computed.",
    "group.no-genotypes": "There is too little recorded to compute genotypes.",
    "group.verdict": "{verdict} {cross}",
    "group.doubt": (
        "So what is said below of their looks and genotypes, which follows from the parents"
        " recorded, cannot be leaned on."
    ),
    "group.to-table": "The whole table",
    "group.half-sided": (
        "An animal of two halves: its look speaks for no genotype, neither its own nor that of its"
        " parents, so none is given, and it is kept out of the tables."
    ),
    "group.heading-origin": "Where they come from",
    "group.heading-looks": "What they show, what they can hide",
    "group.heading-pedigree": "Ancestors",
    "group.heading-crosses": "Crosses they were used in",
    "group.heading-tallies": "Counts by look",
    "group.heading-book": "The book",
    "group.heading-story": "The keeper’s words",
    "group.heading-parts": "Parts and lines",
    "group.heading-mentions": "In the diary",
    "group.genotypes": "Genotypes and how likely each is",
    "group.genotype": "genotype",
    "group.probability": "a member has it",
    "group.founders": "Whose genes they carry",
    "group.founder": "founder group",
    "group.founder-share": "share of the genes, on average",
    "group.founders-label": "Founder shares",
    "group.genotypes-label": "Genotypes",
    "group.no-crosses": "They have not been used in a cross.",
    "group.no-tallies": "They have not been counted by look.",
    "group.no-book": "The book has no line on them.",
    "group.no-mentions": "No published entry speaks of them.",
    "group.no-parts": "No group was split from them, and they belong to no line.",
    "group.no-pedigree": "Nothing is recorded of their parents.",
    "group.parts": "Groups split from them or joined with them: {groups}.",
    "group.lines": "Lines: {lines}.",
    "seller-label.quoted": "The seller’s label: “{label}”. By the parents recorded here: {code}.",
    "seller-label.open": (
        "The seller’s label: “{label}”. What lies before them is not recorded here, so nothing "
        "shows it or speaks against it: {code}."
    ),
    "seller-label.agrees": "The seller’s label: “{label}”. The parents recorded agree: {code}.",
    "seller-label.other-number": (
        "The seller’s label: “{label}”. The parents recorded here show another generation: {code}."
    ),
    "seller-label.other-cross": (
        "The seller’s label: “{label}”. The parents recorded here show another sort of cross: "
        "{code}."
    ),
    "inbreeding": "Expected inbreeding coefficient of a member: {f}.",
    "inbreeding.range": (
        "Expected inbreeding coefficient of a member: {f}. The least if each brood of "
        "which it is not known had several sires, the greatest if each had one."
    ),
    "inbreeding.unknown": "The inbreeding coefficient cannot be said.",
    "pedigree.title": "Ancestors of {group}",
    "pedigree.describe": (
        "Parents stand to the right of their young; the table below says the same."
    ),
    "pedigree.unknown": "unknown",
    "pedigree.died": "died {day}",
    "pedigree.goes-on": "more ancestors on its own page",
    "pedigree.to-whole": "The whole pedigree",
    "pedigree.group": "group",
    "pedigree.generation": "generation",
    "pedigree.number": "animals at first",
    "pedigree.comes-from": "comes from",
    "pedigree-opening.whole": "All ancestors of {group} on record, in {n} groups.",
    "pedigree-opening.nearest": (
        "The {n} nearest groups of ancestors of {group}. There are more: three dots mark where a"
        " group’s own page goes on."
    ),
    "pedigree-from.dam": "dam {groups}",
    "pedigree-from.sire": "sire {groups}",
    "pedigree-from.part": "taken from {groups}",
    "pedigree-from.hatched": "hatched, parents unknown",
    "pedigree-from.founder": "nothing recorded before them",
    "pedigree.one-of": "one of {n} groups",
    "pedigree.many": "n",
    "pedigree.table": "The same as a table",
    "pedigree.table-label": "Ancestors as a table",
    "pedigree.legend": "What the signs mean",
    "completeness": "Of its ancestors {known} are on record: {n} complete generations in all.",
    "completeness-of.1": "{share} of the parents",
    "completeness-of.2": "{share} of the grandparents",
    "completeness-of.3": "{share} of the great-grandparents",
    "relatives.mates": "Two animals of {group} have a kinship of {kinship} with each other.",
    "relatives.title": "Relatives of {group}",
    "relatives.back": "See also the page of {group} with its pedigree.",
    "relatives.link": "How {group} is related to the other groups",
    "relatives.heading": "Most related first",
    "relatives.through": "through {groups}",
    "relatives.kinship-of": "kinship {kinship}",
    "relatives.kinship-says": (
        "Kinship is the chance that a gene copy drawn from one animal and one drawn from the "
        "other come from the same copy in a founder. It is also the inbreeding the young of the "
        "two would have: 0.25 for sisters and brothers of unrelated parents or for parent and "
        "young, 0.125 for half sisters and brothers, 0.063 for first cousins, 0 for animals that "
        "are not related. Kinship of one group is that of two different animals of it."
    ),
    "relatives.assumes": (
        "Founders are taken as unrelated, since nothing is recorded of their parents. Two numbers "
        "are the least and the most where it is not known whether a brood had one sire or several."
    ),
    "relatives.heading-further": "All further relatives, with their kinship",
    "relatives.further": "{groups}.",
    "relatives.one": "{group} {kinship}",
    "relatives.more.one": "And {n} more.",
    "relatives.more.other": "And {n} more.",
    "relatives.heading-apart": "Not related, as far as is recorded",
    "relatives-apart.unrelated": "No common ancestor, back to the founders on all sides: {groups}.",
    "relatives-apart.unknown": (
        "No common ancestor is recorded, but not all parents are known: {groups}."
    ),
    "relatives-opening.some.one": (
        "{group} has one relative on record: {first} ({how}, kinship {kinship})."
    ),
    "relatives-opening.some.other": (
        "{group} has {n} relatives on record; the nearest is {first} ({how}, kinship {kinship})."
    ),
    "relatives-opening.none": "{group} is related to no other group on record.",
    "relatives-opening.unknown": (
        "No relatives of {group} are on record, but not all parents are known."
    ),
    "relation.same-animal": "the same animal",
    "relation.same-pool": "from the same group",
    "relation.same-brood": "sisters and brothers of one brood",
    "relation.parent": "a parent",
    "relation.young": "young of theirs",
    "relation.full-sibs": "sisters and brothers from another brood of the same parents",
    "relation.half-sibs": "half sisters and brothers",
    "relation.ancestor": "an ancestor, {n} generations back",
    "relation.descendant": "descendants, {n} generations on",
    "relation.common": "partly from the same group",
    "relation.collateral": "a common ancestor, {n} generations back from here and {m} from there",
    "relation.unrelated-by-record": "not related, as far as is recorded",
    "relation.unknown": "not known",
    "relation.possibly": "possibly {how}",
    "number.span": "{low} to {high}",
    "pedigree-role.dam": "dam",
    "pedigree-role.sire": "sire",
    "pedigree-role.dam-and-sire": "dam and sire",
    "legend.subject": "the group this page is about",
    "legend.female": "female",
    "legend.male": "male",
    "legend.unknown": "sex unknown, or a group of both sexes",
    "legend.several": "so many animals; n where the number is not known",
    "legend.deceased": "dead: the last of them died, none was sold, moved on or lost sight of",
    "legend.set": "one of several groups, joined to it by dots (an addition of this site)",
    "legend.dam": "line to the dam",
    "legend.sire": "line to the sire",
    "legend.part": "taken from, or member of a set (an addition of this site)",
    "legend.related": "parents that are kin, or can be: they share recorded ancestors",
    "legend.goes-on": "more ancestors on that group’s own page (an addition of this site)",
    "legend-look": "look: {look}",
    "book.change": "change",
    "book.after": "on the book after",
    "book.what": "what happened",
    "book.day": "day",
    "book.label": "Book of the group",
    "book.hidden": "a change that is not published",
    "book.from-to": "from {tank} to {to}",
    "book.to": "to {to}",
    "book.in": "in {tank}",
    "book.shared": "can also have been of {groups}",
    "book.from-several": "from {groups}",
    "book-other.from-group": "from {group}",
    "book-other.to-group": "to {group}",
    "book-unaccounted.missing": "{n} not accounted for",
    "book-unaccounted.found": "{n} found that the book did not have",
}

_TALLIES = {
    "tally.look": "{n} {look}",
    "tally.other.one": "{n} other ({note})",
    "tally.other.other": "{n} others ({note})",
    "tally.unsorted": "{n} not put to a look",
    "tally.no-looks": "counted without looks",
    "tally.all-young": "all young, {tank}",
    "tally.total": "{n} in all",
    "tally.so-many-at-least": "{n} or more",
    "tally.about": "How: {how}. Age: {age}. In the table: {used}.",
    "tally.age-computed": "{age}, from the hatching day",
    "tally.used": "yes",
    "tally-how.looked": "by looking; bright animals are seen first",
    "tally-how.netted": "netted",
    "tally-how.photo": "from a photo",
    "tally-how.emptied": "the tank was emptied",
    "tally-how.not-said": "not noted",
    "tally-not-used.kept-out": "no: the keeper kept it out",
    "tally-not-used.another-tally": "no: another count of the same young is used",
    "tally-not-used.no-looks": "no: it names no looks",
    "tally-not-used.no-model": "no: there is no trait model",
    "tally-not-used.not-exact": "no: it names a look without an exact number",
    "tally-not-used.not-a-brood": "no: it is a count of a part, and only whole broods are tested",
    "tally-not-used.claimed": "no: it is a claim, not a count",
}

_CROSS = {
    "cross.pair": "dam {dams} × sire {sires}",
    "cross.opening.one": "One brood of {pair}, first recorded {when}.",
    "cross.opening.other": "{n} broods of {pair}, the first recorded {when}.",
    "cross.opening-none": "No brood yet of {pair}, put together {when}.",
    "cross.no-broods": "no brood recorded",
    "cross.broods.one": "{n} brood",
    "cross.broods.other": "{n} broods",
    "cross.about": "{broods}; young: {generation}; first recorded {day}.",
    "cross.all-broods": "All broods together",
    "cross.all-broods-label": "All broods of the cross",
    "cross.one-brood": "Brood {brood}",
    "cross.one-brood-label": "Brood {brood}",
    "cross.heading-parents": "The parents",
    "cross.heading-expected": "What it should give",
    "cross.heading-observed": "What it gave",
    "cross.heading-broods": "Broods",
    "cross.heading-tallies": "The counts behind it",
    "cross.expected-label": "Expected shares",
    "cross.broods-label": "Broods of the cross",
    "cross.brood": "brood",
    "cross.hatched": "first seen",
    "cross.tank": "tank",
    "cross.mating": "sires",
    "cross.no-expected": "No expected shares can be given.",
    "cross.no-tallies": "No brood of this cross has been counted by look.",
    "table.label": "Table: {label}",
    "table.look": "look",
    "table.expected-share": "expected share",
    "table.expected": "expected",
    "table.observed": "observed",
    "table.difference": "difference",
    "table.interval": "95\N{NO-BREAK SPACE}% interval",
    "table.how": "How this was computed",
    "table.sums.one": "{n} animal was put to a look.",
    "table.sums.other": "{n} animals were put to a look.",
    "table.unsorted.one": "{n} more was counted but not put to a look; it is not in the table.",
    "table.unsorted.other": (
        "{n} more were counted but not put to a look; they are not in the table."
    ),
    "table.own-p": "Its own p value: {p}; see {counts}.",
    "unsorted-look.all": "all {look}",
    "unsorted-look.some": "{n} {look}",
    "unsorted-look.one": "{look}",
    "unsorted-case.fits.one": (
        "If that one were {looks}, {shares} would have been seen; even then the count fits."
    ),
    "unsorted-case.fits.other": (
        "If the {n} unsorted were {looks}, {shares} would have been seen; even then the count fits."
    ),
    "unsorted-case.turns.one": (
        "If that one were {looks}, {shares} would have been seen, and the count would no longer"
        " fit."
    ),
    "unsorted-case.turns.other": (
        "If the {n} unsorted were {looks}, {shares} would have been seen, and the count would no"
        " longer fit."
    ),
    "unsorted-case.misfit-fits.one": (
        "If that one were {looks}, {shares} would have been seen, and the count would fit."
    ),
    "unsorted-case.misfit-fits.other": (
        "If the {n} unsorted were {looks}, {shares} would have been seen, and the count would fit."
    ),
    "unsorted-case.misfit-stays.one": "Whatever its look, the count does not fit.",
    "unsorted-case.misfit-stays.other": "Whatever the looks of the {n}, the count does not fit.",
    "table.unexplained": (
        "No declared look fits: {animals}; in the number counted, but out of the test."
    ),
    "no-table.no-tally": "Not counted by look yet.",
    "no-table.no-model": "No trait model is declared, so there is nothing to expect.",
    "no-table.no-parents": "The parents are not known well enough to expect anything.",
    "no-table.contradiction": (
        "The looks and the parents recorded cannot both be right, so nothing can be expected."
    ),
    "no-table.all-one-look": "Every young should show the same look, so there is nothing to test.",
    "verdict.fits": (
        "The count fits what the cross should give, and speaks against every other pair of"
        " parents tried."
    ),
    "verdict.does-not-fit": (
        "The count does not fit what the cross should give: one so odd would come by chance"
        " less than once in a hundred."
    ),
    "verdict.cannot-tell": "Cannot tell yet: the count fits, but something else would fit as well.",
    "verdict.cannot-tell-rival": "Cannot tell yet: the count fits, but {rival} would fit as well.",
    "verdict.more.one": "About {n} more young should settle it at odds of 20 to 1.",
    "verdict.more.other": "About {n} more young should settle it at odds of 20 to 1.",
    "verdict.more-at-once": (
        "About {n} more young should settle it at odds of 20 to 1; {at_once} more, counted all at"
        " once, would do so nine times in ten."
    ),
    "verdict.nothing-counted": "No animal has been put to a look yet.",
    "verdict.nothing-counted-more.one": (
        "No animal has been put to a look yet; about {n} young should settle it."
    ),
    "verdict.nothing-counted-more.other": (
        "No animal has been put to a look yet; about {n} young should settle it."
    ),
    "rival.pair": "dam {dam} × sire {sire}",
    "rival.other": "the nearest other explanation",
    "rival.share": "{share} {look}",
    "rival.would-give": "With {rival}, {shares} would be expected.",
    "rival.even": "The nearest other pair of parents explains the count about as well.",
    "rival-odds.for": (
        "The nearest other pair of parents explains the count {n} times better than those recorded."
    ),
    "rival-odds.for-many": (
        "The nearest other pair of parents explains the count more than {n} times better than"
        " those recorded."
    ),
    "rival-odds.against": (
        "The parents recorded explain the count {n} times better than the nearest other pair."
    ),
    "rival-odds.against-many": (
        "The parents recorded explain the count more than {n} times better than the nearest other"
        " pair."
    ),
    "method.model": "Trait model: {model}.",
    "method.p-value": (
        "p value: {p}, the probability of a count at least as odd if the expectation is right."
    ),
    "method.exact": "Exact multinomial test: all possible counts were gone through.",
    "method.g-williams": (
        "G test with Williams’ correction, G = {g}, degrees of freedom {df}; there are too many"
        " possible counts to go through."
    ),
    "method.infinite": "beyond any limit",
    "method.rivals": (
        "Other explanations are weighed by how likely each makes this very count. Shares named"
        " there are those that explain it best, with 95\N{NO-BREAK SPACE}% likelihood intervals; an"
        " explanation with such a share to choose never does worse than what was expected."
    ),
    "method.interval": "The intervals are Wilson’s score intervals at 95\N{NO-BREAK SPACE}%.",
    "heterogeneity.agree": "The broods agree with one another (p {p}).",
    "heterogeneity.differ": (
        "The broods differ more than chance explains (p {p}); read them one by one."
    ),
    "chart.title": "{label}: observed against expected",
    "chart.describe": (
        "Dot and whiskers: the observed share with its interval. Thick mark or band: the expected"
        " share. The table has the same numbers."
    ),
    "chart.axis": "share of the young put to a look",
}

_COUNTS = {
    "counts.heading": "All counts side by side",
    "counts.link": "all counts side by side",
    "counts.none": "No brood with an expectation has been counted by look yet.",
    "counts.all-fit.one": "The one count there is does not speak against what was expected.",
    "counts.all-fit.other": "None of {n} counts speaks against what was expected.",
    "counts.only-misfit": "The one count there is does not fit what was expected.",
    "counts.misfits.one": "Of {n} counts, {misfits} does not fit what was expected.",
    "counts.misfits.other": "Of {n} counts, {misfits} do not fit what was expected.",
    "counts-standing.all": "After allowing for their number, that remains so.",
    "counts-standing.some": "After allowing for their number, {n} of them still stand out.",
    "counts-standing.none": (
        "After allowing for their number none stands out: among so many counts, some look odd by"
        " chance."
    ),
    "counts.heading-all": "Those that fit least first",
    "counts.label": "Counts of all broods",
    "counts.verdict": "verdict",
    "counts.p": "own p",
    "counts.adjusted": "p for all together",
    "counts.number": "counted",
    "counts.left-out.one": "{n} more count fits better than these; it is on the page of its cross.",
    "counts.left-out.other": (
        "{n} more counts fit better than these; they are on the pages of their crosses."
    ),
    "counts.own-p": (
        "Own p: the probability of a count at least as odd if the expectation is right, each count"
        " by itself."
    ),
    "counts.adjusted-p": (
        "p for all together: the same with allowance for the number of counts, by Benjamini and"
        " Hochberg (1995). Of counts that stand out at 0.05, about one in twenty is expected to be"
        " an accident."
    ),
    "counts.family": (
        "Every brood counted by look is here once. Crosses are not, because their young are those"
        " of their broods."
    ),
    "counts-verdict.fits": "fits",
    "counts-verdict.does-not-fit": "does not fit",
    "counts-verdict.does-not-fit-alone": "does not fit by itself; may be chance among so many",
    "counts-verdict.cannot-tell": "cannot tell yet",
}

_MISFITS = {
    "misfit.heading": "What could be behind it",
    "misfit.parents": "Other parents than those recorded",
    "misfit.stray": "A stray, or a sire that was not recorded",
    "misfit.survival": "One look survives less well",
    "misfit.sorting": "A mistake in telling the looks apart",
    "misfit.no-other-parents": "No other pair of parents of the trait model gives such a count.",
    "misfit-stray.recorded": "For it: {text} {entries}",
    "misfit-stray.none": (
        "No stray is recorded there; a sire that was never written down leaves no other trace than"
        " such a count."
    ),
    "misfit-survival.not": (
        "Cannot be the whole of it: {look} should not be there at all, and deaths add no look."
    ),
    "misfit-survival.short": (
        "{look} is the look seen less often than expected; more deaths of it before the count"
        " would do that."
    ),
    "misfit.no-limit": "no limit",
    "misfit-stray.all-sires": "If all the young were of a sire {sire}: that {odds}.",
    "misfit-stray.some-sires": (
        "If about {share} of them ({low} to {high}) were of a further sire {sire}: that {odds}."
    ),
    "misfit-survival.fitted": (
        "If {look} survived only {share} as well as the rest ({low} to {high}): that {odds}."
    ),
    "misfit-odds.better": "explains the count {n} times better than what was expected",
    "misfit-odds.better-many": (
        "explains the count more than {n} times better than what was expected"
    ),
    "misfit-odds.worse": "explains the count {n} times worse than what was expected",
    "misfit-odds.worse-many": "explains the count more than {n} times worse than what was expected",
    "misfit-odds.even": "explains the count about as well as what was expected",
    "misfit-odds.only": "can give such a count, which what was expected cannot",
    "misfit-survival.first-sight": "{brood}: {first} at first sight, {then} at the count.",
    "misfit-sorting.counted.one": "{brood} was counted by look {n} time only.",
    "misfit-sorting.counted.other": "{brood} was counted by look {n} times.",
    "misfit-sorting.unsorted.one": "{n} animal was counted but not put to a look.",
    "misfit-sorting.unsorted.other": "{n} animals were counted but not put to a look.",
    "misfit-sorting.not-known": "Nothing is recorded of how they were counted.",
}

_STRAYS = {
    "stray.into": "an animal may have got from {other} into {tank} {when}",
    "stray.out-of": "an animal may have got from {tank} into {other} {when}",
    "stray-other.somewhere": "another tank",
    "stray-after.open": "the matter is open",
    "stray-after.settled": "the matter was settled {when}",
    "stray-means.into": (
        "so a stranger may be among them, or among the parents of broods hatched there"
    ),
    "stray-means.out-of": "so one of them may be missing; their own descent is not touched by it",
    "stray-told": "{said}, while they were there, {meaning}; {settled}.",
    "stray-heading": "Strays recorded in their tank",
}

_LOOKS = {
    "look.is": "{look}: {says}.",
    "look.is-look": "A look of the trait model.",
    "look.opening.one": ("{first} Of {n} young put to a look, {seen} showed it, from one cross."),
    "look.opening.other": (
        "{first} Of {n} young put to a look, {seen} showed it, from {crosses} crosses."
    ),
    "look.opening-uncounted": "{first} No young have been put to a look yet.",
    "look.seen": "Seen on {seen} of {n} young put to a look.",
    "look.not-counted": "No young have been put to a look yet.",
    "look.n-of-m": "{seen} of {n}",
    "look.heading-what": "What it is",
    "look.heading-genotypes": "Which genotypes show it",
    "look.heading-groups": "Who shows it",
    "look.heading-seen": "How often it was seen",
    "look.says": "The trait file says of the look: “{says}”.",
    "look.model-says": "And of the model: “{says}”",
    "look.no-models": "No trait model knows this look.",
    "look.genotypes-label": "Genotypes that show the look",
    "look.genotype": "genotype",
    "look.model": "trait model",
    "look.no-genotypes": "No genotype of a model shows it.",
    "look.shown-by": "Recorded with this look:",
    "look.must-show": "Every member must show it, if the parents recorded are right:",
    "look.no-groups": "No group is recorded with this look.",
    "look.seen-label": "Young with the look, by cross",
    "look.cross": "cross",
    "look.of-counted": "seen",
    "look.share": "share",
    "look.interval": "95 % interval",
    "look.expected": "expected",
    "look.never-in": "Counted, and never seen, in the young of: {crosses}.",
    "look.not-seen": "It was not seen on any young that were put to a look.",
    "looks.heading-unexplained": "Seen and not explained",
    "looks.unexplained": (
        "No trait model explains these. They stay in the number counted and out of every test, and"
        " they speak for no genotype. What such a look can come from: chance in the making of one"
        " animal, an illness, food, light, or a trait nobody has written down yet."
    ),
    "looks.none-unexplained": "Everything seen so far fits a look of a trait model.",
    "unexplained.noted": "“{note}”",
    "unexplained.undeclared": "{note}, a look that no trait model declares",
    "unexplained.half-sided": "half-sided: {note}",
    "unexplained-place.of": " of {groups}",
    "unexplained-place.in": " in {tank}",
    "unexplained-told": "{n}{where}: {what}.",
}

_OFFERS = {
    "offers.heading": "On offer",
    "offers.opening.one": "{n} lot is to be had, as the book stands on the last day of the diary.",
    "offers.opening.other": (
        "{n} lots are to be had, as the book stands on the last day of the diary."
    ),
    "offers.none": "Nothing is on offer.",
    "offers.heading-terms": "Before you ask",
    "offers.terms": (
        "What is asked for them, and how they travel, is between you and the keeper. Live animals"
        " go only as the carrier and the law of both places allow, and not in heat or frost. Never"
        " release them, their young, plants or water into the wild."
    ),
    "offers.levels": (
        "“Shown” means that the look itself shows the genotype; “certain” that the parents recorded"
        " leave no other; “expected” that so many would carry on average, and nobody can see which;"
        " “claimed” that the keeper takes it so; “unknown” that nothing can be said."
    ),
    "offers.heading-past": "No more to be had",
    "offers.past-label": "Lots that are no more to be had",
    "offers.lot": "lot",
    "offers.what": "what",
    "offers.offered": "offered",
    "offers.day": "day",
    "offers.state": "state",
    "offers.no-past": "No lot has gone yet.",
    "offer.number.one": "{n} animal",
    "offer.number.other": "{n} animals",
    "offer.promised": "{n} of them promised",
    "offer.offered": "{animals}; offered {when}.",
    "offer.water": "{tank}, measured {when}: {readings}.",
    "offer.no-water": "The water of their tank has not been measured.",
    "offer.keeper-says": "The keeper’s card:",
    "offer.look": "look",
    "offer.genotype": "genotype",
    "offer.generation": "generation",
    "offer.parents": "parents",
    "offer.water-label": "The last water of their tank",
    "offer-what.look": "{look}, of {group}; generation {generation}",
    "offer-what.plain": "{group}; generation {generation}",
    "lot-state.open": "To be had",
    "lot-state.reserved": "All promised",
    "lot-state.sold": "Gone to new keepers",
    "lot-state.gone": "None left on the book",
    "genotype-unknown.contradiction": (
        "Unknown: the looks and the parents recorded cannot both be right."
    ),
    "genotype-unknown.misfit": (
        "Unknown: the count of their brood does not fit the parents recorded."
    ),
    "genotype-unknown.half-sided": "Unknown: the look of a half-sided animal speaks for none.",
    "genotype-unknown.no-model": "Unknown: no trait model is declared for them.",
    "genotype-unknown.no-genotypes": "Unknown: too little is recorded.",
    "genotype-portion.carry": "{portion} carry {allele} unseen",
    "genotype-portion.have": "{portion} {genotype}",
    "genotype-expected": "Expected: {expected}; it cannot be seen which.",
    "genotype-shown": "Shown: they were seen to be {look}, and only {genotype} shows that.",
    "genotype-one.certain": (
        "Certain, if the parents recorded are right: every one is {genotype} and shows {look}."
    ),
    "genotype-one.claimed": "Claimed by the keeper: every one is {genotype} and shows {look}.",
}

_LINE = {
    "line.no-goal": "No goal look is declared.",
    "line.opening": "{goal} {progress}",
    "line-goal.reached": "The goal is reached: {n} {goal} are on the book, and {wanted}.",
    "line-goal.not-yet": "The goal is not reached yet: {n} {goal} are on the book, and {wanted}.",
    "line-goal.missed": "The goal was not reached: {n} {goal} are on the book, and {wanted}.",
    "line-goal.cannot-tell": (
        "Whether the goal is reached cannot be told: {n} {goal} are on the book, and {wanted}."
    ),
    "line-goal.all": (
        "All {n} young of the newest brood counted by look, {brood}, showed {goal}, which the line"
        " is bred for."
    ),
    "line-goal.some": (
        "{seen} of {n} young of the newest brood counted by look, {brood}, showed {goal}, which the"
        " line is bred for."
    ),
    "line-goal.none": (
        "None of {n} young of the newest brood counted by look, {brood}, showed {goal}, which the"
        " line is bred for."
    ),
    "line-goal.uncounted": (
        "The line is bred for {goal}, and none of its broods has been counted by look yet."
    ),
    "line.goal-by": "{text} It is wanted by {day}.",
    "line.goal-unseen": "no certain number of",
    "line.wanted.one": "{n} is wanted",
    "line.wanted.other": "{n} are wanted",
    "line.wanted-by": "{wanted} by {day}",
    "line.no-broods": "No brood of this line has been recorded yet.",
    "line.brood-named": "{brood} ({generation}), first seen {when}",
    "line.newest": "The newest brood is {brood}.",
    "line.newest-uncounted": "The newest brood is {brood}; it has not been counted by look.",
    "line.newest-counted": "The newest brood is {brood}; {seen} of {n} showed {goal}",
    "line-as-expected.all": "The newest brood is {brood}; all {n} showed {goal}, as expected.",
    "line-as-expected.none": "The newest brood is {brood}; none of {n} showed {goal}, as expected.",
    "line.with-expected": "{seen}; {share} were expected.",
    "line.alive.one": "{n} animal with the look {goal} is on the book on the last day.",
    "line.alive.other": "{n} animals with the look {goal} are on the book on the last day.",
    "line.scale": "Scale {scale}, from worst to best: {steps}.",
    "line.scale-arithmetic": (
        "For a mean the steps count as 1, 2, 3 and so on, as if they lay equally far apart (common"
        " practice, no source). The interval is Student’s, for 95\N{NO-BREAK SPACE}%; it is rough"
        " where few animals or few steps are at hand. Of a group graded twice the grading of most"
        " animals counts."
    ),
    "line.founder-share": "{share} {founder}",
    "line.heading-story": "The story so far",
    "line.heading-timeline": "Generation by generation",
    "line.heading-choosing": "What choosing did",
    "line.heading-groups": "Groups by generation",
    "line.heading-founders": "Founders",
    "line.heading-scales": "Scales",
    "line.no-groups": "No group belongs to this line yet.",
    "line.no-founders": "No founders are declared.",
    "line.table-label": "Generations of the line",
    "line.by-brood": "The same, brood by brood",
    "line.by-brood-newest": "The same, brood by brood: the newest {n} of {all}",
    "line.older": "Older broods stand on their own pages, which {list} leads to.",
    "line.list-of-groups": "the list of groups",
    "line.brood-label": "Broods of the line",
    "line.groups-newest": "The newest {n} of {all}; all are in {list}.",
    "line.column-brood": "brood",
    "line.column-generation": "generation",
    "line.column-hatched": "generation, first seen",
    "line.column-broods": "broods",
    "line.column-goal": "showed {goal}",
    "line.column-expected": "expected",
    "line.column-grade": "mean grade, {scale}",
    "line.column-survival": "alive at the last full count",
    "line.column-inbreeding": "inbreeding",
    "line.column-founders": "genes by founder",
    "line.cell-hatched": "{generation}, {when}",
    "line.cell-counted": "{seen} of {n}",
    "line.cell-goal": "{counted}: {share} ({span})",
    "line.cell-grade": "{mean} ({low} to {high}), of {n}",
    "line.cell-grade-bare": "{mean}, of {n}",
    "line.cell-survival": "{survivors} of {base}: {share} ({span})",
    "line.cell-survival-most": "{survivors} of at least {base}: at most {share}",
    "line-survival-why.one-count": "one count only",
    "line-survival-why.later-higher": "earlier counts were not of all",
    "line-survival-why.not-exact": "not known how many left",
    "line.founder-others": "others",
    "line-response.found": (
        "{group}: the parents stood {selection} steps above the animals they were chosen from, the"
        " young {response}; realised heritability {heritability}{span}."
    ),
    "line-response.not-chosen": (
        "{group}: the mean of the young differs by {response} steps from that of their parents;"
        " these were not chosen by this grade, so the difference is one of chance and of keeping."
    ),
    "line-response.parents-unknown": "{group}: not enough data, a parent is not known.",
    "line-response.parents-not-graded": (
        "{group}: not enough data, nothing says what grade was that of {parents}."
    ),
    "line.response-span": " ({low} to {high})",
    "line.response-no-span": " (no interval: too few grades)",
    "line.response-set": " Which parents it were is known as a set; each counts alike.",
    "line.response-scale": "On the scale {scale}:",
    "line.response-says": (
        "Realised heritability is the gain of the young by what their parents were better than the"
        " animals they were chosen from: 0 where nothing of it is inherited, 1 where all is. It is"
        " one step of one line, and water, food and the eye of the day are in it too. The interval"
        " leaves out the luck of few parents (drift): in a small line it is too narrow. Source:"
        " Falconer & Mackay 1996, chapter 11."
    ),
    "line.no-grades": (
        "Not enough data: no young of this line have been graded, so neither the gain by choosing"
        " nor its heritability can be said."
    ),
    "line.no-scale": (
        "Not enough data: the line declares no scale to grade its young on, so neither the gain by"
        " choosing nor its heritability can be said."
    ),
    "line.figures": "Figures for breeders who like numbers",
    "line.figures-label": "Specialist figures by generation",
    "line.figures-day": (
        "Each figure is that of the line on the day its last brood of the generation was first"
        " seen: all groups that descend from its founders, as many of each as the book has at"
        " least. Two numbers are the ends of what the records leave open. Founders are taken as"
        " unrelated and not inbred, which bought stock seldom is: so relatedness is too low and"
        " what was kept too high."
    ),
    "line.figure": "figure",
    "line-figure.mean-kinship": "mean kinship",
    "line-figure.gene-diversity": "heterozygosity kept",
    "line-figure.effective-founders": "effective founders",
    "line-figure.genome-equivalents": "founder genome equivalents",
    "line-figure.size-by-sex": "effective size, by sexes",
    "line-figure.size-by-rate": "effective size, by inbreeding",
    "line-figure.forecast-5": "heterozygosity in 5 generations",
    "line-figure.forecast-10": "heterozygosity in 10 generations",
    "line-figure-says.mean-kinship": (
        "How closely related the animals of the line are, each with itself among them: the chance"
        " that a copy of a gene drawn twice comes from one founder copy. Lower is better. Source:"
        " Lacy 1995."
    ),
    "line-figure-says.gene-diversity": (
        "What is left of the variation of the founders’ source, one less the mean kinship. It says"
        " nothing of single genes that were chosen for. Source: Lacy 1995."
    ),
    "line-figure-says.effective-founders": (
        "As many founders, all used alike, would stand for the same spread of shares. Lower end:"
        " each founder group as one animal; upper end: all its animals alike. Source: Lacy 1989."
    ),
    "line-figure-says.genome-equivalents": (
        "As many fresh founders would hold as much variation as the line, counted from the mean"
        " kinship. Source: Lacy 1995; Caballero & Toro 2000."
    ),
    "line-figure-says.size-by-sex": (
        "A line of as many breeders, chance alone deciding who leaves young, would lose as much"
        " variation: 4MF/(M+F). Lower end: the fewest of each sex that can have bred; upper end:"
        " all of the parent groups, one dam a brood. Source: Wright 1931."
    ),
    "line-figure-says.size-by-rate": (
        "The same, from how inbreeding rose since the founders, as if it had risen steadily and no"
        " generation overlapped: 1/(2ΔF). Source: Falconer & Mackay 1996, chapter 4."
    ),
    "line-figure-says.forecast": (
        "What would be left of the heterozygosity if the line went on with the effective size by"
        " sexes, with nothing new coming in and no choosing: H(1 − 1/(2Ne)) for each generation."
        " Source: Wright 1931."
    ),
    "line-why-not.parents-unknown": "a parent is unknown",
    "line-why-not.nobody-there": "nobody on the book",
    "line-why-not.number-unknown": "numbers unknown",
    "line-why-not.no-rise": "inbreeding did not rise",
    "timeline.title": "{line} over time",
    "timeline.describe": (
        "Above, a band for each generation and a dot for each brood, led to the day it was first"
        " seen. Below, on the same days: dots with whiskers are what was seen with its interval,"
        " thick strokes what was expected, open rings are upper limits, whiskers alone a range. The"
        " tables have the same numbers."
    ),
    "timeline.share": "Share that show {goal}",
    "timeline.grade": "Mean grade, {scale}: from {worst} to {best}",
    "timeline.survival": "Alive at the last full count",
    "timeline.founders": "Genes by founder",
    "timeline.inbreeding": "Inbreeding coefficient",
    "timeline.tick": "{month} {year}",
    "timeline.band": "generation {n}: {labels}",
    "timeline.bands": "generations {low} to {high}",
    "timeline.band-unknown": "a parent is unknown: {labels}",
}

_TANK = {
    "tank.is-a-tank": "A tank",
    "tank.is-litres": "A tank of {n}\N{NO-BREAK SPACE}L",
    "tank.placed": "{tank}, {where}",
    "tank.opening.one": "{tank}. After its last event, {day}, it held {n} {animals} of one group.",
    "tank.opening.other": (
        "{tank}. After its last event, {day}, it held {n} {animals} of {groups} groups."
    ),
    "tank.opening-empty": "{tank}. After its last event, {day}, no animals were on its book.",
    "tank.opening-quiet": "{tank}. Nothing has been recorded of it yet.",
    "tank.opening-closed": "{tank}, taken down on {day}.",
    "tank.closed": "This tank was taken down on {day}.",
    "tank.nobody": "No animals were on the book of this tank.",
    "tank.total.one": "Together {n} animal on {day}.",
    "tank.total.other": "Together {n} animals on {day}.",
    "tank.still-there": "may still be there",
    "tank.size": "{sides}\N{NO-BREAK SPACE}cm",
    "tank.litres-value": "{n}\N{NO-BREAK SPACE}L",
    "tank.target": "target {quantity}",
    "tank-property.litres": "water",
    "tank-property.size": "length × width × height",
    "tank-property.soil": "soil",
    "tank-property.filter": "filter",
    "tank-property.light": "light",
    "tank-property.where": "place",
    "tank.heading-who": "Who was here after the last event",
    "tank.heading-stays": "Who lived here when",
    "tank.heading-readings": "Water readings",
    "tank.heading-changes": "Water changes",
    "tank.earlier-changes.one": "{n} earlier change",
    "tank.earlier-changes.other": "{n} earlier changes",
    "tank.heading-events": "Soil, equipment, treatments",
    "tank.heading-what": "What it is",
    "tank.heading-story": "The keeper’s words",
    "tank.heading-mentions": "In the diary",
    "tank.no-properties": "Nothing is noted of its size or fittings.",
    "tank.no-stays": "No group has been recorded here.",
    "tank.no-readings": "The water has not been measured.",
    "tank.no-changes": "No water change has been recorded.",
    "tank.no-events": "Nothing of the kind has been recorded.",
    "tank.no-mentions": "No published entry speaks of it.",
    "tank.group": "group",
    "tank.since": "since",
    "tank.until": "until",
    "tank.brought-by": "brought by",
    "tank.stays-label": "Stays in the tank",
    "tank.readings-label": "Readings by day",
    "tank.day": "day",
    "tank-card.no-reading": "water not measured yet",
    "tank-card.total.one": "{n} animal in all",
    "tank-card.total.other": "{n} animals in all",
}

_DIARY = {
    "diary.opening.one": "{n} entry, {first}.",
    "diary.opening.other": "{n} entries, the first {first}, the newest {last}.",
    "diary.empty": "The diary has no published entry yet.",
    "diary.entries.one": "{n} entry",
    "diary.entries.other": "{n} entries",
    "month-page.opening.one": "{n} entry in {month}.",
    "month-page.opening.other": "{n} entries in {month}.",
    "month-page.entries": "Entries",
    "month-page.nearby": "Months before and after",
    "entry.opening": "An entry of the diary, written of {tanks} {when}.",
    "entry.opening-day": "An entry of the diary, {when}.",
    "entry.description": "A diary entry, {when}.",
    "entry.untitled": "The whole rack",
    "entry.of-tank": "Tank {tank}",
    "entry.prose": "What the keeper wrote",
    "entry.prose-tank": "What the keeper wrote of {tank}",
    "entry.recorded": "Recorded: {kinds}.",
    "entry.recorded-tank": "In {tank}",
    "entry.recorded-anywhere": "No tank named",
    "entry.heading-recorded": "What was recorded",
    "entry.heading-readings": "Water readings",
    "entry.readings-label": "Water readings of the entry",
    "entry.water": "water",
    "entry.nothing": "Nothing was recorded but the words above.",
    "entry.pictures-missing.one": "{n} picture named here cannot be shown.",
    "entry.pictures-missing.other": "{n} pictures named here cannot be shown.",
    "entry.nearby": "Entries before and after",
    "nearby.before": "before: {text}",
    "nearby.after": "after: {text}",
    "nearby.month": "all of {text}",
}

_FRONT = {
    "front.opening": "{keeper} breeds {species}: {tanks}, {groups} and {lines}.",
    "front.empty": "This journal has no published entry yet.",
    "front.a-keeper": "A keeper",
    "front.some-species": "small aquatic animals",
    "front.tanks.one": "{n} tank in use",
    "front.tanks.other": "{n} tanks in use",
    "front.groups.one": "{n} group",
    "front.groups.other": "{n} groups",
    "front.lines.one": "{n} line",
    "front.lines.other": "{n} lines",
    "front.heading-offers": "On offer",
    "front.no-offers": "Nothing is on offer at the moment.",
    "front.all-offers": "All that is known of these lots",
    "front.heading-rack": "The rack",
    "front.rack-as-of": "As it stands on {day}, by the book.",
    "front.no-tanks": "No tank is in use.",
    "front.heading-lines": "The lines",
    "front.no-lines": "No line has been declared yet.",
    "front.heading-latest": "Latest entries",
    "front.no-entries": "No entry has been published yet.",
    "front.heading-reading": "How to read this site",
    "front.whole-diary": "The whole diary",
    "front.reading": (
        "Each number says how it is known, and links to the entries it rests on. The marks:"
    ),
    "front.methods": "Methods, sources and cautions",
    "list-opening.tanks.one": "{n} tank, as it was after its last event.",
    "list-opening.tanks.other": "{n} tanks, each as it was after its last event.",
    "list-opening.groups.one": "{n} group: animals recorded together.",
    "list-opening.groups.other": "{n} groups: animals recorded together.",
    "list-opening.crosses.one": "{n} cross: dams put to sires, and the broods that came of it.",
    "list-opening.crosses.other": "{n} crosses: dams put to sires, and the broods that came of it.",
    "list-opening.lines.one": "{n} line: animals bred towards one look over generations.",
    "list-opening.lines.other": "{n} lines: animals bred towards one look over generations.",
    "list-empty.tanks": "No tank has been recorded yet.",
    "list-empty.groups": "No group has been recorded yet.",
    "list-empty.crosses": "No cross has been recorded yet.",
    "list-empty.lines": "No line has been declared yet.",
    "list-opening.looks.one": "{n} look, as the trait models declare it.",
    "list-opening.looks.other": "{n} looks, as the trait models declare them.",
    "list-empty.looks": "No look is declared: the journal has no trait model in use.",
    "groups-part.on-the-book": "On the book",
    "groups-part.gone": "Not on the book any more",
    "list.all": "All of them",
    "list.group": "group",
    "list.generation": "generation",
    "list.look": "look",
    "list.now": "on the book",
    "list.last-line": "after its line of",
}

_ABOUT = {
    "about.heading": "About this site",
    "about.opening": (
        "This site is compiled from the keeper’s diary: what was seen is kept apart from what was"
        " computed and what is only said."
    ),
    "about.heading-levels": "How a number is known",
    "about.heading-chances": "Words for probabilities",
    "about.heading-methods": "How numbers are computed",
    "about.heading-assumptions": "What is taken for granted",
    "about.assumptions": "Each result names those that apply to it.",
    "about.heading-models": "Trait models",
    "about.no-models": "No trait model is declared in this journal.",
    "about.heading-species": "The species",
    "about.no-species": "No species of the catalogue is declared in this journal.",
    "about.heading-cautions": "Cautions",
    "model.says-nothing": "No claim is written down with this model.",
    "model.no-source": "Source: not given.",
    "model-source.shipped": "From the shipped catalogue. Source: {source}",
    "model-source.own": "The keeper’s own model. Source: {source}",
    "species.maturity": "earliest maturity",
    "species.maturity-days": "{n} days from hatching",
    "species.incubation": "from fertilisation to hatching",
    "species.incubation-days": "{low} to {high} days",
    "species.source": "source of {fact}",
    "assumption.founder-genotype-claimed": (
        "The genotype of founders is taken as the keeper gives it."
    ),
    "assumption.founder-look-only": (
        "Founders: all alleles of the model are taken as equally frequent, given their look."
    ),
    "assumption.founder-unknown": (
        "Founders: all alleles of the model are taken as equally frequent; nothing else is known."
    ),
    "assumption.either-phase": (
        "Founders: which alleles of linked loci stand on one chromosome is not known; both ways are"
        " taken as equally likely."
    ),
    "assumption.parents-equally-likely": (
        "Where several groups can have been the parent, each is taken as equally likely."
    ),
    "assumption.one-pair": "The brood is taken to have one dam and one sire.",
    "assumption.many-pairs": (
        "There were many dams or sires: the shares are the average of the possible pairs."
    ),
    "assumption.equal-viability": "All looks are taken to survive alike until the count.",
    "assumption.blind-split": "Animals were moved or picked without regard to their genotype.",
    "assumption.unrelated-founders": "Founders are taken as unrelated and not inbred.",
    "assumption.one-by-one": (
        "Animals are taken one by one: what brood mates and other young tell of parents whose"
        " genotype is not certain is not used."
    ),
    "assumption.before-counts": (
        "What is expected follows from the parents as recorded; no count of young is used for it."
    ),
    "assumption.parts-alike": (
        "The numbers that were put together are not all known, so each part counts alike."
    ),
    "assumption.returned-left-out": (
        "Young that were put back into a group of their ancestors are left out of its descent."
    ),
    "assumption.different-animals": (
        "Two references to a group of which the number is not known are taken to mean different "
        "animals."
    ),
    "assumption.counts-left-out": (
        "Some entries contradict each other, so these numbers follow from parents, looks and"
        " claims as recorded; what counts of young tell is left out."
    ),
    "assumption.complete-sort": (
        "A sort by look whose number is known is taken to have taken every animal of that look."
    ),
    "assumption.one-parent-taken": (
        "Where it is not known whether a brood had one dam and one sire or several, one of each"
        " is taken."
    ),
    "assumption.several-parents-taken": (
        "Where it is not known whether a brood had one dam and one sire or several, several are"
        " taken, as one of each does not fit the counts."
    ),
    "assumption.approximate": (
        "There are too many possibilities to go through all, so some stand for the rest: the"
        " numbers are close, but not exact."
    ),
    "method-name.exact": "Exact test",
    "method-says.exact": (
        "A small count is held against all counts of the same size; the p value adds up those that"
        " are no more probable than the one seen."
    ),
    "method-source.exact": "Freeman and Halton (1951), Biometrika 38:141–149; from memory.",
    "method-name.g-williams": "G test",
    "method-says.g-williams": (
        "A large count is tested by the likelihood ratio with Williams’ correction."
    ),
    "method-source.g-williams": "Williams (1976), Biometrika 63:33–37; from memory.",
    "method-name.wilson": "Interval of a share",
    "method-says.wilson": "The score interval at 95\N{NO-BREAK SPACE}% for each look by itself.",
    "method-source.wilson": (
        "Wilson (1927), Journal of the American Statistical Association 22:209–212."
    ),
    "method-name.heterogeneity": "Do broods differ",
    "method-says.heterogeneity": (
        "The broods of a cross are held against one another before they are read together."
    ),
    "method-source.heterogeneity": (
        "Mather (1938), The Measurement of Linkage in Heredity; from memory."
    ),
    "method-name.verdict": "Verdict",
    "method-says.verdict": (
        "“Does not fit” is said below a p value of 0.01; “fits” only where every other pair of"
        " parents tried is at least 20 times less likely. One count in a hundred fails by chance."
    ),
    "method-source.verdict": "The limits are a choice of this program.",
    "method-name.rivals": "Other explanations",
    "method-says.rivals": (
        "How likely each explanation makes a count that does not fit; a free share is set where"
        " it explains the count best, with a likelihood interval at 95\N{NO-BREAK SPACE}%."
    ),
    "method-source.rivals": (
        "Wilks (1938), Annals of Mathematical Statistics 9:60–62; from memory."
    ),
    "method-name.many-counts": "Many counts together",
    "method-says.many-counts": (
        "Counts of all broods side by side: how many stand out when only one in twenty of those"
        " may be an accident."
    ),
    "method-source.many-counts": (
        "Benjamini and Hochberg (1995), Journal of the Royal Statistical Society B 57:289–300."
    ),
    "method-name.expectation": "Expected shares",
    "method-says.expectation": (
        "From the genotypes the parents can have, each weighted by its probability; loci are taken"
        " as unlinked."
    ),
    "method-source.expectation": "Mendel’s rules, as in any textbook of genetics.",
    "method-name.inbreeding": "Inbreeding coefficient",
    "method-says.inbreeding": (
        "The probability that both alleles of an animal come from the same allele of an ancestor."
    ),
    "method-source.inbreeding": "Wright (1922), American Naturalist 56:330–338.",
    "method-name.founder-shares": "Founder shares",
    "method-says.founder-shares": (
        "Half of the genes come from the dam and half from the sire; shares are averages before"
        " any sorting by look."
    ),
    "method-source.founder-shares": "Arithmetic of halving; no source needed.",
    "method-name.generations": "Generation labels",
    "method-says.generations": (
        "P, F1, F2 and BC1 are computed from the parents recorded, never taken from a label."
    ),
    "method-source.generations": "As in any textbook of genetics.",
    "method-name.book": "The book",
    "method-says.book": (
        "Every animal that comes or goes is booked with a lowest and a highest number, so that what"
        " is not known stays visible."
    ),
    "method-source.book": "Double-entry bookkeeping; common practice, no source.",
    "caution.electricity": "Electricity near water",
    "caution-says.electricity": (
        "Switch off and unplug before putting a hand in a tank, let cables hang lower than their"
        " socket, and use a residual-current device. Local electrical codes come first."
    ),
    "caution.release": "Never release animals",
    "caution-says.release": (
        "Do not release animals, plants or tank water into the wild; it harms native life and is"
        " against the law in many places."
    ),
    "caution.chemicals": "Chemicals and treatments",
    "caution-says.chemicals": (
        "Follow the label of any additive or treatment, keep it from children and food, and note"
        " that many treatments kill invertebrates."
    ),
    "caution.shipping": "Shipping",
    "caution-says.shipping": (
        "Live animals travel under rules that differ by place and carrier; ask before sending, and"
        " do not send in heat or frost."
    ),
    "caution.not-advice": "A record, not advice",
    "caution-says.not-advice": (
        "What is written here is what one keeper did and saw; it is no veterinary advice."
    ),
}

_COMMAND = {
    "cli.about": "Compiles a breeder's plain-text tank diaries into a lineage site.",
    "cli.command": "COMMAND",
    "cli.does.check": "read a journal and say everything that is wrong or odd in it",
    "cli.does.compile": "compile a journal into a site",
    "cli.does.forecast": "say what the young of a pairing should look like, and what they hide",
    "cli.option.dams": (
        "a group, several with commas between them (the dam is one of these), or a genotype such"
        " as A/a"
    ),
    "cli.option.sires": "the same for the sires; the name of the dams again is a cross within them",
    "cli.option.model": "the trait model to reckon by; that of the groups unless given",
    "cli.option.format": "text to read, or json with all digits",
    "cli.option.journal": "the folder of the journal",
    "cli.option.as-of": "look at the rack as it stood on this day, such as 2026-03-14",
    "cli.option.strict": "take warnings as errors",
    "cli.option.output": "the folder of the site; JOURNAL-site beside you unless given",
    "cli.option.pictures": (
        "the folder where finished copies of pictures are kept between compiles, for several"
        " sites to share; a hidden folder beside the site unless given"
    ),
    "cli.option.edition": "public leaves private things out, keeper holds everything",
    "cli.usage-error": "filialog: {message}",
    "cli.nearest": "the nearest command is `{name}`",
    "cli.usage-help": "see: filialog --help",
    "cli.no-folder": "there is no folder `{path}`",
    "cli.checked": "Checked: {findings}.",
    "cli.found": "Found: {findings}.",
    "cli.not-written": (
        "Nothing was written: {findings}. What lies in `{path}` is as it was. Put the errors"
        " right and compile again."
    ),
    "cli.written.one": (
        "Written: 1 page of the {edition} edition, {pictures} pictures (files: {new} new,"
        " {changed} changed, {unchanged} as before, {removed} removed)."
    ),
    "cli.written.other": (
        "Written: {pages} pages of the {edition} edition, {pictures} pictures (files: {new} new,"
        " {changed} changed, {unchanged} as before, {removed} removed)."
    ),
    "cli.foreign.one": "Kept: 1 file in the folder that filialog did not write.",
    "cli.foreign.other": "Kept: {n} files in the folder that filialog did not write.",
    "cli.open": "Open it: {path}",
    "cli.busy": "another compile is writing `{path}`; try again when it is done",
    "cli.disk": "the disk refused: {reason}. A site that was there is as it was.",
    "cli.name-refused": "a page cannot be named `{path}` everywhere (other page: {other})",
    "cli.refused.link": "`{path}` is a symbolic link; name the folder itself",
    "cli.refused.not-a-folder": "`{path}` is no folder; name another one",
    "cli.refused.not-empty": (
        "`{path}` holds files that filialog did not write; name an empty or new folder"
    ),
    "cli.refused.root": "`{path}` is the root of a disk; name a folder of its own",
    "cli.refused.home": "`{path}` is a home folder or lies around one; name a folder of its own",
    "cli.refused.journal": "`{path}` is the journal itself; name another folder",
    "cli.refused.inside-the-journal": "`{path}` lies in the journal; name a folder outside it",
    "cli.refused.around-the-journal": "`{path}` holds the journal; name a folder of its own",
    "cli.refused.marker-unreadable": (
        "`{path}` was written by a later filialog, or its marker is damaged; name another folder"
    ),
    "cli.refused.other-edition": (
        "`{path}` holds the other edition; name another folder, so that private pages never"
        " take the place of public ones"
    ),
    "cli.refused.foreign-file-in-the-way": (
        "a file in `{path}` that filialog did not write has the name of a page; move it away"
    ),
    "cli.refused.work-folder-taken": (
        "the work folder beside `{path}` holds files that filialog did not write; move them away"
    ),
}

_FORECAST = {
    "forecast.errors": "Nothing was forecast: the journal has errors. Put them right first.",
    "forecast.no-name": "`{text}` names no group between its commas",
    "forecast.unknown-group": "the journal has no group `{name}`",
    "forecast.unknown-model": "the journal has no trait model `{name}`",
    "forecast.nearest": "{message}; the nearest name is `{name}`",
    "forecast.title": "Young of {dams} (dams) by {sires} (sires)",
    "forecast.heading-looks": "What they should look like",
    "forecast.heading-genotypes": "What they carry",
    "forecast.heading-sexes": "Daughters and sons",
    "forecast.heading-deaths": "Eggs that die",
    "forecast.heading-kin": "Descent",
    "forecast.heading-parents": "The parents",
    "forecast.heading-assumptions": "Taken for granted",
    "forecast.heading-rests": "What it rests on",
    "forecast.column-look": "look",
    "forecast.column-share": "share",
    "forecast.column-average": "on average",
    "forecast.column-brood": "in a brood of {low} to {high}",
    "forecast.column-see": "to see one",
    "forecast.column-genotype": "genotype",
    "forecast.never-sure": "never sure",
    "forecast.number-span": "{low} to {high}",
    "forecast.see-says": (
        "“To see one”: among so many young of one pair at least one shows the look, 95 % sure."
    ),
    "forecast.never-says": (
        "“Never sure”: too many of the pairs that these parents can be never give that look,"
        " however many young they have."
    ),
    "forecast.brood-says": "A brood of {species} has {low} to {high} young: {source}.",
    "forecast.no-brood": "The size of a brood is not known for this species.",
    "forecast.opening-all": "All young should look {look}{hidden}.",
    "forecast.opening-two": (
        "About {portion} of the young should be {look}; the rest look {other}{hidden}."
    ),
    "forecast.opening-half": (
        "About half of the young should be {look}; the other half look {other}{hidden}."
    ),
    "forecast.opening-of": "Of every {n} young about {looks} should be expected.",
    "forecast.opening-open-two": (
        "How many young should be {look} hangs on which animals breed: {low} in some pairs,"
        " {high} in others, {average} on average; the rest look {other}{hidden}."
    ),
    "forecast.opening-open": (
        "What the young should look like hangs on which animals breed; on average {looks}."
    ),
    "forecast.opening-of-dam": (
        " Their look is that of their dam’s genotype, whatever their own is."
    ),
    "forecast.one-look": "{n} {look}",
    "forecast.hidden-all": ", and every one of these carries {allele} unseen",
    "forecast.hidden-part": ", and {portion} of these carry {allele} unseen",
    "forecast.carry-all": "All {look} young carry {allele} unseen.",
    "forecast.carry-part": "Of the {look} young {portion} carry {allele} unseen.",
    "forecast.carry-of-dam": "Of all young {portion} carry {allele} unseen.",
    "forecast.carry-none": "No young can carry an allele unseen.",
    "forecast.no-look": "any look",
    "forecast-sex.female": "{share} daughters",
    "forecast-sex.male": "{share} sons",
    "forecast-sex.of": "{sex}: {looks}",
    "forecast-sex.look": "{look} {share}",
    "forecast.deaths": "Of all eggs {share} should die because of their genotype: {genotypes}.",
    "forecast.dead": "{genotype} ({share})",
    "forecast.generation": "Generation of the young: {label}.",
    "forecast.inbreeding": "Inbreeding of the young: {span}{average}.",
    "forecast.inbreeding-average": ", {value} on average",
    "forecast.inbreeding-unknown": (
        "Inbreeding of the young: not known, as not all ancestors of the parents are."
    ),
    "forecast.through": " Through {groups}.",
    "forecast.possibly": "{how} This is the nearest they can be; they may be less related.",
    "forecast.kinship": " Kinship {span}.",
    "forecast-kin.same-animal": "{sire} and {dam} mean the same animal.",
    "forecast-kin.same-pool": "{sire} and {dam} are of the same group.",
    "forecast-kin.within-group": "Both parents are of {dam}.",
    "forecast-kin.same-brood": "{sire} and {dam} are of one brood.",
    "forecast-kin.parent": "{sire} is a parent of {dam}.",
    "forecast-kin.young": "{sire} are young of {dam}.",
    "forecast-kin.full-sibs": "{sire} and {dam} are of two broods of the same parents.",
    "forecast-kin.half-sibs": "{sire} and {dam} are of two broods with one parent in common.",
    "forecast-kin.ancestor": "{sire} is an ancestor of {dam}, {n} generations back.",
    "forecast-kin.descendant": "{sire} descend from {dam}, {n} generations on.",
    "forecast-kin.common": "{sire} and {dam} are partly from the same group.",
    "forecast-kin.collateral": (
        "{sire} and {dam} have a common ancestor: generations back from {dam} {n}, from {sire} {m}."
    ),
    "forecast-kin.unrelated-by-record": "{sire} and {dam} are not related, as far as is recorded.",
    "forecast-kin.unknown": "How {sire} and {dam} are related is not known.",
    "forecast-role.dam": "dam {name}{share}: {genotypes}; {count}.",
    "forecast-role.sire": "sire {name}{share}: {genotypes}; {count}.",
    "forecast.known-as": "{genotypes} ({level})",
    "forecast.weight": ", chosen in {share} of the cases",
    "forecast.no-genotype": "genotype not known",
    "forecast.genotype": "{genotype} {share}",
    "forecast.on-book.one": "{n} on the book on {day}",
    "forecast.on-book.other": "{n} on the book on {day}",
    "forecast.off-book": "none is on the book on {day}, so this says what they would have given",
    "forecast.written": "written out, no animal of the journal",
    "forecast.young-yet": "{name} cannot breed before {day}: they are too young.",
    "forecast.level": "This is {level}, by the trait model “{model}” ({path}).",
    "forecast.more.one": "and {n} earlier entry; --format json names it",
    "forecast.more.other": "and {n} earlier entries; --format json names them",
    "forecast-obstacle.no-model": (
        "No trait model speaks of these groups, so their looks cannot be forecast; name one with"
        " --model."
    ),
    "forecast-obstacle.models-differ": (
        "Different trait models speak of the two sides ({concerns}); name one with --model."
    ),
    "forecast-obstacle.genotype-not-read": "The trait model cannot read this genotype: {concerns}.",
    "forecast-obstacle.nothing-known": (
        "Nothing is known of the genotype of {concerns}, so the looks of the young cannot be"
        " forecast."
    ),
    "forecast-obstacle.contradiction": (
        "What is recorded of {concerns} cannot all be right, so the looks of the young cannot be"
        " forecast."
    ),
    "forecast-obstacle.barren": "No young of these parents would live.",
    "forecast-obstacle.not-a-dam": (
        "By what is recorded, {concerns} holds no females on {day}, so no dam can come from there."
    ),
    "forecast-obstacle.not-a-sire": (
        "By what is recorded, {concerns} holds no males on {day}, so no sire can come from there."
    ),
    "forecast-obstacle.one-animal": (
        "{concerns} is a single animal and cannot be dam and sire at once."
    ),
    "forecast-obstacle.not-yet": "{concerns} does not exist yet on {day}.",
    "forecast.cannot-be-right": "These entries cannot all be right: {places}.",
}

ENGLISH: Mapping[str, str] = MappingProxyType(
    {
        **_FRAME,
        **_NUMBERS,
        **_WATER,
        **_ANIMALS,
        **_EVENTS,
        **_DETAILS,
        **_GENERATIONS,
        **_GROUP,
        **_TALLIES,
        **_CROSS,
        **_COUNTS,
        **_MISFITS,
        **_STRAYS,
        **_LOOKS,
        **_OFFERS,
        **_LINE,
        **_TANK,
        **_DIARY,
        **_FRONT,
        **_ABOUT,
        **_COMMAND,
        **_FORECAST,
    }
)
"""The catalogue."""

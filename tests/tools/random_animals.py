"""Random pedigrees of single animals with a set of living ones."""

from hypothesis import strategies as st

from filialog.lineage import AnimalPedigree

Living = tuple[AnimalPedigree, list[int]]


@st.composite
def animals_with_living(
    draw: st.DrawFn, *, unknown: bool = True, most: int = 9, most_young: int = 7
) -> Living:
    """Draw a pedigree (selfing included) and its living animals.

    With `unknown`, an animal may have one known parent. At most `most_young` animals have a
    known parent, so that every transmission can be enumerated.
    """
    dams: list[int | None] = []
    sires: list[int | None] = []
    young = 0
    for animal in range(draw(st.integers(1, most))):
        known = st.integers(0, animal - 1)
        wanted = animal > 0 and young < most_young and draw(st.integers(0, 3)) > 0
        dam = draw(known) if wanted else None
        sire = draw(known) if wanted else None
        if unknown and wanted and draw(st.integers(0, 3)) == 0:
            dam, sire = draw(st.sampled_from([(dam, None), (None, sire)]))
        young += wanted
        dams.append(dam)
        sires.append(sire)
    living = draw(st.sets(st.integers(0, len(dams) - 1), min_size=1))
    return AnimalPedigree(dams=tuple(dams), sires=tuple(sires)), sorted(living)

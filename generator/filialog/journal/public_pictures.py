"""Which pictures, and which words about them, may be published."""

from collections.abc import Collection, Iterator
from dataclasses import replace
from types import MappingProxyType

from filialog.journal.records import Album, Journal, LinkTarget, PictureSaid, Prose

__all__ = ["with_public_pictures"]


def with_public_pictures(
    public: Journal,
    *,
    whole: Journal,
    hidden_groups: Collection[str],
    hidden_tanks: Collection[str],
) -> Journal:
    """Leave out of a public view the pictures that only private words speak of.

    A picture that an album names by its file is the album's matter; one that merely lies in the
    album's folder is not published on the strength of the folder if a private entry shows it.
    """
    albums = tuple(
        _public_album(album, hidden_groups=hidden_groups, hidden_tanks=hidden_tanks)
        for album in public.albums
    )
    named = {path for album in albums for path in album.files}
    private = set(_shown(whole)) - set(_shown(public)) - named
    return replace(public, albums=albums, pictures=public.pictures - private)


def _public_album(
    album: Album, *, hidden_groups: Collection[str], hidden_tanks: Collection[str]
) -> Album:
    def published(said: PictureSaid) -> PictureSaid:
        if said.private or said.group in hidden_groups or said.tank in hidden_tanks:
            return PictureSaid(private=True)
        return said

    return replace(
        album,
        whole=published(album.whole),
        files=MappingProxyType({path: published(said) for path, said in album.files.items()}),
        prose=Prose(pieces=tuple(piece for piece in album.prose.pieces if not piece.private)),
    )


def _shown(journal: Journal) -> Iterator[str]:
    """Name the pictures that events and prose show."""
    for entry in journal.entries:
        for event in entry.events:
            yield from event.names("photo")
        for section in entry.sections:
            yield from _linked(section.prose)
    for pages in (journal.tanks, journal.groups, journal.lines):
        for page in pages.values():
            yield from _linked(page.prose)


def _linked(prose: Prose) -> Iterator[str]:
    return (link.name for link in prose.links if link.target is LinkTarget.PICTURE)

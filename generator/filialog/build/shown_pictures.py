"""Pictures as pages ask for them: what the photos room knows, put in the words of pages."""

from collections.abc import Iterable

from filialog.build.pictures import SitePictures
from filialog.pages.pictures import PictureShown, PictureSource
from filialog.photos import Picture, Shown

__all__ = ["PicturesShown"]


class PicturesShown:
    """The pictures of a site by what they show; a picture with a problem is not among them."""

    def __init__(self, site: SitePictures) -> None:
        self._index = site.index
        self._shown = {
            path: _shown(site.index.shown[path], picture)
            for path, picture in site.pictures.items()
            if picture.problem is None and picture.renditions
        }

    def of_entry(self, identifier: str) -> tuple[PictureShown, ...]:
        """Return the pictures an entry names, in its order."""
        return self._of(self._index.by_entry.get(identifier, ()))

    def of_group(self, name: str) -> tuple[PictureShown, ...]:
        """Return the pictures of a group."""
        return self._of(self._index.by_group.get(name, ()))

    def of_tank(self, name: str) -> tuple[PictureShown, ...]:
        """Return the pictures of a tank."""
        return self._of(self._index.by_tank.get(name, ()))

    def of_line(self, name: str) -> tuple[PictureShown, ...]:
        """Return the pictures of a line."""
        return self._of(self._index.by_line.get(name, ()))

    def of_look(self, name: str) -> tuple[PictureShown, ...]:
        """Return the pictures of a look."""
        return self._of(self._index.by_look.get(name, ()))

    def of_path(self, path: str) -> PictureShown | None:
        """Return a picture by its place in the journal; None where it cannot be shown."""
        return self._shown.get(path)

    def _of(self, paths: Iterable[str]) -> tuple[PictureShown, ...]:
        return tuple(self._shown[path] for path in paths if path in self._shown)


def _shown(said: Shown, picture: Picture) -> PictureShown:
    by_format: dict[str, list[tuple[int, str]]] = {}
    for rendition in picture.renditions:
        by_format.setdefault(rendition.format, []).append((rendition.width, rendition.path))
    widest = max(picture.renditions, key=lambda rendition: rendition.width)
    return PictureShown(
        path=said.path,
        alt=said.alt,
        caption=said.caption,
        when=said.when,
        side=said.side,
        groups=said.groups,
        tank=said.tanks[0] if said.tanks else None,
        looks=said.looks,
        width=widest.width,
        height=widest.height,
        sources=tuple(
            PictureSource(format="avif" if name == "avif" else "jpeg", copies=tuple(sorted(copies)))
            for name, copies in by_format.items()
        ),
    )

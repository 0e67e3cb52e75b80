"""From the pictures of a journal to their renditions, as many at once as there are threads."""

import hashlib
from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import Executor
from dataclasses import dataclass

from filialog.photos.opening import open_picture
from filialog.photos.rendering import FORMATS, WIDTHS, Rendered, encoder_words, render_opened
from filialog.photos.store import Kept, PictureStore
from filialog.photos.values import Picture, PictureProblem, ProblemKind, Rendition

__all__ = ["Prepared", "Source", "prepare_pictures"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A picture file of the journal."""

    path: str
    """Relative to the journal."""
    read: Callable[[], bytes]
    """Gives its bytes; may raise OSError."""
    stamp: str = ""
    """What tells that the file did not change since the last compile, such as size, times and
    inode; with "" it is read every time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """The pictures of a journal, ready to be shown."""

    pictures: Mapping[str, Picture]
    """By path, sorted."""
    rendered: int
    """How many had to be rendered."""
    content: Mapping[str, Callable[[], bytes]]
    """Gives the bytes of every rendition, by its path in the site, sorted; renders again what is
    no longer in the store as it was. Raises OSError where the picture itself changed meanwhile."""


def prepare_pictures(
    sources: Iterable[Source],
    *,
    store: PictureStore,
    executor: Executor,
    widths: tuple[int, ...] = WIDTHS,
    formats: tuple[str, ...] = FORMATS,
    forget: bool = True,
) -> Prepared:
    """Return every picture with its renditions, rendering only what the store does not have.

    With `forget`, what the store holds beyond these pictures is removed from it; a store that
    several sites share keeps it.

    Whatever is wrong with a picture is told as its problem. Raises OSError only where the store
    cannot be written. The executor runs threads: decoders and encoders release the interpreter's
    lock, so they do as well as processes.
    """
    in_order = sorted(sources, key=lambda source: source.path)
    bench = _Bench(store, widths, formats)
    known = store.stamps()
    done = list(executor.map(lambda source: bench.prepare(source, known), in_order))
    pictures = {source.path: one.picture for source, one in zip(in_order, done, strict=True)}
    store.keep_stamps(
        {
            source.path: (source.stamp, one.picture.digest)
            for source, one in zip(in_order, done, strict=True)
            if source.stamp and one.picture.digest
        }
    )
    content = {
        rendition.path: bench.content_of(source, rendition)
        for source, one in zip(in_order, done, strict=True)
        for rendition in one.picture.renditions
    }
    if forget:
        store.forget_others(
            keys={one.key for one in done},
            digests={r.digest for one in done for r in one.picture.renditions},
        )
    return Prepared(
        pictures=pictures,
        rendered=sum(one.rendered for one in done),
        content=dict(sorted(content.items())),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Done:
    picture: Picture
    key: str
    rendered: bool


class _Bench:
    """The settings of one run and the store it works with."""

    def __init__(
        self, store: PictureStore, widths: tuple[int, ...], formats: tuple[str, ...]
    ) -> None:
        self._store = store
        self._widths = widths
        self._formats = formats

    def prepare(self, source: Source, known: Mapping[str, tuple[str, str]]) -> _Done:
        """Return a picture from the store, or render it."""
        stamp, digest = known.get(source.path, ("", ""))
        if stamp and stamp == source.stamp:
            key = self._key(digest)
            if (kept := self._store.note(key)) is not None:
                return _Done(picture=_picture(source.path, digest, kept), key=key, rendered=False)
        try:
            data = source.read()
        except OSError:
            problem = PictureProblem(kind=ProblemKind.UNREADABLE)
            return _Done(picture=_picture(source.path, "", problem), key="", rendered=False)
        digest = hashlib.sha256(data).hexdigest()
        key = self._key(digest)
        kept = self._store.note(key)
        if kept is not None:
            return _Done(picture=_picture(source.path, digest, kept), key=key, rendered=False)
        kept, copies = self._render(data)
        self._store.keep(key, kept, {_digest(copy.data): copy.data for copy in copies})
        return _Done(picture=_picture(source.path, digest, kept), key=key, rendered=True)

    def content_of(self, source: Source, rendition: Rendition) -> Callable[[], bytes]:
        """Return a function that gives the bytes of a rendition."""

        def content() -> bytes:
            if (data := self._store.read(rendition)) is not None:
                return data
            _, copies = self._render(source.read())
            for copy in copies:
                if _digest(copy.data) == rendition.digest:
                    return copy.data
            raise OSError(f"{source.path} changed while the site was made")

        return content

    def _render(self, data: bytes) -> tuple[Kept, tuple[Rendered, ...]]:
        opened = open_picture(data)
        if isinstance(opened, PictureProblem):
            return opened, ()
        copies = render_opened(opened, self._widths, self._formats)
        return (opened.facts, tuple(_rendition(copy) for copy in copies)), copies

    def _key(self, digest: str) -> str:
        """Return the name of a note: it says from what, by what and to what it was rendered."""
        made_by = f"{encoder_words()}; {self._widths}; {self._formats}"
        return _digest(f"{digest}; {made_by}".encode())


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _rendition(copy: Rendered) -> Rendition:
    return Rendition(
        width=copy.width,
        height=copy.height,
        format=copy.format,
        digest=_digest(copy.data),
        size=len(copy.data),
    )


def _picture(path: str, digest: str, kept: Kept) -> Picture:
    if isinstance(kept, PictureProblem):
        return Picture(
            source=path, digest=digest, width=0, height=0, taken=None, renditions=(), problem=kept
        )
    facts, renditions = kept
    return Picture(
        source=path,
        digest=digest,
        width=facts.width,
        height=facts.height,
        taken=facts.taken,
        renditions=renditions,
    )

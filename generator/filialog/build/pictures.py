"""The pictures of a site: rendered where they are new, and handed to pages as they need them."""

import os
from collections.abc import Mapping
from concurrent.futures import Executor, ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from filialog.build.files import Files
from filialog.build.trees import Page
from filialog.findings import Finding, Place
from filialog.journal.records import Journal
from filialog.photos import (
    Picture,
    PictureIndex,
    PictureProblem,
    PictureStore,
    Prepared,
    ProblemKind,
    Source,
    picture_index,
    prepare_pictures,
)

__all__ = ["SitePictures", "finding_of_picture", "pictures_of_site"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SitePictures:
    """The pictures of one compile."""

    index: PictureIndex
    """Which picture shows what."""
    pictures: Mapping[str, Picture]
    """Every picture that is shown, by its path in the journal."""
    files: Mapping[str, Page]
    """Every rendition, by its path in the site."""
    rendered: int
    """How many pictures had to be rendered."""


def pictures_of_site(
    files: Files,
    checked: Journal,
    *,
    journal: Path,
    store: Path,
    shared: bool,
    executor: Executor | None = None,
) -> SitePictures:
    """Render the pictures that the journal shows; what the store has already costs a look.

    `shared` says that other sites keep their renditions in the store too. The work is handed to
    any executor of `concurrent.futures`; threads do, since decoders give the interpreter free.
    """
    index = picture_index(checked)
    sources = [_source(files, journal, path) for path in index.shown]
    keep = PictureStore(files, store)
    if executor is not None:
        ready = prepare_pictures(sources, store=keep, executor=executor, forget=not shared)
        return _site_pictures(index, ready)
    with ThreadPoolExecutor(max_workers=os.cpu_count()) as threads:
        ready = prepare_pictures(sources, store=keep, executor=threads, forget=not shared)
    return _site_pictures(index, ready)


def _site_pictures(index: PictureIndex, ready: Prepared) -> SitePictures:
    return SitePictures(
        index=index,
        pictures=ready.pictures,
        files={
            rendition.path: Page(digest=rendition.digest, content=ready.content[rendition.path])
            for picture in ready.pictures.values()
            for rendition in picture.renditions
        },
        rendered=ready.rendered,
    )


def _source(files: Files, journal: Path, path: str) -> Source:
    try:
        found = files.stat(journal / path)
        stamp = f"{found.size} {found.mtime_ns} {found.ctime_ns} {found.inode}"
    except OSError:
        stamp = ""  # it is gone; reading it says so
    return Source(path=path, read=lambda: files.read(journal / path), stamp=stamp)


def finding_of_picture(path: str, problem: PictureProblem) -> Finding:
    """Return the finding that tells the keeper why a picture is not shown."""
    message, way_out = _WORDS[problem.kind]
    found = f" ({problem.found})" if problem.found else ""
    return Finding(
        code="B107",
        place=Place(path),
        message=f"`{path}` {message}{found}",
        label="shown as missing",
        helps=(way_out,),
    )


_COPY_AGAIN = "copy it again from the camera"
_SAVE_AS_JPEG = "save it as JPEG or PNG"
_WORDS = {
    ProblemKind.EMPTY: ("is an empty file", _COPY_AGAIN),
    ProblemKind.UNREADABLE: ("cannot be read", "allow it to be read"),
    ProblemKind.NOT_A_PICTURE: ("is no picture", _SAVE_AS_JPEG),
    ProblemKind.OTHER_KIND: ("is of a kind that is not taken", _SAVE_AS_JPEG),
    ProblemKind.TOO_MANY_PIXELS: ("has more pixels than can be taken", "save it smaller"),
    ProblemKind.TOO_LONG: ("is longer than pictures of the web can be", "save it smaller"),
    ProblemKind.CUT_OFF: ("breaks off before its end", _COPY_AGAIN),
    ProblemKind.DAMAGED: ("is damaged", _COPY_AGAIN),
}
"""Message and way out for each kind of problem."""

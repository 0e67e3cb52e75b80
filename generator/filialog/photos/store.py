"""Renditions kept between compiles, so that a picture that did not change costs nothing.

A note under the digest of the source and of all settings tells which renditions there are; the
renditions lie beside it under their own digests. Any doubt about a note or a rendition means that
the picture is rendered again. The caller sees to it that one compile at a time uses a folder.
"""

import contextlib
import hashlib
import json
import threading
from collections.abc import Collection, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Protocol

from filialog.photos.values import PictureFacts, PictureProblem, ProblemKind, Rendition

__all__ = ["Kept", "PictureFiles", "PictureStore"]

Kept = tuple[PictureFacts, tuple[Rendition, ...]] | PictureProblem
"""What is noted of a picture."""

_MAX_NOTE_BYTES = 1024 * 1024
_MAX_STAMPS_BYTES = 256 * 1024 * 1024
_STAMPS = "stamps"


class _Named(Protocol):
    @property
    def name(self) -> str: ...


class PictureFiles(Protocol):
    """What this room does to a file system; every method may raise OSError."""

    def read(self, path: Path, *, at_most: int | None = None) -> bytes:
        """Read a plain file, or only its first bytes."""

    def write(self, path: Path, data: bytes, *, sync: bool = False) -> None:
        """Create a file that does not exist yet."""

    def replace(self, source: Path, target: Path) -> None:
        """Rename a file; one at the target is replaced in one step."""

    def make_folder(self, path: Path) -> None:
        """Make a folder and the missing ones above it."""

    def list_folder(self, path: Path) -> Sequence[_Named]:
        """List a folder."""

    def remove_file(self, path: Path) -> None:
        """Remove a file."""


class PictureStore:
    """The notes and renditions in one folder, which is made when something is first kept."""

    def __init__(self, files: PictureFiles, folder: Path) -> None:
        self._files = files
        self._folder = folder

    def note(self, key: str) -> Kept | None:
        """Return what is noted under a key; None where nothing is, or anything is odd."""
        content = self._content(f"{key}.json", _MAX_NOTE_BYTES)
        try:
            return None if content is None else _kept(content)
        except (KeyError, TypeError, ValueError):
            return None

    def keep(self, key: str, kept: Kept, data: Mapping[str, bytes]) -> None:
        """Keep renditions by their digests, then the note that tells of them."""
        for digest in sorted(data):
            self._put(digest, data[digest])
        self._put_content(f"{key}.json", _content(kept))

    def read(self, rendition: Rendition) -> bytes | None:
        """Return the bytes of a rendition; None where they are not those of its digest."""
        try:
            path = self._folder / rendition.digest
            data = self._files.read(path, at_most=rendition.size + 1)
        except OSError:
            return None
        return data if hashlib.sha256(data).hexdigest() == rendition.digest else None

    def stamps(self) -> dict[str, tuple[str, str]]:
        """Return stamp and digest of the sources of the last compile, by path."""
        content = self._content(_STAMPS, _MAX_STAMPS_BYTES)
        if not isinstance(content, dict):
            return {}
        return {
            path: (pair[0], pair[1])
            for path, pair in content.items()
            if isinstance(pair, list) and [type(part) for part in pair] == [str, str]
        }

    def keep_stamps(self, stamps: Mapping[str, tuple[str, str]]) -> None:
        """Keep stamps and digests for the next compile."""
        if stamps != self.stamps():
            self._put_content(_STAMPS, {path: list(stamps[path]) for path in sorted(stamps)})

    def forget_others(self, *, keys: Collection[str], digests: Collection[str]) -> int:
        """Remove all but these notes and renditions; returns how many files went."""
        wanted = {*digests, _STAMPS, *(f"{key}.json" for key in keys)}
        removed = 0
        with contextlib.suppress(OSError):
            for entry in self._files.list_folder(self._folder):
                if entry.name not in wanted:
                    with contextlib.suppress(OSError):
                        self._files.remove_file(self._folder / entry.name)
                        removed += 1
        return removed

    def _content(self, name: str, limit: int) -> object:
        """Return what a note holds; None where its checksum is not right."""
        try:
            data = self._files.read(self._folder / name, at_most=limit)
        except OSError:
            return None
        check, _, rest = data.partition(b"\n")
        if hashlib.sha256(rest).hexdigest().encode() != check:
            return None
        try:
            return json.loads(rest)
        except (ValueError, RecursionError):
            return None

    def _put_content(self, name: str, content: object) -> None:
        rest = json.dumps(content, ensure_ascii=True, separators=(",", ":")).encode()
        self._put(name, hashlib.sha256(rest).hexdigest().encode() + b"\n" + rest)

    def _put(self, name: str, data: bytes) -> None:
        """Write a file aside and rename it."""
        self._files.make_folder(self._folder)
        aside = self._folder / f"{name}.{threading.get_ident()}.part"  # equal pictures meet here
        with contextlib.suppress(FileNotFoundError):
            self._files.remove_file(aside)
        self._files.write(aside, data)
        self._files.replace(aside, self._folder / name)


def _content(kept: Kept) -> object:
    if isinstance(kept, PictureProblem):
        return {"problem": kept.kind.value, "found": kept.found}
    facts, renditions = kept
    return {
        "kind": facts.kind,
        "width": facts.width,
        "height": facts.height,
        "taken": None if facts.taken is None else facts.taken.isoformat(),
        "renditions": [[r.width, r.height, r.format, r.digest, r.size] for r in renditions],
    }


def _kept(content: object) -> Kept:
    """Read a note; raises KeyError, TypeError or ValueError where it is not one."""
    if not isinstance(content, dict):
        raise TypeError(content)
    if "problem" in content:
        return PictureProblem(kind=ProblemKind(content["problem"]), found=str(content["found"]))
    facts = PictureFacts(
        kind=str(content["kind"]),
        width=int(content["width"]),
        height=int(content["height"]),
        taken=None if content["taken"] is None else date.fromisoformat(content["taken"]),
    )
    renditions = tuple(
        Rendition(width=int(w), height=int(h), format=str(form), digest=str(digest), size=int(size))
        for w, h, form, digest, size in content["renditions"]
    )
    return facts, renditions

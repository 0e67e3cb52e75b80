"""Paths of pictures and files, written from the file they stand in or from the journal."""

import posixpath
from difflib import get_close_matches
from urllib.parse import unquote

from filialog.findings.finding import Place
from filialog.reading.sheet import Sheet

__all__ = ["PICTURE_ENDINGS", "find_path", "report_missing_picture"]

PICTURE_ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".avif", ".gif", ".heic", ".tif", ".tiff")


def find_path(written: str, sheet: Sheet) -> str | None:
    """Return a path relative to the journal; None where it leads out of it.

    A path is read from the folder of the file it stands in, else from the journal's folder;
    of the two the one that exists is meant, the first where neither does.
    """
    path = unquote(written).split("#")[0].split("?")[0]
    if path.startswith(("/", "~")) or "\\" in path or "\0" in path:
        return None
    from_file = posixpath.normpath(posixpath.join(posixpath.dirname(sheet.path), path))
    from_journal = posixpath.normpath(path)
    inside = [found for found in (from_file, from_journal) if not _leaves(found)]
    there = (sheet.desk.pictures, sheet.desk.files)
    for found in inside:
        if any(found in known for known in there):
            return found
    return inside[0] if inside else None


def _leaves(path: str) -> bool:
    return path == ".." or path.startswith(("../", "/"))


def report_missing_picture(path: str, place: Place, sheet: Sheet) -> None:
    """Report a picture that the journal does not have, with the nearest that it has."""
    folder = posixpath.dirname(path)
    beside = sorted(known for known in sheet.desk.pictures if posixpath.dirname(known) == folder)
    near = get_close_matches(path, beside, n=1, cutoff=0.6)
    if near:
        helps = [f"the nearest picture is `{near[0]}`"]
    elif beside:
        helps = [f"`{folder}` has {len(beside)} pictures, `{posixpath.basename(beside[0])}` first"]
    else:
        helps = [f"there is no picture in `{folder or 'the journal folder'}`"]
    sheet.fault("M101", place, f"picture `{path}` is not there", helps=helps)

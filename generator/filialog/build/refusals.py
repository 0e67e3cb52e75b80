"""Why a site was not written, as values that a message can be made from."""

from enum import Enum

__all__ = [
    "NameFault",
    "NameRefused",
    "OutputBusy",
    "OutputError",
    "OutputRefused",
    "Refusal",
]


class Refusal(Enum):
    """Why a folder is not taken as the output."""

    LINK = "link"
    """It is a symbolic link."""
    NOT_A_FOLDER = "not a folder"
    """Something else than a folder has its name."""
    NOT_EMPTY = "not empty"
    """It holds files and was not written by this program."""
    ROOT = "root"
    """It is the root of a file system."""
    HOME = "home"
    """It is the home folder or lies around it."""
    JOURNAL = "journal"
    """It is the journal itself."""
    INSIDE_JOURNAL = "inside the journal"
    """It lies in the journal; the next compile would read its own pages."""
    AROUND_JOURNAL = "around the journal"
    """The journal lies in it."""
    MARKER_UNREADABLE = "marker unreadable"
    """Its marker is damaged or of a later format."""
    OTHER_EDITION = "other edition"
    """It holds the other edition; private pages must not take the place of public ones."""
    FOREIGN_IN_THE_WAY = "foreign file in the way"
    """A file that this program did not write has the name of a page."""
    WORK_FOLDER_TAKEN = "work folder taken"
    """The hidden folder beside it holds files that this program did not write."""


class NameFault(Enum):
    """Why the path of a page is not taken."""

    NOT_RELATIVE = "not relative"
    """Empty, absolute, with an empty part, `.` or `..`, or ending in a slash."""
    CHARACTER = "character"
    """A character that some file system refuses, or that is no Unicode text."""
    RESERVED = "reserved"
    """A name that Windows keeps for a device, or the name of our own marker."""
    ENDING = "ending"
    """A part that ends in a dot or a space, which Windows cuts off."""
    TOO_LONG = "too long"
    """A part of more than 200 bytes, or a path of more than 1000."""
    COLLISION = "collision"
    """Two paths are one on a file system that ignores case or Unicode form."""
    FILE_AND_FOLDER = "file and folder"
    """One path is a page and the folder of another page."""


class OutputError(Exception):
    """A site was not written for a reason that lies with its folder or its names."""


class OutputRefused(OutputError):  # noqa: N818 - a refusal is no fault of the program
    """The output folder is not one that this program may write.

    Parameters
    ----------
    reason
        What is wrong with it.
    detail
        The name or path that it is about.
    """

    def __init__(self, reason: Refusal, detail: str) -> None:
        super().__init__(f"{reason.value}: {detail}")
        self.reason = reason
        self.detail = detail


class OutputBusy(OutputError):  # noqa: N818 - a refusal is no fault of the program
    """Another compile is writing the same output folder.

    Parameters
    ----------
    name
        The name of the output folder.
    """

    def __init__(self, name: str) -> None:
        super().__init__(f"another compile is writing {name}")
        self.name = name


class NameRefused(OutputError):  # noqa: N818 - a refusal is no fault of the program
    """A page has a path that cannot be written everywhere.

    Parameters
    ----------
    fault
        What is wrong with it.
    path
        The path that is refused.
    other
        The path that it collides with, None where it is alone at fault.
    """

    def __init__(self, fault: NameFault, path: str, other: str | None = None) -> None:
        super().__init__(f"{fault.value}: {path}" + (f" and {other}" if other else ""))
        self.fault = fault
        self.path = path
        self.other = other

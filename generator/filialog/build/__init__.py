"""Text of a journal folder and finished pages come in; a whole site in a folder goes out.

This room walks and reads the journal, has it checked, computed and drawn, and it alone writes
the site. Every touch of the file system passes through `filialog.build.files`.
"""

from filialog.build.compile import Compiled, Examined, compile_journal, examine_journal
from filialog.build.files import Files, RealFiles
from filialog.build.refusals import NameRefused, OutputBusy, OutputError, OutputRefused

__all__ = [
    "Compiled",
    "Examined",
    "Files",
    "NameRefused",
    "OutputBusy",
    "OutputError",
    "OutputRefused",
    "RealFiles",
    "compile_journal",
    "examine_journal",
]

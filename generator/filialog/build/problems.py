"""What a walk over the journal folder met, as findings."""

from filialog.build.walk import Problem, ProblemKind
from filialog.findings import Finding, Mark, Place

__all__ = ["finding_of_problem"]


def finding_of_problem(problem: Problem) -> Finding:
    """Return the finding that tells the keeper of a problem."""
    code, message, way_out = _WORDS[problem.kind]
    related: tuple[Mark, ...] = ()
    if problem.other is not None:
        related = (Mark(place=Place(problem.other), says="the other one"),)
    return Finding(
        code=code,
        place=Place(problem.path),
        message=message.format(path=problem.path),
        related=related,
        notes=(f"the system says {problem.reason}",) if problem.reason else (),
        helps=(way_out,),
    )


_WORDS = {
    ProblemKind.UNREADABLE: (
        "B101",
        "`{path}` cannot be read",
        "allow it to be read, or take it out of the journal",
    ),
    ProblemKind.TOO_LARGE: (
        "B102",
        "`{path}` is longer than a mebibyte",
        "cut it into several entries, or take it out of the journal",
    ),
    ProblemKind.LINK: (
        "B103",
        "`{path}` is a symbolic link and was left out",
        "put the file itself in its place",
    ),
    ProblemKind.NOT_A_FILE: (
        "B104",
        "`{path}` is no file and was left out",
        "put a text file in its place, or take it out of the journal",
    ),
    ProblemKind.NOT_A_FOLDER: (
        "B104",
        "`{path}` is a file where a folder belongs",
        "rename it, or move it into a folder of that name",
    ),
    ProblemKind.NOT_READ: (
        "B104",
        "`{path}` is not read",
        "save diary texts as `.md` or `.txt`, trait models as `.yaml`, or move the file elsewhere",
    ),
    ProblemKind.BAD_NAME: (
        "B105",
        "`{path}` has a name that cannot be used",
        "rename it without control characters and backslashes",
    ),
    ProblemKind.COLLISION: (
        "B106",
        "`{path}` differs from another file only in case or accents",
        "rename one of the two",
    ),
}
"""Code, message and way out for each kind of problem."""

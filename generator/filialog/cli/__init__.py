"""The commands: arguments in, an exit code and words on the terminal out.

Exit codes: 0 no errors, 1 errors (or warnings with `--strict`), 2 usage.
"""

from filialog.cli.command import run

__all__ = ["run"]

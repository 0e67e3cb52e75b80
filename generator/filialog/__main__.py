"""`python -m filialog` is the command `filialog`."""

import sys

from filialog.cli import run

if __name__ == "__main__":
    sys.exit(run())

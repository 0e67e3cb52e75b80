"""What the process says to whoever started it."""

__all__ = ["EXIT_ERRORS", "EXIT_FINE", "EXIT_USAGE"]

EXIT_FINE = 0
"""Done; with `check`, no errors."""
EXIT_ERRORS = 1
"""Errors in the journal, warnings with `--strict`, or a disk that failed."""
EXIT_USAGE = 2
"""The command was not understood, or its folders cannot be used."""

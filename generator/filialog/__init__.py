"""filialog: plain-text tank diaries compiled into a lineage site."""

__all__ = ["__version__"]

__version__ = "0.1.0"

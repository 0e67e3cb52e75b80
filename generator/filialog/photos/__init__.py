"""Picture files come in; small copies go out that hold nothing but their pixels.

In: the bytes of picture files, and the journal that speaks of them. Out: for each file a
`Picture` with its renditions or its problem, and an index of what each picture shows. Originals
are read and never written, copied or linked.
"""

from filialog.photos.matching import PictureIndex, Shown, picture_index
from filialog.photos.opening import examine_picture
from filialog.photos.preparing import Prepared, Source, prepare_pictures
from filialog.photos.rendering import FORMATS, WIDTHS, Rendered, render_picture
from filialog.photos.store import PictureFiles, PictureStore
from filialog.photos.values import (
    Picture,
    PictureFacts,
    PictureProblem,
    ProblemKind,
    Rendition,
)

__all__ = [
    "FORMATS",
    "WIDTHS",
    "Picture",
    "PictureFacts",
    "PictureFiles",
    "PictureIndex",
    "PictureProblem",
    "PictureStore",
    "Prepared",
    "ProblemKind",
    "Rendered",
    "Rendition",
    "Shown",
    "Source",
    "examine_picture",
    "picture_index",
    "prepare_pictures",
    "render_picture",
]

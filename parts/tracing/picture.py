"""A picture off the disk: upright, as shades of grey, and how it was taken as far as the file tells."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from PIL import Image, ImageFilter, ImageOps

from parts.errors import Fault, JobError

if TYPE_CHECKING:
    from pathlib import Path

    from numpy.typing import NDArray

MOST = 100_000_000  # dots
LEAST = 600  # dots along the shorter side
ENOUGH = 20_000_000  # dots: of a larger picture four are taken as one
SHARPEST = 1.0  # dots, of the blur that takes the grain off
FOCAL_35, FOCAL = 41989, 37386
"""numbers of the EXIF entries: focal length of a picture 36 mm wide, focal length"""
FULL_FRAME = 43.27  # mm, diagonal of a picture 36 x 24 mm


@dataclass(frozen=True)
class Picture:
    """A picture in shades from 0 to 1."""

    shades: NDArray[np.float32]
    shrunk: int
    """dots of the file to one of these, either way"""
    focal: float | None
    """focal length in dots, where the file tells it"""
    photographed: bool
    """a camera took it; else it may be a scan"""
    seen: Image.Image
    """for the picture that the outlines are drawn on"""


def read_picture(path: Path) -> Picture:
    """Read a picture; JobError where it is none, or too large or small."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            with Image.open(path) as opened:
                _refuse_size(path, opened.size)
                exif = opened.getexif()
                image = ImageOps.exif_transpose(
                    opened.convert("RGB") if opened.mode in ("P", "CMYK", "RGBA") else opened
                )
                image.load()
        except JobError:
            raise
        except Image.DecompressionBombError:
            raise JobError(
                Fault("", f"{path} has too many dots: at most {MOST // 1_000_000} million are read")
            ) from None
        except FileNotFoundError:
            raise JobError(Fault("", f"{path} can't be read: there is no such file")) from None
        except Exception:  # noqa: BLE001 - whatever the library makes of what is no picture
            says = "is not a picture that can be read: JPEG, PNG and TIFF are; save a HEIC as JPEG"
            raise JobError(Fault("", f"{path} {says}")) from None
    grey = image if image.mode.startswith("I;16") else image.convert("L")
    shrunk = 2 if grey.width * grey.height > ENOUGH else 1
    small = grey.reduce(shrunk) if shrunk > 1 and not grey.mode.startswith("I") else grey
    return Picture(_shades(small), shrunk, _focal(exif, small.size), FOCAL in exif.get_ifd(34665), image.convert("RGB"))


def _refuse_size(path: Path, size: tuple[int, int]) -> None:
    if size[0] * size[1] > MOST:
        raise JobError(
            Fault(
                "",
                f"{path} has {size[0] * size[1] / 1e6:.0f} million dots: at most {MOST // 1_000_000} million are read",
            )
        )
    if min(size) < LEAST:
        raise JobError(
            Fault("", f"{path} has {size[0]} x {size[1]} dots: too few to trace, {LEAST} each way are the least")
        )


def _shades(image: Image.Image) -> NDArray[np.float32]:
    if image.mode.startswith("I"):
        values = np.asarray(image, dtype=np.float32)
        return values / np.float32(max(float(values.max()), 1.0))
    return np.asarray(image.filter(ImageFilter.GaussianBlur(SHARPEST)), dtype=np.float32) / np.float32(255)


def _focal(exif: Any, size: tuple[int, int]) -> float | None:  # noqa: ANN401 - the library's own object
    equivalent = exif.get_ifd(34665).get(FOCAL_35)
    if not equivalent:
        return None
    return float(equivalent) / FULL_FRAME * float(np.hypot(*size))

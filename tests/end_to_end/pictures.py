"""Camera files made at test time: a big turned JPEG with a position, and a HEIC."""

from __future__ import annotations

import os
from pathlib import Path

import pillow_heif
from PIL import ExifTags, Image, ImageDraw

SENSOR_PX = (4000, 3000)
RED, GREEN = (220, 20, 20), (20, 160, 60)


def sensor_image() -> Image.Image:
    """Return a 12-megapixel landscape with grain, red at its top left corner."""
    grain = Image.frombytes("L", (500, 375), os.urandom(500 * 375)).resize(SENSOR_PX)
    slope = Image.linear_gradient("L").resize(SENSOR_PX)
    image = Image.merge("RGB", (Image.blend(slope, grain, 0.25), slope, grain))
    mark_corners(image)
    return image


def mark_corners(image: Image.Image) -> None:
    """Paint the top left corner red and the top right one green."""
    pen = ImageDraw.Draw(image)
    pen.rectangle((0, 0, 900, 900), fill=RED)
    pen.rectangle((SENSOR_PX[0] - 900, 0, SENSOR_PX[0], 900), fill=GREEN)


def position_exif() -> Image.Exif:
    """Return EXIF that turns the picture a quarter clockwise and says where it was taken."""
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = 6
    exif[ExifTags.Base.Make] = "A camera"
    gps = exif.get_ifd(ExifTags.IFD.GPSInfo)
    gps[ExifTags.GPS.GPSLatitudeRef] = "N"
    gps[ExifTags.GPS.GPSLatitude] = (15.0, 7.0, 12.0)
    gps[ExifTags.GPS.GPSLongitudeRef] = "W"
    gps[ExifTags.GPS.GPSLongitude] = (23.0, 36.0, 5.0)
    return exif


def make_camera_jpeg(path: Path) -> Path:
    """Write 4000 x 3000 pixels, EXIF orientation 6, GPS position."""
    sensor_image().save(path, "JPEG", quality=90, exif=position_exif())
    with Image.open(path) as check:
        assert check.size == SENSOR_PX and check.getexif().get_ifd(ExifTags.IFD.GPSInfo)
    return path


def make_heic(path: Path) -> Path:
    """Write an upright HEIC of the same size, without grain, with the position still in it."""
    pillow_heif.register_heif_opener()
    exif = position_exif()
    exif[ExifTags.Base.Orientation] = 1
    upright = Image.linear_gradient("L").resize(SENSOR_PX).convert("RGB")
    mark_corners(upright)
    upright = upright.transpose(Image.Transpose.ROTATE_270)
    upright.save(path, "HEIF", quality=70, exif=exif.tobytes())
    return path

"""Pictures as a phone's camera makes them: 12 megapixels, turned, with a position in them."""

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import LATEST_CHECK_OF_WELL_ELBOW
from tests.end_to_end.pictures import GREEN, RED, make_camera_jpeg, make_heic


def photograph(phone, file: Path):
    """Add a picture to the plant rated last and wait until the server has it."""
    phone.open(f"/checks/{LATEST_CHECK_OF_WELL_ELBOW}")
    phone.button("Photo").tap()
    phone.page.locator("input[type=file][capture]").set_input_files(file)
    expect(phone.page.get_by_role("dialog")).to_contain_text("Photo saved on this phone")
    phone.open("/")
    phone.wait_until_sent()


def newest_photo(server) -> bytes:
    """The bytes the server would hand to another phone."""
    newest = "select stored_sha256 from gardens_blob order by id desc limit 1"
    [(stored,)] = server.ask(newest)
    [path] = (server.data / "photos").rglob(f"{stored}.full.jpg")
    return path.read_bytes()


def looks_like(colour, wanted):
    return all(abs(a - b) < 40 for a, b in zip(colour, wanted, strict=True))


@pytest.mark.parametrize(("make", "name"), [(make_camera_jpeg, "a.jpg"), (make_heic, "a.heic")])
def test_a_stored_picture_is_upright_small_and_says_nothing_of_where(
    server, phone, tmp_path, make, name
):
    photograph(phone, make(tmp_path / name))

    picture = newest_photo(server)
    image = Image.open(BytesIO(picture))
    assert image.format == "JPEG"
    assert not image.getexif() and b"Exif" not in picture and b"GPS" not in picture
    assert image.width < image.height <= 1600
    # The sensor's top left corner is red, its top right green: a quarter turn clockwise.
    pixels = image.convert("RGB")
    assert looks_like(pixels.getpixel((image.width - 40, 40)), RED)
    assert looks_like(pixels.getpixel((image.width - 40, image.height - 40)), GREEN)


def test_a_file_that_is_no_picture_is_refused_with_words_and_nothing_else_is_lost(phone, tmp_path):
    text = tmp_path / "letter.jpg"
    text.write_text("Dear reader")
    phone.open(f"/checks/{LATEST_CHECK_OF_WELL_ELBOW}")
    phone.button("Photo").tap()
    phone.page.locator("input[type=file][capture]").set_input_files(text)

    dialog = phone.page.get_by_role("dialog")
    expect(dialog).to_contain_text("could not be read as a picture")
    expect(phone.chip).to_contain_text("All sent")

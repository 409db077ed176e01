"""The list of what has not reached the server, and the file it can all be saved to."""

import json
from pathlib import Path

from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS, LATEST_CHECK_OF_WELL_ELBOW


def rename_without_a_signal(server, phone):
    server.kill()
    phone.open_bed_form(BEDS["Wall bed"]).fill("Bed by the white wall")
    phone.button("Save bed").tap()
    expect(phone.page.get_by_role("heading", name="Bed by the white wall").first).to_be_visible()


def test_it_says_when_everything_has_reached_the_server(phone):
    phone.open("/phone")
    main = phone.page.get_by_role("main")
    expect(main).to_contain_text("everything has reached the server")


def test_it_lists_what_was_entered_without_a_signal(server, phone):
    rename_without_a_signal(server, phone)
    phone.open("/phone")

    main = phone.page.get_by_role("main")
    expect(main.get_by_role("heading", name="Still on this phone")).to_be_visible()
    expect(main).to_contain_text("1 entry waits for the server")
    expect(main).to_contain_text("Bed by the white wall")
    expect(phone.chip).to_contain_text("1 to send")


def test_the_file_holds_what_waits(server, phone, tmp_path):
    rename_without_a_signal(server, phone)
    phone.open("/phone")
    with phone.page.expect_download() as download:
        phone.button("Save all to a file").tap()
    file = tmp_path / download.value.suggested_filename
    download.value.save_as(file)

    content = json.loads(Path(file).read_text(encoding="utf-8"))
    assert file.suffix == ".json"
    text = json.dumps(content, ensure_ascii=False)
    assert "Bed by the white wall" in text and BEDS["Wall bed"] in text


def test_the_file_holds_the_photo_too(server, phone, tmp_path, small_photo):
    server.kill()
    phone.open(f"/checks/{LATEST_CHECK_OF_WELL_ELBOW}")
    phone.add_photo(small_photo)
    phone.open("/phone")
    expect(phone.page.get_by_role("main")).to_contain_text("1 photo waits")
    with phone.page.expect_download() as download:
        phone.button("Save all to a file").tap()
    file = tmp_path / "saved.json"
    download.value.save_as(file)

    assert "/9j/" in file.read_text(encoding="utf-8")  # how base64 of any JPEG begins


def test_the_list_empties_when_the_server_is_back(server, phone):
    rename_without_a_signal(server, phone)
    server.start()
    phone.open("/phone")

    expect(phone.page.get_by_role("main")).to_contain_text("everything has reached the server")
    assert ("Bed by the white wall",) in server.ask("select name from gardens_bed")

"""A lab's own form, given to a phone, matched on its picture and printed with no server.

The forms are made by ReportLab, read back by pypdf field by field, and drawn by poppler.
"""

import io
import re

import pypdf
import pytest
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import CONTENT, LAB, UNSENT_SAMPLE
from tests.end_to_end.lab_forms import BOXES, LEFT_PT, fillable_form, flat_form, page_of
from tests.end_to_end.screen_checks import axe_violations, small_targets
from tests.sheets import paper

OF = {item["id"]: item["set"] for item in CONTENT["mutations"]}
GROWER = next(item["set"] for item in CONTENT["mutations"] if item["kind"] == "garden")
A4_PT = paper.SIZES["a4"]


def give_form(phone, file):
    phone.open(f"/labs/{LAB}/form")
    phone.page.locator("input[type=file]").set_input_files(file)


def tap_at(phone, x_pt, y_pt):
    """Tap the picture of the first page, so many points from its top left corner."""
    picture = phone.page.locator("canvas").first
    expect(picture).to_be_visible()
    wide = picture.bounding_box()["width"]
    at = {"x": x_pt * wide / A4_PT[0], "y": y_pt * wide / A4_PT[0]}
    picture.locator("..").tap(position=at)


def choose(phone, words, sheet="Keep it"):
    phone.page.get_by_role("dialog").get_by_text(words, exact=True).tap()
    phone.button(sheet).tap()
    expect(phone.page.get_by_role("dialog")).to_be_hidden()


def print_form(phone, to):
    phone.open(f"/print?sample={UNSENT_SAMPLE}")
    return phone.make_pdf("The lab's own form", to)


@pytest.fixture
def matched_phone(phone_with_engine, open_browser, tmp_path):
    """A phone on which a fillable form was matched: its guesses taken, one line tapped."""
    phone = open_browser()
    give_form(phone, fillable_form(tmp_path / "request.pdf"))
    expect(phone.page.get_by_text("0 of 10 lines filled")).to_be_visible(timeout=20_000)
    phone.page.get_by_role("button", name="guesses").tap()
    expect(phone.page.get_by_text("10 of 10 lines filled")).to_be_visible()
    tap_at(phone, LEFT_PT + 200, page_of("next_crop_1"))
    expect(phone.page.get_by_role("dialog")).to_contain_text("Next crop")
    choose(phone, "Day of the next crop")
    return phone


def test_it_comes_out_filled_with_no_server_field_by_field(server, matched_phone, tmp_path):
    server.kill()
    pdf = print_form(matched_phone, tmp_path / "filled.pdf")
    said = {name: one.get("/V") for name, one in paper.reader(pdf).get_fields().items()}
    assert said["grower_name"] == GROWER["grower_name"]
    assert said["email"] == GROWER["grower_email"]
    assert said["account_no"] == OF[LAB]["account_number"]
    assert said["sample_id_1"] == "R4TH-B"
    assert said["next_crop_1"].startswith("12 Dec 2026") or "2026-12-12" in said["next_crop_1"]
    assert said["remarks"] == OF[UNSENT_SAMPLE]["note"]
    assert (said["diagnostic"], said["predictive"]) == ("/Off", "/Yes")


def test_what_is_filled_is_seen_on_the_page(matched_phone, tmp_path):
    matched_phone.wait_until_sent()
    pdf = print_form(matched_phone, tmp_path / "filled.pdf")
    (page,) = paper.pictures(pdf, dpi=72)
    assert "R4TH-B" in paper.text(pdf)
    inside = page.convert("L").crop((LEFT_PT + 135, 112 - 17, LEFT_PT + 345, 112 - 3))
    assert inside.getextrema()[0] < 100


def test_a_form_of_ink_only_is_written_where_it_was_tapped(phone, tmp_path):
    give_form(phone, flat_form(tmp_path / "flat.pdf"))
    expect(phone.page.get_by_text("no lines of its own")).to_be_visible(timeout=20_000)
    tap_at(phone, 200, 107)
    choose(phone, "Your name")
    expect(phone.page.get_by_text("1 spot filled")).to_be_visible()
    phone.wait_until_sent()
    pdf = print_form(phone, tmp_path / "filled.pdf")
    first = GROWER["grower_name"].split()[0]
    found = re.search(
        rf'xMin="([\d.]+)".*yMax="([\d.]+)">{first}<', paper.run("pdftotext", pdf, "-bbox")
    )
    left, bottom = map(float, found.groups())
    assert abs(left - 200) < 6 and abs(bottom - 107) < 8


def test_the_matched_form_is_shown_filled_and_has_no_barrier(phone, tmp_path):
    give_form(phone, fillable_form(tmp_path / "request.pdf"))
    phone.page.get_by_role("button", name="guesses").tap()
    assert axe_violations(phone.page) + small_targets(phone.page) == []
    phone.button("Filled with sample R4TH-B").tap()
    expect(phone.page.locator("canvas")).to_have_count(2, timeout=20_000)
    phone.page.get_by_role("button", name=BOXES["diagnostic"]).tap()
    expect(phone.page.get_by_role("dialog")).to_contain_text("Tick it when the answer is")
    phone.page.wait_for_timeout(300)
    assert axe_violations(phone.page) + small_targets(phone.page) == []


def test_a_locked_form_is_refused_in_words_and_nothing_is_kept(phone, tmp_path):
    writer = pypdf.PdfWriter(clone_from=fillable_form(tmp_path / "open.pdf"))
    writer.encrypt("a row of leeks", algorithm="RC4-128")
    box = io.BytesIO()
    writer.write(box)
    (tmp_path / "locked.pdf").write_bytes(box.getvalue())
    with phone.answered_with(422):
        give_form(phone, tmp_path / "locked.pdf")
        expect(phone.page.get_by_role("alert")).to_contain_text("locked with a password")
    phone.page.reload()
    expect(phone.page.get_by_text("Choose the lab's PDF")).to_be_visible()

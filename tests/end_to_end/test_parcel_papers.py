"""All papers of one parcel, from the server and from a phone without one, read back as a lab would.

Outside: zxing-cpp reads the codes, poppler draws the pages, pypdf reads the text.
"""

from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS, UNSENT_SAMPLE
from tests.sheets import paper

PAPERS = ("Sheet for the lab", "Packing slip", "Labels for the bags")


def printed(phone, to):
    phone.open(f"/print?sample={UNSENT_SAMPLE}")
    return {what: phone.make_pdf(what, to / f"{what}.pdf") for what in PAPERS}


def codes_on(pdf):
    return {text for page in paper.pictures(pdf, dpi=200) for text, _ in paper.scanned(page)}


def test_the_phone_prints_the_servers_papers_and_every_code_is_read(
    server, open_browser, phone_with_engine, tmp_path
):
    there = printed(phone_with_engine, tmp_path)
    server.kill()
    phone = open_browser()
    here = printed(phone, tmp_path)
    assert here.keys() == there.keys()
    for what in PAPERS:
        assert paper.flowing(here[what]) == paper.flowing(there[what]), what
        assert codes_on(here[what]) == {f"{server.address}/samples/{UNSENT_SAMPLE}"}, what
        assert "R4TH-B" in paper.text(here[what])
    assert "open on arrival" in paper.flowing(here["Packing slip"]).lower()
    assert phone.complaints == []


def test_labels_begin_at_the_first_free_one_of_the_sheet_that_was_chosen(phone, tmp_path):
    phone.open(f"/print?sample={UNSENT_SAMPLE}")
    phone.page.get_by_text("Which sheet of labels?").first.tap()
    phone.page.get_by_text("99.1 × 57 mm").last.tap()
    more = phone.page.get_by_role("button", name="First free label on the sheet: more")
    more.tap()
    more.tap()
    pdf = phone.make_pdf("Labels for the bags", tmp_path / "labels.pdf")
    left, top = next((x, y) for _, said, _, x, y in paper.letters(pdf) if "R4TH-B" in said)
    # The third of two across is the first of the second row: left half, not the top fifth.
    assert left < paper.SIZES["a4"][0] / 2
    assert top < paper.SIZES["a4"][1] * 4 / 5


def test_a_pot_test_is_set_up_and_its_sheet_printed(phone, tmp_path):
    phone.open(f"/beds/{BEDS['Wall bed']}/pots/new")
    phone.page.get_by_label("What is sown in the pots?").fill("Tomato")
    phone.button("Set up the pots").tap()
    expect(phone.page.get_by_role("heading", name="Pot test")).to_be_visible()
    phone.wait_until_sent()
    phone.button("Print the sheet for the pots").tap()
    phone.button("Make the PDF").tap()
    expect(phone.page.get_by_text("The PDF is ready.")).to_be_visible(timeout=20_000)
    with phone.page.expect_download() as download:
        phone.button("Save").tap()
    download.value.save_as(tmp_path / "pots.pdf")
    said = paper.flowing((tmp_path / "pots.pdf").read_bytes())
    assert "Wall bed" in said and "Tomato" in said

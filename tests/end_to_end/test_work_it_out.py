"""Questions beside the records, answered by the server or by the phone itself."""

import pytest
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS

RAIN_BARREL = BEDS["Rain barrel bed"]


def main(phone):
    return phone.page.get_by_role("main")


def ask_for_compost(phone, depth):
    phone.open(f"/beds/{RAIN_BARREL}")
    phone.page.get_by_role("link", name="Ask about this bed").tap()
    phone.page.get_by_role("link", name="How much compost is that layer?").tap()
    expect(phone.page.get_by_label("Bed", exact=True)).to_have_value(RAIN_BARREL)
    phone.page.get_by_label("Thickness of the layer", exact=True).fill(depth)
    phone.button("Get the answer").tap()


def test_a_question_asked_at_a_bed_is_about_that_bed(phone):
    ask_for_compost(phone, "5")
    expect(main(phone)).to_contain_text("litres", timeout=10_000)
    expect(main(phone)).to_contain_text("at 5 cm")
    expect(main(phone)).to_contain_text("How sure")


def test_what_was_asked_stands_in_the_address(phone):
    ask_for_compost(phone, "7")
    expect(main(phone)).to_contain_text("at 7 cm")
    phone.page.reload()
    expect(main(phone)).to_contain_text("at 7 cm")


def test_a_box_that_cannot_be_read_says_so_beside_it_and_keeps_the_rest(phone):
    ask_for_compost(phone, "900")
    box = phone.page.get_by_label("Thickness of the layer", exact=True)
    expect(main(phone)).to_contain_text("This has to be from 0.5 to 100 cm.")
    expect(box).to_have_value("900")
    expect(box).to_be_focused()
    box.fill("9")
    phone.button("Get the answer").tap()
    expect(main(phone)).to_contain_text("at 9 cm")
    expect(main(phone)).not_to_contain_text("This has to be")


def test_a_question_nobody_knows_says_so(phone):
    phone.open("/work-out/why_is_the_sky_blue")
    expect(main(phone)).to_contain_text("This question is not known here")


@pytest.fixture
def alone(server, open_browser):
    """A phone that has the engine, switched off and on while no server answers."""
    phone = open_browser()
    phone.sign_in()
    phone.wait_for_engine()
    server.stop()
    return open_browser()


def test_with_no_server_the_phone_answers_alone(alone):
    ask_for_compost(alone, "5")
    expect(main(alone)).to_contain_text("Worked out on this phone.", timeout=60_000)
    expect(main(alone)).to_contain_text("at 5 cm")


def test_with_neither_server_nor_engine_the_phone_says_what_to_do(server, open_browser):
    phone = open_browser("--js-flags=--noexpose-wasm")
    phone.sign_in()
    server.stop()
    ask_for_compost(phone, "5")
    expect(main(phone)).to_contain_text("No server answers, and this")
    expect(phone.page.get_by_label("Thickness of the layer", exact=True)).to_have_value("5")

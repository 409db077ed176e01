"""A grower with a new account and nothing else, and how many taps a rating takes."""

import re

from playwright.sync_api import expect

from tests.end_to_end.phone import EVERY_PLANT

NAME, PASSWORD = "benilde", "a-row-of-nine-leeks"


def test_a_new_grower_comes_from_nothing_to_a_first_rating(server, new_phone):
    server.make_account(NAME, PASSWORD)
    phone = new_phone()
    phone.sign_in(NAME, PASSWORD)

    phone.open("/")
    phone.button("Make your garden").tap()
    phone.page.get_by_label("Name of the garden").fill("Behind the school")
    phone.button("Next: the first bed").tap()
    expect(phone.page.get_by_label("Name of the bed")).to_have_value("Bed 1")
    phone.page.get_by_label("Width", exact=True).fill("100")
    phone.page.get_by_label("Length", exact=True).fill("300")
    phone.button("Next: what grows here").tap()
    phone.page.get_by_label("Crop", exact=True).fill("Toma")
    phone.page.get_by_role("option", name=re.compile("Tomato")).tap()
    phone.button("Done: to the bed").tap()
    phone.button(EVERY_PLANT).tap()
    phone.grade(2).tap()

    expect(phone.page.get_by_text("Plant 1: grade 2")).to_be_visible()
    phone.wait_until_sent()
    assert server.ask("select grade from gardens_gallrating order by rated_at desc limit 1") == [
        (2,)
    ]


def test_the_first_rating_takes_three_taps_and_each_further_one_two_at_most(phone):
    phone.open("/")
    phone.tap(phone.page.get_by_role("link", name=re.compile("Wall bed")).first)
    phone.tap(phone.button(EVERY_PLANT))
    phone.tap(phone.grade(6))
    expect(phone.page.get_by_text("Plant 1: grade 6")).to_be_visible()
    assert phone.taps <= 3

    for plant, grade in ((2, 5), (3, 7), (4, 0)):
        before = phone.taps
        phone.tap(phone.grade(grade))
        expect(phone.page.get_by_text(f"Plant {plant}: grade {grade}")).to_be_visible()
        assert phone.taps - before <= 2


def test_every_list_of_an_empty_garden_says_what_goes_there(server, new_phone):
    server.make_account(NAME, PASSWORD)
    phone = new_phone()
    phone.sign_in(NAME, PASSWORD)
    for path in ("/", "/samples", "/print", "/phone", "/needs-you"):
        phone.open(path)
        main = phone.page.get_by_role("main")
        expect(main.get_by_role("heading").first).to_be_visible()
        expect(main, path).to_have_text(re.compile(".{60,}", re.DOTALL))

"""What is known of a bed, as the phone shows it: whole, with its age, also with no server.

What is shown is held against the answer of the server itself; sources against the table of
references, colours against the table of grade colours.
"""

import json
import re

import pytest
from playwright.sync_api import expect

from api.bootstrap.places import ROOT
from tests.end_to_end.demo_garden import BEDS, GARDEN
from tests.end_to_end.sent_records import send_check

RAIN_BARREL = f"/beds/{BEDS['Rain barrel bed']}"
WHY = f"{RAIN_BARREL}/what-we-know"
# WebAssembly switched off, as locked-down phones have it: nothing is worked out here.
NO_WASM = "--js-flags=--noexpose-wasm"
ASK = (
    "async (garden) => (await (await fetch(`/api/v1/gardens/${garden}/briefing`)).json()).briefing"
)


def table(name):
    return json.loads((ROOT / "fixtures" / name).read_text(encoding="utf-8"))


def told_of(phone, bed):
    """What the server says of a bed, asked by the phone's own sign-in."""
    beds = phone.page.evaluate(ASK, GARDEN)["beds"]
    return next(one for one in beds if one["bed"] == BEDS[bed])


def wait_until_told(phone, path=RAIN_BARREL):
    phone.open(path)
    expect(main(phone)).to_contain_text("Worked out", timeout=20_000)


def main(phone):
    return phone.page.get_by_role("main")


def every_text(line):
    yield from (line["words"], line["how_sure"], *line["settle"])
    yield from (reason["words"] for reason in line["because"])


def squares(phone):
    return phone.page.locator("#bed-map svg g[clip-path] rect:not(.bleach)")


def open_folds(phone):
    for fold in main(phone).locator("details:not([open]) > summary").all():
        if fold.is_visible() and "more reason" in fold.inner_text():
            fold.tap()


def test_every_verdict_says_how_sure_why_and_what_would_settle_it(phone):
    wait_until_told(phone, WHY)
    lines = told_of(phone, "Rain barrel bed")["lines"]
    assert {line["about"] for line in lines} >= {"roots", "pattern"}
    open_folds(phone)  # more than a few reasons are a tap away
    shown = main(phone).inner_text()
    missing = [text for line in lines for text in every_text(line) if text not in shown]
    assert missing == []


def test_sources_are_one_tap_away_with_title_year_and_what_they_studied(phone):
    wait_until_told(phone, WHY)
    line = next(line for line in told_of(phone, "Rain barrel bed")["lines"] if line["sources"])
    card = main(phone).get_by_role("article").filter(has_text=line["words"])
    card.get_by_role("button", name=re.compile(r"\d+ sources?")).tap()
    panel = phone.page.get_by_role("dialog")
    for key in line["sources"]:
        source = table("references.json")[key]
        for text in (source["title"], f"{source['authors']} · {source['year']}", source["studied"]):
            expect(panel).to_contain_text(text)


def test_the_mean_stands_with_its_interval_its_plants_and_its_age(phone):
    wait_until_told(phone)
    roots = told_of(phone, "Rain barrel bed")["roots"]
    low, high = roots["interval"]
    mean = f"{roots['mean']:.1f} ({low:.1f} to {high:.1f}), "
    expect(main(phone)).to_contain_text(f"{mean}{roots['n_rated']} of {roots['n_stood']} plants, ")
    expect(main(phone)).to_contain_text(f"From grade {roots['lowest']} to grade {roots['highest']}")


def test_hot_spots_lie_under_the_plants_in_the_colours_of_their_grades(phone):
    wait_until_told(phone)
    surface = told_of(phone, "Rain barrel bed")["surface"]
    assert surface["gate"] == "open"
    expect(squares(phone)).to_have_count(0)
    phone.button("Show hot spots on the map").tap()
    inside = [i for i, ground in enumerate(surface["ground"]) if ground != "outside"]
    expect(squares(phone)).to_have_count(len(inside))
    fills, seen = table("grade_colours.json")["fills"], squares(phone).all()
    for at in (0, len(inside) // 2, -1):
        value = surface["values"][inside[at]]
        dug = surface["ground"][inside[at]] in ("full", "pale")
        wanted = fills[int(value + 0.5)] if dug else re.compile("^url")
        expect(seen[at]).to_have_attribute("fill", wanted)
    phone.button("Take hot spots off the map").tap()
    expect(squares(phone)).to_have_count(0)


def test_ground_where_nobody_dug_is_hatched_and_the_legend_says_so(phone):
    wait_until_told(phone)
    assert "hatch" in told_of(phone, "Rain barrel bed")["surface"]["ground"]
    phone.button("Show hot spots on the map").tap()
    hatched = phone.page.locator("#bed-map svg g[clip-path] rect[fill^='url']")
    expect(hatched.first).to_be_visible()
    expect(main(phone)).to_contain_text("Hatched: nobody dug here")


def test_where_no_map_is_drawn_a_sentence_says_why_and_no_button_offers_it(phone):
    wait_until_told(phone, f"/beds/{BEDS['Well elbow']}")
    told = told_of(phone, "Well elbow")
    assert told["surface"] is None or told["surface"]["gate"] == "closed"
    (why, *_) = [line["words"] for line in told["lines"] if line["about"] == "pattern"]
    expect(main(phone)).to_contain_text(why)
    expect(phone.button("Show hot spots on the map")).to_have_count(0)


def test_what_is_next_is_three_lines_and_all_of_them_one_tap_away(phone):
    wait_until_told(phone, "/")
    briefing = phone.page.evaluate(ASK, GARDEN)
    of_beds = [line for bed in briefing["beds"] for line in bed["lines"] if line["about"] == "next"]
    n = len(briefing["lines"]) + len(of_beds)
    shown = main(phone).locator("section").filter(has_text="What next").last.get_by_role("listitem")
    expect(shown).to_have_count(min(3, n))
    if n > 3:
        phone.button(f"All {n}").tap()
        expect(shown).to_have_count(n)


def test_what_is_said_of_the_whole_garden_opens_to_how_sure_and_why(phone):
    wait_until_told(phone, "/")
    (line,) = phone.page.evaluate(ASK, GARDEN)["lines"]
    row = main(phone).get_by_role("listitem").filter(has_text=line["words"])
    expect(row).to_contain_text("The whole garden")
    row.locator("summary").first.tap()
    for text in every_text(line):
        expect(row).to_contain_text(text)
        expect(row.get_by_text(text)).to_be_visible()
    row.get_by_role("button", name="2 sources").tap()
    expect(phone.page.get_by_role("dialog")).to_contain_text("soil on tools and shoes")


def test_the_demo_hints_at_species_with_what_galled_and_what_did_not(phone):
    wait_until_told(phone, f"/beds/{BEDS['Terrace bed']}")
    hint = told_of(phone, "Terrace bed")["species"]
    for fits in hint["consistent_with"]:
        expect(main(phone).locator("li").filter(has_text=fits["species"]).first).to_be_visible()
    for reason in hint["why"]:
        expect(main(phone)).to_contain_text(reason)


def test_a_crop_that_is_over_is_called_the_last_and_not_said_to_grow(phone):
    phone.open(f"/beds/{BEDS['Terrace bed']}")
    expect(main(phone)).to_contain_text("the last planting · 400 cm × 100 cm")
    expect(main(phone)).not_to_contain_text("growing now")


@pytest.fixture
def told_phone(open_browser):
    """A phone that was told what is known; the browser is closed when it is opened again."""
    phone = open_browser(NO_WASM)
    phone.sign_in()
    wait_until_told(phone)
    return phone


def test_without_server_and_after_a_restart_it_is_still_shown_with_its_age(
    server, open_browser, told_phone
):
    mean = told_of(told_phone, "Rain barrel bed")["roots"]["mean"]
    server.kill()
    phone = open_browser(NO_WASM)
    wait_until_told(phone)
    expect(main(phone)).to_contain_text(f"{mean:.1f} (")
    expect(main(phone)).not_to_contain_text("does not include")
    wait_until_told(phone, WHY)
    phone.button(re.compile(r"\d+ sources?")).tap()
    expect(phone.page.get_by_role("dialog")).to_contain_text("What was read of it")
    assert phone.complaints == []


def test_a_new_rating_is_named_as_not_included_until_the_server_was_asked(
    server, open_browser, told_phone
):
    server.kill()
    phone = open_browser(NO_WASM)
    phone.start_check(BEDS["Wall bed"])
    phone.rate(4)
    wait_until_told(phone, f"/beds/{BEDS['Wall bed']}")
    said = "It does not include 2 entries yet: 1 plant and 1 root check."
    expect(main(phone)).to_contain_text(said)
    expect(main(phone)).to_contain_text("Nobody has rated roots in this bed yet")

    server.start()
    phone.page.reload()
    expect(main(phone)).not_to_contain_text("does not include", timeout=20_000)
    expect(main(phone)).to_contain_text("Mean grade")


def test_with_the_engine_on_the_phone_a_new_rating_is_included_with_no_server(server, open_browser):
    phone = open_browser()
    phone.sign_in()
    phone.open("/phone")
    expect(phone.page.get_by_text("It is on this phone.")).to_be_visible(timeout=60_000)
    wait_until_told(phone)
    server.kill()

    phone = open_browser()
    phone.start_check(BEDS["Wall bed"])
    phone.rate(4)
    wait_until_told(phone, f"/beds/{BEDS['Wall bed']}")
    expect(main(phone)).to_contain_text("Worked out on this phone", timeout=60_000)
    expect(main(phone)).not_to_contain_text("does not include")
    expect(main(phone)).to_contain_text("Mean grade 4.0")
    assert phone.complaints == []


def see_species(phone, told):
    path = f"/beds/{BEDS['Wall bed']}"
    phone.open(path)
    hint = next(line["words"] for line in told["lines"] if line["about"] == "species")
    expect(main(phone)).to_contain_text(hint, timeout=20_000)
    for fits in told["species"]["consistent_with"]:
        expect(main(phone).locator("li").filter(has_text=fits["species"]).first).to_be_visible()
        for reason in fits["because"]:
            expect(main(phone)).to_contain_text(reason)


def test_a_species_is_never_alone_and_stands_with_its_reasons(phone):
    send_check(phone, "peanut", "Peanut")
    told = told_of(phone, "Wall bed")
    assert len(told["species"]["consistent_with"]) >= 2
    see_species(phone, told)
    expect(main(phone)).to_contain_text("Consistent with")
    expect(main(phone).get_by_role("link", name="Send for identification")).to_have_count(0)


def test_what_does_not_fit_the_usual_species_can_be_sent_for_identification(phone):
    send_check(phone, "sweet_potato", "Sweet potato", code="HR Mi")
    told = told_of(phone, "Wall bed")
    assert told["species"]["send_for_identification"]
    see_species(phone, told)
    phone.button("Send for identification").tap()
    expect(phone.page).to_have_url(re.compile(f"/samples/new\\?bed={BEDS['Wall bed']}$"))

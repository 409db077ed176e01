"""Every screen and state, light and dark: axe finds nothing, and a thumb in a glove can hit it.

Outside sources: axe-core's rules for WCAG 2.2 A and AA and its contrast rule for 7:1 (1.4.6 AAA);
target sizes are larger than WCAG 2.2's 2.5.8 and 2.5.5 ask (24 and 44 px).
"""

import re

import pytest
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import (
    BEDS,
    LAB,
    LATEST_CHECK_OF_WELL_ELBOW,
    PLANTINGS,
    POTS,
    POTS_CHECK,
    REPORT,
    SENT_SAMPLE,
    UNSENT_SAMPLE,
)
from tests.end_to_end.journeys import phone_with_a_conflict
from tests.end_to_end.phone import EVERY_PLANT
from tests.end_to_end.screen_checks import (
    DESK_PX,
    GRADE_KEY_PX,
    PHONE_PX,
    TWICE_AS_LARGE,
    WIDER_THAN_SCREEN,
    WIDTHS_PX,
    findings,
    findings_at,
    findings_in_both_schemes,
    settle,
)

STEPS = ("walk", "deep", "feel", "warm", "photo", "bag", "parcel")
CHECK = f"/checks/{LATEST_CHECK_OF_WELL_ELBOW}"
FULL = {
    "garden": ["/", "/garden", "/garden/new", "/nowhere"],
    "beds": [f"/beds/{BEDS['Well elbow']}", f"/beds/{BEDS['Wall bed']}", "/beds/new"],
    "known": [f"/beds/{BEDS[name]}/what-we-know" for name in ("Rain barrel bed", "Fig corner")],
    "forms": [
        f"/beds/{BEDS['Well elbow']}/edit",
        f"/beds/{BEDS['Wall bed']}/plantings/new",
        f"/plantings/{PLANTINGS['Tomato']}",
    ],
    "check": [CHECK],
    "samples": ["/samples", f"/samples/new?bed={BEDS['Fig corner']}", f"/samples/{SENT_SAMPLE}"],
    "parcel": [f"/samples/{UNSENT_SAMPLE}", f"/labs/{LAB}", "/labs/new", "/print"],
    "plan": [f"/beds/{BEDS[name]}/sample" for name in ("Rain barrel bed", "Wall bed")],
    "take": [f"/samples/{UNSENT_SAMPLE}/take?step={step}" for step in STEPS],
    "report": [f"/reports/{REPORT}", f"/samples/{UNSENT_SAMPLE}/report/new"],
    "pots": [f"/checks/{POTS_CHECK}", f"/beds/{BEDS['Wall bed']}/pots/new", f"/pots/{POTS}"],
    "pots sheet": [f"/print?pots={POTS}"],
    "own form": [f"/labs/{LAB}/form"],
    "phone": ["/phone", "/leaving", "/needs-you"],
    "links": ["/helpers", "/devices", "/home-screen", "/ended"],
    "history": [f"/history/{BEDS['Well elbow']}"],
}
EMPTY = ["/", "/garden/new", "/samples", "/print", "/phone", "/leaving", "/needs-you"]


SPOILT = """() => {
  const add = (name, style, text = "") => {
    const one = document.createElement(name);
    one.style.cssText = style;
    one.textContent = text;
    document.querySelector("main").append(one);
    return one;
  };
  add("p", "background:#fff; color:#6b6b6b", "Grey on white, about 5:1");
  for (const sign of "<>") add("button", "width:18px; height:18px; min-height:0; padding:0", sign);
  add("p", "width:900px", "Wider than any phone");
  add("img", "width:20px").src = "/icons/icon.svg";
}"""


SPOILT_SO = [
    "color-contrast-enhanced",
    "target-size",
    "image-alt",
    '320 px: BUTTON "<" 18x18',
    "320 px: MAIN is",
]


def test_the_checks_see_a_barrier_when_there_is_one(phone):
    phone.open("/phone")
    settle(phone)
    phone.page.evaluate(SPOILT)
    found = " ".join(findings(phone))
    for rule in SPOILT_SO:
        assert rule in found, rule


@pytest.mark.parametrize("part", FULL)
def test_a_full_garden_has_no_barrier(phone, part):
    assert findings_at(phone, FULL[part]) == {}


def test_an_empty_house_has_no_barrier(server, new_phone):
    server.make_account("benilde", "a-row-of-nine-leeks")
    phone = new_phone()
    assert findings_at(phone, ["/sign-in", "/pair", "/join"]) == {}
    phone.sign_in("benilde", "a-row-of-nine-leeks")
    assert findings_at(phone, EMPTY) == {}


def test_no_signal_makes_no_barrier(server, phone):
    server.kill()
    check = phone.start_check(BEDS["Wall bed"])
    phone.rate(4)
    assert findings_at(phone, ["/", check, "/print", "/phone", "/sign-in"]) == {}


def test_a_conflict_makes_no_barrier(server, new_phone):
    phone = phone_with_a_conflict(server, new_phone)
    assert findings_at(phone, ["/needs-you", "/phone"]) == {}


def test_a_form_that_complains_has_no_barrier(phone):
    phone.open("/beds/new")
    name = phone.page.get_by_label("Name of the bed")
    expect(name).not_to_have_value("")
    name.fill("")
    phone.button("Next: what grows here").tap()
    expect(phone.page.get_by_text("A name is missing")).to_be_visible()
    assert findings(phone) == []


def test_a_wrong_password_makes_no_barrier(new_phone):
    phone = new_phone()
    phone.open("/sign-in")
    phone.page.get_by_label("Name", exact=True).fill("demo")
    phone.page.get_by_label("Password", exact=True).fill("not it at all")
    with phone.answered_with(401):
        phone.page.get_by_role("button", name="Sign in", exact=True).tap()
        expect(phone.page.get_by_text("do not belong together")).to_be_visible()
    assert findings(phone) == []


@pytest.mark.parametrize("tool", ["Photo", "More", "Help me decide", "Done"])
def test_the_sheets_of_a_check_have_no_barrier(phone, tool):
    phone.open(CHECK)
    phone.button(tool).tap()
    expect(phone.page.get_by_role("dialog")).to_be_visible()
    settle(phone)
    assert findings(phone) == []


@pytest.mark.parametrize("tool", ["Photo", "More", "Help me decide", "Done"])
def test_the_sheets_of_a_check_hold_text_twice_as_large(phone, tool):
    phone.open(CHECK)
    phone.page.evaluate(TWICE_AS_LARGE)
    phone.button(tool).tap()
    expect(phone.page.get_by_role("dialog")).to_be_visible()
    settle(phone)
    assert phone.page.evaluate(WIDER_THAN_SCREEN) == []


def test_hot_spots_and_sources_make_no_barrier(phone):
    bed = f"/beds/{BEDS['Rain barrel bed']}"
    phone.open(bed)
    phone.button("Show hot spots on the map").tap()
    settle(phone)
    assert findings(phone) == []
    phone.open(f"{bed}/what-we-know")
    phone.button(re.compile("sources?$")).tap()
    expect(phone.page.get_by_role("dialog").get_by_role("article").first).to_be_visible()
    settle(phone)
    assert findings(phone) == []
    phone.page.evaluate(TWICE_AS_LARGE)
    assert phone.page.evaluate(WIDER_THAN_SCREEN) == []


@pytest.mark.parametrize("size", [PHONE_PX, DESK_PX], ids=["phone", "desk"])
@pytest.mark.parametrize("part", FULL)
def test_text_twice_as_large_runs_off_no_screen_and_makes_no_barrier(phone, part, size):
    phone.page.set_viewport_size(size)
    found = {}
    for path in FULL[part]:
        phone.open(path)
        phone.page.evaluate(TWICE_AS_LARGE)
        settle(phone)
        found[path] = findings_in_both_schemes(phone)
    assert {path: lines for path, lines in found.items() if lines} == {}


@pytest.mark.parametrize("part", FULL)
def test_a_wide_screen_has_no_barrier(phone, part):
    phone.page.set_viewport_size(DESK_PX)
    found = {}
    for path in FULL[part]:
        phone.open(path)
        settle(phone)
        found[path] = findings_in_both_schemes(phone)
    assert {path: lines for path, lines in found.items() if lines} == {}


@pytest.mark.parametrize("width", WIDTHS_PX)
def test_grade_keys_are_large_enough_for_a_glove(phone, width):
    phone.page.set_viewport_size({"width": width, "height": 640})
    phone.open(CHECK)
    keys = phone.page.get_by_role("button", name=re.compile("^Grade "))
    expect(keys).to_have_count(11)
    boxes = [key.bounding_box() for key in keys.all()]
    assert all(min(box["width"], box["height"]) >= GRADE_KEY_PX - 0.5 for box in boxes), boxes


def test_a_plant_can_be_rated_with_the_keyboard_alone(phone):
    phone.open(f"/beds/{BEDS['Wall bed']}")
    start = phone.button(EVERY_PLANT)
    start.focus()
    phone.page.keyboard.press("Enter")
    expect(phone.grade(0)).to_be_visible()
    phone.page.keyboard.press("7")
    expect(phone.page.get_by_text("Plant 1: grade 7")).to_be_visible()
    phone.page.keyboard.press("x")
    expect(phone.page.get_by_text("Plant 2: grade 10")).to_be_visible()

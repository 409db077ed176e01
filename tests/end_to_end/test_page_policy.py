"""The page may run what the app vouches for and nothing else; and the app itself keeps to that."""

import pytest
from playwright.sync_api import expect

from tests.end_to_end.phone import Phone

# W3C Trusted Types: a text that would become markup or a program is refused before it is either.
TRY = """async ([what]) => {
  const tries = {
    markup: () => { document.createElement("div").innerHTML = "<img src=x>"; },
    program: () => new Worker("/assets/any.js"),
    worker: () => navigator.serviceWorker.register("/other.js"),
    text: () => Function("return 1")(),
    policy: () => trustedTypes.createPolicy("mine", {}),
  };
  await new Promise((later) => setTimeout(later)); // at once, the browser lets a test do anything
  try { await tries[what](); return "allowed"; } catch (error) { return error.name; }
}"""


@pytest.fixture
def own_phone(browser, server):
    """A phone whose console may complain: that is what is asked of it."""
    phone = Phone.in_browser(browser, server)
    phone.sign_in()
    yield phone
    phone.put_away()


def test_a_text_that_slipped_in_becomes_neither_markup_nor_program(own_phone):
    own_phone.open("/phone")
    expect(own_phone.page.get_by_text("It is on this phone.")).to_be_visible(timeout=60_000)
    refused = {
        what: own_phone.page.evaluate(TRY, [what]) for what in ("markup", "program", "worker")
    }
    assert refused == {"markup": "TypeError", "program": "TypeError", "worker": "TypeError"}
    assert own_phone.page.evaluate(TRY, ["text"]) == "EvalError"
    assert own_phone.page.evaluate(TRY, ["policy"]) == "TypeError"


def test_every_policy_that_is_named_is_one_the_app_makes(server, web_app):
    from api.middleware import CONTENT_POLICY

    named = CONTENT_POLICY.split("trusted-types ")[-1].split()
    built = "".join(file.read_text() for file in (web_app / "assets").glob("*.js"))
    assert named
    for name in named:
        assert f"createPolicy(`{name}`" in built, name
    assert built.count("createPolicy(") == len(named)

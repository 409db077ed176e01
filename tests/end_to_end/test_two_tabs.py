"""Two tabs of one browser with 600 ratings to send: one of them talks to the server."""

import time

import pytest

from tests.faults.queued import begin_sending, queue, waiting

N_RATINGS = 600
TAKEOVER_S = 5
WITHOUT_LOCKS = "Object.defineProperty(navigator, 'locks', {value: undefined})"


def listen(page, heard):
    """Note what the server said about each item this tab pushed."""

    def hear(answer):
        if answer.url.endswith("/push"):
            heard.extend(each["status"] for each in answer.json()["results"])

    page.on("response", hear)


@pytest.fixture
def two_tabs(server, phone):
    """Two tabs with no signal; beside them what the server will say to each."""

    def open_both(script=""):
        if script:
            phone.context.add_init_script(script)
        tabs = [phone.page, phone.context.new_page()]
        phone.ear.listen(tabs[1])
        for tab in tabs:
            tab.goto(phone.address)
        phone.wait_until_sent()
        server.kill()
        heard = [[], []]
        for tab, said in zip(tabs, heard, strict=True):
            listen(tab, said)
        queue(phone.page, N_RATINGS)
        server.start()
        return tabs, heard

    return open_both


def wait_until_none_waits(page):
    end = time.monotonic() + 30
    while waiting(page):
        assert time.monotonic() < end
        page.wait_for_timeout(50)


def stored(server):
    return server.ask("select count(*), count(distinct mid) from gardens_journalentry")[0]


def test_one_tab_sends_and_nothing_is_sent_twice(server, two_tabs):
    before = stored(server)[0]
    tabs, heard = two_tabs()
    for tab in tabs:
        begin_sending(tab)
    wait_until_none_waits(tabs[0])
    assert [*heard[0], *heard[1]].count("applied") == N_RATINGS
    assert "duplicate" not in {*heard[0], *heard[1]}
    assert stored(server) == (before + N_RATINGS,) * 2


def test_without_locks_what_both_send_is_still_stored_once(server, two_tabs):
    before = stored(server)[0]
    tabs, _ = two_tabs(WITHOUT_LOCKS)
    for tab in tabs:
        begin_sending(tab)
    wait_until_none_waits(tabs[0])
    assert stored(server) == (before + N_RATINGS,) * 2


def test_the_other_tab_takes_over_at_once_when_the_sending_one_is_closed(server, two_tabs):
    before = stored(server)[0]
    (leader, other), _ = two_tabs()
    reached = []
    leader.route("**/push", lambda route: reached.append(route))  # it hangs there
    begin_sending(leader)
    while not reached:
        leader.wait_for_timeout(20)
    begin_sending(other)
    other.wait_for_timeout(300)
    assert waiting(other) == N_RATINGS
    began = time.monotonic()
    leader.close()
    wait_until_none_waits(other)
    assert time.monotonic() - began < TAKEOVER_S
    assert stored(server) == (before + N_RATINGS,) * 2

from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import connections

from gardens.models import Helper
from tests.conftest import make_account
from tests.phones import Phone, new_id, rating

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def owner():
    return Phone(make_account("grower")).sign_in().open_garden()


def at_once(n, task):
    """Do a task n times in as many threads and return what came of each."""

    def one(number):
        try:
            return task(number)
        finally:
            connections.close_all()

    with ThreadPoolExecutor(n) as pool:
        return list(pool.map(one, range(n)))


def test_a_link_for_three_phones_lets_three_of_eight_in(owner):
    link = owner.make_link(max_devices=3)
    answers = at_once(8, lambda n: Phone(None).open_link(link, f"Helper {n}"))
    assert sorted(one.status_code for one in answers) == [200] * 3 + [403] * 5
    assert {one.json()["code"] for one in answers if one.status_code == 403} == {"link_full"}
    assert Helper.objects.count() == 3


def test_one_code_lets_one_of_four_phones_in(owner):
    code = owner.post("codes", {}).json()["code"]

    def type_in(_):
        phone = Phone(None)
        return phone.post("pair", {"code": code, "device": phone.device})

    assert sorted(one.status_code for one in at_once(4, type_in)) == [200] + [403] * 3


def test_a_link_that_ends_during_pushes_lets_none_in_after_it(owner):
    ana = owner.lend("rater")
    (share,) = owner.get(owner.path("shares")).json()

    def one(number):
        if number == 3:
            return owner.delete(owner.path(f"shares/{share['id']}"))
        return ana.send(rating(new_id()))

    answers = at_once(6, one)
    statuses = [one.json()["results"][0]["status"] for one in answers if one.status_code == 200]
    assert len(statuses) == 5 and set(statuses) <= {"applied", "held"}
    assert ana.send(rating(new_id())).json()["results"][0]["status"] == "held"

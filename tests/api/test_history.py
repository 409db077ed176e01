import pytest

from tests.phones import bed, item, new_id


def history(phone, record, **asked):
    query = "".join(f"&{name}={value}" for name, value in asked.items())
    answer = phone.get(phone.path(f"history?record={record}{query}"))
    assert answer.status_code == 200, answer.content
    return answer.json()


def test_the_changes_of_a_record_are_told_newest_first(phone):
    made = bed(name="North bed")
    phone.push(made)
    ana = phone.lend("editor")
    ana.push(item("patch", "bed", made["id"], base=2, name="Long bed"))
    phone.push(item("delete", "bed", made["id"], base=3), bed())
    gone, renamed, first = history(phone, made["id"])["entries"]
    assert (first["op"], first["by"], first["device"]) == ("put", "grower", "phone")
    assert (renamed["by"], renamed["device"]) == ("Ana", "iPhone")
    assert (renamed["set"], renamed["prev"]) == ({"name": "Long bed"}, {"name": "North bed"})
    assert (gone["op"], gone["set"], gone["status"]) == ("delete", None, "applied")
    assert gone["seq"] > renamed["seq"] > first["seq"]
    assert first["claimed_at"] and first["received_at"]


def test_a_long_history_comes_in_pages_of_fifty(phone):
    made = bed()
    phone.push(made)
    phone.push(*[item("patch", "bed", made["id"], base=2, note=f"{n}") for n in range(60)])
    page = history(phone, made["id"])
    assert (len(page["entries"]), page["more"]) == (50, True)
    rest = history(phone, made["id"], before=page["entries"][-1]["seq"])
    assert (len(rest["entries"]), rest["more"]) == (11, False)


def test_a_record_nobody_knows_has_no_history(phone):
    assert history(phone, new_id()) == {"entries": [], "more": False}


# The same in every process, so that processes which share the tests agree on their names.
UNKNOWN = "01950ffd-1bcb-72c5-a00e-000000000001"


@pytest.mark.parametrize("asked", ["", "?record=x", f"?record={UNKNOWN}&before=-1"])
def test_a_history_of_nothing_is_refused(phone, asked):
    answer = phone.get(phone.path(f"history{asked}"))
    assert (answer.status_code, answer.json()["code"]) == (400, "bad_request")

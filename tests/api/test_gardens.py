from gardens.domain.roles import rights_of
from tests.phones import bed, item


def test_the_list_names_each_garden_with_its_mark(phone):
    (told,) = phone.get("gardens").json()
    rights = told.pop("rights")
    assert told == {
        "id": phone.garden,
        "name": "Behind the mill",
        "head": phone.high,
        "role": "owner",
        "called": "grower",
        "state": "live",
        "expires_at": None,
        "push_until": None,
    }
    assert rights == rights_of("owner")


def test_nothing_new_costs_no_body(phone):
    etag = phone.get("gardens").headers["ETag"]
    answer = phone.get("gardens", **{"If-None-Match": etag})
    assert (answer.status_code, answer.content) == (304, b"")


def test_a_change_in_any_garden_changes_the_tag(phone):
    etag = phone.get("gardens").headers["ETag"]
    phone.push(bed())
    assert phone.get("gardens", **{"If-None-Match": etag}).status_code == 200


def test_a_new_name_is_listed(phone):
    phone.push(item("patch", "garden", phone.garden, base=1, name="Old orchard"))
    assert phone.get("gardens").json()[0]["name"] == "Old orchard"


def test_a_neighbour_sees_no_garden(neighbours_phone):
    assert neighbours_phone.get("gardens").json() == []


def test_a_stranger_is_asked_to_sign_in(stranger):
    assert stranger.get("gardens").status_code == 401

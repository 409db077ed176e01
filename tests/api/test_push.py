import pytest

from gardens.models import Bed, Conflict, GallRating, Garden, JournalEntry
from tests.phones import Phone, bed, item, new_id, planting, rating, root_check


def test_a_pushed_bed_is_stored_with_typed_columns(phone):
    made = bed(name="East bed")
    assert phone.result(made)["status"] == "applied"
    stored = Bed.objects.get(id=made["id"])
    assert (stored.name, stored.width_cm, stored.length_cm) == ("East bed", 120, 400)


def test_every_item_gets_the_next_number_in_its_order(phone):
    results = phone.push(bed(), bed(), bed())["results"]
    assert [one["seq"] for one in results] == [2, 3, 4]


def test_a_bad_item_does_not_hold_up_the_good_ones(phone):
    results = phone.push(bed(), bed(name=""), bed())["results"]
    assert [one["status"] for one in results] == ["applied", "rejected", "applied"]
    assert results[1]["code"] == "bad_value"
    assert results[1]["field"] == "name"
    assert results[1]["message"].startswith("This cannot be empty.")


def test_the_same_change_sent_twice_is_stored_once(phone):
    made = bed()
    first, again = phone.result(made), phone.result(made)
    assert again == {
        "mid": made["mid"],
        "status": "duplicate",
        "was": "applied",
        "seq": first["seq"],
    }
    assert Bed.objects.count() == 1


def test_the_same_change_twice_in_one_push_is_stored_once(phone):
    made = bed()
    results = phone.push(made, made)["results"]
    assert [one["status"] for one in results] == ["applied", "duplicate"]


def test_a_healing_phone_may_send_a_known_change_with_another_base(phone):
    made = item("patch", "garden", phone.garden, base=1, note="wet spring")
    phone.push(made)
    assert phone.result({**made, "base": 0})["status"] == "duplicate"


def test_a_number_used_again_for_another_change_is_refused(phone):
    made = bed()
    phone.push(made)
    changed = {**made, "set": {**made["set"], "name": "Other"}}
    assert phone.result(changed)["code"] == "mid_reused"


def test_a_number_of_another_device_is_refused(phone, tablet):
    made = bed()
    phone.push(made)
    assert tablet.result(made)["code"] == "mid_taken"


def test_different_fields_from_two_devices_are_both_kept(phone, tablet):
    made = bed()
    seen = phone.result(made)["seq"]
    phone.push(item("patch", "bed", made["id"], base=seen, name="Long bed"))
    assert tablet.result(item("patch", "bed", made["id"], base=seen, soil="clay"))["status"] == (
        "applied"
    )
    assert tablet.records("bed")[made["id"]]["doc"]["name"] == "Long bed"
    assert tablet.records("bed")[made["id"]]["doc"]["soil"] == "clay"


def test_the_same_field_from_two_devices_becomes_a_conflict_record(phone, tablet):
    made = bed()
    seen = phone.result(made)["seq"]
    phone.push(item("patch", "bed", made["id"], base=seen, name="Long bed"))
    result = tablet.result(item("patch", "bed", made["id"], base=seen, name="Dry bed"))
    assert result["status"] == "conflict"
    assert result["fields"] == ["name"]
    conflict = phone.records("conflict")[result["conflicts"][0]]["doc"]
    assert conflict["of"] == {"kind": "bed", "id": made["id"]}
    assert (conflict["kept"], conflict["other"]) == ("Long bed", "Dry bed")
    assert conflict["other_by"] == "grower, tablet"
    assert conflict["state"] == "open"


def test_closing_a_conflict_is_an_ordinary_patch_and_says_who_did_it(phone, tablet):
    made = bed()
    seen = phone.result(made)["seq"]
    phone.push(item("patch", "bed", made["id"], base=seen, name="Long bed"))
    conflict = tablet.result(item("patch", "bed", made["id"], base=seen, name="Dry bed"))
    closing = item("patch", "conflict", conflict["conflicts"][0], base=4, state="taken")
    assert phone.result(closing)["status"] == "applied"
    doc = phone.records("conflict")[conflict["conflicts"][0]]["doc"]
    assert (doc["state"], doc["closed_by"]) == ("taken", "grower, phone")


@pytest.mark.parametrize(
    "change",
    [
        item("put", "conflict", new_id(), state="open"),
        item("delete", "conflict", new_id()),
        item("patch", "conflict", new_id(), state="kept", closed_by="me"),
        item("patch", "conflict", new_id(), kept="mine"),
    ],
)
def test_a_phone_can_do_nothing_to_a_conflict_but_close_it(phone, change):
    result = phone.result(change)
    assert result["status"] == "rejected"
    assert result["code"] in ("forbidden", "unknown_field", "not_found")
    assert not Conflict.objects.exists()


def test_fields_the_server_owns_cannot_be_sent(phone):
    photo = {
        "of": {"kind": "bed", "id": new_id()},
        "sha256": "a" * 64,
        "n_bytes": 1,
        "width_px": 1,
        "height_px": 1,
        "taken_at": "2031-06-14T09:30:00Z",
    }
    result = phone.result(item("put", "photo", new_id(), **photo, blob="stored"))
    assert (result["code"], result["field"]) == ("unknown_field", "blob")


def test_a_child_may_arrive_before_its_parent(phone):
    assert phone.result(planting(new_id()))["status"] == "applied"


def test_a_reference_to_another_kind_of_record_is_refused(phone):
    made = bed()
    phone.push(made)
    result = phone.result(root_check(made["id"]))
    assert (result["code"], result["field"]) == ("bad_value", "planting")


def test_a_reference_into_another_garden_is_refused_as_not_found(phone, neighbour):
    others = Phone(neighbour).sign_in().open_garden()
    theirs = bed()
    others.push(theirs)
    result = phone.result(planting(theirs["id"]))
    assert (result["code"], result["field"]) == ("not_found", "bed")


@pytest.mark.parametrize("op", ["put", "patch", "delete"])
def test_a_record_of_another_garden_is_answered_like_one_that_does_not_exist(phone, neighbour, op):
    others = Phone(neighbour).sign_in().open_garden()
    theirs = bed()
    others.push(theirs)
    change = {**bed(theirs["id"]), "op": op}
    if op == "delete":
        del change["set"]
    assert phone.result(change)["code"] == "not_found"
    assert Bed.objects.get(id=theirs["id"]).garden_id.hex == others.garden.replace("-", "")


def test_an_id_of_one_kind_is_not_taken_for_another(phone):
    made = bed()
    phone.push(made)
    assert phone.result(planting(new_id(), record=made["id"]))["code"] == "kind_mismatch"


def test_a_patch_of_a_record_that_never_came_is_not_found(phone):
    assert phone.result(item("patch", "bed", new_id(), name="x"))["code"] == "not_found"


def test_what_was_rejected_can_be_sent_again_unchanged_and_is_judged_anew(phone):
    target = new_id()
    early = item("patch", "bed", target, name="East bed")
    assert phone.result(early)["code"] == "not_found"
    phone.push(bed(target))
    assert phone.result(early)["status"] == "applied"


def test_a_deleted_record_becomes_a_tombstone_and_a_later_edit_brings_it_back(phone):
    made = bed()
    phone.push(made)
    phone.push(item("delete", "bed", made["id"], base=2))
    gone = phone.records()[made["id"]]
    assert (gone["deleted"], gone["doc"]) == (True, {})
    phone.push(item("patch", "bed", made["id"], base=3, note="dug again"))
    back = phone.records()[made["id"]]
    assert (back["deleted"], back["doc"]["name"]) == (False, "North bed")


def test_a_deletion_that_had_not_seen_a_newer_edit_becomes_a_conflict(phone, tablet):
    made = bed()
    seen = phone.result(made)["seq"]
    phone.push(item("patch", "bed", made["id"], base=seen, note="worth keeping"))
    result = tablet.result(item("delete", "bed", made["id"], base=seen))
    assert (result["status"], result["fields"]) == ("conflict", ["deleted"])
    assert phone.records()[made["id"]]["deleted"] is False


def test_a_new_garden_belongs_to_whoever_pushed_it(grower):
    phone = Phone(grower).sign_in().open_garden()
    assert Garden.objects.get(id=phone.garden).owner == grower


def test_a_garden_whose_first_record_is_refused_is_not_made_and_the_rest_waits(grower):
    phone = Phone(grower).sign_in()
    results = phone.push(item("put", "garden", phone.garden, name=""), bed())["results"]
    assert [one["status"] for one in results] == ["rejected", "retry"]
    assert not Garden.objects.exists()


def test_an_unknown_garden_is_only_made_by_its_own_record(grower):
    phone = Phone(grower).sign_in()
    answer = phone.send(bed())
    assert (answer.status_code, answer.json()["code"]) == (404, "not_found")


def test_a_foreign_and_an_unknown_garden_get_the_same_answer(neighbours_phone, neighbour):
    foreign = neighbours_phone.send(bed())
    unknown = Phone(neighbour).sign_in().send(bed())
    assert foreign.status_code == unknown.status_code == 404
    assert foreign.content == unknown.content


def test_a_neighbour_cannot_take_over_a_garden_by_pushing_its_record(neighbours_phone):
    answer = neighbours_phone.send(item("put", "garden", neighbours_phone.garden, name="Mine"))
    assert answer.status_code == 404


def test_a_stranger_is_asked_to_sign_in(stranger):
    answer = stranger.send(bed())
    assert (answer.status_code, answer.json()["code"]) == (401, "login_needed")


def test_a_push_in_the_name_of_another_device_is_refused(phone):
    answer = phone.send(bed(), device=new_id())
    assert (answer.status_code, answer.json()["code"]) == (403, "device_mismatch")


def test_a_push_without_the_token_is_refused(phone):
    phone.csrf = "wrong"
    answer = phone.send(bed())
    assert (answer.status_code, answer.json()["code"]) == (403, "csrf")


def test_a_push_that_another_site_asked_for_is_refused(phone):
    answer = phone.post(
        phone.path("push"), phone.envelope(bed()), **{"Sec-Fetch-Site": "same-site"}
    )
    assert (answer.status_code, answer.json()["code"]) == (403, "wrong_origin")


def test_a_gzipped_push_is_taken(phone):
    assert phone.send(bed(), packed=True).json()["results"][0]["status"] == "applied"


def test_a_phone_newer_than_the_server_is_told_to_keep_its_items(phone):
    answer = phone.send(bed(), schema=2)
    assert answer.json()["results"][0]["status"] == "retry"
    assert answer.json()["results"][0]["code"] == "schema_newer"
    assert not Bed.objects.exists()


def test_a_clock_that_is_wrong_is_written_down_and_changes_nothing(phone):
    phone.send(bed(), sent_at="2001-01-01T00:00:00Z")
    assert JournalEntry.objects.latest("seq").skew_seconds > 120
    assert phone.send(bed()).status_code == 200


def test_the_composites_of_a_rating_come_back_as_they_were_sent(phone):
    made = rating(
        new_id(),
        grade=7,
        root_rot_pct=20,
        produce_damage={"n_examined": 9, "n_damaged": 4, "signs": "knobs"},
    )
    phone.push(made)
    assert GallRating.objects.get(id=made["id"]).grade == 7
    doc = phone.records()[made["id"]]["doc"]
    assert {name: doc[name] for name in made["set"]} == made["set"]

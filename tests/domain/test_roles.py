import pytest

from gardens.domain.records import KINDS
from gardens.domain.roles import ROLES, may, rights_of, shown

GARDEN = {"name": "Behind the mill", "grower_address": "Mill lane 3", "grower_email": "a@b.example"}
CONFLICT = {"of": {"kind": "bed", "id": "x"}, "field": "name", "kept": "A", "other": "B"}


def test_every_role_may_do_what_the_one_before_it_may():
    for kind in KINDS:
        for deed in ("make", "change_own", "change"):
            allowed = [may(role, deed, kind) for role in ROLES]
            assert allowed == sorted(allowed)
            assert allowed[-1]


def test_a_phone_is_told_its_rights_in_full():
    assert rights_of("viewer") == {
        "make": [],
        "change": [],
        "change_own": [],
        "settle": False,
        "links": False,
        "export": False,
        "sheets": ["bed-map", "rating-form", "pots"],
    }
    rater = rights_of("rater")
    assert rater["make"] == rater["change_own"] == ["gall_rating", "photo"]
    assert rater["change"] == []
    assert rights_of("editor") == {**rights_of("owner"), "links": False}
    assert rights_of("owner")["sheets"] == ["bed-map", "rating-form", "pots", "submission"]


@pytest.mark.parametrize("role", ["viewer", "rater"])
def test_below_an_editor_the_growers_address_is_left_out(role):
    told = shown(role, "garden", GARDEN)
    assert told == {"name": "Behind the mill", "grower_address": "", "grower_email": ""}
    assert shown(role, "lab_profile", {"name": "Lab"}) is None
    assert shown(role, "held", {}) is None
    assert shown(role, "conflict", CONFLICT) == CONFLICT
    assert shown(role, "conflict", {**CONFLICT, "field": "grower_phone"}) is None
    about_the_lab = {**CONFLICT, "of": {"kind": "lab_profile", "id": "x"}}
    assert shown(role, "conflict", about_the_lab) is None


def test_an_editor_sees_everything():
    assert shown("editor", "garden", GARDEN) == GARDEN
    assert shown("editor", "lab_profile", {"name": "Lab"}) == {"name": "Lab"}

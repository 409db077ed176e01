import pytest

from gardens.demo.pictures import draw_root_photo
from gardens.models import Bed, Blob, Conflict, Garden, JournalEntry
from gardens.services.photos import store_photo
from tests.gardens.carried import another_server, bring, lived_in, look, taken_away
from tests.phones import Phone, bed, item, photo

pytestmark = pytest.mark.django_db


@pytest.fixture
def older(phone, tablet):
    """A copy of the garden, taken before anything else came."""
    phone.bed = lived_in(phone, tablet)
    return taken_away(phone.garden)


@pytest.fixture
def newer(phone, older):
    """A later copy of the garden, and a server that has the older one."""
    picture = draw_root_photo(seed=4, galled_pct=10)
    named = photo(picture, of={"kind": "bed", "id": phone.bed})
    phone.push(bed(name="South bed"), item("patch", "bed", phone.bed, base=99, name="Old north"))
    phone.push(named)
    sha256 = named["set"]["sha256"]
    store_photo(account=phone.account, garden_id=phone.garden, sha256=sha256, data=picture)
    content = taken_away(phone.garden)
    another_server()
    bring(phone.account, older)
    phone.high = None
    return content


def names():
    return sorted(Bed.objects.filter(deleted=False).values_list("name", flat=True))


def test_an_older_copy_changes_nothing_and_says_what_it_lacks(phone, older):
    phone.push(bed(name="South bed"))
    before = taken_away(phone.garden)

    told = bring(phone.account, older)

    assert (told.state, told.n_changes, told.n_only_here) == ("same", 0, 1)
    assert taken_away(phone.garden) == before


def test_what_a_newer_copy_has_goes_in(phone, newer):
    seen = look(phone.account, newer)
    assert (seen.state, seen.n_changes, seen.n_photos) == ("behind", 3, 1)

    told = bring(phone.account, newer)

    assert (told.done, told.n_conflicts, told.refused) == (True, 0, ())
    assert names() == ["Old north", "South bed"]
    assert Blob.objects.count() == 2
    assert JournalEntry.objects.latest("seq").seq == Garden.objects.get().head


def test_a_newer_copy_brought_twice_changes_nothing_the_second_time(phone, newer):
    bring(phone.account, newer)
    before = taken_away(phone.garden)

    again = bring(phone.account, newer)

    assert (again.state, again.n_changes, again.n_photos) == ("same", 0, 0)
    assert taken_away(phone.garden) == before


def test_the_name_of_who_made_a_change_comes_with_it_and_that_of_who_brought_it(phone, newer):
    bring(phone.account, newer)
    assert Bed.objects.get(name="South bed").author == "grower (brought by grower)"


def test_what_was_changed_here_meanwhile_is_kept_and_the_other_value_is_asked_about(phone, newer):
    tablet = Phone(phone.account, garden=phone.garden).sign_in()
    head = Garden.objects.get().head
    tablet.push(item("patch", "bed", phone.bed, base=head, name="Mine now"))

    told = bring(phone.account, newer)

    assert told.n_conflicts == 1
    assert names() == ["Mine now", "South bed"]
    made = Conflict.objects.latest("seq")
    assert (made.kept, made.other, made.state) == ("Mine now", "Old north", "open")
    assert made.other_by == "grower (brought by grower)"


def test_the_same_change_made_here_is_no_conflict(phone, newer):
    tablet = Phone(phone.account, garden=phone.garden).sign_in()
    head = Garden.objects.get().head
    tablet.push(item("patch", "bed", phone.bed, base=head, name="Old north"))
    assert bring(phone.account, newer).n_conflicts == 0


def test_a_conflict_of_the_copy_comes_as_it_stands_there(phone, tablet):
    phone.push(made := bed())
    older = taken_away(phone.garden)
    for other, note in ((phone, "A"), (tablet, "B")):
        other.push(item("patch", "bed", made["id"], base=2, note=note))
    [conflict] = phone.records("conflict")
    phone.push(item("patch", "conflict", conflict, state="kept"))
    newer = taken_away(phone.garden)
    another_server()
    bring(phone.account, older)

    told = bring(phone.account, newer)

    assert told.n_conflicts == 0
    brought = Conflict.objects.get()
    assert (str(brought.id), brought.state, brought.other) == (conflict, "kept", "B")
    assert Bed.objects.get().note == "A"
    assert bring(phone.account, newer).state == "same"


def test_a_conflict_closed_in_the_copy_is_closed_here_too(phone, tablet):
    made = lived_in(phone, tablet)
    older = taken_away(phone.garden)
    left = next(one for one, told in phone.records("conflict").items() if _is_open(told))
    phone.push(item("patch", "conflict", left, state="kept"))
    newer = taken_away(phone.garden)
    another_server()
    bring(phone.account, older)

    bring(phone.account, newer)

    assert Conflict.objects.get(id=left).state == "kept"
    assert bring(phone.account, newer).state == "same"
    assert Bed.objects.filter(id=made).exists()


def _is_open(told):
    return told["doc"]["state"] == "open"

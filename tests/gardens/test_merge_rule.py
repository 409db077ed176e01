import copy

from hypothesis import given
from hypothesis import strategies as st

from gardens.services.merge import DELETED, Edit, State, merge_deletion, merge_values

FIELDS = ("name", "soil", "note")
VALUES = st.sampled_from(["a", "b", "c"])
DEVICES = ("phone", "tablet", "helper")


@st.composite
def states(draw):
    """A record that has been changed a few times by several devices."""
    state = State({name: draw(VALUES) for name in FIELDS})
    for seq in range(1, draw(st.integers(1, 5)) + 1):
        name = draw(st.sampled_from(FIELDS))
        state.field_versions[name] = [seq, draw(st.sampled_from(DEVICES))]
        state.seq = seq
    state.deleted = draw(st.booleans())
    return state


values = st.dictionaries(st.sampled_from(FIELDS), VALUES, min_size=1)
edits = st.builds(Edit, seq=st.just(10), device=st.sampled_from(DEVICES), base=st.integers(0, 9))


def test_a_value_nobody_else_touched_is_written():
    state = State({"name": "a"}, {"name": [1, "phone"]}, seq=1)
    merged = merge_values(state, {"name": "b"}, Edit(2, "tablet", base=1))
    assert (state.doc["name"], merged.aside, merged.previous) == ("b", {}, {"name": "a"})


def test_a_value_somebody_changed_meanwhile_is_set_aside():
    state = State({"name": "a"}, {"name": [5, "phone"]}, seq=5)
    merged = merge_values(state, {"name": "b"}, Edit(6, "tablet", base=1))
    assert (state.doc["name"], merged.aside) == ("a", {"name": "b"})


def test_two_offline_edits_of_one_device_never_conflict_with_each_other():
    state = State({"name": "a"}, {"name": [5, "phone"]}, seq=5)
    assert merge_values(state, {"name": "b"}, Edit(6, "phone", base=1)).aside == {}


def test_agreeing_is_no_conflict():
    state = State({"name": "b"}, {"name": [5, "phone"]}, seq=5)
    assert merge_values(state, {"name": "b"}, Edit(6, "tablet", base=1)).aside == {}


def test_what_the_server_set_itself_competes_with_nobody():
    state = State({"blob": "stored"}, {"blob": [5, ""]}, seq=5)
    assert merge_deletion(state, Edit(6, "tablet", base=1)).aside == {}
    assert state.deleted


def test_an_edit_beats_a_deletion_it_had_not_seen():
    state = State({"name": "a"}, {DELETED: [5, "phone"]}, deleted=True, seq=5)
    merge_values(state, {"name": "b"}, Edit(6, "tablet", base=1))
    assert (state.deleted, state.doc["name"]) == (False, "b")


def test_deleting_twice_is_deleting_once():
    state = State({"name": "a"}, {"name": [1, "phone"]}, seq=1)
    merge_deletion(state, Edit(2, "phone", base=1))
    merge_deletion(state, Edit(3, "tablet", base=1))
    assert (state.deleted, state.seq) == (True, 2)


@given(states(), edits, values)
def test_no_value_is_ever_lost(state, edit, wanted):
    before = copy.deepcopy(state)
    merged = merge_values(state, wanted, edit)
    for name, value in wanted.items():
        assert value in (state.doc[name], merged.aside.get(name))
        assert before.doc[name] in (state.doc[name], merged.previous.get(name))
    untouched = set(FIELDS) - set(wanted)
    assert all(state.doc[name] == before.doc[name] for name in untouched)


@given(states(), edits, values)
def test_the_same_edit_again_changes_nothing_more(state, edit, wanted):
    merge_values(state, wanted, edit)
    once = copy.deepcopy(state)
    merged = merge_values(state, wanted, edit)
    assert state == once
    assert merged.previous == {}


@given(states(), st.data(), VALUES, VALUES)
def test_edits_of_different_fields_may_come_in_any_order(state, data, first, second):
    one, other = data.draw(st.permutations(FIELDS))[:2]
    ours = Edit(10, "phone", base=state.seq)
    theirs = Edit(11, "tablet", base=state.seq)
    forth, back = copy.deepcopy(state), copy.deepcopy(state)
    merge_values(forth, {one: first}, ours)
    merge_values(forth, {other: second}, theirs)
    merge_values(back, {other: second}, theirs)
    merge_values(back, {one: first}, ours)
    assert forth.doc == back.doc
    assert forth.deleted == back.deleted


@given(states(), edits)
def test_a_deletion_takes_everything_or_is_set_aside(state, edit):
    before = copy.deepcopy(state)
    merged = merge_deletion(state, edit)
    assert state.doc == before.doc
    assert state.deleted or merged.aside == {DELETED: True}

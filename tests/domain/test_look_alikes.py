import pytest

from gardens.domain.errors import DomainError
from gardens.domain.kinds import LOOK_ALIKES
from gardens.domain.look_alikes import look_alike, look_alikes_noted


def test_every_look_alike_that_can_be_noted_has_a_way_to_tell_it(table):
    rows = table("look_alikes")
    assert all(look_alike(key, rows).tell_tale for key in LOOK_ALIKES)


def test_every_way_to_tell_has_a_source_that_is_known(table):
    known = table("references")
    for row in table("look_alikes"):
        assert set(look_alike(row["key"], table("look_alikes")).sources) <= set(known)


def test_the_most_frequent_comes_first(table):
    keys = ["clubroot", None, "legume_nodules", "clubroot", None]
    found = look_alikes_noted(keys, table("look_alikes"))
    assert [(one.look_alike.key, one.n_plants) for one in found] == [
        ("clubroot", 2),
        ("legume_nodules", 1),
    ]


def test_nothing_noted_is_nothing_to_tell(table):
    assert look_alikes_noted([None, None], table("look_alikes")) == ()


def test_an_unknown_one_is_refused(table):
    with pytest.raises(DomainError, match="unknown_look_alike"):
        look_alike("moles", table("look_alikes"))

import pytest

from gardens.domain.errors import DomainError
from gardens.domain.judgements import judged

TABLE = {"least_plants": {"value": 8, "range": [3, 30]}}


def test_a_judged_value_is_read_by_its_name():
    assert judged(TABLE, "least_plants") == 8


def test_an_unknown_name_is_refused():
    with pytest.raises(DomainError, match="unknown_judgement"):
        judged(TABLE, "most_plants")


def test_a_value_changed_beyond_its_range_is_refused():
    with pytest.raises(DomainError, match="judgement_out_of_range"):
        judged({"least_plants": {"value": 2, "range": [3, 30]}}, "least_plants")


def test_every_judgement_says_what_it_means_and_is_marked(table):
    for row in table("judgements").values():
        assert row["mark"] == "judgement" and row["meaning"] and row["unit"]
        assert row["range"][0] <= row["value"] <= row["range"][1]
        assert set(row) == {"value", "unit", "range", "meaning", "mark"}


def test_the_judgements_are_sorted(table):
    assert list(table("judgements")) == sorted(table("judgements"))

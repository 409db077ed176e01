import json
import re
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from gardens.domain import fields
from gardens.domain.errors import RecordError
from gardens.domain.records import KINDS, checked_set
from tests.anything import anything, nearly_right

SENTENCES = json.loads(
    (Path(__file__).resolve().parents[2] / "fixtures" / "sentences.json").read_text("utf-8")
)

field_names = sorted({name for spec in KINDS.values() for name in spec.fields})


def is_taken_or_refused_with_a_sentence(kind, set_, creating):
    try:
        kept = checked_set(kind, set_, creating=creating)
    except RecordError as refused:
        assert refused.code in ("bad_value", "unknown_field", "unknown_kind")
        sentence = SENTENCES[refused.reason].format_map(dict(refused.params))
        json.dumps([sentence, refused.field]).encode("ascii")
        return
    json.dumps(kept, allow_nan=False, ensure_ascii=False).encode("utf-8")
    assert checked_set(kind, kept, creating=creating) == kept


@settings(max_examples=300, deadline=None)
@given(anything, anything, st.booleans())
def test_whatever_is_sent_is_taken_or_refused_and_nothing_else(kind, set_, creating):
    is_taken_or_refused_with_a_sentence(kind, set_, creating)


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from(sorted(KINDS)),
    st.dictionaries(st.sampled_from(field_names), anything, max_size=4),
    st.booleans(),
)
def test_whatever_stands_in_a_field_is_taken_or_refused(kind, set_, creating):
    is_taken_or_refused_with_a_sentence(kind, set_, creating)


@settings(max_examples=500, deadline=None)
@given(nearly_right())
def test_a_record_with_one_thing_wrong_is_taken_or_refused(sent):
    kind, doc = sent
    is_taken_or_refused_with_a_sentence(kind, doc, True)


@settings(max_examples=200, deadline=None)
@given(st.lists(st.lists(st.integers(0, 60), min_size=2, max_size=2), min_size=3, max_size=12))
def test_any_outline_is_taken_or_refused(points):
    set_ = {"shape": {"type": "outline", "points_cm": points}}
    is_taken_or_refused_with_a_sentence("bed", set_, False)


def source_of_the_core():
    folder = Path(fields.__file__).parent
    return "".join(path.read_text("utf-8") for path in sorted(folder.rglob("*.py")))


def test_every_sentence_of_the_catalogue_belongs_to_a_reason_the_core_gives():
    source = source_of_the_core()
    assert [reason for reason in SENTENCES if f'"{reason}"' not in source] == []


def test_every_reason_and_code_the_core_gives_has_a_sentence():
    raised = r'(?:Refusal|DomainError)\(\s*"(\w+)"|RecordError\([^"]*"\w+",[^"]*"(\w+)"'
    found = {one or other for one, other in re.findall(raised, source_of_the_core())}
    assert len(found) > 25
    assert found - set(SENTENCES) == set()

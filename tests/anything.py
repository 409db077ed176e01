"""Values nobody meant to send, and records with one thing wrong."""

import json

from hypothesis import strategies as st

from gardens.domain.records import KINDS
from tests.domain.record_examples import RIGHT

anything = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(alphabet=st.characters(exclude_categories=()), max_size=90),
    lambda inner: (
        st.lists(inner, max_size=5) | st.dictionaries(st.text(max_size=12), inner, max_size=5)
    ),
    max_leaves=12,
)


@st.composite
def nearly_right(draw):
    """A right record with one value, or one part of one, put out of order."""
    kind = draw(st.sampled_from(sorted(RIGHT)))
    doc = json.loads(json.dumps(RIGHT[kind]))
    name = draw(st.sampled_from(sorted(KINDS[kind].fields)))
    value = doc.get(name)
    if isinstance(value, dict) and draw(st.booleans()):
        value[draw(st.sampled_from(sorted(value)))] = draw(anything)
    else:
        doc[name] = draw(anything)
    return kind, doc

import ast
import json

from tests.house.scanners import COMMENT, cited, forbidden_words, strings, unsupported
from tests.house.tree import ROOT, name_of, written

TABLES = [p for p in written(".json", under="fixtures/") if p.name != "references.json"]
REFERENCES = ROOT / "fixtures" / "references.json"


def said_in_python(text):
    """Every string but docstrings."""
    tree = ast.parse(text)
    docs = {id(n.value) for n in ast.walk(tree) if isinstance(n, ast.Expr)}
    return [
        n.value
        for n in ast.walk(tree)
        if isinstance(n, ast.Constant) and isinstance(n.value, str) and id(n) not in docs
    ]


def promises(paths, read):
    found = {name_of(p): [w for s in read(p) for w in forbidden_words(s)] for p in paths}
    return {name: words for name, words in found.items() if words}


def test_no_sentence_of_the_phone_app_promises_what_nobody_knows():
    sentences = written(".ts", under="frontend/src/text/")
    screens = written(".svelte", under="frontend/src/")
    assert promises(sentences, lambda p: [COMMENT.sub(" ", p.read_text())]) == {}
    assert promises(screens, lambda p: [visible(p.read_text())]) == {}


def visible(svelte):
    """The markup of a component: what is left without its script and style."""
    return COMMENT.sub(" ", svelte.split("</script>")[-1].split("<style")[0])


def test_no_table_promises_what_nobody_knows():
    assert promises(TABLES, lambda p: strings(json.loads(p.read_text()))) == {}


def test_no_printed_page_promises_what_nobody_knows():
    sheets = written(".py", under="gardens/sheets/")
    assert promises(sheets, lambda p: said_in_python(p.read_text())) == {}


def test_a_promise_is_seen():
    assert forbidden_words("This bed is Clean and safe.") == ["clean", "safe"]
    assert forbidden_words("Cleaned roots, unsafe, obscured, secure") == []


def test_every_source_in_the_tables_is_in_the_references():
    known = set(json.loads(REFERENCES.read_text()))
    lost = {name_of(p): unsupported(json.loads(p.read_text()), known) for p in TABLES}
    assert {name: keys for name, keys in lost.items() if keys} == {}


def test_every_reference_has_a_title():
    assert all(one.get("title") for one in json.loads(REFERENCES.read_text()).values())


def test_a_source_that_leads_nowhere_is_seen():
    table = {"a": {"source": "nowhere"}, "b": [{"bounds_source": "known"}, {"sources": ["lost"]}]}
    assert unsupported(table, {"known"}) == ["nowhere", "lost"]


def test_a_row_from_memory_needs_no_source():
    assert unsupported({"source": None, "from_memory": True}, set()) == []
    assert cited({"source": ["a", "b"], "note": "x"}) == ["a", "b"]

import ast
import json
import re

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


LITERAL = re.compile(r"""\"(?:[^"\\\n]|\\.)*\"|'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`""")


def visible(svelte):
    """The markup of a component and the texts in its script; names and style are left out."""
    script, _, rest = svelte.rpartition("</script>")
    texts = LITERAL.findall(COMMENT.sub(" ", script))
    return "\n".join([*texts, COMMENT.sub(" ", rest.split("<style")[0])])


def test_no_table_promises_what_nobody_knows():
    assert promises(TABLES, lambda p: strings(json.loads(p.read_text()))) == {}


def test_no_printed_page_and_no_answer_promises_what_nobody_knows():
    speaking = written(".py", under="gardens/") + written(".py", under="api/")
    assert {"gardens/sheets/words.py", "api/errors.py", "api/sync/protocol.py"} <= {
        name_of(p) for p in speaking
    }
    assert promises(speaking, lambda p: said_in_python(p.read_text())) == {}


def test_the_texts_in_a_components_script_are_seen_and_its_names_are_not():
    script = """<script>const safe = clean("a cured bed", `${n} safe beds`, 'it\\'s clean');"""
    found = visible(f"{script} // guaranteed\n</script><p>Free</p><style>.clean {{}}</style>")
    assert forbidden_words(found) == ["cured", "safe", "clean"]


def test_a_promise_is_seen():
    assert forbidden_words("This bed is Clean and safe.") == ["clean", "safe"]
    assert forbidden_words("Cleaned roots, unsafe, obscured, secure") == []


def test_every_source_in_the_tables_is_in_the_references():
    known = set(json.loads(REFERENCES.read_text()))
    lost = {name_of(p): unsupported(json.loads(p.read_text()), known) for p in TABLES}
    assert {name: keys for name, keys in lost.items() if keys} == {}


def test_every_reference_has_a_title_and_says_in_one_sentence_what_was_studied():
    references = json.loads(REFERENCES.read_text())
    assert all(one.get("title") for one in references.values())
    told = {key: one.get("studied", "") for key, one in references.items()}
    assert {key: words for key, words in told.items() if not one_sentence(words)} == {}


def one_sentence(words):
    """Whether the words say something, fit on two lines of a phone, and end."""
    return bool(re.fullmatch(r"\S.{8,108}\.", words))


def test_what_was_studied_is_missed_when_it_is_absent_long_or_without_an_end():
    assert one_sentence("Okra in field plots in Iran with M. javanica.")
    assert not any(map(one_sentence, ("", "Okra in field plots", f"Okra in {'many ' * 22}plots.")))


def test_a_source_that_leads_nowhere_is_seen():
    table = {"a": {"source": "nowhere"}, "b": [{"bounds_source": "known"}, {"sources": ["lost"]}]}
    assert unsupported(table, {"known"}) == ["nowhere", "lost"]


def test_a_row_from_memory_needs_no_source():
    assert unsupported({"source": None, "from_memory": True}, set()) == []
    assert cited({"source": ["a", "b"], "note": "x"}) == ["a", "b"]

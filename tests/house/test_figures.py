from tests.bench.figures import faster, percentile, table, within
from tests.bench.jsbytes import first_load


def test_a_budget_that_is_missed_is_told():
    assert within("a", 91, 90, "kB").kept is False
    assert within("a", 90, 90, "kB").kept is True
    assert "MISSED" in table([within("a", 91, 90, "kB")])


def test_a_figure_that_is_not_fast_enough_is_told():
    assert faster("a", 1.0, 9.9, "b", 10).kept is False
    assert faster("a", 1.0, 10.0, "b", 10).kept is True


def test_the_95th_percentile_of_twenty_is_the_nineteenth():
    assert percentile(list(range(1, 21)), 0.95) == 19
    assert percentile([5.0], 0.95) == 5.0


def test_the_first_load_follows_static_imports_and_leaves_late_ones(tmp_path):
    (tmp_path / "assets").mkdir()
    (tmp_path / "index.html").write_text('<script type="module" src="/assets/index-1.js"></script>')
    (tmp_path / "assets/index-1.js").write_text(
        'import{a}from"./a-1.js";import"./b-1.js";import("./late-1.js")'
    )
    for name in ("a-1.js", "b-1.js", "late-1.js"):
        (tmp_path / "assets" / name).write_text('import{x}from"./index-1.js"')
    assert {p.name for p in first_load(tmp_path)} == {"index-1.js", "a-1.js", "b-1.js"}

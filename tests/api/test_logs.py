import logging
import sys

from api.logs import WithoutWords


def written(error):
    try:
        raise error
    except type(error):
        record = logging.LogRecord("x", logging.ERROR, "", 1, "it failed", None, sys.exc_info())
    record.exc_text = str(error)  # as a handler before this one leaves it
    return WithoutWords().format(record)


def test_an_error_is_told_by_its_kind_and_its_place():
    text = written(ValueError("DETAIL: Failing row contains (wet corner, Ilda)"))
    assert "ERROR x: it failed\nbuiltins.ValueError\n" in text
    assert f'File "{__file__}", line ' in text
    assert "Ilda" not in text and "wet" not in text


def test_errors_that_lead_to_each_other_are_told_once():
    first, second = KeyError("Ilda"), RuntimeError("Ilda")
    first.__cause__, second.__cause__ = second, first
    text = written(first)
    assert text.count("builtins.KeyError") == text.count("builtins.RuntimeError") == 1
    assert "Ilda" not in text

"""Asks one question of a small garden with the project's own tables."""

from gardens.domain.asked import ask
from tests.domain.briefed import TABLES, TODAY


def asked(question, records=(), today=TODAY, **typed):
    """The answer; every box as text, as a person fills it."""
    boxes = {name: str(value) for name, value in typed.items()}
    return ask(question, boxes, list(records), TABLES, today)


def words(answer, code):
    """The words of the line with a code."""
    (found,) = [line["words"] for line in answer["lines"] if line["code"] == code]
    return found


def codes(answer):
    """The codes of an answer's lines, in order."""
    return [line["code"] for line in answer["lines"]]


def cells(answer, name):
    """What is known of one of the things compared, by label."""
    (found,) = [row for row in answer["rows"] if row["name"] == name]
    return {cell["label"]: cell["words"] for cell in found["cells"]}

"""Gardens and answers for the questions about what to grow."""

from tests.domain.briefed import bed, check, planting, rating


def named(answer):
    """The names of the things an answer compares, in order."""
    return [row["name"] for row in answer["rows"]]


def galled(crop_key, *grades, **changed):
    """A bed whose one crop was dug and has these grades."""
    crop = {"crop": crop_key, "crop_key": crop_key, **changed}
    ratings = [rating(n, grade) for n, grade in enumerate(grades)]
    return [bed(), planting(**crop), check(), *ratings]

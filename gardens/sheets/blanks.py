"""Which lines of a parcel's sheet would print empty, so that a person can fill them before.

Asks the very rows that are printed. Not for lines that a sheet may well leave to the pen.
"""

from collections.abc import Mapping, Sequence

from gardens.sheets import fonts
from gardens.sheets.answers import BOX, TICKED, TWO_LINES
from gardens.sheets.parcel_page import grower_rows, lab_rows
from gardens.sheets.sample_page import bag_rows, ground_rows
from gardens.sheets.values import Sample, Submission

# Asked on paper only, known on the day of posting, or nothing a lab waits for.
_TO_THE_PEN = {"Sent on", "Kept so far", "Seen since", "Spot", "Crops before"}
_OF_THE_LAB = {"Lab", "Address", "Account number"}
_REACH = {"Phone", "E-mail"}  # one of them is enough
_ROOM = 10_000  # pt; what does not fit is not empty
_Rows = Sequence[tuple[str, str]]


def blanks(submission: Submission, sample_ids: Sequence[str]) -> dict[str, object]:
    """The labels of the lines that would print empty.

    Parameters
    ----------
    submission : Submission
        The parcel.
    sample_ids : sequence of str
        Ids of its samples, in their order.

    Returns
    -------
    dict
        ``grower`` and ``lab``: labels as printed; ``samples``: the same by the id of a sample.
        Without a lab, ``lab`` is that one line.
    """
    fonts.register()
    units = submission.units
    return {
        "grower": _of_the_grower(grower_rows(submission, _ROOM)),
        "lab": (
            [label for label in _empty(lab_rows(submission.lab, _ROOM)) if label in _OF_THE_LAB]
            if submission.lab
            else ["Lab"]
        ),
        "samples": {
            each: [*_empty([*bag_rows(sample, units), *ground_rows(sample)]), *_beside(sample)]
            for each, sample in zip(sample_ids, submission.samples, strict=True)
        },
    }


def _of_the_grower(rows: _Rows) -> list[str]:
    empty = _empty(rows)
    return [label for label in empty if label not in _REACH or set(empty) >= _REACH]


def _beside(sample: Sample) -> list[str]:
    """What is asked outside the rows: the text below them, and the sketch."""
    asked: Mapping[str, object] = {
        "Treatments": sample.treatments.strip(),
        "Cores on the sketch": sample.core_places,
    }
    return [label for label, answer in asked.items() if not answer]


def _empty(rows: _Rows) -> list[str]:
    return [label for label, said in rows if label not in _TO_THE_PEN and _is_empty(said)]


def _is_empty(said: str) -> bool:
    if said.startswith((BOX, TICKED)):
        return TICKED not in said
    return not said.replace(TWO_LINES, "").strip()

"""Finds how the form of a parcel's lab is filled, from the records of one garden as they travel."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

from gardens.domain.errors import DomainError
from gardens.sheets.gather_parcel import gather_submission
from gardens.sheets.shelf import Shelf
from gardens.sheets.values import Submission


def gather_form(
    records: Iterable[Mapping[str, Any]], sample_ids: Sequence[str], *, origin: str, now: datetime
) -> tuple[Mapping[str, Any], Submission]:
    """The matching of the lab's form, and the parcel it is filled for.

    Parameters
    ----------
    records : iterable of Mapping
        The garden with its samples, labs, beds and plantings.
    sample_ids : sequence of str
        One or more samples, in the order of the form's rows.
    origin : str
        Address of the server, without a slash at its end.
    now : datetime
        For a sample not lifted yet; any time zone.

    Returns
    -------
    (Mapping, Submission)
        A checked ``lab_profile.form``, and the parcel.

    Raises
    ------
    DomainError
        ``form_not_matched`` without a lab or a form, and what ``gather_submission`` refuses.
    """
    kept = list(records)
    parcel = gather_submission(kept, sample_ids, origin=origin, now=now)
    shelf = Shelf(kept)
    lab = shelf.find(
        "lab_profile", shelf.asked("soil_sample", sample_ids[0], "samples")["lab_profile"]
    )
    if lab is None or lab["form"] is None:
        raise DomainError("form_not_matched")
    return lab["form"], parcel

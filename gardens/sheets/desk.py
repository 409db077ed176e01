"""One counter for whoever runs the core without its Python: a name and plain arguments in.

The phone asks here; what it gets is what the server's own calls make. Not for HTTP, and not
for finding the records: whoever asks brings them.
"""

from base64 import b64decode
from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any, Literal

from gardens.domain.asked import ask
from gardens.domain.briefing import briefing
from gardens.domain.errors import DomainError
from gardens.sheets import gather_check, gather_parcel
from gardens.sheets.bed_map import bed_map
from gardens.sheets.blanks import blanks
from gardens.sheets.gather_form import gather_form
from gardens.sheets.gather_pots import gather_pots
from gardens.sheets.label_sheets import label_sheet, sheets_told
from gardens.sheets.labels import labels
from gardens.sheets.packing_slip import packing_slip
from gardens.sheets.pots_sheet import pots_sheet
from gardens.sheets.rating_form import rating_form
from gardens.sheets.submission import submission_sheet
from gardens.sheets.values import Paper, Submission

Arguments = Mapping[str, Any]
Tables = Mapping[str, Any]


def answer(name: str, args: Arguments, tables: Tables) -> object:
    """What one question comes to.

    Parameters
    ----------
    name : str
        One of ``QUESTIONS``.
    args : Mapping
        ``records`` (as they travel) and what the question needs: ``today`` and maybe
        ``holidays``;
        ``question``, ``typed`` and ``today``; ``samples``, ``now``
        and ``origin``; ``root_check`` and ``origin``; ``planting`` and ``scale``; for labels
        ``sheet`` and ``first``; for a lab's form ``pdf`` (base 64); for every other sheet
        ``paper``.
    tables : Mapping
        Every reference table by its name.

    Returns
    -------
    object
        The bytes of a PDF, or the briefing or an answer as JSON holds it.

    Raises
    ------
    DomainError
        ``unknown_question``, ``bad_question`` when an argument is missing, or what the sheet
        refuses.
    """
    if name not in QUESTIONS:
        raise DomainError("unknown_question", name=name)
    try:
        return QUESTIONS[name](args, tables)
    except KeyError as missing:
        raise DomainError("bad_question", field=str(missing.args[0])) from missing


def _briefing(args: Arguments, tables: Tables) -> object:
    return briefing(args["records"], tables, args["today"], args.get("holidays"))


def _ask(args: Arguments, tables: Tables) -> object:
    return ask(args["question"], args["typed"], args["records"], tables, args["today"])


def _submission_sheet(args: Arguments, tables: Tables) -> bytes:
    return submission_sheet(_parcel(args), _paper(args))


def _submission_blanks(args: Arguments, tables: Tables) -> object:
    return blanks(_parcel(args), args["samples"])


def _label_sheets(args: Arguments, tables: Tables) -> object:
    return sheets_told()


def _labels(args: Arguments, tables: Tables) -> bytes:
    return labels(_parcel(args), label_sheet(args["sheet"]), args.get("first", 1))


def _packing_slip(args: Arguments, tables: Tables) -> bytes:
    return packing_slip(_parcel(args), _paper(args))


def _pots_sheet(args: Arguments, tables: Tables) -> bytes:
    records, planting, origin = args["records"], args["planting"], args["origin"]
    values = gather_pots(records, planting, origin=origin, judgements=tables["judgements"])
    return pots_sheet(values, _paper(args))


# Reading PDFs brings a large package along; a phone that prints anything else need not wait.
def _form_fields(args: Arguments, tables: Tables) -> object:
    from gardens.sheets.form_read import read_form

    return read_form(_file(args))


def _lab_form(args: Arguments, tables: Tables) -> bytes:
    from gardens.sheets.form_fill import fill_form

    records, samples = args["records"], args["samples"]
    now = datetime.fromisoformat(args["now"])
    form, parcel = gather_form(records, samples, origin=args["origin"], now=now)
    return fill_form(_file(args), form, parcel)


def _file(args: Arguments) -> bytes:
    try:
        return b64decode(args["pdf"], validate=True)
    except (ValueError, TypeError) as error:
        raise DomainError("form_damaged") from error


def _parcel(args: Arguments) -> Submission:
    now = datetime.fromisoformat(args["now"])
    return gather_parcel.gather_submission(
        args["records"], args["samples"], origin=args["origin"], now=now
    )


def _bed_map(args: Arguments, tables: Tables) -> bytes:
    records, check, origin = args["records"], args["root_check"], args["origin"]
    values = gather_check.gather_bed_map(records, check, origin=origin, scales=tables["scales"])
    return bed_map(values, _paper(args))


def _rating_form(args: Arguments, tables: Tables) -> bytes:
    records, planting, scale = args["records"], args["planting"], args["scale"]
    values = gather_check.gather_rating_form(records, planting, scale, scales=tables["scales"])
    return rating_form(values, _paper(args))


def _paper(args: Arguments) -> Paper:
    paper: Literal["a4", "letter"] = "letter" if args["paper"] == "letter" else "a4"
    return paper


QUESTIONS: Mapping[str, Callable[[Arguments, Tables], object]] = {
    "briefing": _briefing,
    "ask": _ask,
    "submission_sheet": _submission_sheet,
    "submission_blanks": _submission_blanks,
    "bed_map": _bed_map,
    "rating_form": _rating_form,
    "label_sheets": _label_sheets,
    "labels": _labels,
    "packing_slip": _packing_slip,
    "pots_sheet": _pots_sheet,
    "form_fields": _form_fields,
    "lab_form": _lab_form,
}

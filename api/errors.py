"""Problem documents (RFC 9457): every refusal is a code, a status and a sentence a person can use.

Not for the results of single items in a push: those are codes inside a 200 answer.
"""

import logging
from http import HTTPStatus
from typing import Any

from django.core.exceptions import DisallowedHost
from django.db import OperationalError
from django.http import HttpResponse, JsonResponse
from rest_framework import exceptions
from rest_framework.response import Response

log = logging.getLogger(__name__)

# code: (status, what happened; what is safe; what to do)
PROBLEMS: dict[str, tuple[int, str]] = {
    "bad_json": (
        400,
        "The request could not be read as JSON. Nothing was changed. Send it again; if it fails "
        "again, send its items one at a time to find the one at fault.",
    ),
    "bad_request": (
        400,
        "The request does not have the form the server expects. Nothing was changed. "
        "Correct the field named here and send it again.",
    ),
    "bad_host": (
        400,
        "The server does not answer to the name in this address. Nothing was changed. "
        "Add the name to KNOTBED_ALLOWED_HOSTS and start the server again.",
    ),
    "login_needed": (
        401,
        "You are not signed in. Everything on this phone is kept. Sign in to go on sending.",
    ),
    "login_wrong": (
        401,
        "This name and password do not belong together. Nothing on this phone was changed. "
        "Check both and try again.",
    ),
    "csrf": (
        403,
        "The request did not prove that it comes from this app. Nothing was changed. "
        "The app fetches a new token and tries again by itself.",
    ),
    "wrong_origin": (
        403,
        "The browser is at another address than the server was told, or another site asked for "
        "this. Nothing was changed. If a web server stands in front, let it pass on Host and set "
        "X-Forwarded-Proto; README.md says how.",
    ),
    "device_mismatch": (
        403,
        "The request names another phone than the one that signed in. Nothing was changed. "
        "Sign in again on this phone.",
    ),
    "pair_token_ended": (
        403,
        "This pairing code is used up, too old or damaged. Nothing on this phone was changed. "
        "Make a new code on the phone that is signed in.",
    ),
    "link_ended": (
        403,
        "This link has ended, or a part of it is missing. Nothing on this phone was changed. "
        "Open the whole link again, or ask the grower for a new one.",
    ),
    "link_full": (
        403,
        "As many phones as this link is for have used it. Nothing on this phone was changed. "
        "Ask the grower for a new link.",
    ),
    "share_ended": (
        403,
        "The link that let you into this garden has ended. Everything on this phone is kept. "
        "Save it to a file for the grower, or ask for a new link.",
    ),
    "forbidden": (
        403,
        "Your link to this garden does not allow this. Nothing was changed. "
        "Ask the grower, who can make a link that does.",
    ),
    "not_found": (
        404,
        "There is nothing here that this account may see. Nothing was changed. "
        "Check the address, or sign in with the account that owns the garden.",
    ),
    "not_allowed": (405, "This address does not do that. Nothing was changed."),
    "history_changed": (
        409,
        "The server was put back to an earlier backup. Everything on this phone is kept. "
        "The app sends it again by itself.",
    ),
    "no_photo_record": (
        409,
        "No record of this garden names this photo yet. The photo is kept on the phone. "
        "Send the record first, then the photo.",
    ),
    "archive_clashes": (
        409,
        "Records of this file belong to another garden on this server. Nothing was brought. "
        "Take the garden away again from where it came, and bring that file.",
    ),
    "no_paper_record": (
        409,
        "No record of this garden names this paper yet. The paper is kept on the phone. "
        "Send the record first, then the paper.",
    ),
    "cursor_too_old": (
        410,
        "This phone was away so long that it must read the garden afresh. What it has not sent "
        "is kept. The app reads the garden again by itself.",
    ),
    "batch_too_large": (
        413,
        "Too much was sent at once. Nothing was changed. Send fewer items at a time.",
    ),
    "blob_too_large": (
        413,
        "This photo is too large. Its record is kept. Send a smaller copy of the photo.",
    ),
    "archive_too_large": (
        413,
        "This file, or what is packed in it, is larger than the server takes. Nothing was "
        "brought, and the file is as it was. Keep it, and tell whoever runs the server.",
    ),
    "not_archive": (
        415,
        "This is not sent as a garden's file. Nothing was brought. Send it as application/zip.",
    ),
    "paper_too_large": (
        413,
        "This paper is larger than 10 MB. Its record is kept. Save it smaller, or keep the pages "
        "that matter, and add it again.",
    ),
    "not_pdf": (
        415,
        "This file is not a PDF. Its record is kept. Save the paper as PDF, or add a photo of it.",
    ),
    "bad_image": (
        415,
        "This file is not a photo the server can open. Its record is kept. "
        "Take the photo again or send it as JPEG.",
    ),
    "not_json": (
        415,
        "The request is not JSON. Nothing was changed. Send it as application/json.",
    ),
    "archive_unreadable": (
        422,
        "This is not a garden's file, or it was damaged on its way. Nothing was brought, and the "
        "file is as it was. Take the garden away again and bring that file.",
    ),
    "archive_foreign": (
        422,
        "This file holds something that does not belong in a garden's file. Nothing was brought. "
        "Bring the file as it was saved, not packed again.",
    ),
    "archive_newer": (
        422,
        "This file was saved by a newer version. Nothing was brought, and the file is as it was. "
        "Update this server, then bring it.",
    ),
    "saved_file_unreadable": (
        422,
        "This is not a file a phone saved in Knotbed, or it was damaged on its way. Nothing was "
        "brought, and the file is as it was. Ask for it to be saved and sent again.",
    ),
    "hash_mismatch": (
        422,
        "The photo was changed on its way. Its record is kept, and the copy on the phone too. "
        "Send it again.",
    ),
    "sheet_incomplete": (
        422,
        "The sheet cannot be printed yet. Your records are kept. Fill in what is named here.",
    ),
    "form_damaged": (
        422,
        "This PDF cannot be read. Nothing was changed. Open it in a PDF reader, print it into a "
        "new PDF, and load that; or ask the lab for a fresh copy.",
    ),
    "form_encrypted": (
        422,
        "This PDF is locked with a password. Nothing was changed. Ask the lab for one without, or "
        "print it into a new PDF and tap the spots to write on.",
    ),
    "form_xfa": (
        422,
        "This form only works in the program it was made with. Nothing was changed. Ask the lab "
        "for a plain PDF, or print it into a new PDF and tap the spots to write on.",
    ),
    "form_too_long": (
        422,
        "This PDF has more pages or fields than a form has. Nothing was changed. Save the pages "
        "that are filled in as a PDF of their own.",
    ),
    "form_field_gone": (
        422,
        "The lab's form is not the one that was matched: a place is gone. Your records are kept. "
        "Match the form again.",
    ),
    "form_not_matched": (
        422,
        "No form of this lab is matched yet. Your records are kept. Load the lab's form and say "
        "what goes where, or print the sheet of this program.",
    ),
    "form_not_here": (
        422,
        "The lab's form has not reached the server yet. It is kept on the phone that loaded it. "
        "Let that phone send, then try again.",
    ),
    "unknown_label_sheet": (
        422,
        "This sheet of labels is not one of the list. Your records are kept. Choose a sheet by "
        "the measures printed on its package.",
    ),
    "no_such_label": (
        422,
        "This sheet has fewer labels than that. Your records are kept. Count the labels from the "
        "top left, row by row, and give the number of the first one that is left.",
    ),
    "not_a_pot_test": (
        422,
        "This planting is no pot test, so there is no sheet for it. Your records are kept. "
        "Set up pots for it first.",
    ),
    "sheet_mixed": (
        422,
        "These samples do not go to the same lab, and a sheet goes with one parcel. "
        "Your records are kept. Print one sheet for each lab.",
    ),
    "scales_differ": (
        422,
        "The plants of this check were rated on more than one scale, and no scale is turned into "
        "another. Your ratings are kept. Correct the scale of the odd ones, then print.",
    ),
    "update_needed": (
        426,
        "This version of the app is too old to read the garden. What is on the phone can still "
        "be sent. Update the app after that.",
    ),
    "slow_down": (
        429,
        "This was too often or too much in a short time. What is on the phone is kept. "
        "The app goes on by itself when it may; wait a minute before you try again.",
    ),
    "server_error": (
        500,
        "The server failed at this. What is on the phone is kept. Try again later.",
    ),
    "database_away": (
        503,
        "The server's database cannot be used just now. What is on the phone is kept. The app "
        "tries again by itself; if it stays so, look at the server's disk and its log.",
    ),
    "photos_away": (
        503,
        "The place where the server keeps photos does not answer. Photos stay on the phone, which "
        "sends them again by itself, and records are still taken. For a garden's file, try later.",
    ),
    "photos_busy": (
        503,
        "The server is still opening other photos. This photo is kept on the phone. "
        "The app sends it again by itself.",
    ),
    "server_full": (
        507,
        "The server's disk is full. The photo is kept on the phone. Make room on the server; "
        "records are still taken.",
    ),
}


class Problem(exceptions.APIException):
    """A refusal of a whole request; ``code`` is a key of ``PROBLEMS``."""

    def __init__(
        self, code: str, field: str | None = None, retry_after: int | None = None, **params: Any
    ) -> None:
        self.status_code, self.sentence = PROBLEMS[code]
        super().__init__(self.sentence, code)
        self.code = code
        self.field = field
        self.params = params
        self.wait = retry_after


def problem_document(problem: Problem) -> dict[str, Any]:
    """Return the problem as the dictionary that is sent."""
    document: dict[str, Any] = {
        "type": "about:blank",
        "title": HTTPStatus(problem.status_code).phrase,
        "status": problem.status_code,
        "code": problem.code,
        "detail": problem.sentence,
    }
    if problem.field is not None:
        document["field"] = problem.field
    if problem.params:
        document["params"] = problem.params
    return document


def problem_response(problem: Problem) -> HttpResponse:
    """Return the problem as a plain Django answer, for use outside of the views."""
    response = JsonResponse(
        problem_document(problem),
        status=problem.status_code,
        content_type="application/problem+json",
    )
    if problem.wait is not None:
        response.headers["Retry-After"] = str(problem.wait)
    return response


def answer_problem(error: Exception, context: dict[str, Any]) -> HttpResponse | Response | None:
    """Turn whatever a view raised into a problem document (DRF's exception handler)."""
    if isinstance(error, OperationalError):
        # No request is at fault, and no change in it: a phone must not set any of them aside.
        log.error("The database failed.", exc_info=error)
        error = Problem("database_away")
    problem = error if isinstance(error, Problem) else _as_problem(error)
    return None if problem is None else problem_response(problem)


def _as_problem(error: Exception) -> Problem | None:
    if isinstance(error, exceptions.ValidationError):
        field = next(iter(error.detail)) if isinstance(error.detail, dict) else None
        return Problem("bad_request", field=field)
    for kind, code in (
        (exceptions.NotAuthenticated, "login_needed"),
        (exceptions.AuthenticationFailed, "login_needed"),
        (exceptions.PermissionDenied, "not_found"),
        (exceptions.NotFound, "not_found"),
        (exceptions.MethodNotAllowed, "not_allowed"),
        (exceptions.UnsupportedMediaType, "not_json"),
        (exceptions.ParseError, "bad_json"),
    ):
        if isinstance(error, kind):
            return Problem(code)
    return None


def bad_request(request: Any, exception: Exception) -> HttpResponse:
    """Answer for what Django itself refuses (Django's handler400)."""
    code = "bad_host" if isinstance(exception, DisallowedHost) else "bad_request"
    return problem_response(Problem(code))


def server_error(request: Any) -> HttpResponse:
    """Answer for a failure nobody foresaw (Django's handler500)."""
    return problem_response(Problem("server_error"))

import hashlib
import io

import pytest
from pypdf import PdfReader

from tests.api.test_sheets import sample
from tests.phones import bed, item, new_id
from tests.sheets import made_forms

PDF = made_forms.fillable()
NAME = {"field": "Grower name", "fill": "grower_name", "row": 1, "when": "", "words": ""}
CODE = {"field": "Sample ID 1", "fill": "sample_code", "row": 1, "when": "", "words": ""}


def send(phone, what, data):
    return getattr(phone.client, "post" if what == "forms/fields" else "put")(
        f"/api/v1/{phone.path(what)}",
        data,
        content_type="application/pdf",
        headers={"X-CSRFToken": phone.csrf},
    )


@pytest.fixture
def matched(phone):
    """A lab whose form was loaded and matched, and a bag for it."""
    names = {name: new_id() for name in ("bed", "lab", "paper", "bag", "other_bag")}
    sha256 = hashlib.sha256(PDF).hexdigest()
    form = {"paper": names["paper"], "fields": [NAME, CODE], "spots": []}
    phone.push(
        item("patch", "garden", phone.garden, base=1, grower_name="Zsófia Kőműves"),
        bed(names["bed"]),
        item("put", "lab_profile", names["lab"], name="Valley soil room", form=form),
        item(
            "put",
            "paper",
            names["paper"],
            of={"kind": "lab_profile", "id": names["lab"]},
            name="order form.pdf",
            sha256=sha256,
            n_bytes=len(PDF),
        ),
        sample(names["bed"], record=names["bag"], lab_profile=names["lab"]),
        sample(names["bed"], "R4TH", record=names["other_bag"]),
    )
    return names | {"sha256": sha256}


def ask(phone, bag):
    return phone.get(phone.path(f"sheets/lab-form.pdf?samples={bag}"))


def test_the_lab_s_own_form_comes_out_filled(phone, matched):
    assert ask(phone, matched["bag"]).json()["code"] == "form_not_here"
    assert send(phone, f"papers/{matched['sha256']}", PDF).status_code == 201
    answer = ask(phone, matched["bag"])
    assert answer.status_code == 200
    found = PdfReader(io.BytesIO(answer.content)).get_fields()
    assert found["Grower name"]["/V"] == "Zsófia Kőműves"
    assert found["Sample ID 1"]["/V"].startswith("K7M2-")


def test_without_a_matched_form_the_sheet_says_what_to_do(phone, matched):
    answer = ask(phone, matched["other_bag"])
    assert (answer.status_code, answer.json()["code"]) == (422, "form_not_matched")


def test_a_form_that_changed_is_named_by_what_is_gone(phone, matched):
    send(phone, f"papers/{matched['sha256']}", PDF)
    gone = {"paper": matched["paper"], "fields": [NAME | {"field": "Old"}], "spots": []}
    phone.push(item("patch", "lab_profile", matched["lab"], base=9, form=gone))
    answer = ask(phone, matched["bag"]).json()
    assert (answer["code"], answer["params"]) == ("form_field_gone", {"name": "Old"})


def test_a_form_is_read_and_nothing_of_it_kept(phone, photos_dir):
    told = send(phone, "forms/fields", PDF)
    assert told.status_code == 200
    assert [one["field"] for one in told.json()["fields"]][:2] == ["Grower name", "email"]
    assert not list(photos_dir.rglob("*.pdf"))


@pytest.mark.parametrize(
    ("data", "status", "code"),
    [
        (b"<html>", 422, "form_damaged"),
        (made_forms.encrypted(PDF), 422, "form_encrypted"),
        (made_forms.with_xfa(PDF), 422, "form_xfa"),
        (b"%PDF-" + b"0" * 10_000_001, 413, "paper_too_large"),
    ],
)
def test_a_form_that_cannot_be_read_is_refused_in_words(phone, data, status, code):
    answer = send(phone, "forms/fields", data)
    assert (answer.status_code, answer.json()["code"]) == (status, code)
    assert "Nothing was changed" in answer.json()["detail"] or status == 413


def test_a_stranger_reads_no_form_here(stranger):
    assert send(stranger, "forms/fields", PDF).status_code in (401, 403)

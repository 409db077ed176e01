import hashlib
import re
from uuid import UUID

import pytest
from django.urls import URLPattern

from api.urls import api_urls, garden_urls
from gardens.domain.records import KINDS as EVERY_KIND
from gardens.models import RECORD_MODELS, Conflict, Held, Helper, Share
from tests.api.roles_table import (
    ADDRESSES,
    ASKERS,
    DEEDS,
    ELSEWHERE,
    KINDS,
    OTHER_REFUSALS,
    REFUSALS,
)
from tests.api.test_blobs import encoded, put
from tests.domain.record_examples import RIGHT
from tests.phones import MOMENT, Phone, bed, item, new_id, planting, rating, root_check
from tests.sheets import made_forms

LENT = {"V": "viewer", "R": "rater", "E": "editor", "X": "editor"}
METHODS = ("get", "post", "put", "delete", "head")
PHOTO = encoded("JPEG")
SHA256 = hashlib.sha256(PHOTO).hexdigest()
PAPER = made_forms.fillable()
PAPER_SHA256 = hashlib.sha256(PAPER).hexdigest()
POTS = {"n_pots": 4, "blank_pot": 4, "soil_cm3_per_pot": 700, "soil_sample": None}


@pytest.fixture
def ask(phone, request):
    """Return the phone of one of the askers, looking at the grower's garden."""

    def ask(who):
        if who == "O":
            return phone
        if who == "N":
            return request.getfixturevalue("neighbours_phone")
        if who == "S":
            return Phone(None, garden=phone.garden)
        asker = phone.lend(LENT[who], name=f"Helper {who}")
        if who == "X":
            helper = Helper.objects.get(name="Helper X")
            assert phone.delete(phone.path(f"shares/{helper.share_id}")).status_code == 204
        return asker

    return ask


def code_of(answer):
    return answer.json()["code"] if answer.content else None


@pytest.fixture
def stocked(phone):
    """A garden with one of everything an address may be asked for, by the name it is asked by."""
    own, planted, checked, sample, lab, form, pots = (new_id() for _ in range(7))
    of = {"of": {"kind": "lab_profile", "id": lab}, "name": "form.pdf", "n_bytes": len(PAPER)}
    matched = {"paper": form, "fields": [], "spots": []}
    about = {"sha256": SHA256, "n_bytes": len(PHOTO), "width_px": 400, "height_px": 200}
    shot = {"of": {"kind": "bed", "id": own}, "taken_at": MOMENT, **about}
    bag = {"bed": own, "code": RIGHT["soil_sample"]["code"], "purpose": "diagnose"}
    phone.push(
        bed(own),
        planting(own, planted),
        root_check(planted, checked),
        rating(checked),
        item("put", "photo", new_id(), **shot),
        planting(own, pots, pots=POTS),
        item("put", "paper", form, sha256=PAPER_SHA256, **of),
        item("put", "lab_profile", lab, name="Soil lab", form=matched),
        item("put", "soil_sample", sample, lab_profile=lab, **bag),
    )
    assert put(phone, SHA256, PHOTO).status_code == 201
    assert send_pdf(phone, "put", phone.path(f"papers/{PAPER_SHA256}")).status_code == 201
    phone.lend("viewer", name="Bo")
    return {
        "history": f"?record={own}",
        "blanks": f"?samples={sample}",
        "submission.pdf": f"?samples={sample}",
        "bed-map.pdf": f"?root_check={checked}",
        "rating-form.pdf": f"?planting={planted}",
        "labels.pdf": f"?sheet=a4_70x37&samples={sample}",
        "packing-slip.pdf": f"?samples={sample}",
        "lab-form.pdf": f"?samples={sample}",
        "pots.pdf": f"?planting={pots}",
    }


def send_pdf(asker, method, what):
    """Send the form's bytes as they are."""
    headers = {"X-CSRFToken": asker.csrf}
    send = getattr(asker.client, method)
    return send(f"/api/v1/{what}", PAPER, content_type="application/pdf", headers=headers)


def written(route):
    """Return an address as the table writes it."""
    return re.sub(r"\^?(\w+)/\(\?P<(\w+)>.*\)\$$", r"\1/<\2>", route)


def every_address():
    garden = "gardens/<uuid:garden>/"
    routes = [("", one) for one in api_urls if isinstance(one, URLPattern)]
    routes += [(garden, one) for one in garden_urls]
    return {
        f"{method.upper()} {start}{written(str(one.pattern))}"
        for start, one in routes
        for method in METHODS
        if hasattr(one.callback.view_class, method)
    }


def test_no_address_is_missing_from_the_table():
    assert every_address() == set(ADDRESSES)


def body_for(address, asker, phone):
    device = {"device": asker.device, "device_name": ""}
    link = {"role": "rater", "label": "", "expires_at": None, "max_devices": 1}
    secret = phone.make_link()["url"].split("#")[1] if address == "POST join" else ""
    return {
        "POST login": {"username": "grower", "password": "roots-and-soil-9", **device},
        "POST pair": {"code": phone.post("codes", {}).json()["code"], **device},
        "POST join": {"token": secret, "name": "Cy", **device},
        "POST gardens/<uuid:garden>/push": asker.envelope(),
        "POST gardens/<uuid:garden>/shares": link,
        "POST gardens/<uuid:garden>/saved-files": {
            "account": {"id": new_id(), "username": "Di"},
            "changes": [],
            "photos": [],
        },
    }.get(address, {})


def asked_at(address, asker, phone, stocked):
    method, route = address.split(" ")
    share = Share.objects.get(helpers__name="Bo")
    filled = (
        route.replace("<uuid:garden>", phone.garden)
        .replace("<uuid:share>", str(share.id))
        .replace("<uuid:helper>", str(share.helpers.get().id))
        .replace("<uuid:device>", asker.device)
        .replace("<slug:question>", "compost_layer")
        .replace("papers/<sha256>", f"papers/{PAPER_SHA256}")
        .replace("<sha256>", SHA256)
    )
    filled += stocked.get(route.rsplit("/", 1)[-1], "")
    if "/papers/" in route and method == "PUT" or route.endswith("forms/fields"):
        return send_pdf(asker, method.lower(), filled)
    if method == "PUT":
        return put(asker, SHA256, PHOTO)
    if method == "POST":
        return asker.post(filled, body_for(address, asker, phone))
    ways = {"GET": asker.get, "DELETE": asker.delete, "HEAD": asker.head}
    return ways[method](filled)


@pytest.mark.parametrize("address", ADDRESSES)
def test_an_address_answers_those_of_the_table_and_nobody_else(phone, ask, stocked, address):
    allowed, status = ADDRESSES[address]
    for who in sorted(ASKERS, key="VREXNSO".index):  # the owner last: some addresses sign one out
        answer = asked_at(address, ask(who), phone, stocked)
        if who in allowed:
            assert answer.status_code == status, (who, answer.content)
        elif address.startswith("HEAD"):
            assert answer.status_code == REFUSALS[who][0], who
        else:
            refused = OTHER_REFUSALS.get((address, who), REFUSALS[who])
            assert (answer.status_code, code_of(answer)) == refused, who


def test_every_garden_address_answers_a_foreign_and_an_unknown_garden_alike(
    phone, neighbours_phone, stocked
):
    for address in (one for one in ADDRESSES if "<uuid:garden>" in one):
        if address.startswith(("GET", "DELETE")):
            foreign = asked_at(address, neighbours_phone, phone, stocked)
            nobodys = phone.garden
            phone.garden = new_id()
            unknown = asked_at(address, neighbours_phone, phone, stocked)
            phone.garden = nobodys
            assert foreign.status_code == unknown.status_code == 404, address
            assert foreign.content == unknown.content, address


def change_of(kind, record):
    if kind in ("conflict", "held"):
        return item("patch", kind, record, state={"conflict": "kept", "held": "declined"}[kind])
    name, value = next(iter(RIGHT[kind].items()))
    return item("patch", kind, record, base=2**40, **{name: value})


def server_made(phone, kind, record):
    """Have the server's own kind of record in the garden without the story that leads to it."""
    of = {"of_kind": "bed", "of_id": new_id()}
    about = {"id": record, "garden_id": UUID(phone.garden), "seq": 1, **of}
    if kind == "conflict":
        Conflict.objects.create(field="name", kept="A", other="B", other_by="", **about)
    else:
        Held.objects.create(op="put", kind="bed", mid=new_id(), by="", **about)


@pytest.fixture
def records(phone):
    """Return four records of a kind, two of them made by a given account."""

    def records(kind, account):
        ids = [phone.garden] * 4 if kind == "garden" else [new_id() for _ in range(4)]
        for each in ids:
            if kind in ("conflict", "held"):
                server_made(phone, kind, each)
            elif kind != "garden":
                phone.push(item("put", kind, each, **RIGHT[kind]))
        own = RECORD_MODELS[kind].objects.filter(id__in=ids[:2])
        if kind != "garden":
            own.update(created_by=account)
        return ids

    return records


def sent(kind, ids):
    """Return one change for each deed of the table, in its order."""
    made = making(kind, ids[0])
    gone = [item("delete", kind, ids[n], base=2**40) for n in (1, 3)]
    return [made, change_of(kind, ids[0]), gone[0], change_of(kind, ids[2]), gone[1]]


def making(kind, record):
    each = record if kind == "garden" else new_id()
    return item("put", kind, each, base=2**40, **RIGHT.get(kind, {"state": "open"}))


def account_of(asker, who, grower):
    if who == "O":
        return grower
    return Helper.objects.get(device=asker.device).account


@pytest.mark.parametrize("who", "VREOX")
@pytest.mark.parametrize("kind", EVERY_KIND)
def test_a_kind_is_made_and_changed_by_those_of_the_table(
    phone, grower, neighbour, ask, records, kind, who
):
    asker = ask(who)
    account = account_of(asker, who, grower)
    ids = records(kind, account)
    if who == "O":
        RECORD_MODELS[kind].objects.filter(id__in=ids[2:]).update(created_by=neighbour)
    asker.high = None
    results = asker.push(*sent(kind, ids))["results"]
    told = {deed: one["status"] for deed, one in zip(DEEDS, results, strict=True)}
    acts_as, done = ("E", "held") if who == "X" else (who, "applied")
    expected = {
        deed: done if acts_as in allowed else "rejected"
        for deed, allowed in zip(DEEDS, KINDS.get(kind, ELSEWHERE), strict=True)
    }
    if (kind, who) == ("held", "X"):
        expected = dict.fromkeys(DEEDS, "rejected")
    assert told == expected
    codes = {one["code"] for one in results if one["status"] == "rejected"}
    assert codes <= {"forbidden"}


def test_every_kind_a_phone_may_make_has_an_example():
    assert set(RIGHT) == {kind for kind, spec in EVERY_KIND.items() if not spec.server_made}

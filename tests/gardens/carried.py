"""A garden with a bit of everything, taken away; and a server that has never heard of it."""

import hashlib
import io
import json
import shutil
import zipfile
from pathlib import Path

from django.conf import settings

from gardens.demo.pictures import draw_root_photo
from gardens.models import Blob
from gardens.services.carrying.arrival import bring_arrival, look_at_arrival
from gardens.services.carrying.export import export_garden
from gardens.services.papers import store_paper
from gardens.services.photos import store_photo
from tests.faults.simulated import forget_everything
from tests.phones import bed, item, new_id, photo, planting, rating, root_check

PDF = b"%PDF-1.7 of an invented laboratory, never opened"


def paper(lab):
    """Return the record of a lab's form with these bytes."""
    sha256 = hashlib.sha256(PDF).hexdigest()
    about = {"name": "form.pdf", "sha256": sha256, "n_bytes": len(PDF)}
    return item("put", "paper", new_id(), of={"kind": "lab_profile", "id": lab}, **about)


def lived_in(phone, tablet):
    """Fill a garden: most kinds, a photo, a paper, a deletion, a conflict open and one closed."""
    made, row, check, lab = bed(), new_id(), new_id(), new_id()
    picture = draw_root_photo(seed=3, galled_pct=40)
    named = photo(picture, of={"kind": "bed", "id": made["id"]})
    gone = bed(name="Gone")
    phone.push(made, planting(made["id"], row), root_check(row, check), rating(check), named, gone)
    phone.push(item("delete", "bed", gone["id"], base=99))
    sha256 = named["set"]["sha256"]
    store_photo(account=phone.account, garden_id=phone.garden, sha256=sha256, data=picture)
    phone.push(item("put", "lab_profile", lab, name="Soil room"), sent := paper(lab))
    sha256 = sent["set"]["sha256"]
    store_paper(account=phone.account, garden_id=phone.garden, sha256=sha256, data=PDF)
    for name in ("soil", "note"):
        phone.push(item("patch", "bed", made["id"], base=3, **{name: f"=phone's {name}"}))
        tablet.push(item("patch", "bed", made["id"], base=3, **{name: f"tablet's {name}"}))
    first = next(iter(phone.records("conflict")))
    phone.push(item("patch", "conflict", first, state="taken"))
    return made["id"]


def taken_away(garden):
    """Return the bytes of a garden's file."""
    with export_garden(garden_id=garden) as file:
        return file.read()


def bring(account, content):
    """Bring a file, as bytes."""
    return bring_arrival(account=account, file=io.BytesIO(content))


def look(account, content):
    """Ask what bringing a file would do."""
    return look_at_arrival(account=account, file=io.BytesIO(content))


def another_server():
    """Forget every garden and every photo, as a server that was never told of them."""
    Blob.objects.all().delete()
    forget_everything()
    shutil.rmtree(Path(settings.PHOTOS_DIR), ignore_errors=True)


def parts_of(content):
    """Return the parts of a file by name."""
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        return {name: packed.read(name) for name in packed.namelist()}


def packed(parts, how=zipfile.ZIP_DEFLATED):
    """Pack parts, given by name or as pairs of ZipInfo and bytes."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", how) as out:
        for name, content in parts.items() if isinstance(parts, dict) else parts:
            out.writestr(name, content)
    return file.getvalue()


def retold(content, **changes):
    """Return the file with other values in its ``garden.json``."""
    parts = parts_of(content)
    told = json.loads(parts["garden.json"])
    parts["garden.json"] = json.dumps({**told, **changes}).encode()
    return packed(parts)

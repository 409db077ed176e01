"""Load the demo garden: an account, its records through the push service, its drawn photos.

Not for a real house: whoever starts the demo is told its password.
"""

from __future__ import annotations

import hashlib
import json
import os
import secrets
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any
from uuid import UUID

from django.contrib.auth import get_user_model
from django.db import transaction

from gardens.demo.pictures import HEIGHT_PX, WIDTH_PX, draw_root_photo
from gardens.services.devices import remember_device
from gardens.services.photos import store_photo
from gardens.services.push import Sender, push

DEMO_USERNAME = "demo"
SIGNS = "23456789abcdefghjkmnpqrstvwxyz"  # those of the bag codes: none looks like another
RECORDS = Path(__file__).resolve().parents[2] / "fixtures" / "demo" / "garden.json"
BATCH = 200


class NotLoaded(Exception):
    """The push service turned down a record of the demo garden."""


@dataclass(frozen=True)
class Loaded:
    """How many records and photos the demo garden brought."""

    n_records: int
    n_photos: int


def kept_password(data_dir: Path) -> str | None:
    """Return the password the demo in this data folder was made with."""
    path = data_dir / "demo_password"
    return path.read_text(encoding="utf-8").strip() if path.is_file() else None


def make_password(data_dir: Path) -> str:
    """Make a password for the demo in this data folder, for the folder's owner only, and keep it.

    The demo lets a whole home network in, so no two demos have the same one.
    """
    parts = ("".join(secrets.choice(SIGNS) for _ in range(4)) for _ in range(3))
    password = "-".join(parts)
    flags = os.O_WRONLY | os.O_CREAT | os.O_TRUNC
    with os.fdopen(os.open(data_dir / "demo_password", flags, 0o600), "w") as file:
        file.write(password + "\n")
    return password


def load_demo(*, now: datetime, password: str) -> Loaded | None:
    """Make the demo account and its garden; None, and no change, when the account is there.

    Parameters
    ----------
    now : datetime
        Moment the records are received.
    password : str
        What the demo account signs in with.

    Returns
    -------
    Loaded or None

    Raises
    ------
    NotLoaded
        A record was not taken; then nothing at all was stored.
    """
    content = json.loads(RECORDS.read_text(encoding="utf-8"))
    garden_id = UUID(content["garden"])
    drawn = [_draw(photo) for photo in content["photos"]]
    items = content["mutations"] + [item for item, _ in drawn]
    with transaction.atomic():
        # Asked for under the lock, so that two starts at once cannot both go on.
        accounts = get_user_model().objects
        if accounts.filter(username=DEMO_USERNAME).exists():
            return None
        account = accounts.create_user(DEMO_USERNAME, password=password)
        sender = Sender(account, UUID(content["device"]), None, None)
        remember_device(account=account, device=sender.device, name=content["device_name"])
        for start in range(0, len(items), BATCH):
            _push(sender, garden_id, items[start : start + BATCH], now)
        for item, picture in drawn:
            store_photo(
                account=account, garden_id=garden_id, sha256=item["set"]["sha256"], data=picture
            )
    return Loaded(len(items), len(drawn))


def _push(sender: Sender, garden_id: UUID, items: list[dict[str, Any]], now: datetime) -> None:
    answer = push(sender=sender, garden_id=garden_id, items=items, received_at=now)
    refused = [result for result in answer.results if result["status"] != "applied"]
    if refused:
        raise NotLoaded(f"demo record not taken: {refused[0]}")


def _draw(photo: dict[str, Any]) -> tuple[dict[str, Any], bytes]:
    """Draw one photo and write the record that names its bytes."""
    picture = draw_root_photo(**photo["drawing"])
    record = {
        "of": photo["of"],
        "sha256": hashlib.sha256(picture).hexdigest(),
        "n_bytes": len(picture),
        "mime": "image/jpeg",
        "width_px": WIDTH_PX,
        "height_px": HEIGHT_PX,
        "taken_at": photo["taken_at"],
    }
    item = {"mid": photo["mid"], "op": "put", "kind": "photo", "id": photo["id"], "base": 0}
    return item | {"at": photo["taken_at"], "set": record}, picture

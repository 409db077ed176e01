"""Keeping papers: PDFs that follow their record, byte for byte as they came, never opened.

Not for reading a form's fields: that is ``gardens.sheets``'s, on request and nothing is kept.
"""

from typing import Any
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from gardens.models import Garden, Held, Paper
from gardens.photo_store.door import paper_name, photo_store
from gardens.selectors.papers import find_papers
from gardens.services.journal import Ledger, locked
from gardens.services.photos import check_hash, tell_state
from gardens.services.turns import in_turn

# Readers look for the sign in the first 1024 bytes (ISO 32000-1, note in annex H.3.4.1).
_SIGN, _SIGN_WITHIN = b"%PDF-", 1024


class NoPaperRecord(Exception):
    """No record of this garden names the paper, so its bytes are not taken."""


class NotPdf(Exception):
    """The bytes do not begin as a PDF does."""


def is_kept(*, account: Any, garden: Garden, sha256: str) -> bool:
    """Whether the paper is stored and its records say so; raises ``NoPaperRecord``, ``StoreAway``.

    A record may not say so when the bucket could not be asked while it came in. A record that is
    held for the grower names the paper too, for whoever sent that record.
    """
    records = Paper.objects.filter(garden=garden, sha256=sha256)
    held = Held.objects.filter(garden=garden, kind="paper", created_by_id=account.pk)
    if not records.exists() and not held.filter(set__sha256=sha256).exists():
        raise NoPaperRecord
    untold = records.filter(deleted=False).exclude(blob="stored").exists()
    return not untold and bool(find_papers(garden.id, [sha256]))


def is_pdf(data: bytes) -> bool:
    """Whether bytes begin as a PDF does; nothing else of them is read."""
    return _SIGN in data[:_SIGN_WITHIN]


def write_paper(*, garden_id: UUID, sha256: str, data: bytes) -> None:
    """Keep the bytes, told to nobody; raises ``StoreFull`` or ``StoreAway``."""
    photo_store().write(paper_name(garden_id, sha256), data)


def store_paper(*, account: Any, garden_id: UUID, sha256: str, data: bytes) -> bool:
    """Keep a paper whose record has arrived; tell whether it was not here before.

    Raises ``NoPaperRecord``, ``HashMismatch``, ``NotPdf``, ``StoreFull`` or ``StoreAway``.
    """
    if is_kept(account=account, garden=Garden.objects.get(id=garden_id), sha256=sha256):
        return False
    check_hash(data, sha256)
    keep_paper(account=account, garden_id=garden_id, sha256=sha256, data=data)
    return True


def keep_paper(*, account: Any, garden_id: UUID, sha256: str, data: bytes) -> None:
    """Keep bytes already checked, and tell every phone through the garden's feed.

    Raises ``NotPdf``, ``StoreFull`` or ``StoreAway``.
    """
    is_taken = is_pdf(data)
    if is_taken:
        write_paper(garden_id=garden_id, sha256=sha256, data=data)
    with in_turn(), transaction.atomic():
        garden = locked(garden_id)
        assert garden is not None
        ledger = Ledger(garden, account, timezone.now())
        tell_state(ledger, Paper, sha256, "stored" if is_taken else "refused")
        ledger.write()
    if not is_taken:
        raise NotPdf

"""Which papers the server really has: a file named by its hash, no row."""

import re
from collections.abc import Collection
from uuid import UUID

from gardens.photo_store.door import paper_name, photo_store

HASH = re.compile(r"[0-9a-f]{64}")


def find_papers(garden_id: UUID, hashes: Collection[str]) -> set[str]:
    """Return those papers of some hashes whose files are really there; raises ``StoreAway``.

    A held record that came in a garden's file may say anything: what is no hash names no file.
    """
    named = filter(HASH.fullmatch, hashes)
    names = {paper_name(garden_id, sha256): sha256 for sha256 in named}
    there = photo_store().present(names) if names else set()
    return {names[name] for name in there}

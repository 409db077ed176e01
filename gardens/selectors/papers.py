"""Which papers the server really has: a file named by its hash, no row."""

from collections.abc import Collection
from uuid import UUID

from gardens.photo_store.door import paper_name, photo_store


def find_papers(garden_id: UUID, hashes: Collection[str]) -> set[str]:
    """Return those papers of some hashes whose files are really there; raises ``StoreAway``."""
    names = {paper_name(garden_id, sha256): sha256 for sha256 in hashes}
    there = photo_store().present(names) if names else set()
    return {names[name] for name in there}

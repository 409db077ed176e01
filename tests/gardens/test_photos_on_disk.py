import errno
import os
import threading
from pathlib import Path

import pytest

from gardens.photo_store.disk import Disk
from gardens.photo_store.refusals import StoreFull


def test_what_another_writer_takes_away_meanwhile_does_not_stop_the_sweep(tmp_path, monkeypatch):
    # Seen once in a few hundred photos of four phones: listed by one, renamed by the other.
    incoming = tmp_path / "incoming"
    listed = Path.iterdir

    def and_one_that_left(folder):
        yield from listed(folder)
        if folder == incoming:
            yield incoming / "renamed-by-another"

    monkeypatch.setattr(Path, "iterdir", and_one_that_left)
    Disk(tmp_path).write("garden/photo.jpg", b"whole")
    assert (tmp_path / "garden/photo.jpg").read_bytes() == b"whole"


def test_many_writers_at_once(tmp_path):
    failed = []

    def write(writer):
        try:
            for n in range(40):
                Disk(tmp_path).write(f"garden/{writer}-{n}.jpg", b"x" * 2000)
        except OSError as error:
            failed.append(error)

    writers = [threading.Thread(target=write, args=(n,)) for n in range(8)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert not failed
    assert len([*(tmp_path / "garden").iterdir()]) == 8 * 40
    assert not [*(tmp_path / "incoming").iterdir()]


def test_a_disk_that_is_full_is_not_filled_further(tmp_path, monkeypatch):
    def full(descriptor):
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as broken:
        broken.setattr(os, "fsync", full)
        with pytest.raises(StoreFull):
            Disk(tmp_path).write("garden/photo.jpg", b"x" * 1000)
    assert [*(tmp_path / "incoming").iterdir()] == []
    assert not (tmp_path / "garden/photo.jpg").exists()

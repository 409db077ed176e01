import pytest

from tests.askers import ASKERS, Session, come_in
from tests.bench.scene import new_id, running_server
from tests.described.adapted import description
from tests.described.held import hold

SECONDS = 12


@pytest.fixture(scope="module")
def port():
    with running_server() as server:
        yield server.port


@pytest.fixture(scope="module")
def sessions(port):
    # All at the start: guesses at passwords soon shut this address out, as they should.
    return {who: come_in(port, who) for who in ASKERS}


@pytest.mark.parametrize("who", ASKERS)
def test_the_server_does_what_its_description_says(port, sessions, who, tmp_path):
    found = hold(port, sessions[who], SECONDS, tmp_path, description())
    assert not found, found


def test_a_server_that_does_otherwise_is_found(port, tmp_path):
    described = description()
    described["paths"] = {"/api/v1/meta": described["paths"]["/api/v1/meta"]}
    meta = described["components"]["schemas"]["Meta"]["properties"]
    meta["server_time"] = {"type": "integer"}
    assert "Response violates schema" in hold(
        port, Session(device=new_id()), 5, tmp_path, described
    )

"""A server that speaks S3, started by the tests, and one bucket on it."""

import pytest

from gardens.photo_store.address import BucketAddress

NAME = "root-photos"


@pytest.fixture(scope="session")
def s3():
    """The address of a server that keeps its objects in memory."""
    from moto.server import ThreadedMotoServer  # only who has a bucket waits for it

    server = ThreadedMotoServer(ip_address="127.0.0.1", port=0, verbose=False)
    server.start()
    host, port = server.get_host_and_port()
    yield f"http://{host}:{port}"
    server.stop()


@pytest.fixture
def address(s3):
    """Where the server under test finds the bucket."""
    return BucketAddress(NAME, "bed/one", s3, "eu-central-1", "key", "marked-secret")


@pytest.fixture
def objects(s3, address):
    """The bucket as another program sees it."""
    import boto3

    asked = {"endpoint_url": s3, "region_name": "eu-central-1"}
    resource = boto3.resource(
        "s3", aws_access_key_id="key", aws_secret_access_key="secret", **asked
    )
    bucket = resource.create_bucket(
        Bucket=NAME, CreateBucketConfiguration={"LocationConstraint": "eu-central-1"}
    )
    yield bucket.objects
    bucket.objects.delete()
    bucket.delete()


@pytest.fixture
def bucket(settings, address, objects):
    """Photos lie in the bucket."""
    settings.PHOTOS_BUCKET = address
    return address

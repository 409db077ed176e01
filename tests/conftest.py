import os

# A browser session of Playwright leaves an event loop behind, in which Django refuses to work.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "1")

import pytest  # noqa: E402
from django.conf import settings  # noqa: E402
from django.contrib.auth import get_user_model  # noqa: E402

from tests.phones import PASSWORD, Phone  # noqa: E402

pytest_plugins = ["tests.buckets", "tests.cluster"]


@pytest.fixture(scope="session")
def django_db_modify_db_settings(tmp_path_factory, django_db_modify_db_settings_parallel_suffix):
    # In a file, not in memory: only then do two threads meet the locks of a real server.
    database = settings.DATABASES["default"]
    if database["ENGINE"].endswith("sqlite3"):
        file = tmp_path_factory.mktemp("database") / "test.sqlite3"
        database.setdefault("TEST", {})["NAME"] = str(file)


@pytest.fixture(scope="session", autouse=True)
def _quick_passwords():
    # Slow hashing is Django's own affair; hundreds of sign-ins here would only wait for it.
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture(autouse=True)
def photos_dir(settings, tmp_path):
    # Always: no test may leave a photo in the data folder of a real garden.
    settings.PHOTOS_DIR = tmp_path / "photos"
    return settings.PHOTOS_DIR


def make_account(name):
    return get_user_model().objects.create_user(name, password=PASSWORD)


@pytest.fixture
def grower(db):
    return make_account("grower")


@pytest.fixture
def neighbour(db):
    return make_account("neighbour")


@pytest.fixture
def phone(grower):
    """The grower's phone, signed in, with a garden it has pushed."""
    return Phone(grower).sign_in().open_garden()


@pytest.fixture
def tablet(phone, grower):
    """The grower's second device, signed in to the same garden."""
    return Phone(grower, name="tablet", garden=phone.garden).sign_in()


@pytest.fixture
def neighbours_phone(neighbour, phone):
    """Somebody with an account but without any right to the grower's garden."""
    return Phone(neighbour, garden=phone.garden).sign_in()


@pytest.fixture
def stranger(phone):
    """Somebody without an account."""
    return Phone(None, garden=phone.garden)

"""The real settings with quick passwords: hundreds of phones sign in, and hashing is not tested."""

from api.settings import *  # noqa: F403

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]

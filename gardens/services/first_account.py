"""The first account of a garden server; later ones are made by whoever runs it.

Not for signing in: see ``accounts``.
"""

from typing import Any

from django.contrib.auth import get_user_model
from django.contrib.auth.password_validation import validate_password

from gardens.services.accounts import name_of


def is_needed() -> bool:
    """Tell whether nobody could sign in yet."""
    return not get_user_model().objects.filter(is_active=True).exists()


def create(*, username: str, password: str) -> Any:
    """Make the account; raises Django's ``ValidationError`` for a name or password it refuses."""
    account = get_user_model()(username=username)
    account.full_clean(exclude=["password"])
    validate_password(password, account)
    account.set_password(password)
    account.save()
    name_of(account)  # now, so that the oldest backup knows it already
    return account

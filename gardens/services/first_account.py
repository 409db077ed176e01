"""The first account of a garden server; later ones are made by whoever runs it.

Not for signing in: see ``accounts``.
"""

from typing import Any

from django.contrib.auth import get_user_model
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError

from gardens.services.accounts import known_as


def is_needed() -> bool:
    """Tell whether nobody could sign in yet."""
    return not get_user_model().objects.filter(is_active=True).exists()


def check_name(username: str) -> None:
    """Raise ``ValidationError`` for a name that will not do."""
    if not username:
        raise ValidationError("A name is missing.")
    get_user_model()(username=username).full_clean(exclude=["password"])


def check_password(username: str, password: str) -> None:
    """Raise ``ValidationError`` for a password that will not do."""
    if not password:
        raise ValidationError("A password is missing.")
    validate_password(password, get_user_model()(username=username))


def create(*, username: str, password: str) -> Any:
    """Make the account; raises Django's ``ValidationError`` for a name or password it refuses."""
    check_name(username)
    check_password(username, password)
    account = get_user_model()(username=username)
    account.set_password(password)
    account.save()
    known_as(account)  # now, so that the oldest backup knows it already
    return account

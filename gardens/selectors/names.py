"""What people are called where others read it: never the made-up name of a link's account."""

from typing import Any

from django.contrib.auth import get_user_model

from gardens.models import AccountName, Garden, Helper


def people() -> Any:
    """Return the accounts with a password of their own, not those that links made."""
    made = AccountName.objects.exclude(helpers_name="").values("account_id")
    return get_user_model().objects.filter(is_active=True).exclude(pk__in=made)


def names_in(garden: Garden) -> dict[Any, str]:
    """Return the name of each account that came into a garden by a link, by the account's key."""
    helpers = Helper.objects.filter(share__garden=garden).order_by("joined_at")
    return dict(helpers.values_list("account_id", "name"))


def shown_name(account: Any, names: dict[Any, str], elsewhere: str = "") -> str:
    """Return what others in the garden read of who wrote something; empty when it is unknown.

    ``elsewhere`` is the name that came with it in a file; then the account only brought it.
    """
    if elsewhere:
        return elsewhere
    if account is None:
        return ""
    return names.get(account.pk) or str(account.get_username())


def is_made_by_link(named: AccountName) -> bool:
    """Tell whether an account came into being with a link: it has no password of its own."""
    return named.helpers_name != ""


def own_name(account: Any, named: AccountName) -> str:
    """Return what the account's own phone calls it."""
    return named.helpers_name or str(account.get_username())

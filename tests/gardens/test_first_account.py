import pytest
from django.contrib.auth import authenticate
from django.core.exceptions import ValidationError

from gardens.models import AccountName
from gardens.services import first_account

PASSWORD = "a-long-enough-one"


@pytest.mark.django_db
def test_the_first_account_is_needed_until_it_is_there():
    assert first_account.is_needed()
    account = first_account.create(username="ilda", password=PASSWORD)
    assert not first_account.is_needed()
    assert authenticate(username="ilda", password=PASSWORD) == account


@pytest.mark.django_db
def test_the_first_account_has_its_name_before_anybody_signs_in():
    account = first_account.create(username="ilda", password=PASSWORD)
    assert AccountName.objects.get().account == account


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("username", "password"),
    [("ilda", "short"), ("", PASSWORD), ("il da", PASSWORD), ("x" * 151, PASSWORD)],
)
def test_a_name_or_password_that_will_not_do_makes_no_account(username, password):
    with pytest.raises(ValidationError):
        first_account.create(username=username, password=password)
    assert first_account.is_needed()


@pytest.mark.django_db
def test_a_name_that_is_taken_makes_no_second_account():
    first_account.create(username="ilda", password=PASSWORD)
    with pytest.raises(ValidationError):
        first_account.create(username="ilda", password=PASSWORD)

import getpass
import io
import sys

import pytest
from django.contrib.auth import authenticate
from django.core.exceptions import ValidationError
from django.core.management import CommandError

from gardens.management.commands.ready_house import Command
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


@pytest.fixture
def terminal(monkeypatch):
    """Type names and passwords; what the command says comes back."""

    def type_in(names, passwords):
        typed, said = iter(passwords), io.StringIO()

        def hidden(prompt):
            said.write(f"{prompt}\n")
            try:
                return next(typed)
            except StopIteration:
                raise EOFError from None

        monkeypatch.setattr(sys, "stdin", io.StringIO("".join(f"{name}\n" for name in names)))
        monkeypatch.setattr(sys, "stderr", said)
        monkeypatch.setattr(getpass, "getpass", hidden)
        return said

    return type_in


@pytest.mark.django_db
def test_each_answer_in_the_terminal_is_judged_before_the_next_is_asked_for(terminal):
    said = terminal(["", "il da", "ilda"], ["short", PASSWORD, PASSWORD])
    Command().ask_for_account()

    text = said.getvalue()
    assert text.index("A name is missing.") < text.index("Enter a valid username")
    assert text.index("Enter a valid username") < text.index("Password, 8 characters")
    assert text.index("too short") < text.index("The same again")
    assert text.count("The same again") == 1
    assert authenticate(username="ilda", password=PASSWORD) is not None


@pytest.mark.django_db
def test_two_passwords_that_differ_are_asked_for_again_and_the_name_is_not(terminal):
    said = terminal(["ilda"], [PASSWORD, "a-mistyped-one", PASSWORD, PASSWORD])
    Command().ask_for_account()

    assert "The two passwords differ. Nothing was made; try again." in said.getvalue()
    assert said.getvalue().count("Name: ") == 1
    assert authenticate(username="ilda", password=PASSWORD) is not None


@pytest.mark.django_db
@pytest.mark.parametrize(("names", "passwords"), [([""], []), (["ilda"], [PASSWORD])])
def test_answers_that_end_too_soon_make_no_account(terminal, names, passwords):
    terminal(names, passwords)
    with pytest.raises(CommandError, match="ended before there was an account"):
        Command().ask_for_account()
    assert first_account.is_needed()

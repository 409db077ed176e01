import random

import pytest

from gardens.domain.codes import ALPHABET, as_printed, check_character, is_right


def some_codes(n):
    drawn = random.Random(20)
    data = ("".join(drawn.choices(ALPHABET, k=4)) for _ in range(n))
    return [each + check_character(each) for each in data]


def test_ten_signs_give_the_check_digit_of_the_standard():
    # ISO/IEC 7812-1, worked example of the Luhn formula: 7992739871 has check digit 3
    # (from memory).
    assert check_character("7992739871", alphabet="0123456789") == "3"


@pytest.mark.parametrize("right", ["4539578763621486", "79927398713"])
def test_other_numbers_known_to_pass_the_luhn_check_pass(right):
    # Numbers commonly printed as valid by Luhn's formula (from memory).
    assert check_character(right[:-1], alphabet="0123456789") == right[-1]


def test_the_alphabet_has_thirty_signs_and_none_that_look_alike():
    assert len(set(ALPHABET)) == len(ALPHABET) == 30
    assert not set("0O1ILU") & set(ALPHABET)


@pytest.mark.parametrize("code", some_codes(40))
def test_every_single_wrong_sign_is_caught(code):
    assert is_right(code)
    for place in range(5):
        for sign in set(ALPHABET) - {code[place]}:
            assert not is_right(code[:place] + sign + code[place + 1 :])


def test_every_swap_of_neighbours_is_caught_but_that_of_the_first_and_the_last_sign():
    missed = set()
    for a in ALPHABET:
        for b in ALPHABET:
            code = f"K{a}{b}M"
            swapped = f"K{b}{a}M"
            if a != b and check_character(code) == check_character(swapped):
                missed.add(a + b)
    assert missed == {"2Z", "Z2"}


@pytest.mark.parametrize("wrong", ["", "K7M2", "K7M2HH", "k7m2h", "K7M2-H", "K7M20", "K7Ö2H"])
def test_anything_but_five_signs_of_the_alphabet_is_wrong(wrong):
    assert not is_right(wrong)


def test_a_code_is_printed_with_its_hyphen():
    assert as_printed("K7M2H") == "K7M2-H"

"""The short code on a bag: four signs anyone can read aloud, and one that catches a slip.

Not for identity: records are told apart by their ids; a code only has to be read right.
"""

ALPHABET = "23456789ABCDEFGHJKMNPQRSTVWXYZ"


def check_character(data: str, alphabet: str = ALPHABET) -> str:
    """Check sign for a code, by Luhn's formula with as many values as the alphabet has.

    Parameters
    ----------
    data : str
        One or more signs of the alphabet, without the check sign.
    alphabet : str
        Signs in the order of their values, an even number of them.

    Returns
    -------
    str
        One sign of the alphabet.

    Raises
    ------
    ValueError
        A sign is not in the alphabet.

    Notes
    -----
    Catches every single wrong sign and every swap of two neighbours but one pair: the first
    and the last sign of the alphabet ("2Z" read as "Z2").

    References
    ----------
    iso_iec_7812_1 for ten signs.

    Examples
    --------
    K, 7, M and 2 have the values 17, 5, 18 and 0. From the right, by 2, 1, 2, 1 in turn:
    0, 18, 10, 17; each is one digit in base 30. They add up to 45; 15 is missing to 60, the
    next multiple of 30, and the sign of value 15 is H.

    >>> check_character("K7M2")
    'H'
    """
    base = len(alphabet)
    total = 0
    for place, sign in enumerate(reversed(data)):
        addend = alphabet.index(sign) * (1 if place % 2 else 2)
        total += addend // base + addend % base
    return alphabet[(base - total % base) % base]


def is_right(code: str) -> bool:
    """Whether a five-sign code, without hyphen, carries the check sign it should.

    Parameters
    ----------
    code : str
        Any text.

    Returns
    -------
    bool
        True for four signs of the alphabet and their check sign.

    Examples
    --------
    >>> is_right("K7M2H"), is_right("K7M2G"), is_right("K7M20")
    (True, False, False)
    """
    if len(code) != 5 or any(sign not in ALPHABET for sign in code):
        return False
    return check_character(code[:4]) == code[4]


def as_printed(code: str) -> str:
    """Code as it stands on the bag and the sheet, with its hyphen.

    Parameters
    ----------
    code : str
        Five signs.

    Returns
    -------
    str
        Four signs, a hyphen, the check sign.

    Examples
    --------
    >>> as_printed("K7M2H")
    'K7M2-H'
    """
    return f"{code[:4]}-{code[4:]}"

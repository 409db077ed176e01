"""Published trials of what nematodes cost a crop, as they are shown side by side.

Not for a mean of them, nor for any one bed.
"""

from gardens.domain.asked.answer import Asked
from gardens.domain.biology_lines import latin_names
from gardens.domain.damage import DamageParameters, read_damage_parameters
from gardens.domain.units import Unit, read_unit


def trials_of(asked: Asked) -> list[DamageParameters]:
    """The trials of the crop that was asked about.

    Parameters
    ----------
    asked : Asked
        With a ``crop``.

    Returns
    -------
    list of DamageParameters
        One or more, in the order of the table.
    """
    table = read_damage_parameters(asked.teller.rows("damage_parameters"))
    return [one for one in table if one.crop == asked.given.text("crop")]


def trial_name(asked: Asked, trial: DamageParameters) -> str:
    """What tells a trial from the others of its crop.

    Parameters
    ----------
    asked : Asked
        The question.
    trial : DamageParameters
        One published fit.

    Returns
    -------
    str
        Kind, species and setting.
    """
    species = latin_names(asked.teller.rows("species"))[trial.species]
    kind = f"{trial.form.capitalize()} kind, " if trial.form else ""
    return f"{kind}{species}, {trial.setting.replace('cm3', 'cm³')}"


def trial_unit(trial: DamageParameters) -> Unit:
    """The unit a trial counted in.

    Parameters
    ----------
    trial : DamageParameters
        One published fit.

    Returns
    -------
    Unit
        Of soil.
    """
    unit = read_unit(trial.unit)
    assert unit is not None
    return unit


def unit_words(trial: DamageParameters) -> str:
    """What a trial counted, and per how much soil.

    Parameters
    ----------
    trial : DamageParameters
        One published fit.

    Returns
    -------
    str
        E.g. ``eggs and juveniles per cm³``.
    """
    return trial.unit.replace("cm3", "cm³").replace("J2", "juveniles")


def pots_words(trial: DamageParameters) -> str:
    """What to bear in mind with a trial in pots.

    Parameters
    ----------
    trial : DamageParameters
        One published fit.

    Returns
    -------
    str
        Empty for beds, fields and microplots.
    """
    if "pots" not in trial.setting:
        return ""
    return "Plants in pots bear more than plants in a bed: to be below its level tells nothing."

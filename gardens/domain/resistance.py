"""What a seed packet states about root-knot resistance, and what is known to break it.

Not for filling gaps: a sign that is not in the table stays text, and no code at all means
"not stated", never "susceptible". Resistant plants can still lose yield.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

_SIGN = re.compile(r"[A-Za-z0-9]+(?:[.\-–][A-Za-z0-9]+)*")
# An old string names several pests by single letters, V and F among them: V, F, N, T, A, S, L.
_OLD_STRING = re.compile(r"(?=.*[VF])[VFNTASL0-9]+")

# Words that turn what follows round; what they govern stays text.
_DENIALS = frozenset({"no", "not", "susceptible"})


@dataclass(frozen=True)
class StatedResistance:
    """One nematode code of a packet.

    ``level`` is ``"HR"``, ``"IR"`` or None where the packet names none; ``assumed`` is True
    where the code does not say which species and the usual ones are meant.
    """

    code: str
    level: str | None
    species: tuple[str, ...]
    assumed: bool
    from_memory: bool


@dataclass(frozen=True)
class Packet:
    """A packet's code as printed, what was read in it, and what stayed text."""

    printed: str
    stated: tuple[StatedResistance, ...]
    kept_as_text: tuple[str, ...]


@dataclass(frozen=True)
class Gene:
    """One resistance gene of a crop: what it holds, what breaks it, and its heat record."""

    key: str
    name: str
    crop: str
    covers: tuple[str, ...]
    broken_by: tuple[str, ...]
    virulent: bool
    conflict: bool
    heat: str
    source: tuple[str, ...]
    from_memory: bool


def read_packet(printed: str, crop_key: str, table: Mapping[str, object]) -> Packet:
    """Read the resistance code of a seed packet.

    Parameters
    ----------
    printed : str
        The code exactly as printed, up to 40 characters; may be empty.
    crop_key : str
        Key of ``fixtures/crops.json``, or "": the old letter N is read for tomato only.
    table : Mapping
        Content of ``fixtures/resistance_codes.json``.

    Returns
    -------
    Packet
        ``stated`` is empty when no nematode code was read.

    Notes
    -----
    A level (HR, IR) counts for the codes after it, or, where the packet begins with a code,
    for the codes before it. Capitals as printed, or all capitals, are read; nothing else.

    References
    ----------
    isf_2012_definitions, isf_code_lists

    Examples
    --------
    >>> table = {"levels": [{"code": "HR"}, {"code": "IR"}], "pests": [
    ...     {"code": "Mi", "species": ["Mi"], "assumed": False, "from_memory": False}],
    ...     "old_letter": {"code": "N", "crops": ["tomato"], "species": ["Ma", "Mi", "Mj"],
    ...     "assumed": True, "from_memory": True}}
    >>> found = read_packet("HR: ToMV, V / IR: Mi, Mf", "tomato", table)
    >>> [(one.code, one.level) for one in found.stated], found.kept_as_text
    ([('Mi', 'IR')], ('ToMV', 'V', 'Mf'))
    >>> read_packet("VFN", "tomato", table).stated[0].species
    ('Ma', 'Mi', 'Mj')
    """
    signs = [found.group() for found in _SIGN.finditer(printed)]
    levels = {str(row["code"]) for row in _rows(table["levels"])}
    known = _known_codes(table, crop_key, signs)
    stated, text = [], []
    for sign, level in _with_levels(signs, levels):
        row = known.get(sign)
        if row is None or level in _DENIALS:
            text.append(sign)
        else:
            stated.append(_stated(row, level))
    return Packet(printed, tuple(stated), tuple(text))


def _rows(value: object) -> Sequence[Mapping[str, object]]:
    assert isinstance(value, Sequence)
    return value


def _known_codes(
    table: Mapping[str, object], crop_key: str, signs: Sequence[str]
) -> dict[str, Mapping[str, object]]:
    """Every sign that can be read on this packet: as printed or in capitals."""
    pests = _rows(table["pests"])
    known = {str(row["code"]).upper(): row for row in pests}
    known |= {str(row["code"]): row for row in pests}
    old = table["old_letter"]
    assert isinstance(old, Mapping)
    if crop_key in old["crops"]:
        single = {sign for sign in signs if len(sign) == 1}
        if single & {"V", "F"}:
            known["N"] = old
        known |= {sign: old for sign in signs if "N" in sign and _OLD_STRING.fullmatch(sign)}
    return known


def _with_levels(signs: Sequence[str], levels: set[str]) -> list[tuple[str, str | None]]:
    """Each sign that is not a level, with the level that counts for it."""
    led = not signs or signs[0] in levels or signs[0].lower() in _DENIALS
    ordered = list(signs) if led else list(reversed(signs))
    level, found = None, []
    for sign in ordered:
        if sign in levels or sign.lower() in _DENIALS:
            level = sign if sign in levels else sign.lower()
        else:
            found.append((sign, level))
    return found if led else list(reversed(found))


def _stated(row: Mapping[str, object], level: str | None) -> StatedResistance:
    species = row["species"]
    assert isinstance(species, Sequence)
    return StatedResistance(
        code=str(row["code"]),
        level=level,
        species=tuple(species),
        assumed=bool(row["assumed"]),
        from_memory=bool(row["from_memory"]),
    )


def stated_against(packet: Packet, species: str) -> str:
    """What a packet states against one species.

    Parameters
    ----------
    packet : Packet
        A packet that was read.
    species : str
        A short name such as ``"Mi"``.

    Returns
    -------
    str
        ``"HR"``, ``"IR"``, ``"stated"`` (no level printed), ``"assumed"`` (an old letter that
        names no species) or ``"not_stated"``.

    References
    ----------
    isf_2012_definitions

    Examples
    --------
    >>> stated_against(Packet("", (), ()), "Mi")
    'not_stated'
    """
    found = [one for one in packet.stated if species in one.species]
    sure = [one for one in found if not one.assumed]
    levels = {one.level for one in sure}
    for level in ("IR", "HR"):
        if level in levels:
            return level
    if sure:
        return "stated"
    return "assumed" if found else "not_stated"


def read_genes(table: Iterable[Mapping[str, object]]) -> tuple[Gene, ...]:
    """The resistance genes of the table.

    Parameters
    ----------
    table : iterable of Mapping
        Content of ``fixtures/resistance_genes.json``.

    Returns
    -------
    tuple of Gene
        One for each row, in the order of the table.
    """
    return tuple(
        Gene(
            key=str(row["key"]),
            name=str(row["name"]),
            crop=str(row["crop"]),
            covers=_names(row["covers"]),
            broken_by=_names(row["broken_by"]),
            virulent=bool(row["virulent"]),
            conflict=bool(row["conflict"]),
            heat=str(row["heat"]),
            source=_names(row["source"]),
            from_memory=bool(row["from_memory"]),
        )
        for row in table
    )


def _names(value: object) -> tuple[str, ...]:
    assert isinstance(value, Sequence)
    return tuple(str(one) for one in value)


def gene_against(gene: Gene, species: str) -> str:
    """How one gene stands to one species.

    Parameters
    ----------
    gene : Gene
        A row of the table.
    species : str
        A short name such as ``"Me"``.

    Returns
    -------
    str
        ``"holds"``, ``"holds_until_virulent"`` (strains that break it are known),
        ``"broken"``, ``"uncertain"`` (both are reported) or ``"not_known"``.

    References
    ----------
    kiewnick_2009_mi1, hajihassani_2019_pepper, swanson_1984_cowpea

    Examples
    --------
    >>> rk = Gene("rk", "Rk", "southern_pea", ("Mi", "Mj"), ("Mj", "Me"), True, True, "", (), False)
    >>> [gene_against(rk, species) for species in ("Mi", "Mj", "Me", "Mfl")]
    ['holds_until_virulent', 'uncertain', 'broken', 'not_known']
    """
    held, broken = species in gene.covers, species in gene.broken_by
    if held and broken:
        return "uncertain"
    if held:
        return "holds_until_virulent" if gene.virulent else "holds"
    return "broken" if broken else "not_known"

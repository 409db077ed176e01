"""What the letters on a seed packet say, and whether the genes behind them hold.

Not for choosing a variety: no variety is named here.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.grow_species import newest_planting
from gardens.domain.asked.grow_words import MEMORY, REGULATED, one_row_each
from gardens.domain.biology_lines import latin_names, packet_line
from gardens.domain.briefing.lines import Because, Line
from gardens.domain.host_table import SPECIES
from gardens.domain.resistance import (
    Gene,
    Packet,
    gene_against,
    read_genes,
    read_packet,
    stated_against,
)
from gardens.domain.said import capital, together

STATED_WORDS: Mapping[str, str] = {
    "HR": "High resistance (HR)",
    "IR": "Intermediate resistance (IR)",
    "stated": "Resistance, no level printed",
    "assumed": "Usually meant by the old letter N, not stated",
    "not_stated": "Not stated, so it may be either",
}
GENE_WORDS: Mapping[str, str] = {
    "holds": "Holds it",
    "holds_until_virulent": "Holds it, but not strains that break the gene",
    "broken": "Does not hold it",
    "uncertain": "Uncertain: reported to hold it and to fail",
    "not_known": "Not known",
}


def packet_letters(asked: Asked) -> Answer:
    """What the letters on a seed packet say.

    Parameters
    ----------
    asked : Asked
        With ``letters`` as printed, maybe ``crop`` or a ``bed`` to take both from, and maybe
        ``soil_celsius`` [degrees C].

    Returns
    -------
    Answer
        Nothing stated is never susceptible; a row for each species and each gene.
    """
    letters, crop = _letters_and_crop(asked)
    table, names = asked.tables["resistance_codes"], latin_names(asked.tables["species"])
    packet = read_packet(letters, crop, table)
    genes = [gene for gene in read_genes(asked.tables["resistance_genes"]) if gene.crop == crop]
    because = _meanings(packet, table)
    lines = [
        asked.teller.say(packet_line(packet, names), because=because),
        *_kept(asked, packet),
        *_heat(asked, packet),
        *_genes_line(asked, crop, genes),
    ]
    each = SPECIES if packet.stated or genes else ()
    rows = one_row_each(_species_row(asked, packet, genes, one, names) for one in each)
    rows += [row(gene.name, _record(gene), gene.source) for gene in genes]
    return Answer(tuple(lines), tuple(rows))


def _letters_and_crop(asked: Asked) -> tuple[str, str]:
    """What was typed; a bed fills in what was left empty, but no letters of another crop."""
    letters, crop = asked.given.text("letters"), asked.given.text("crop")
    planting = newest_planting(asked.bed())
    if planting is None or crop not in ("", str(planting["crop_key"])):
        return letters, crop
    return letters or str(planting["resistance_code"]), crop or str(planting["crop_key"])


def _meanings(packet: Packet, table: Mapping[str, Any]) -> list[Because]:
    levels = {one.level for one in packet.stated}
    codes = {one.code for one in packet.stated if not one.assumed}
    rows = [one for one in table["levels"] if one["code"] in levels]
    rows += [one for one in table["pests"] if one["code"] in codes]
    if any(one.assumed for one in packet.stated):
        rows.append(table["old_letter"])
    return [_meaning(one) for one in rows]


def _meaning(one: Mapping[str, Any]) -> Because:
    memory = f" ({MEMORY})" if one["from_memory"] else ""
    sources = (one["source"],) if one["source"] else ()
    return Because(f"{one['code']}: {one['means']}{memory}.", sources)


def _kept(asked: Asked, packet: Packet) -> Iterable[Line]:
    table = asked.tables["resistance_codes"]
    if packet.kept_as_text:
        known = [one for one in table["kept_as_text"] if one["code"] in packet.kept_as_text]
        told = ", ".join(packet.kept_as_text)
        because = [_meaning(one) for one in known]
        yield asked.teller.line("packet_kept_as_text", listed=told, because=because)
    as_tomato = read_packet(packet.printed, "tomato", table)
    if len(as_tomato.stated) > len(packet.stated):
        yield asked.teller.line("packet_old_letter")


def _heat(asked: Asked, packet: Packet) -> Iterable[Line]:
    if not packet.stated:
        return
    limit = asked.tables["resistance_codes"]["heat"]["soil_celsius"]
    soil = asked.given.maybe("soil_celsius")
    told = {"limit": limit, "limit_f": _fahrenheit(limit)}
    if soil is None:
        yield asked.teller.line("packet_heat", **told)
        return
    code = "packet_heat_above" if soil > limit else "packet_heat_within"
    yield asked.teller.line(code, soil=soil, soil_f=_fahrenheit(soil), **told)


def _fahrenheit(celsius: float) -> int:
    return round(celsius * 1.8 + 32)


def _genes_line(asked: Asked, crop: str, genes: list[Gene]) -> Iterable[Line]:
    if not crop:
        yield asked.teller.line("packet_no_crop")
        return
    name = next(one["name"] for one in asked.tables["crops"] if one["key"] == crop)
    code = "packet_gene_not_named" if genes else "packet_no_gene"
    yield asked.teller.line(code, plant=name)


def _species_row(
    asked: Asked, packet: Packet, genes: list[Gene], species: str, names: Mapping[str, str]
) -> Row:
    regulated = [one["key"] for one in asked.tables["species"] if one["regulated_in_places"]]
    against = {f"Gene {gene.name}": _gene_words(asked, gene, species) for gene in genes}
    cells = {
        "The packet": STATED_WORDS[stated_against(packet, species)],
        **against,
        "The law": REGULATED if species in regulated else "",
    }
    sources = dict.fromkeys(key for gene in genes for key in gene.source)
    return row(names[species], cells, tuple(sources), species in regulated)


def _gene_words(asked: Asked, gene: Gene, species: str) -> str:
    rows = asked.tables["resistance_genes"]
    recalled = next(one["broken_by_from_memory"] for one in rows if one["key"] == gene.key)
    memory = gene.from_memory or species in recalled
    found = gene_against(gene, species)
    return GENE_WORDS[found] + (f" ({MEMORY})" if memory and found != "not_known" else "")


def gene_cells(gene: Gene, names: Mapping[str, str]) -> dict[str, str]:
    """What is known of a gene.

    Parameters
    ----------
    gene : Gene
        A row of the table.
    names : Mapping
        Latin names by short name.

    Returns
    -------
    dict
        What it holds, what breaks it, and its heat record.
    """
    both = [one for one in gene.covers if one in gene.broken_by]

    def listed(species: Iterable[str]) -> str:
        told = [names[one] for one in species]
        return together(told) if told else ""

    return {
        "Holds": listed(one for one in gene.covers if one not in both),
        "Does not hold": listed(one for one in gene.broken_by if one not in both),
        "Uncertain": listed(both),
        **_record(gene),
    }


def _record(gene: Gene) -> dict[str, str]:
    return {
        "Strains that break it": "Known." if gene.virulent else "",
        "In heat": gene.heat,
        "Read": f"{capital(MEMORY)}." if gene.from_memory else "",
    }


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"packet_letters": packet_letters}

"""What to grow: whether a plant feeds root-knot nematodes, and what else its shelf answers.

Not for the readings themselves: ``hosts`` and ``resistance`` make them.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence

from gardens.domain.asked import (
    grow_fallow,
    grow_list,
    grow_numbers,
    grow_packet,
    grow_test_plants,
)
from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.grow_packet import gene_cells
from gardens.domain.asked.grow_species import Wanted, newest_planting, plant_asked, wanted
from gardens.domain.asked.grow_words import (
    REGULATED,
    caution_keys,
    full_name,
    one_row_each,
    reasons,
    standing,
    standings,
)
from gardens.domain.asked.treatment_rows import caution_row
from gardens.domain.biology_lines import host_lines, packet_line
from gardens.domain.briefing.lines import Because, Line
from gardens.domain.errors import DomainError
from gardens.domain.host_table import HostCell, Plant, read_plants
from gardens.domain.hosts import across_species, suitability, tolerance
from gardens.domain.resistance import Gene, read_genes, read_packet
from gardens.domain.said import capital, together

_SUFFERS = {
    "suffers_heavily": "Suffers heavily: ",
    "suffers": "Suffers: ",
    "suffers_lightly": "Suffers lightly: ",
    "uncertain": "Uncertain, trials differ: ",
}
TRAP = "Draws them in; lifted on time with all its roots, it takes them away."
_NOT_FED = "host_feeds_none_listed"


def feeds_them(asked: Asked) -> Answer:
    """Whether a plant feeds root-knot nematodes, and whether it suffers.

    Parameters
    ----------
    asked : Asked
        With ``plant`` or a ``bed`` with a crop, and maybe ``species``.

    Returns
    -------
    Answer
        The worst first; a row for each species, each resistant kind and each gene.
    """
    plants = read_plants(asked.tables["host_status"])
    plant = plant_asked(asked, plants)
    if plant is None:
        raise DomainError("grow_no_plant", field="plant")
    about = wanted(asked)
    kinds = [one for one in plants if plant.crop and one.crop == plant.crop and one is not plant]
    genes = _genes(asked, plant, kinds)
    lines = [
        *_fed(asked, plant, about),
        *_suffering(asked, plant, about),
        *_kinds_line(asked, plant, kinds, genes),
        *_packet(asked),
        *about.lines,
    ]
    care = caution_keys(asked, plant)
    rows = [caution_row(asked, f"{plant.name}: take care", care)] if care else []
    species = (*about.species, *about.others)
    rows += one_row_each(_species_row(asked, plant, each, about) for each in species)
    rows += [_kind_row(one, about) for one in kinds]
    rows += [row(gene.name, gene_cells(gene, about.names), gene.source) for gene in genes]
    return Answer(tuple(lines), tuple(rows))


def _fed(asked: Asked, plant: Plant, about: Wanted) -> Iterable[Line]:
    found = across_species(plant, about.species)
    open_ones = {*found.feeds, *found.uncertain, *found.not_known}
    each = {
        "host_feeds_some": found.feeds,
        "host_uncertain": found.uncertain,
        _NOT_FED: tuple(one for one in about.species if one not in open_ones),
    }
    noted = next((code for code in ("host_uncertain", *each) if each[code]), "")
    for said in host_lines(full_name(plant), found, about.species, about.names):
        because = reasons(plant, each.get(said.code, ()), about.names)
        if plant.note and said.code == noted:
            because.append(Because(plant.note, plant.source))
        yield asked.teller.say(said, because=because)


def _suffering(asked: Asked, plant: Plant, about: Wanted) -> Iterable[Line]:
    known = [one for one in about.species if one in plant.cells and plant.cells[one].losses]
    if not known and plant.kind == "crop":
        yield asked.teller.line("host_suffering_not_known", plant=plant.name)


def _kinds_line(
    asked: Asked, plant: Plant, kinds: Sequence[Plant], genes: Sequence[Gene]
) -> Iterable[Line]:
    if plant.kind != "crop":
        return
    if not genes and not kinds:
        yield asked.teller.line("host_no_resistant_kind", plant=plant.name)
        return
    sources = dict.fromkeys(key for gene in genes for key in gene.source)
    because = [Because("The genes, and what breaks them.", tuple(sources))]
    told = together(gene.name for gene in genes)
    yield asked.teller.line("host_resistant_kinds", plant=plant.name, listed=told, because=because)


def _packet(asked: Asked) -> Iterable[Line]:
    planting = newest_planting(asked.bed())
    if planting is None or asked.given.has("plant") or not planting["resistance_code"]:
        return
    code, crop = str(planting["resistance_code"]), str(planting["crop_key"])
    names = {str(one["key"]): str(one["latin"]) for one in asked.tables["species"]}
    yield asked.teller.say(
        packet_line(read_packet(code, crop, asked.tables["resistance_codes"]), names)
    )


def _genes(asked: Asked, plant: Plant, kinds: Sequence[Plant]) -> list[Gene]:
    named = {one.gene for one in (plant, *kinds) if one.gene}
    genes = read_genes(asked.tables["resistance_genes"])
    return [gene for gene in genes if gene.key in named or (gene.crop and gene.crop == plant.crop)]


def _species_row(asked: Asked, plant: Plant, species: str, about: Wanted) -> Row:
    cell = plant.cells.get(species)
    losses = cell.losses if cell else ()
    is_regulated = species in about.regulated
    cells = {
        "Feeds it": capital(standing(suitability(plant, species))),
        "Suffers from it": _suffers(asked, plant, species, cell),
        "As a trap": TRAP if cell and cell.trap else "",
        "The law": REGULATED if is_regulated else "",
    }
    sources = (*(plant.source if cell else ()), *(one.source for one in losses))
    return row(about.names[species], cells, tuple(dict.fromkeys(sources)), is_regulated)


def _suffers(asked: Asked, plant: Plant, species: str, cell: HostCell | None) -> str:
    if cell is None or not cell.losses:
        return ""
    band = _SUFFERS[tolerance(plant, species, asked.teller.judgements)]
    trials = (f"{one.loss_percent:g} % lost ({one.setting})" for one in cell.losses)
    return f"{band}at the highest number tried, {together(trials)}."


def _kind_row(kind: Plant, about: Wanted) -> Row:
    species = (*about.species, *about.others)
    return row(full_name(kind), standings(kind, species, about.names), kind.source)


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {
    "feeds_them": feeds_them,
    **grow_packet.ANSWERED,
    **grow_list.ANSWERED,
    **grow_fallow.ANSWERED,
    **grow_test_plants.ANSWERED,
    **grow_numbers.ANSWERED,
}

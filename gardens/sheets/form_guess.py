"""Guesses which of our values a lab's field wants, from its name and its label.

Only a start: a person looks at every match. The words are those that forms commonly use, from
memory; no lab's form is kept here.
"""

import re
from collections.abc import Sequence

# From the most particular to the least: the first that fits is offered.
_TEXT: tuple[tuple[str, str], ...] = (
    (r"e-?mail", "grower_email"),
    (r"\b(tele)?phone\b|\btel\b|\bmobile\b|\bcell\b", "grower_phone"),
    (r"account|customer (no|number|id)|client (no|number|id)", "account_number"),
    (r"(number|no|#) of (samples|bags)|how many samples|total samples", "n_samples"),
    (r"(date|day) (sent|shipped|mailed|submitted)|(ship|submission|mailing) date", "sent_on"),
    (r"(date|day) (planted|of planting|sown)|(plant|planting|sowing) date", "planted_on"),
    (r"next.*(date|when)|(date|when).*next", "next_crop_on"),
    (r"(next|future|planned|intended|following) (crop|plant)", "next_crop"),
    (r"(previous|past|prior|last|former).*crop|crop history", "crops_before"),
    (r"variety|cultivar", "cultivar_now"),
    (
        r"(sample|bag|grower'?s?|field|your).{0,12}(id|code|no|number|#|label)\b|sample name",
        "sample_code",
    ),
    (r"(date|day) (sampled|collected|taken|of sampling)|(sampl\w+|collection) date", "lifted_on"),
    (r"\bcores?\b|sub-?samples", "n_cores"),
    (r"depth", "depth"),
    (r"moist|wetness", "moisture"),
    (r"temp", "soil_temperature"),
    (r"irrigat", "irrigated"),
    (r"(treat|nematicid|pesticid|chemical|fumigan|amend)", "treatments"),
    (r"(pattern|distribution)", "symptom_pattern"),
    (r"(symptom|problem|damage|injury|appearance)", "symptom"),
    (r"(good|poor|healthy).*(area|spot|growth)", "good_or_poor"),
    (r"roots?\b.*(incl|bag|sent|present)|includes? roots", "has_roots"),
    (r"soil (type|texture|class)|\btexture\b", "soil"),
    (r"\b(area|acre|acres|acreage|hectare|size)\b", "area"),
    (r"(purpose|reason|why)", "purpose"),
    (r"(test|analys|assay|service)", "tests_wanted"),
    (r"(bed|plot|field|block|site)( name)?\b", "bed_name"),
    (r"(crop|plant|host)", "crop_now"),
    (r"(farm|garden|business|company)", "garden_name"),
    (r"(town|place|county|location|city)", "garden_place"),
    (r"(laboratory|\blab\b)", "lab_name"),
    (r"address|street|mailing", "grower_address"),
    (r"(remark|comment|note|other information)", "note"),
    (r"(name|grower|owner|submitter|sender|client|customer)", "grower_name"),
    (r"\bdate\b", "lifted_on"),
)
# A box is ticked for one value of one of our fields.
_BOXES: tuple[tuple[str, str, str], ...] = (
    (r"diagnos|problem", "purpose", "diagnose"),
    (r"predict|pre-?plant|advis|survey", "purpose", "predict"),
    (r"follow-?up|after treatment|worked", "purpose", "check_worked"),
    (r"species|identif|molecular|\bpcr\b|\bdna\b", "tests_wanted", "species_id"),
    (r"egg", "tests_wanted", "egg_count"),
    (r"root (extract|assay|analys)", "tests_wanted", "root_extraction"),
    (r"nematode (count|assay|analys)|soil (assay|extract)|count", "tests_wanted", "nematode_count"),
    (r"patch|spots\b", "symptom_pattern", "patches"),
    (r"low (area|spot)", "symptom_pattern", "low_spots"),
    (r"\brows?\b", "symptom_pattern", "rows"),
    (r"uniform|everywhere|general\b", "symptom_pattern", "everywhere"),
    (r"poor (area|spot|growth)", "good_or_poor", "poor_spot"),
    (r"good (area|spot|growth)|healthy", "good_or_poor", "good_spot"),
)
_NOT_OURS = r"\b(lab|office|laboratory|clinic|staff)( use)?( only)?\b.*\buse\b|\buse only\b"
_YES_NO: tuple[tuple[str, str], ...] = ((r"irrigat", "irrigated"), (r"root", "has_roots"))
_OF_THE_PARCEL = {
    "grower_name",
    "grower_address",
    "grower_phone",
    "grower_email",
    "garden_name",
    "garden_place",
    "lab_name",
    "account_number",
    "n_samples",
    "sent_on",
}


def guess(name: str, label: str, kind: str, options: Sequence[str]) -> dict[str, object] | None:
    """Which of our values a field may want.

    Parameters
    ----------
    name : str
        Of the field in the file.
    label : str
        What the file shows when one points at it.
    kind : str
        ``"text"``, ``"check"``, ``"choice"`` or ``"radio"``.
    options : sequence of str
        Choices, or names of states that are on.

    Returns
    -------
    dict or None
        ``fill``, ``row`` and ``when``; None where nothing fits.

    Examples
    --------
    >>> guess("Sample ID 2", "", "text", [])
    {'fill': 'sample_code', 'row': 2, 'when': ''}
    >>> guess("chk_species", "", "check", ["Yes"])
    {'fill': 'tests_wanted', 'row': 1, 'when': 'species_id'}
    """
    words = as_words(f"{name} {label}")
    if re.search(_NOT_OURS, words):
        return None
    row = _row(words)
    if kind in ("check", "radio"):
        found = _box(f"{words} {as_words(' '.join(options))}")
        return None if found is None else {"fill": found[0], "row": row, "when": found[1]}
    fill = next((fill for pattern, fill in _TEXT if re.search(pattern, words)), None)
    if fill is None:
        return None
    return {"fill": fill, "row": 1 if fill in _OF_THE_PARCEL else row, "when": ""}


def as_words(text: str) -> str:
    """A name in a file as words: ``sampleID_2`` as ``sample id 2``.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        Small letters, parted by blanks.

    Examples
    --------
    >>> as_words("sampleID_2"), as_words("Date.Collected[0]")
    ('sample id 2', 'date collected')
    """
    plain = re.sub(r"\[\d+\]", " ", text)
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])|(?<=[A-Za-z])(?=\d)", " ", plain)
    return " ".join(re.sub(r"[_.\-/:()]+", " ", parted).lower().split())


def _row(words: str) -> int:
    numbers = [int(one) for one in re.findall(r"\b\d{1,2}\b", words)]
    return numbers[-1] if numbers and 1 <= numbers[-1] <= 40 else 1


def _box(words: str) -> tuple[str, str] | None:
    for pattern, fill in _YES_NO:
        answer = re.search(r"\b(y|n)(es|o)?\b", words)
        if re.search(pattern, words) and answer:
            return fill, {"y": "yes", "n": "no"}[answer[1]]
    for pattern, fill, when in _BOXES:
        if re.search(pattern, words):
            return fill, when
    return None

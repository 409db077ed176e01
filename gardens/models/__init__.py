"""What is stored: one typed table per kind of record, the journal, and the accounts' phones."""

from gardens.models.account import AccountName, Device, FailedSignIn, UsedPairing
from gardens.models.assay_report import AssayReport, Paper
from gardens.models.bed import Bed, Planting
from gardens.models.blob import Blob
from gardens.models.calendar import CalendarAddress
from gardens.models.conflict import Conflict
from gardens.models.garden import Garden, GardenDetails
from gardens.models.journal import JournalEntry
from gardens.models.record import Record
from gardens.models.root_check import GallRating, Photo, RootCheck
from gardens.models.soil_sample import LabProfile, SoilSample

RECORD_MODELS: dict[str, type[Record]] = {
    model.KIND: model
    for model in (
        GardenDetails,
        Bed,
        Planting,
        RootCheck,
        GallRating,
        Photo,
        LabProfile,
        SoilSample,
        AssayReport,
        Paper,
        Conflict,
    )
}

__all__ = [
    "RECORD_MODELS",
    "AccountName",
    "AssayReport",
    "Bed",
    "Blob",
    "CalendarAddress",
    "Conflict",
    "Device",
    "FailedSignIn",
    "GallRating",
    "Garden",
    "GardenDetails",
    "JournalEntry",
    "LabProfile",
    "Paper",
    "Photo",
    "Planting",
    "Record",
    "RootCheck",
    "SoilSample",
    "UsedPairing",
]

"""Soil samples and the lab they go to; everything about a lab is typed by the grower."""

from typing import ClassVar

from django.db import models

from gardens.models.constraints import in_order, one_of, together, within
from gardens.models.record import Record, plain
from gardens.models.wire import Whole


def workdays() -> list[int]:
    """Monday to Friday, Monday being 0."""
    return [0, 1, 2, 3, 4]


class LabProfile(Record):
    """The grower's own lab and how it wants its parcels."""

    KIND: ClassVar[str] = "lab_profile"
    WIRE = (
        *plain(
            "name",
            "address",
            "phone",
            "email",
            "account_number",
            "reporting_unit",
            "working_days",
            "country",
            "closed_on",
            "usual_days",
            "parcel_wishes",
            "note",
        ),
        Whole(
            "courier",
            {
                "transit_days": "transit_days",
                "to_door": "to_door",
                "moves_on": "courier_moves_on",
                "words": "courier_words",
            },
        ),
        Whole("form", {"paper": "form_paper", "fields": "form_fields", "spots": "form_spots"}),
    )

    name = models.CharField(max_length=120)
    address = models.CharField(max_length=300, default="", blank=True)
    phone = models.CharField(max_length=40, default="", blank=True)
    email = models.CharField(max_length=254, default="", blank=True)
    account_number = models.CharField(max_length=40, default="", blank=True)
    reporting_unit = models.CharField(max_length=60, default="", blank=True)
    working_days = models.JSONField(default=workdays)
    country = models.CharField(max_length=2, default="", blank=True)
    closed_on = models.JSONField(default=list)
    usual_days = models.IntegerField(null=True)
    transit_days = models.IntegerField(null=True)
    to_door = models.BooleanField(null=True)
    courier_moves_on = models.JSONField(null=True)
    courier_words = models.CharField(max_length=200, null=True)
    form_paper = models.UUIDField(null=True)
    form_fields = models.JSONField(null=True)
    form_spots = models.JSONField(null=True)
    parcel_wishes = models.CharField(max_length=1000, default="", blank=True)
    note = models.TextField(default="", blank=True)

    class Meta(Record.Meta):
        constraints = [
            *within("lab_profile", usual_days=(1, 200), transit_days=(0, 20)),
            together(
                "lab_profile",
                "courier",
                "transit_days",
                "to_door",
                "courier_moves_on",
                "courier_words",
            ),
            together("lab_profile", "form", "form_paper", "form_fields", "form_spots"),
        ]


class SoilSample(Record):
    """One bag of soil from a bed or a part of it, and what the lab is asked about it."""

    KIND: ClassVar[str] = "soil_sample"
    WIRE = (
        *plain(
            "bed",
            "planting",
            "code",
            "purpose",
            "cores_planned",
            "lifted_at",
            "n_cores",
            "core_places",
            "moisture",
            "soil_temperature_celsius",
            "has_roots",
            "good_or_poor",
            "symptom",
            "symptom_pattern",
            "irrigated",
            "treatments",
            "next_crop",
            "next_crop_on",
            "tests_wanted",
            "extract_cm3_asked",
            "lab_profile",
            "packed_at",
            "extracted_on",
            "note",
        ),
        Whole(
            "part",
            {
                "x_cm": "part_x_cm",
                "y_cm": "part_y_cm",
                "width_cm": "part_width_cm",
                "length_cm": "part_length_cm",
            },
        ),
        Whole("depth", {"from_cm": "depth_from_cm", "to_cm": "depth_to_cm"}),
        Whole("handed_over", {"at": "handed_over_at", "to": "handed_over_to"}),
        Whole(
            "warmth",
            {
                "warmest_celsius": "warmest_celsius",
                "coldest_celsius": "coldest_celsius",
                "in_sun": "in_sun",
            },
        ),
        Whole("parcel", {"sent_on": "sent_on", "arrived_on": "arrived_on"}),
    )

    bed = models.UUIDField(db_index=True)
    planting = models.UUIDField(null=True)
    code = models.CharField(max_length=5)
    purpose = models.CharField(max_length=16)
    part_x_cm = models.IntegerField(null=True)
    part_y_cm = models.IntegerField(null=True)
    part_width_cm = models.IntegerField(null=True)
    part_length_cm = models.IntegerField(null=True)
    cores_planned = models.JSONField(default=list)
    lifted_at = models.DateTimeField(null=True)
    n_cores = models.IntegerField(null=True)
    core_places = models.JSONField(default=list)
    depth_from_cm = models.IntegerField(null=True)
    depth_to_cm = models.IntegerField(null=True)
    moisture = models.CharField(max_length=12, null=True)
    soil_temperature_celsius = models.FloatField(null=True)
    has_roots = models.BooleanField(null=True)
    good_or_poor = models.CharField(max_length=12, null=True)
    symptom = models.CharField(max_length=500, default="", blank=True)
    symptom_pattern = models.CharField(max_length=12, null=True)
    irrigated = models.BooleanField(null=True)
    treatments = models.CharField(max_length=1000, default="", blank=True)
    next_crop = models.CharField(max_length=80, default="", blank=True)
    next_crop_on = models.DateField(null=True)
    tests_wanted = models.JSONField(default=list)
    extract_cm3_asked = models.IntegerField(null=True)
    lab_profile = models.UUIDField(null=True)
    packed_at = models.DateTimeField(null=True)
    handed_over_at = models.DateTimeField(null=True)
    handed_over_to = models.CharField(max_length=120, null=True)
    warmest_celsius = models.FloatField(null=True)
    coldest_celsius = models.FloatField(null=True)
    in_sun = models.BooleanField(null=True)
    extracted_on = models.DateField(null=True)
    sent_on = models.DateField(null=True)
    arrived_on = models.DateField(null=True)
    note = models.TextField(default="", blank=True)

    class Meta(Record.Meta):
        constraints = [
            *one_of("soil_sample", purpose=("diagnose", "predict", "check_worked")),
            *within(
                "soil_sample",
                part_x_cm=(0, 5000),
                part_y_cm=(0, 5000),
                part_width_cm=(1, 5000),
                part_length_cm=(1, 5000),
                n_cores=(1, 200),
                depth_from_cm=(0, 195),
                depth_to_cm=(1, 200),
                soil_temperature_celsius=(-10, 60),
                extract_cm3_asked=(1, 20_000),
                warmest_celsius=(-40, 80),
                coldest_celsius=(-40, 80),
            ),
            together("soil_sample", "handed_over", "handed_over_at", "handed_over_to"),
            in_order("soil_sample", "coldest_celsius", "warmest_celsius"),
            together(
                "soil_sample",
                "part",
                "part_x_cm",
                "part_y_cm",
                "part_width_cm",
                "part_length_cm",
            ),
            together("soil_sample", "depth", "depth_from_cm", "depth_to_cm"),
            in_order("soil_sample", "depth_from_cm", "depth_to_cm", may_equal=False),
            in_order("soil_sample", "sent_on", "arrived_on"),
            models.CheckConstraint(
                condition=models.Q(arrived_on__isnull=True) | models.Q(sent_on__isnull=False),
                name="soil_sample_arrived_only_if_sent",
            ),
        ]

"""Beds and what is planted in them; every length in centimetres."""

from typing import ClassVar

from django.db import models
from django.db.models import Q

from gardens.models.constraints import in_order, one_of, together, within
from gardens.models.record import Record, plain
from gardens.models.wire import Whole


class Bed(Record):
    """A bed: a rectangle or an outline, and where it lies in the garden."""

    KIND: ClassVar[str] = "bed"
    WIRE = (
        *plain("name", "depth_cm", "soil", "archived", "note"),
        Whole(
            "shape",
            {
                "type": "shape_type",
                "width_cm": "width_cm",
                "length_cm": "length_cm",
                "points_cm": "outline_points_cm",
            },
            sparse=True,
        ),
        Whole("place", {"x_cm": "place_x_cm", "y_cm": "place_y_cm"}),
    )

    name = models.CharField(max_length=80)
    shape_type = models.CharField(max_length=9)
    width_cm = models.IntegerField(null=True)
    length_cm = models.IntegerField(null=True)
    outline_points_cm = models.JSONField(null=True)
    place_x_cm = models.IntegerField(default=0)
    place_y_cm = models.IntegerField(default=0)
    depth_cm = models.IntegerField(null=True)
    soil = models.CharField(max_length=200, default="", blank=True)
    archived = models.BooleanField(default=False)
    note = models.TextField(default="", blank=True)

    class Meta(Record.Meta):
        constraints = [
            *one_of("bed", shape_type=("rectangle", "outline")),
            *within(
                "bed",
                width_cm=(20, 5000),
                length_cm=(20, 5000),
                place_x_cm=(0, 100_000),
                place_y_cm=(0, 100_000),
                depth_cm=(5, 200),
            ),
            models.CheckConstraint(
                condition=Q(
                    shape_type="rectangle",
                    width_cm__isnull=False,
                    length_cm__isnull=False,
                    outline_points_cm__isnull=True,
                )
                | Q(
                    shape_type="outline",
                    width_cm__isnull=True,
                    length_cm__isnull=True,
                    outline_points_cm__isnull=False,
                ),
                name="bed_shape_has_its_measures",
            ),
        ]


class Planting(Record):
    """A crop in a bed between two days, with the places of its plants in digging order."""

    KIND: ClassVar[str] = "planting"
    WIRE = (
        *plain("bed", "crop", "crop_key", "cultivar", "resistance_code", "plants", "note"),
        Whole("grown", {"from_on": "grown_from_on", "to_on": "grown_to_on"}),
        Whole(
            "rows",
            {
                "n_rows": "n_rows",
                "row_spacing_cm": "row_spacing_cm",
                "plant_spacing_cm": "plant_spacing_cm",
            },
        ),
        Whole(
            "pots",
            {
                "n_pots": "n_pots",
                "blank_pot": "blank_pot",
                "soil_cm3_per_pot": "soil_cm3_per_pot",
                "soil_sample": "pots_soil_sample",
            },
        ),
    )

    bed = models.UUIDField(db_index=True)
    crop = models.CharField(max_length=80)
    crop_key = models.CharField(max_length=80, default="", blank=True)
    cultivar = models.CharField(max_length=80, default="", blank=True)
    resistance_code = models.CharField(max_length=40, default="", blank=True)
    grown_from_on = models.DateField()
    grown_to_on = models.DateField(null=True)
    n_rows = models.IntegerField(null=True)
    row_spacing_cm = models.IntegerField(null=True)
    plant_spacing_cm = models.IntegerField(null=True)
    plants = models.JSONField(default=list)
    n_pots = models.IntegerField(null=True)
    blank_pot = models.IntegerField(null=True)
    soil_cm3_per_pot = models.IntegerField(null=True)
    pots_soil_sample = models.UUIDField(null=True)
    note = models.TextField(default="", blank=True)

    class Meta(Record.Meta):
        constraints = [
            in_order("planting", "grown_from_on", "grown_to_on"),
            *within("planting", n_rows=(1, 60), row_spacing_cm=(5, 500), plant_spacing_cm=(2, 500)),
            *within("planting", n_pots=(1, 20), blank_pot=(1, 20), soil_cm3_per_pot=(50, 20_000)),
            together("planting", "pots", "n_pots", "soil_cm3_per_pot"),
            in_order("planting", "blank_pot", "n_pots"),
            together("planting", "rows", "n_rows", "row_spacing_cm", "plant_spacing_cm"),
        ]

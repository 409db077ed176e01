"""The shapes of a briefing and of an answer, for ``openapi.yaml``.

Not for its values: those are made by ``gardens.domain``.
"""

from rest_framework import serializers as s

from api.briefed_lab import (
    DueSerializer,
    LabToldSerializer,
    PlanSerializer,
    PotsSerializer,
    SampleToldSerializer,
    SamplingSerializer,
    SoilSerializer,
)
from api.said import SaidSerializer


class LineSerializer(SaidSerializer):
    about = s.ChoiceField(["roots", "pattern", "species", "sample", "next", "watch"])


class ShareSerializer(s.Serializer):
    share_low = s.FloatField()
    share_high = s.FloatField()


class AtMostSerializer(s.Serializer):
    n = s.IntegerField()
    of = s.IntegerField()


class MoreToDigSerializer(s.Serializer):
    n_total = s.IntegerField()
    n_more = s.IntegerField()
    half_width = s.FloatField()


class RootsSerializer(s.Serializer):
    root_check = s.UUIDField()
    planting = s.UUIDField()
    crop = s.CharField()
    checked_on = s.DateField()
    days_ago = s.IntegerField()
    gall_scale = s.CharField()
    scale_name = s.CharField()
    chosen = s.CharField()
    n_rated = s.IntegerField()
    n_missing = s.IntegerField()
    n_dead = s.IntegerField()
    n_stood = s.IntegerField(allow_null=True)
    mean = s.FloatField(allow_null=True)
    median = s.FloatField(allow_null=True)
    lowest = s.IntegerField(allow_null=True)
    highest = s.IntegerField(allow_null=True)
    counts = s.ListField(child=s.IntegerField(), help_text="readings of each grade, 0 to 10")
    interval = s.ListField(child=s.FloatField(), allow_null=True, help_text="low and high end")
    why = s.CharField()
    n_galled = s.IntegerField()
    incidence = ShareSerializer(allow_null=True)
    at_most = AtMostSerializer(allow_null=True)
    more_to_dig = MoreToDigSerializer(allow_null=True)
    reading_twice = s.IntegerField()


class PatternSerializer(s.Serializer):
    code = s.CharField()
    p_band = s.CharField()


class SurfaceSerializer(s.Serializer):
    root_check = s.UUIDField()
    cell_cm = s.FloatField()
    origin_cm = s.ListField(child=s.FloatField())
    n_columns = s.IntegerField()
    n_rows = s.IntegerField()
    values = s.ListField(child=s.FloatField(allow_null=True), help_text="row by row")
    ground = s.ListField(child=s.ChoiceField(["full", "pale", "hatch", "outside"]))
    gate = s.ChoiceField(["open", "closed"])
    pattern = PatternSerializer(allow_null=True)


class ConsistentSerializer(s.Serializer):
    species = s.CharField()
    because = s.ListField(child=s.CharField())


class SpeciesSerializer(s.Serializer):
    consistent_with = ConsistentSerializer(many=True)
    against = ConsistentSerializer(many=True)
    send_for_identification = s.BooleanField()
    why = s.ListField(child=s.CharField())


class BedBriefedSerializer(s.Serializer):
    bed = s.UUIDField()
    name = s.CharField()
    planting = s.UUIDField(allow_null=True)
    crop = s.CharField(allow_null=True)
    roots = RootsSerializer(allow_null=True)
    surface = SurfaceSerializer(allow_null=True)
    species = SpeciesSerializer(allow_null=True)
    soil = SoilSerializer(allow_null=True)
    plan = PlanSerializer()
    samples = SampleToldSerializer(many=True)
    pots = PotsSerializer(many=True)
    lines = LineSerializer(many=True)


class GardenNamedSerializer(s.Serializer):
    name = s.CharField(allow_blank=True)


class BriefingSerializer(s.Serializer):
    today = s.DateField()
    garden = GardenNamedSerializer()
    beds = BedBriefedSerializer(many=True)
    sampling = SamplingSerializer()
    labs = LabToldSerializer(many=True)
    due = DueSerializer(many=True)
    holidays = s.DictField(
        child=s.ListField(child=s.DateField()), help_text="by the two letters of a country"
    )
    lines = LineSerializer(many=True)


class BriefedSerializer(s.Serializer):
    head = s.CharField()
    briefing = BriefingSerializer()


class WrongSerializer(s.Serializer):
    field = s.CharField(allow_blank=True, help_text="the box it is about; empty for all of them")
    words = s.CharField()


class CellSerializer(s.Serializer):
    label = s.CharField()
    words = s.CharField()


class RowSerializer(s.Serializer):
    name = s.CharField()
    cells = CellSerializer(many=True)
    sources = s.ListField(child=s.CharField(), help_text="keys of the references")
    caution = s.BooleanField()


class PlacesSerializer(s.Serializer):
    bed = s.UUIDField()
    points_cm = s.ListField(child=s.ListField(child=s.IntegerField()), help_text="x and y of each")


class AnsweredLineSerializer(SaidSerializer):
    about = s.CharField()


class AnswerSerializer(s.Serializer):
    question = s.CharField()
    wrong = WrongSerializer(many=True)
    lines = AnsweredLineSerializer(many=True)
    rows = RowSerializer(many=True)
    places = PlacesSerializer(allow_null=True)

"""The shapes of what is said of samples, reports, pots and labs, for ``openapi.yaml``.

Not for its values: those are made by ``gardens.domain``.
"""

from rest_framework import serializers as s

from api.said import ReasonSerializer, ToldSerializer


class FindingSerializer(s.Serializer):
    taxon = s.CharField()
    name = s.CharField()
    sort = s.ChoiceField(["root_knot", "plant_parasitic", "free_living", "not_listed"])
    about = s.CharField()
    stage = s.CharField()
    as_written = s.CharField(allow_blank=True)
    original = s.CharField(help_text="number and unit of the report")
    words = s.CharField(help_text="per 100 cm3, as it is shown")
    value = s.FloatField(allow_null=True, help_text="per 100 cm3")
    low = s.FloatField(allow_null=True)
    high = s.FloatField(allow_null=True)
    bound = s.IntegerField(allow_null=True, help_text="there may be so many: none was recovered")
    sources = s.ListField(child=s.CharField())
    assumed = s.CharField(allow_blank=True)


class ReportToldSerializer(s.Serializer):
    assay_report = s.UUIDField()
    soil_sample = s.UUIDField()
    bag = s.CharField()
    lab = s.CharField(allow_blank=True)
    method = s.CharField(allow_blank=True)
    reported_on = s.DateField()
    lifted_on = s.DateField(allow_null=True)
    grade = s.ChoiceField(["A", "B", "C"])
    series = s.CharField()
    findings = FindingSerializer(many=True)


class PointSerializer(s.Serializer):
    assay_report = s.UUIDField()
    on = s.DateField()
    value = s.FloatField(allow_null=True)
    low = s.FloatField(allow_null=True)
    high = s.FloatField(allow_null=True)
    bound = s.IntegerField(allow_null=True)


class SeriesSerializer(s.Serializer):
    key = s.CharField()
    lab = s.CharField(allow_blank=True)
    method = s.CharField(allow_blank=True)
    points = PointSerializer(many=True)


class SpreadSerializer(s.Serializer):
    low = s.FloatField()
    high = s.FloatField()
    n = s.IntegerField()


class SoilSerializer(s.Serializer):
    lines = ToldSerializer(many=True)
    reports = ReportToldSerializer(many=True)
    series = SeriesSerializer(many=True, help_text="one for each lab and method, never joined")
    spread = SpreadSerializer(allow_null=True)
    crop = s.CharField(allow_blank=True)
    level = s.FloatField()


class WindowSerializer(s.Serializer):
    from_on = s.DateField(allow_null=True)
    to_on = s.DateField(allow_null=True)


class DepthSerializer(s.Serializer):
    from_cm = s.IntegerField()
    to_cm = s.IntegerField()


class PlanSerializer(s.Serializer):
    why = s.ChoiceField(["diagnose", "predict", "check_worked"])
    window = WindowSerializer()
    n_cores = s.IntegerField()
    cores_cm = s.ListField(child=s.ListField(child=s.IntegerField()))
    depth = DepthSerializer()
    ask_cm3 = s.IntegerField()
    ask_if_poor_cm3 = s.IntegerField()
    level = s.FloatField()
    crop = s.CharField(allow_blank=True)
    symptom = s.CharField(allow_blank=True)
    lines = ToldSerializer(many=True)


STEPS = ["lifted", "packed", "handed_over", "received", "extracted", "reported"]


class StepSerializer(s.Serializer):
    step = s.ChoiceField(STEPS)
    at = s.DateTimeField(allow_null=True)
    on = s.DateField(allow_null=True)
    after = s.CharField(allow_blank=True)


class HandlingSerializer(s.Serializer):
    from_at = s.DateTimeField()
    grade = s.ChoiceField(["A", "B", "C"])
    line = ToldSerializer()
    help = s.CharField()


class OverdueSerializer(s.Serializer):
    from_on = s.DateField()
    line = ToldSerializer()


class SampleToldSerializer(s.Serializer):
    soil_sample = s.UUIDField()
    bag = s.CharField()
    step = s.ChoiceField(STEPS, allow_null=True)
    steps = StepSerializer(many=True)
    handling = HandlingSerializer(many=True, help_text="the last whose moment has come is true")
    overdue = OverdueSerializer(allow_null=True)


class PotsSerializer(s.Serializer):
    planting = s.UUIDField()
    root_check = s.UUIDField(allow_null=True)
    ready_from_on = s.DateField(allow_null=True)
    ready_to_on = s.DateField(allow_null=True)
    n_pots = s.IntegerField()
    blank_pot = s.IntegerField(allow_null=True)
    galls = s.IntegerField(allow_null=True)
    blank_galls = s.IntegerField(allow_null=True)
    lines = ToldSerializer(many=True)


class SamplingSerializer(s.Serializer):
    take = ReasonSerializer(many=True)
    never = ReasonSerializer(many=True)


class ShipDaySerializer(s.Serializer):
    ship_on = s.DateField()
    arrives_on = s.DateField(allow_null=True)
    verdict = s.ChoiceField(["good", "hold", "never"])
    rank = s.IntegerField(allow_null=True)
    reasons = ReasonSerializer(many=True)


class LabToldSerializer(s.Serializer):
    lab_profile = s.UUIDField()
    name = s.CharField()
    days = ShipDaySerializer(many=True)
    lines = ToldSerializer(many=True)


class DueSerializer(s.Serializer):
    uid = s.CharField()
    on = s.DateField()
    until_on = s.DateField(allow_null=True)
    bed = s.UUIDField()
    about = s.CharField()
    code = s.CharField()
    words = s.CharField()

"""The shape of one thing the core says, for ``openapi.yaml``."""

from rest_framework import serializers as s


class ReasonSerializer(s.Serializer):
    words = s.CharField()
    sources = s.ListField(child=s.CharField(), help_text="keys of the references")


class AssumptionSerializer(s.Serializer):
    key = s.CharField()
    value = s.FloatField()
    unit = s.CharField()
    meaning = s.CharField()


class SaidSerializer(s.Serializer):
    code = s.CharField()
    words = s.CharField()
    how_sure = s.CharField()
    because = ReasonSerializer(many=True)
    settle = s.ListField(child=s.CharField())
    by = s.DateField(allow_null=True)
    sources = s.ListField(child=s.CharField(), help_text="keys of the references")
    assumptions = AssumptionSerializer(many=True)


class ToldSerializer(SaidSerializer):
    about = s.CharField()

"""The shapes of requests and answers, for reading small bodies and for ``openapi.yaml``.

Not for the contents of records: those are judged by ``gardens.domain.records`` alone.
"""

from rest_framework import serializers as s


class StrictUUIDField(s.UUIDField):
    """A UUID as text."""

    def to_internal_value(self, data: object) -> object:
        if not isinstance(data, str):
            self.fail("invalid", value=data)
        return super().to_internal_value(data)


class TextField(s.CharField):
    """Text without NUL and well formed, since PostgreSQL stores neither."""

    def to_internal_value(self, data: object) -> str:
        if not isinstance(data, str) or "\x00" in data:
            self.fail("invalid")
        text: str = super().to_internal_value(data)
        if any("\ud800" <= sign <= "\udfff" for sign in text):
            self.fail("invalid")
        return text


class ProblemSerializer(s.Serializer):
    type = s.CharField()
    title = s.CharField()
    status = s.IntegerField()
    code = s.CharField()
    detail = s.CharField()
    field = s.CharField(required=False)
    params = s.DictField(required=False)


class SpanSerializer(s.Serializer):
    min = s.IntegerField()
    max = s.IntegerField()


class SchemaSpanSerializer(s.Serializer):
    current = s.IntegerField()
    push_min = s.IntegerField()
    pull_min = s.IntegerField()


class LimitsSerializer(s.Serializer):
    items = s.IntegerField()
    bytes = s.IntegerField()
    blob = s.IntegerField()


class MetaSerializer(s.Serializer):
    proto = SpanSerializer()
    schema = SchemaSpanSerializer()
    limits = LimitsSerializer()
    server_time = s.DateTimeField()


class LoginSerializer(s.Serializer):
    username = TextField(max_length=150)
    password = TextField(max_length=1000, trim_whitespace=False)
    device = StrictUUIDField()
    device_name = TextField(max_length=80, allow_blank=True, default="")


class PairSerializer(s.Serializer):
    token = TextField(max_length=400)
    device = StrictUUIDField()
    device_name = TextField(max_length=80, allow_blank=True, default="")


class AccountSerializer(s.Serializer):
    id = s.UUIDField()
    username = s.CharField()


class SessionSerializer(s.Serializer):
    account = AccountSerializer()
    csrf = s.CharField()
    device = s.CharField()


class GardenHeadSerializer(s.Serializer):
    id = s.UUIDField()
    name = s.CharField(allow_blank=True)
    head = s.CharField()


class GardenListedSerializer(GardenHeadSerializer):
    role = s.CharField()


class MeSerializer(SessionSerializer):
    gardens = GardenHeadSerializer(many=True)


class PairingSerializer(s.Serializer):
    token = s.CharField()
    url = s.CharField()
    expires_at = s.DateTimeField()


class MutationSerializer(s.Serializer):
    mid = s.UUIDField()
    op = s.CharField(help_text="put, patch or delete")
    kind = s.CharField()
    id = s.UUIDField()
    base = s.IntegerField(required=False)
    at = s.DateTimeField(required=False, allow_null=True)
    set = s.DictField(required=False)


class PushSerializer(s.Serializer):
    proto = s.IntegerField()
    schema = s.IntegerField()
    device = s.UUIDField()
    sent_at = s.DateTimeField(required=False, allow_null=True)
    high = s.CharField(required=False, allow_null=True)
    mutations = MutationSerializer(many=True)


class ResultSerializer(s.Serializer):
    mid = s.CharField(allow_null=True, required=False)
    status = s.CharField(help_text="applied, conflict, duplicate, rejected or retry")
    seq = s.IntegerField(required=False)
    was = s.CharField(required=False)
    fields = s.ListField(child=s.CharField(), required=False)
    conflicts = s.ListField(child=s.UUIDField(), required=False)
    code = s.CharField(required=False)
    field = s.CharField(required=False)
    message = s.CharField(required=False)


class PushedSerializer(s.Serializer):
    head = s.CharField()
    server_time = s.DateTimeField()
    results = ResultSerializer(many=True)


class RecordSerializer(s.Serializer):
    id = s.UUIDField()
    kind = s.CharField()
    seq = s.IntegerField()
    deleted = s.BooleanField()
    by = s.CharField(allow_blank=True)
    device = s.UUIDField(allow_null=True)
    rev = s.DictField(child=s.IntegerField())
    doc = s.DictField()


class PulledSerializer(s.Serializer):
    cursor = s.IntegerField()
    head = s.CharField()
    more = s.BooleanField()
    schema = s.IntegerField()
    records = RecordSerializer(many=True)


class BlobStoredSerializer(s.Serializer):
    sha256 = s.CharField()
    n_bytes = s.IntegerField()
    width_px = s.IntegerField()
    height_px = s.IntegerField()


class BlanksSerializer(s.Serializer):
    grower = s.ListField(child=s.CharField(), help_text="labels of lines, as printed")
    lab = s.ListField(child=s.CharField())
    samples = s.DictField(child=s.ListField(child=s.CharField()), help_text="by a sample's id")


class PaperStoredSerializer(s.Serializer):
    sha256 = s.CharField()


class LabelSheetSerializer(s.Serializer):
    key = s.CharField()
    paper = s.ChoiceField(["a4", "letter"])
    n_across = s.IntegerField()
    n_down = s.IntegerField()
    width_mm = s.FloatField()
    height_mm = s.FloatField()


class PageSizeSerializer(s.Serializer):
    width_pt = s.FloatField()
    height_pt = s.FloatField()


class GuessSerializer(s.Serializer):
    fill = s.CharField()
    row = s.IntegerField()
    when = s.CharField(allow_blank=True)


class FormFieldSerializer(s.Serializer):
    field = s.CharField()
    type = s.ChoiceField(["text", "check", "choice", "radio"])
    options = s.ListField(child=s.CharField())
    page = s.IntegerField()
    box = s.ListField(child=s.FloatField(), help_text="left, top, right, bottom, from the top left")
    label = s.CharField(allow_blank=True)
    guess = GuessSerializer(allow_null=True)


class FormReadSerializer(s.Serializer):
    kind = s.ChoiceField(["fields", "flat"])
    pages = PageSizeSerializer(many=True)
    fields = s.ListField(child=FormFieldSerializer())


class CalendarMadeSerializer(s.Serializer):
    made_at = s.DateTimeField(allow_null=True, help_text="null while there is no address")


class CalendarAddressSerializer(s.Serializer):
    url = s.CharField(help_text="shown once; the one before has ended")

"""The shapes of requests and answers, for reading small bodies and for ``openapi.yaml``.

Not for the contents of records: those are judged by ``gardens.domain.records`` alone.
"""

from datetime import datetime

from django.utils import timezone
from rest_framework import serializers as s

from gardens.domain.roles import LENT_ROLES
from gardens.models.share import MOST_DEVICES


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
    token = TextField(max_length=400, required=False, help_text="scanned; or a code")
    code = s.RegexField(r"^[0-9]{6}$", required=False)
    device = StrictUUIDField()
    device_name = TextField(max_length=80, allow_blank=True, default="")

    def validate(self, attrs: dict[str, object]) -> dict[str, object]:
        if ("token" in attrs) == ("code" in attrs):
            raise s.ValidationError({"token": "either a token or a code"})
        return attrs


class CodeSerializer(s.Serializer):
    code = s.CharField(help_text="six digits")
    expires_at = s.DateTimeField()


class DeviceSerializer(s.Serializer):
    device = s.UUIDField()
    name = s.CharField(allow_blank=True)
    first_seen_at = s.DateTimeField()
    last_seen_at = s.DateTimeField()
    is_this = s.BooleanField()


class AccountSerializer(s.Serializer):
    id = s.UUIDField()
    username = s.CharField(help_text="the name to show")
    is_helper = s.BooleanField(help_text="made by a link, without a password")


class SessionSerializer(s.Serializer):
    account = AccountSerializer()
    csrf = s.CharField()
    device = s.CharField()


class RightsSerializer(s.Serializer):
    make = s.ListField(child=s.CharField(), help_text="kinds of records")
    change = s.ListField(child=s.CharField())
    change_own = s.ListField(child=s.CharField())
    settle = s.BooleanField(help_text="close conflicts and decide on held changes")
    links = s.BooleanField()
    export = s.BooleanField()
    sheets = s.ListField(child=s.CharField())


class GardenListedSerializer(s.Serializer):
    id = s.UUIDField()
    name = s.CharField(allow_blank=True)
    head = s.CharField()
    role = s.CharField(help_text="viewer, rater, editor or owner")
    called = s.CharField(help_text="what others in the garden read of who wrote something")
    state = s.CharField(help_text="live or ended")
    expires_at = s.DateTimeField(allow_null=True)
    push_until = s.DateTimeField(allow_null=True, help_text="changes are held until then")
    rights = RightsSerializer()


class MeSerializer(SessionSerializer):
    gardens = GardenListedSerializer(many=True)


class JoinSerializer(s.Serializer):
    token = TextField(max_length=100)
    device = StrictUUIDField()
    name = TextField(max_length=80)
    device_name = TextField(max_length=80, allow_blank=True, default="")


class JoinedSerializer(SessionSerializer):
    garden = s.UUIDField()
    garden_name = s.CharField(allow_blank=True)
    role = s.CharField()


class FutureField(s.DateTimeField):
    """A moment that has not come yet."""

    def to_internal_value(self, value: object) -> datetime:
        if not isinstance(value, str):
            self.fail("invalid", format="ISO 8601")
        moment: datetime = super().to_internal_value(value)
        if moment <= timezone.now():
            self.fail("invalid", format="a moment that has not come yet")
        return moment


class ShareWantedSerializer(s.Serializer):
    role = s.ChoiceField(LENT_ROLES)
    label = TextField(max_length=80, allow_blank=True, default="")
    expires_at = FutureField(allow_null=True)
    max_devices = s.IntegerField(min_value=1, max_value=MOST_DEVICES)


class HelperSerializer(s.Serializer):
    id = s.UUIDField()
    name = s.CharField()
    device_name = s.CharField(allow_blank=True)
    joined_at = s.DateTimeField()
    last_seen_at = s.DateTimeField()
    ended_at = s.DateTimeField(allow_null=True)


class ShareSerializer(s.Serializer):
    id = s.UUIDField()
    role = s.CharField()
    label = s.CharField(allow_blank=True)
    made_at = s.DateTimeField()
    expires_at = s.DateTimeField(allow_null=True)
    max_devices = s.IntegerField()
    ended_at = s.DateTimeField(allow_null=True)
    refuses_later = s.BooleanField()
    helpers = HelperSerializer(many=True)


class ShareMadeSerializer(ShareSerializer):
    url = s.CharField(help_text="told once")


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
    proto = s.IntegerField(min_value=1, max_value=1)
    schema = s.IntegerField(min_value=1)
    device = s.UUIDField()
    sent_at = s.DateTimeField(required=False, allow_null=True)
    high = s.CharField(required=False, allow_null=True)
    mutations = MutationSerializer(many=True, max_length=200)


class ResultSerializer(s.Serializer):
    mid = s.CharField(allow_null=True, required=False)
    status = s.CharField(help_text="applied, conflict, duplicate, held, rejected or retry")
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


class ChangeSerializer(s.Serializer):
    seq = s.IntegerField()
    op = s.CharField()
    kind = s.CharField()
    by = s.CharField(allow_blank=True)
    device = s.CharField(allow_blank=True, help_text="the name of the phone")
    claimed_at = s.DateTimeField(allow_null=True, help_text="as that phone's clock said")
    received_at = s.DateTimeField()
    set = s.DictField(allow_null=True)
    prev = s.DictField(help_text="the values that were replaced")
    status = s.CharField()


class HistorySerializer(s.Serializer):
    entries = ChangeSerializer(many=True)
    more = s.BooleanField()


class BlobStoredSerializer(s.Serializer):
    sha256 = s.CharField()
    n_bytes = s.IntegerField()
    width_px = s.IntegerField()
    height_px = s.IntegerField()


class BlanksSerializer(s.Serializer):
    grower = s.ListField(child=s.CharField(), help_text="labels of lines, as printed")
    lab = s.ListField(child=s.CharField())
    samples = s.DictField(child=s.ListField(child=s.CharField()), help_text="by a sample's id")


class RefusedSerializer(s.Serializer):
    kind = s.CharField()
    code = s.CharField()
    message = s.CharField()


class ArrivalSerializer(s.Serializer):
    garden = s.UUIDField()
    name = s.CharField(allow_blank=True)
    state = s.CharField(help_text="new, same (nothing to bring) or behind (something is missing)")
    done = s.BooleanField(help_text="whether it was brought; else this only tells what would be")
    n_records = s.DictField(child=s.IntegerField(), help_text="by kind, those not deleted")
    n_photos = s.IntegerField(help_text="photos that would be brought")
    n_changes = s.IntegerField(help_text="changes that would be brought")
    n_only_here = s.IntegerField(help_text="changes of this server that the file lacks")
    n_conflicts = s.IntegerField()
    refused = RefusedSerializer(many=True)


class SavedFileResultSerializer(s.Serializer):
    mid = s.CharField(allow_null=True)
    kind = s.CharField()
    status = s.CharField(help_text="as of a push; duplicate when it was here already")
    code = s.CharField(required=False)
    field = s.CharField(required=False)
    message = s.CharField(required=False)


class SavedFileBroughtSerializer(s.Serializer):
    author = s.CharField(help_text="the name in the file")
    results = SavedFileResultSerializer(many=True)
    n_other_gardens = s.IntegerField(help_text="changes of other gardens, which were left alone")
    photos = s.DictField(child=s.IntegerField(), help_text="how many: stored, here, refused")


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

"""Every address the server answers."""

from django.urls import include, path, re_path

from api.views.account import Login, Logout, Me, Meta, Pair, Pairings
from api.views.answers import Answers
from api.views.app import app_page, no_such_address
from api.views.blobs import Photo
from api.views.briefing import Briefing
from api.views.calendar import CalendarAddress, CalendarFeed, GardenCalendar
from api.views.lab_forms import FormFields, LabForm
from api.views.papers import Paper
from api.views.parcel_papers import Labels, LabelSheets, PackingSlip, PotsPaper
from api.views.sheets import BedMapSheet, RatingFormSheet, SubmissionBlanks, SubmissionSheet
from api.views.sync import Gardens, Pull, Push

handler400 = "api.errors.bad_request"
handler500 = "api.errors.server_error"

garden_urls = [
    path("push", Push.as_view()),
    path("pull", Pull.as_view()),
    path("briefing", Briefing.as_view()),
    path("calendar.ics", GardenCalendar.as_view()),
    path("answers/<slug:question>", Answers.as_view()),
    re_path(r"^blobs/(?P<sha256>[0-9a-f]{64})$", Photo.as_view()),
    re_path(r"^papers/(?P<sha256>[0-9a-f]{64})$", Paper.as_view()),
    path("sheets/submission/blanks", SubmissionBlanks.as_view()),
    path("sheets/submission.pdf", SubmissionSheet.as_view()),
    path("sheets/labels", LabelSheets.as_view()),
    path("sheets/labels.pdf", Labels.as_view()),
    path("sheets/packing-slip.pdf", PackingSlip.as_view()),
    path("sheets/lab-form.pdf", LabForm.as_view()),
    path("forms/fields", FormFields.as_view()),
    path("sheets/pots.pdf", PotsPaper.as_view()),
    path("sheets/bed-map.pdf", BedMapSheet.as_view()),
    path("sheets/rating-form.pdf", RatingFormSheet.as_view()),
]
api_urls = [
    path("meta", Meta.as_view()),
    path("login", Login.as_view()),
    path("pair", Pair.as_view()),
    path("pairings", Pairings.as_view()),
    path("logout", Logout.as_view()),
    path("me", Me.as_view()),
    path("calendar", CalendarAddress.as_view()),
    path("gardens", Gardens.as_view()),
    path("gardens/<uuid:garden>/", include(garden_urls)),
]
urlpatterns = [
    path("api/v1/", include(api_urls)),
    re_path(r"^calendar/(?P<secret>[A-Za-z0-9_-]{43})\.ics$", CalendarFeed.as_view()),
    re_path(r"^(?:api|assets|engine|static|media)(?:/|$)", no_such_address),
    # A last part with a dot is a file, and a file that is missing is not the app's page.
    re_path(r"^(?!.*\.[A-Za-z0-9]+$)", app_page),
    re_path(r"", no_such_address),
]

"""Who may do what, written down once more, by hand: what the server answers is held to this.

V viewer, R rater, E editor, O owner; X an editor whose link has ended; N somebody with an account
and a garden of their own; S somebody without an account.
"""

ASKERS = "VREOXNS"
SIGNED_IN = "VREOXN"

# Address: who gets past the door, and what they are answered there.
ADDRESSES = {
    "GET meta": (ASKERS, 200),
    "POST login": (ASKERS, 200),
    "POST pair": (ASKERS, 200),
    "POST join": (ASKERS, 200),
    "POST pairings": (SIGNED_IN, 200),
    "POST codes": (SIGNED_IN, 200),
    "GET devices": (SIGNED_IN, 200),
    "DELETE devices/<uuid:device>": (SIGNED_IN, 204),
    "POST logout": (SIGNED_IN, 204),
    "GET me": (SIGNED_IN, 200),
    "GET calendar": (SIGNED_IN, 200),
    "POST calendar": (SIGNED_IN, 201),
    "DELETE calendar": (SIGNED_IN, 204),
    "GET gardens": (SIGNED_IN, 200),
    "POST gardens/<uuid:garden>/push": ("VREOX", 200),
    "GET gardens/<uuid:garden>/pull": ("VREO", 200),
    "GET gardens/<uuid:garden>/briefing": ("VREO", 200),
    "GET gardens/<uuid:garden>/answers/<slug:question>": ("VREO", 200),
    "GET gardens/<uuid:garden>/calendar.ics": ("VREO", 200),
    "GET gardens/<uuid:garden>/history": ("EO", 200),
    "GET gardens/<uuid:garden>/shares": ("O", 200),
    "POST gardens/<uuid:garden>/shares": ("O", 201),
    "DELETE gardens/<uuid:garden>/shares/<uuid:share>": ("O", 204),
    "DELETE gardens/<uuid:garden>/helpers/<uuid:helper>": ("O", 204),
    "HEAD gardens/<uuid:garden>/blobs/<sha256>": ("VREO", 200),
    "GET gardens/<uuid:garden>/blobs/<sha256>": ("VREO", 200),
    "PUT gardens/<uuid:garden>/blobs/<sha256>": ("REOX", 200),
    "HEAD gardens/<uuid:garden>/papers/<sha256>": ("EO", 200),
    "GET gardens/<uuid:garden>/papers/<sha256>": ("EO", 200),
    "PUT gardens/<uuid:garden>/papers/<sha256>": ("EOX", 200),
    "POST gardens/<uuid:garden>/forms/fields": ("EO", 200),
    "POST arrivals": ("ON", 415),  # what is sent here is no garden
    "GET gardens/<uuid:garden>/export.zip": ("EO", 200),
    "POST gardens/<uuid:garden>/saved-files": ("EO", 200),
    "GET gardens/<uuid:garden>/sheets/submission/blanks": ("EO", 200),
    "GET gardens/<uuid:garden>/sheets/submission.pdf": ("EO", 200),
    "GET gardens/<uuid:garden>/sheets/labels": ("VREO", 200),
    "GET gardens/<uuid:garden>/sheets/labels.pdf": ("EO", 200),
    "GET gardens/<uuid:garden>/sheets/packing-slip.pdf": ("EO", 200),
    "GET gardens/<uuid:garden>/sheets/lab-form.pdf": ("EO", 200),
    "GET gardens/<uuid:garden>/sheets/pots.pdf": ("VREO", 200),
    "GET gardens/<uuid:garden>/sheets/bed-map.pdf": ("VREO", 200),
    "GET gardens/<uuid:garden>/sheets/rating-form.pdf": ("VREO", 200),
}
REFUSALS = {
    "V": (403, "forbidden"),
    "R": (403, "forbidden"),
    "E": (403, "forbidden"),
    "X": (403, "share_ended"),
    "N": (404, "not_found"),
    "S": (401, "login_needed"),
}
# At an address that is of no garden, the end of a link says nothing.
OTHER_REFUSALS = {("POST arrivals", "X"): (403, "forbidden")}

# Kind: who may make one, change and delete an own one, change and delete somebody else's.
DEEDS = ("make", "change own", "delete own", "change", "delete")
AT_THE_PLANT = ("REO", "REO", "REO", "EO", "EO")
ELSEWHERE = ("EO", "EO", "EO", "EO", "EO")
SERVER_MADE = ("", "EO", "", "EO", "")
KINDS = {
    "gall_rating": AT_THE_PLANT,
    "photo": AT_THE_PLANT,
    "garden": ("EO", "EO", "O", "EO", "O"),
    "conflict": SERVER_MADE,
    "held": SERVER_MADE,
}

"""Who gets what at each address of the office.

A row is an address's name, a method, and the answer to a lead, a scout, a grower, a stranger
(who leads another district) and to nobody, who is not signed in. What stands at an address that
names something (a field, a walk, a person) is the lead's district's own; an address that names
nothing answers a stranger with their own district. What somebody may not see is not there: 404.
POST rows send what `FORMS` says, or nothing.
"""

from __future__ import annotations

WHO = ("lead", "scout", "grower", "stranger", "nobody")

TABLE = """
fields              GET   200 200 200 200 302
fields              POST  405 405 405 405 302
fields-import       GET   200 404 404 200 302
fields-import       POST  422 404 404 422 302
field               GET   200 200 200 404 302
field               POST  405 405 405 405 302
field-rule          GET   200 404 404 404 302
field-rule          POST  422 404 404 404 302
field-dates         GET   200 404 404 404 302
field-dates         POST  422 404 404 404 302
field-closed        GET   200 404 404 404 302
field-closed        POST  422 404 404 404 302
field-season        GET   200 200 404 404 302
field-season        POST  405 405 405 405 302
field-season-pdf    GET   200 200 404 404 302
field-season-pdf    POST  405 405 405 405 302
field-seen          GET   200 200 404 404 302
field-seen          POST  422 422 404 404 302
seen-strike         GET   405 405 405 405 302
seen-strike         POST  302 302 404 404 302
desk-walk           GET   200 200 404 404 302
desk-walk           POST  422 422 404 404 302
plantings-import    GET   200 404 404 200 302
plantings-import    POST  422 404 404 422 302
weather-import      GET   200 404 404 200 302
weather-import      POST  422 404 404 422 302
seen-import         GET   200 404 404 200 302
seen-import         POST  422 404 404 422 302
weather-remove      GET   200 404 404 404 302
weather-remove      POST  422 404 404 404 302
walks-import        GET   200 200 404 200 302
walks-import        POST  422 422 404 422 302
walk                GET   200 200 200 404 302
walk                POST  405 405 405 405 302
walk-table          GET   200 200 200 404 302
walk-table          POST  405 405 405 405 302
walk-strike         GET   200 404 404 404 302
walk-strike         POST  422 404 404 404 302
imports             GET   200 200 404 200 302
imports             POST  405 405 405 405 302
inbox               GET   200 404 404 200 302
inbox               POST  405 405 405 405 302
entry               GET   200 404 404 404 302
entry               POST  422 404 404 404 302
journal-import      GET   200 200 404 200 302
journal-import      POST  422 422 404 422 302
phones              GET   200 200 404 200 302
phones              POST  405 405 405 405 302
phone-code          GET   405 405 405 405 302
phone-code          POST  200 200 404 200 302
phone-revoke        GET   405 405 405 405 302
phone-revoke        POST  302 302 404 404 302
people              GET   200 404 404 200 302
people              POST  405 405 405 405 302
person-add          GET   200 404 404 200 302
person-add          POST  422 404 404 422 302
person-role         GET   200 404 404 404 302
person-role         POST  422 404 404 404 302
person-link         GET   405 405 405 405 302
person-link         POST  200 404 404 404 302
person-remove       GET   405 405 405 405 302
person-remove       POST  302 404 404 404 302
district-switch     GET   405 405 405 405 302
district-switch     POST  302 302 302 404 302
district-ending     GET   200 404 404 200 302
district-ending     POST  422 404 404 422 302
account_login       GET   302 302 302 302 200
account_login       POST  302 302 302 302 422
account_logout      GET   200 200 200 200 302
account_logout      POST  302 302 302 302 302
account_inactive    GET   200 200 200 200 200
account_inactive    POST  405 405 405 405 405
password            GET   200 200 200 200 302
password            POST  422 422 422 422 302
join                GET   200 200 200 200 200
join                POST  422 422 422 422 422
begin               GET   200 200 200 200 200
begin               POST  200 200 200 200 200
healthy             GET   200 200 200 200 200
healthy             POST  405 405 405 405 405
phone               GET   200 200 200 200 200
phone               POST  405 405 405 405 405
phone-file          GET   200 200 200 200 200
phone-file          POST  405 405 405 405 405
sync-pair           GET   405 405 405 405 405
sync-pair           POST  404 404 404 404 404
sync-day            GET   401 401 401 401 401
sync-day            POST  405 405 405 405 405
sync-card           GET   401 401 401 401 401
sync-card           POST  405 405 405 405 405
sync-entries        GET   405 405 405 405 405
sync-entries        POST  401 401 401 401 401
sync-walks          GET   401 401 401 401 401
sync-walks          POST  405 405 405 405 405
"""

FORMS = {
    "field-rule": {"guideline": "no such rule"},
    "field-dates": {"first_square": "yesterday"},
    "person-role": {"role": "king"},
    "district-ending": {"stopping": "sometimes"},
    "district-switch": {"district": "{district}"},
    "sync-pair": '{"code":"2222-2222","label":"x"}',
}


def rows() -> list[tuple[str, str, dict[str, int]]]:
    """Give each row: name, method, and the status for each of `WHO`."""
    split = [line.split() for line in TABLE.strip().splitlines()]
    return [
        (name, method, dict(zip(WHO, map(int, answers), strict=True)))
        for name, method, *answers in split
    ]

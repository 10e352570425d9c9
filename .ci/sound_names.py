"""Lets made-up changes come as far as they can. A change of a film is refused
before it is looked at unless it names the newest revision and what is in the
film, which no chance finds; so four in five are given both. What would take the
one roll and the one cut away is not, since nothing could be changed afterwards.
"""

import itertools

import schemathesis

newest = {"revision": 0}
counted = itertools.count()
NAMES = {"roll": "R1", "cut": "v1"}


def name(document, names):
    """Puts what is in the film wherever something of that kind is named."""
    if isinstance(document, list):
        for inner in document:
            name(inner, names)
    if isinstance(document, dict):
        for field, inner in document.items():
            if field in names and isinstance(inner, str):
                document[field] = names[field]
            else:
                name(inner, names)


@schemathesis.hook
def before_call(context, case, kwargs):
    body = case.body
    if not isinstance(body, dict) or not isinstance(body.get("change"), dict):
        return
    number = next(counted)
    change = body["change"]
    if str(change.get("film_change")).startswith("remove_"):
        name(change, {"roll": "R2", "cut": "v2"})
    elif number % 5 and change.get("film_change") == "new_cut":
        name(change, {"cut": f"new {number}"})
    elif number % 5:
        name(change, NAMES)
    if number % 5:
        # A key used before would be answered without a look at the change.
        body |= {"revision": newest["revision"], "key": f"key {number}"}


@schemathesis.hook
def after_call(context, case, response):
    try:
        told = response.json()
    except ValueError:
        return
    if isinstance(told, dict):
        details = told.get("details")
        now = details.get("now") if isinstance(details, dict) else told.get("revision")
        if isinstance(now, int):
            newest["revision"] = max(newest["revision"], now)

"""Reads a file with the reference package, says what it understood, and writes
the file again with the package.

Called with the file to read and the file to write. Prints one JSON document.
"""

import json
import sys

import opentimelineio as otio


def time(moment):
    return [moment.value, moment.rate]


def span(part):
    return [time(part.start_time), time(part.duration)]


def pictures(media):
    """The run of pictures that a reference names, in the package's own words."""
    if not isinstance(media, otio.schema.ImageSequenceReference):
        return None
    last = media.number_of_images_in_sequence() - 1
    return [
        media.number_of_images_in_sequence(),
        media.target_url_for_image_number(0),
        media.target_url_for_image_number(last),
        media.end_frame(),
    ]


def item(child, track):
    media = getattr(child, "media_reference", None)
    available = media.available_range if media else None
    return {
        "schema": child.schema_name(),
        "name": child.name,
        "range": span(child.source_range),
        "in_cut": span(track.range_of_child(child)),
        "media": media.schema_name() if media else None,
        "media_name": media.name if media else None,
        "pictures": pictures(media),
        "url": getattr(media, "target_url", None),
        "available": span(available) if available else None,
        "ours": dict(child.metadata.get("onestrand", {})),
        "effects": [
            [effect.schema_name(), getattr(effect, "time_scalar", None)]
            for effect in child.effects
        ],
        "marks": [
            [mark.comment, span(mark.marked_range)] for mark in child.markers
        ],
    }


def main(read, written):
    cut = otio.adapters.read_from_file(read)
    (track,) = cut.tracks
    said = {
        "package": otio.__version__,
        "name": cut.name,
        "schema": cut.schema_name(),
        "ours": dict(cut.metadata["onestrand"]),
        "duration": time(cut.duration()),
        "kind": track.kind,
        "items": [item(child, track) for child in track],
    }
    otio.adapters.write_to_file(cut, written)
    json.dump(said, sys.stdout, default=str)


main(*sys.argv[1:])

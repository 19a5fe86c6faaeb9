"""Reads structured reports with pydicom and prints what they hold as JSON, for tests/host/structured-report.ts."""

import json
import sys

import pydicom
from pydicom.sr._concepts_dict import concepts


def code_of(item):
    return {
        "value": item.get("LongCodeValue") or item.CodeValue,
        "scheme": item.CodingSchemeDesignator,
        "meaning": item.CodeMeaning,
    }


def number_of(item):
    measured = item.MeasuredValueSequence
    if len(measured) == 0:
        return {"value": None, "qualifier": code_of(item.NumericValueQualifierCodeSequence[0])}
    held = measured[0]
    # The decimal string stands for it where there is no exact number beside it.
    value = held.FloatingPointValue if "FloatingPointValue" in held else float(held.NumericValue)
    return {"value": float(value), "unit": code_of(held.MeasurementUnitsCodeSequence[0])["value"]}


def item_of(item):
    kind = item.ValueType
    read = {"type": kind, "relation": item.get("RelationshipType")}
    if "ConceptNameCodeSequence" in item:
        read["name"] = code_of(item.ConceptNameCodeSequence[0])
    if kind == "NUM":
        read.update(number_of(item))
    elif kind == "CODE":
        read["code"] = code_of(item.ConceptCodeSequence[0])
    elif kind == "TEXT":
        read["text"] = item.TextValue
    elif kind == "PNAME":
        read["text"] = str(item.PersonName)
    elif kind == "UIDREF":
        read["uid"] = item.UID
    elif kind == "IMAGE":
        read["uid"] = item.ReferencedSOPSequence[0].ReferencedSOPInstanceUID
    read["items"] = [item_of(one) for one in item.get("ContentSequence", [])]
    return read


def codes_in(data_set):
    """Every coded entry, wherever it stands."""
    for element in data_set:
        if element.VR != "SQ":
            continue
        for item in element.value:
            if "CodeMeaning" in item:
                yield code_of(item)
            yield from codes_in(item)


def meanings_of(scheme, value):
    """What the context groups of the standard call it; empty where they do not have it."""
    return [codes[value][0] for codes in concepts.get(scheme, {}).values() if value in codes]


reports = []
for path in sys.argv[1:]:
    data_set = pydicom.dcmread(path)
    used = {(one["scheme"], one["value"], one["meaning"]) for one in codes_in(data_set)}
    reports.append(
        {
            "sopClass": data_set.SOPClassUID,
            "instance": data_set.SOPInstanceUID,
            "study": data_set.StudyInstanceUID,
            "patient": {"name": str(data_set.PatientName), "id": data_set.PatientID},
            "root": item_of(data_set),
            "codes": [
                {"scheme": scheme, "value": value, "meaning": meaning, "known": meanings_of(scheme, value)}
                for scheme, value, meaning in sorted(used)
            ],
            # Without the file's own header, which an archive writes anew.
            "content": data_set.to_json(),
        }
    )
print(json.dumps(reports))

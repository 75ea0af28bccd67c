# SPDX-License-Identifier: MIT
#
# schema_check.py SCHEMA FILE...: holds TOML files against a JSON Schema. One line for each file:
# "valid", or "refused" and why.
import datetime
import json
import sys
import tomllib

import jsonschema


def plain(value):
    """As editors hand a TOML document to a schema: dates are text."""
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain(one) for one in value]
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    return value


with open(sys.argv[1], encoding="utf-8") as file:
    schema = json.load(file)
jsonschema.Draft7Validator.check_schema(schema)
validator = jsonschema.Draft7Validator(schema)
for path in sys.argv[2:]:
    with open(path, "rb") as file:
        faults = list(validator.iter_errors(plain(tomllib.load(file))))
    print("valid" if not faults else f"refused {list(faults[0].path)} {faults[0].message[:100]!r}")

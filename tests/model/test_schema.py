"""The published schema describes what is written, and another library agrees."""

import json

import jsonschema
import pytest
from samples import FIXTURES, ROOT, gold_draft, small_draft

from miner.model.serialise import json_schema
from miner.resources import shared_file

SCHEMA = json.loads(shared_file("schema", "draft-1.schema.json").read_text(encoding="utf-8"))
GOLDS = sorted(str(path.relative_to(FIXTURES)).removesuffix(".gold.json") for path in FIXTURES.rglob("*.gold.json"))


def test_the_published_schema_is_current():
    written = (ROOT / "shared" / "schema" / "draft-1.schema.json").read_text(encoding="utf-8")
    assert written == json.dumps(json_schema(), indent=2) + "\n", "write it anew, see DEVELOPERS.md"


def test_the_schema_is_a_schema():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("name", GOLDS)
def test_drafts_of_the_fixtures_validate(name):
    jsonschema.validate(json.loads(gold_draft(name).to_json()), SCHEMA, cls=jsonschema.Draft202012Validator)


def test_a_full_draft_validates():
    jsonschema.validate(json.loads(small_draft().to_json()), SCHEMA, cls=jsonschema.Draft202012Validator)


@pytest.mark.parametrize(
    ("place", "value"),
    [
        (("procedures", 0, "kind"), "destroy"),
        (("procedures", 0, "start"), "soon"),
        (("findings", 0, "severity"), "fatal"),
    ],
)
def test_what_breaks_the_contract_is_refused(place, value):
    document = json.loads(small_draft().to_json())
    holder = document
    for key in place[:-1]:
        holder = holder[key]
    holder[place[-1]] = value
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(document, SCHEMA, cls=jsonschema.Draft202012Validator)

"""The plan file's JSON Schema, for editors and for other programs."""

from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core.core_schema import WithDefaultSchema

from classclock.plan.keys import KEYS
from classclock.plan.model import Plan

DIALECT = "https://json-schema.org/draft/2020-12/schema"


class _WithoutDefaults(GenerateJsonSchema):
    """The models' defaults are in milliseconds or in models; absent says the same."""

    def default_schema(self, schema: WithDefaultSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])


def plan_schema() -> dict[str, Any]:
    """Describe the file as it is written: a time is text there, not milliseconds.

    Rules between keys aren't in it; `classclock check` knows them.
    """
    schema = Plan.model_json_schema(schema_generator=_WithoutDefaults)
    for table in (schema, *schema["$defs"].values()):
        _as_written(table)
    options = schema["$defs"]["Station"]["properties"]["options"]
    options["items"] = {"anyOf": [{"type": "string", "minLength": 1}, options["items"]]}
    return {"$schema": DIALECT, **schema, "title": "A classclock plan"}


def _as_written(table: dict[str, Any]) -> None:
    for name, key in table.get("properties", {}).items():
        if name in KEYS and table.get("title") != "Cues":
            key.setdefault("description", f"{KEYS[name].takes}, as in: {KEYS[name].example}")
        if "anyOf" in key:
            key["anyOf"] = [one for one in key["anyOf"] if one != {"type": "null"}]

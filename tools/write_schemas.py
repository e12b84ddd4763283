"""Writes the JSON Schema of the build file, from the model itself, beside the model."""

import json
from pathlib import Path

from beltwright.build.model import Build

PLACE = Path(__file__).parents[1] / "src" / "beltwright" / "build" / "build.schema.json"


def schema_text() -> str:
    """Give the schema as the text of its file."""
    schema = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **Build.model_json_schema(),
        "title": "beltwright build file",
    }
    return json.dumps(schema, ensure_ascii=False, indent=2) + "\n"


if __name__ == "__main__":
    PLACE.write_text(schema_text(), encoding="utf-8")
    print(f"Written: {PLACE}")
